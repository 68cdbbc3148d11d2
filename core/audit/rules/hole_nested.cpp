#include "audit/detail/drawn.h"
#include "audit/rule.h"

namespace fencewright::audit {

constinit extern const Rule holeNested{
    .id = "hole.nested",
    .title = phrase("core", "Holes lie in one another"),
    .why = phrase("core", "Programs differ in whether a hole in a hole is inside or outside."),
    .remedy = phrase("core", "Unite the holes, or delete one; the repair errs to the safe side."),
    .severity = Severity::Error,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        detail::DrawnRepairs repairs{subject};
        detail::reportDrawn(
            subject, report, {geometry::FaultKind::HolesNested},
            [](const model::Fence& fence, const DrawnFault& one) {
                return phrase("core", "%1 overlaps another hole, or lies in it.")(
                    detail::ringWords(fence, one.polygon, one.fault.ring));
            },
            [&](const model::Fence& fence, const DrawnFault& one) { return repairs.of(fence, one.polygon); });
    }};

} // namespace fencewright::audit
