#include "audit/detail/drawn.h"
#include "audit/rule.h"

#include <algorithm>

namespace fencewright::audit {
namespace {

void removeRepeats(model::Ring& ring) {
    auto& corners = ring.corners;
    corners.erase(std::unique(corners.begin(), corners.end()), corners.end());
    while (corners.size() > 1 && corners.back() == corners.front())
        corners.pop_back();
}

} // namespace

constinit extern const Rule ringRepeatedCorner{
    .id = "ring.repeated-corner",
    .title = "Repeated corner",
    .why = "It encloses nothing more, but some systems refuse an outline with the same corner twice in a row.",
    .remedy = "Remove the repeated corner.",
    .severity = Severity::Note,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        detail::reportDrawn(
            subject, report, {geometry::FaultKind::RepeatedCorner},
            [](const model::Fence& fence, const DrawnFault& one) {
                return detail::ringWords(fence, one.polygon, one.fault.ring) + " has the same corner twice in a row.";
            },
            [&](const model::Fence& fence, const DrawnFault& one) {
                auto polygon = *detail::drawnPolygons(fence)[one.polygon];
                removeRepeats(polygon.shell);
                for (auto& hole : polygon.holes)
                    removeRepeats(hole);
                return detail::safeRepair(subject, detail::withDrawn(fence, one.polygon, {{polygon}}),
                                          "Remove repeated corners of " + detail::nameOf(fence));
            });
    }};

} // namespace fencewright::audit
