#pragma once

#include "model/fence.h"
#include "model/polygon.h"
#include "units/area.h"
#include "wording.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace fencewright::compare {

/// A fence as somebody holds it: only what a flight system acts on.
struct HeldFence {
    std::string id;
    std::string name;
    model::FenceKind kind = model::FenceKind::KeepOut;
    model::MultiPolygon surface;
    /// As written in the file, in metres and with reference; empty: unlimited on that side.
    std::optional<model::HeightLimit> floor;
    std::optional<model::HeightLimit> ceiling;
};

enum class DifferenceKind {
    Missing,     ///< approved, not held
    Added,       ///< held, not approved
    KindChanged, ///< a keep-in became a keep-out or the other way
    Larger,      ///< reaches beyond the approved surface
    Smaller,     ///< does not cover all of it
    BandChanged,
    NameChanged
};

struct Difference {
    DifferenceKind kind;
    std::string fence;        ///< name
    bool permitsMore = false; ///< whether flight that the approved set forbids becomes permitted
    Area area;                ///< of what was added or lost
    Wording words;            ///< one plain sentence
};

/// What the held fences change against the approved ones, matched by id, then by name. Surfaces are compared by exact
/// containment, no tolerance: a keep-out permits more when it does not contain the approved one, a keep-in when the
/// approved one does not contain it. Parts that were cut at the antimeridian count as one surface.
///
/// Side: judged fence by fence, and where in doubt as permitting more: a missing keep-out, an added keep-in, the loss
/// of the last keep-in, limits with different references, rings that cross in whatever reading permits most.
/// @throws Fault  a coordinate is not finite.
[[nodiscard]] std::vector<Difference> differences(std::span<const HeldFence> approved, std::span<const HeldFence> held);
[[nodiscard]] bool permitsMore(std::span<const Difference> differences);

} // namespace fencewright::compare
