#pragma once

#include "audit/finding.h"
#include "audit/rule.h"
#include "model/fence.h"
#include "model/fence_set.h"
#include "units/length.h"
#include "units/stated_length.h"
#include "wording.h"

#include <functional>
#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace fencewright::audit::detail {

/// The polygons that a fence is drawn with: a drawn polygon's own, or all parts of all parcels in their order. None for
/// shapes that are computed.
[[nodiscard]] std::vector<const model::Polygon*> drawnPolygons(const model::Fence& fence);

/// The fence with one of them replaced. Several parts in place of a drawn polygon make it a union of one parcel.
[[nodiscard]] model::Fence withDrawn(model::Fence fence, std::size_t polygon, const model::MultiPolygon& surface);

/// "Reservoir", or "a keep-out without a name"; `begin` puts it at the begin of a sentence.
[[nodiscard]] Wording nameOf(const model::Fence& fence);
[[nodiscard]] Wording beginWith(const model::Fence& fence);
/// As a person wrote it, "1/4 mi", or else in metres.
[[nodiscard]] std::string statedWords(const StatedLength& length);
/// "Home \"Crest\"", to begin a sentence with.
[[nodiscard]] Wording homeWords(const model::Home& home);
/// "the outline", "hole 2", "parcel 12/4, hole 1".
[[nodiscard]] Wording ringWords(const model::Fence& fence, std::size_t polygon, std::size_t ring);

/// The edit, where what the fence encloses stays the same or errs to the safe side: proved by exact containment.
/// Nothing where it does not or cannot be proved.
[[nodiscard]] std::optional<model::Edit> safeRepair(const Subject& subject, model::Fence repaired, Wording title);

/// Repairs of drawn polygons to the safe side. A polygon may have many faults, and one repair is for all of them.
class DrawnRepairs {
public:
    explicit DrawnRepairs(const Subject& subject) : m_subject{subject} {}
    /// Nothing where there is no safe one, and for polygons of so many corners that it would take minutes.
    [[nodiscard]] std::optional<model::Edit> of(const model::Fence& fence, std::size_t polygon);

private:
    const Subject& m_subject;
    std::map<std::pair<model::FenceId, std::size_t>, std::optional<model::Edit>> m_made;
};

/// Reports each drawn fault of the kinds, with `words` after the fence's name.
void reportDrawn(const Subject& subject, const Report& report, std::initializer_list<geometry::FaultKind> kinds,
                 const std::function<Wording(const model::Fence&, const DrawnFault&)>& words,
                 const std::function<std::optional<model::Edit>(const model::Fence&, const DrawnFault&)>& repair);

/// A place on the fence to look at; nothing where it encloses nothing.
[[nodiscard]] std::optional<model::Position> placeOf(const Subject& subject, const model::FenceId& id);
/// A place on the fence as drawn, for fences without an outline.
[[nodiscard]] std::optional<model::Position> drawnPlace(const model::Fence& fence, const model::FenceSet& set);

/// Whether distances from the place can be worked out; where not, the rule on coordinates reports it.
[[nodiscard]] bool isUsable(model::Position place);

/// An area as it is within `reach` of the place: without the parts and holes that lie farther off.
[[nodiscard]] model::MultiPolygon areaAround(const model::MultiPolygon& area, model::Position place, Length reach);

/// The enabled fences of a kind that enclose something.
struct EnclosingFence {
    const model::Fence* fence;
    const model::MultiPolygon* outline;
};
[[nodiscard]] std::vector<EnclosingFence> enclosing(const Subject& subject, model::FenceKind kind);

} // namespace fencewright::audit::detail
