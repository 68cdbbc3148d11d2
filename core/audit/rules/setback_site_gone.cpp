#include "audit/detail/drawn.h"
#include "audit/rule.h"
#include "units/measure_notation.h"

#include <utility>
#include <variant>

namespace fencewright::audit {

constinit extern const Rule setbackSiteGone{
    .id = "setback.site-gone",
    .title = phrase("core", "Setback without its site"),
    .why = phrase("core", "A setback follows its site; without the site it encloses nothing and protects nothing."),
    .remedy = phrase("core", "Give the setback another site, draw it anew, or delete it."),
    .severity = Severity::Error,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        for (const auto& fence : subject.set.fences) {
            const auto* setback = std::get_if<model::Setback>(&fence.shape);
            if (!fence.enabled || !setback || subject.set.sites.find(setback->site))
                continue;
            Finding finding;
            finding.fence = fence.id;
            finding.words = phrase("core", "%1 keeps %2 from a site that is no longer in the set.")(
                detail::beginWith(fence), detail::statedWords(setback->distance));
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
