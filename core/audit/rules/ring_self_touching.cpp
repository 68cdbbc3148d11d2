#include "audit/detail/drawn.h"
#include "audit/rule.h"

namespace fencewright::audit {

constinit extern const Rule ringSelfTouching{
    .id = "ring.self-touching",
    .title = "Outline touches itself",
    .why = "The standard for surfaces forbids it, and programs differ in whether the enclosed place is inside.",
    .remedy = "Move the corner away, or take the repair, which errs to the safe side.",
    .severity = Severity::Doubt,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        detail::DrawnRepairs repairs{subject};
        detail::reportDrawn(
            subject, report, {geometry::FaultKind::SelfTouching, geometry::FaultKind::InteriorInPieces},
            [](const model::Fence& fence, const DrawnFault& one) {
                return detail::ringWords(fence, one.polygon, one.fault.ring) +
                       (one.fault.kind == geometry::FaultKind::SelfTouching
                            ? " touches itself here."
                            : " and another ring touch so that they cut the inside into pieces.");
            },
            [&](const model::Fence& fence, const DrawnFault& one) { return repairs.of(fence, one.polygon); });
    }};

} // namespace fencewright::audit
