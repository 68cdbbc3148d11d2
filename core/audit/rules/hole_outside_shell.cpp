#include "audit/detail/drawn.h"
#include "audit/rule.h"

namespace fencewright::audit {

constinit extern const Rule holeOutside{
    .id = "hole.outside-shell",
    .title = phrase("core", "Hole not inside its outline"),
    .why = phrase(
        "core", "A hole outside, or across the outline, is read as nothing by some programs and as surface by others."),
    .remedy = phrase("core", "Move the hole inside, or delete it; the repair errs to the safe side."),
    .severity = Severity::Error,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        detail::DrawnRepairs repairs{subject};
        detail::reportDrawn(
            subject, report, {geometry::FaultKind::HoleOutside},
            [](const model::Fence& fence, const DrawnFault& one) {
                return phrase("core", "%1 does not lie inside the outline.")(
                    detail::ringWords(fence, one.polygon, one.fault.ring));
            },
            [&](const model::Fence& fence, const DrawnFault& one) { return repairs.of(fence, one.polygon); });
    }};

} // namespace fencewright::audit
