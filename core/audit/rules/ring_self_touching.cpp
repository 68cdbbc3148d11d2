#include "audit/detail/drawn.h"
#include "audit/rule.h"

namespace fencewright::audit {

constinit extern const Rule ringSelfTouching{
    .id = "ring.self-touching",
    .title = phrase("core", "Outline touches itself"),
    .why = phrase("core",
                  "The standard for surfaces forbids it, and programs differ in whether the enclosed place is inside."),
    .remedy = phrase("core", "Move the corner away, or take the repair, which errs to the safe side."),
    .severity = Severity::Doubt,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        detail::DrawnRepairs repairs{subject};
        detail::reportDrawn(
            subject, report, {geometry::FaultKind::SelfTouching, geometry::FaultKind::InteriorInPieces},
            [](const model::Fence& fence, const DrawnFault& one) {
                const auto ring = detail::ringWords(fence, one.polygon, one.fault.ring);
                return one.fault.kind == geometry::FaultKind::SelfTouching
                           ? phrase("core", "%1 touches itself here.")(ring)
                           : phrase("core", "%1 and another ring touch so that they cut the inside into pieces.")(ring);
            },
            [&](const model::Fence& fence, const DrawnFault& one) { return repairs.of(fence, one.polygon); });
    }};

} // namespace fencewright::audit
