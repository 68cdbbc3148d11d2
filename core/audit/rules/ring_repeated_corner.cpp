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
    .title = phrase("core", "Repeated corner"),
    .why = phrase("core",
                  "It encloses nothing more, but some systems refuse an outline with the same corner twice in a row."),
    .remedy = phrase("core", "Remove the repeated corner."),
    .severity = Severity::Note,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        detail::reportDrawn(
            subject, report, {geometry::FaultKind::RepeatedCorner},
            [](const model::Fence& fence, const DrawnFault& one) {
                return phrase("core", "%1 has the same corner twice in a row.")(
                    detail::ringWords(fence, one.polygon, one.fault.ring));
            },
            [&](const model::Fence& fence, const DrawnFault& one) {
                auto polygon = *detail::drawnPolygons(fence)[one.polygon];
                removeRepeats(polygon.shell);
                for (auto& hole : polygon.holes)
                    removeRepeats(hole);
                return detail::safeRepair(subject, detail::withDrawn(fence, one.polygon, {{polygon}}),
                                          phrase("core", "Remove repeated corners of %1")(detail::nameOf(fence)));
            });
    }};

} // namespace fencewright::audit
