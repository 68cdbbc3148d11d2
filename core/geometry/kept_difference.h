#pragma once

#include "model/polygon.h"
#include "progress.h"
#include "units/area.h"

#include <cstdint>
#include <memory>
#include <span>
#include <vector>

namespace fencewright::geometry {

/// The union of some surfaces less the union of others, for one question after the other in which little has changed.
///
/// Which stretches of a surface's boundary bound the result rests on the surfaces that it overlaps: they are kept for
/// as long as these stay the same, so that a change costs what lies around it, and a joining of all stretches to rings.
/// Surfaces whose boundaries touch, or lie within 1e-10 degrees of one another, are made one by an overlay first.
/// The answer depends on the question alone, not on the ones before: to the last bit.
class KeptDifference {
public:
    /// A surface with its number: one number never stands for two different surfaces.
    struct Numbered {
        const model::MultiPolygon* surface = nullptr; ///< is looked at during the call only
        std::uint64_t number = 0;
    };
    struct Result {
        model::MultiPolygon surface;
        std::vector<Area> areas; ///< of its parts, by geodesics
    };

    KeptDifference();
    ~KeptDifference();
    KeptDifference(KeptDifference&&) noexcept;
    KeptDifference& operator=(KeptDifference&&) noexcept;

    /// Longitudes are brought to the same turn as the first of `surfaces` that is not empty. The result is valid, with
    /// shells counter-clockwise and holes clockwise.
    /// Side: `exact` to the rounding of overlay (see geometry/overlay.h).
    /// @throws Fault      as united() and difference(). What was worked out until then is kept.
    /// @throws Cancelled  likewise.
    [[nodiscard]] Result difference(std::span<const Numbered> surfaces, std::span<const Numbered> removed,
                                    const Progress& progress = {});

private:
    struct Parts;
    std::unique_ptr<Parts> m_parts;
};

} // namespace fencewright::geometry
