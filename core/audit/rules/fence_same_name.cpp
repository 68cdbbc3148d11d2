#include "audit/detail/drawn.h"
#include "audit/rule.h"

#include <map>
#include <string>
#include <utility>

namespace fencewright::audit {

constinit extern const Rule fenceSameName{
    .id = "fence.same-name",
    .title = phrase("core", "Two fences of one name"),
    .why = phrase("core", "People speak of fences by their names, and a list or a radio call cannot tell these apart."),
    .remedy = phrase("core", "Rename one of them."),
    .severity = Severity::Note,
    .check = [](const Subject& subject, const Report& report) {
        std::map<std::string, const model::Fence*> seen;
        for (const auto& fence : subject.set.fences) {
            if (!fence.enabled || fence.name.empty())
                continue;
            if (seen.try_emplace(fence.name, &fence).second)
                continue;
            Finding finding;
            finding.fence = fence.id;
            finding.place = detail::placeOf(subject, fence.id);
            finding.words = phrase("core", "Another fence is also named %1.")(detail::nameOf(fence));
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
