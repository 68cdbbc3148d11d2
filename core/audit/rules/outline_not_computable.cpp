#include "airspace/outline.h"
#include "audit/detail/drawn.h"
#include "audit/rule.h"
#include "fault.h"

#include <utility>

namespace fencewright::audit {

constinit extern const Rule outlineNotComputable{
    .id = "outline.not-computable",
    .title = phrase("core", "Outline cannot be computed"),
    .why = phrase(
        "core",
        "A fence without an outline neither permits nor forbids anything, and is missing from every computation."),
    .remedy = phrase("core", "Correct the shape of the fence, or delete it."),
    .severity = Severity::Error,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        for (const auto& fence : subject.set.fences) {
            if (!fence.enabled || subject.outlines.contains(fence.id))
                continue;
            Finding finding;
            finding.fence = fence.id;
            finding.place = detail::drawnPlace(fence, subject.set);
            finding.words = phrase("core", "The outline of %1 cannot be computed.")(detail::nameOf(fence));
            try {
                (void)airspace::outline(fence, subject.set.sites);
            } catch (const Fault& fault) {
                finding.words = Wording::joined({finding.words, fault.words().problem}, " ");
                finding.remedy = fault.words().remedy;
            }
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
