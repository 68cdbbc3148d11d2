#include "audit/detail/drawn.h"
#include "audit/rule.h"

namespace fencewright::audit {

constinit extern const Rule ringTooIntricate{
    .id = "ring.too-intricate",
    .title = "Outline too intricate to examine",
    .why = "So many edges lie close together that crossings cannot be ruled out.",
    .remedy = "Simplify the outline.",
    .severity = Severity::Error,
    .check = [](const Subject& subject, const Report& report) {
        detail::reportDrawn(
            subject, report, {geometry::FaultKind::TooIntricate},
            [](const model::Fence& fence, const DrawnFault& one) {
                return detail::ringWords(fence, one.polygon, one.fault.ring) +
                       " has too many edges close together; the search for crossings was given up here.";
            },
            nullptr);
    }};

} // namespace fencewright::audit
