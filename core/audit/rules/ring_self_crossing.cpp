#include "audit/detail/drawn.h"
#include "audit/rule.h"

#include <optional>

namespace fencewright::audit {

constinit extern const Rule ringSelfCrossing{
    .id = "ring.self-crossing",
    .title = phrase("core", "Outline crosses itself"),
    .why = phrase(
        "core",
        "Programs read a crossed outline in different ways, so that another system may permit what this one forbids."),
    .remedy = phrase(
        "core", "Move the corners until the edges no longer cross, or take the repair, which errs to the safe side."),
    .severity = Severity::Error,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        detail::DrawnRepairs repairs{subject};
        detail::reportDrawn(
            subject, report, {geometry::FaultKind::SelfCrossing, geometry::FaultKind::TooIntricate},
            [](const model::Fence& fence, const DrawnFault& one) {
                const auto ring = detail::ringWords(fence, one.polygon, one.fault.ring);
                return one.fault.kind == geometry::FaultKind::SelfCrossing
                           ? phrase("core", "%1 crosses or runs along itself here.")(ring)
                           : phrase("core",
                                    "%1 has so many edges close together that crossings cannot be ruled out.")(ring);
            },
            [&](const model::Fence& fence, const DrawnFault& one) {
                return one.fault.kind == geometry::FaultKind::SelfCrossing ? repairs.of(fence, one.polygon)
                                                                           : std::nullopt;
            });
    }};

} // namespace fencewright::audit
