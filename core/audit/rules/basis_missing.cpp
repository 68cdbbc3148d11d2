#include "audit/detail/drawn.h"
#include "audit/rule.h"

#include <utility>

namespace fencewright::audit {

constinit extern const Rule basisMissing{
    .id = "basis.missing",
    .title = phrase("core", "Basis missing"),
    .why = phrase(
        "core", "A fence without a stated reason cannot be defended, nor changed with confidence, by the next person."),
    .remedy = phrase("core", "State what it rests on: a permit, a lease, a guideline, an agreement or a judgement."),
    .severity = Severity::Doubt,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        for (const auto& fence : subject.set.fences) {
            if (!fence.enabled || fence.basis.kind != model::BasisKind::None)
                continue;
            Finding finding;
            finding.fence = fence.id;
            finding.place = detail::placeOf(subject, fence.id);
            finding.words = phrase("core", "%1 has no basis.")(detail::beginWith(fence));
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
