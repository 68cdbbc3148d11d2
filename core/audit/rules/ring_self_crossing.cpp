#include "audit/detail/drawn.h"
#include "audit/rule.h"

#include <optional>

namespace fencewright::audit {

constinit extern const Rule ringSelfCrossing{
    .id = "ring.self-crossing",
    .title = "Outline crosses itself",
    .why =
        "Programs read a crossed outline in different ways, so that another system may permit what this one forbids.",
    .remedy = "Move the corners until the edges no longer cross, or take the repair, which errs to the safe side.",
    .severity = Severity::Error,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        detail::DrawnRepairs repairs{subject};
        detail::reportDrawn(
            subject, report, {geometry::FaultKind::SelfCrossing, geometry::FaultKind::TooIntricate},
            [](const model::Fence& fence, const DrawnFault& one) {
                return detail::ringWords(fence, one.polygon, one.fault.ring) +
                       (one.fault.kind == geometry::FaultKind::SelfCrossing
                            ? " crosses or runs along itself here."
                            : " has so many edges close together that crossings cannot be ruled out.");
            },
            [&](const model::Fence& fence, const DrawnFault& one) {
                return one.fault.kind == geometry::FaultKind::SelfCrossing ? repairs.of(fence, one.polygon)
                                                                           : std::nullopt;
            });
    }};

} // namespace fencewright::audit
