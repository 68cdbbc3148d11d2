#include "audit/detail/drawn.h"
#include "audit/rule.h"

#include <algorithm>
#include <utility>
#include <variant>

namespace fencewright::audit {
namespace {

/// A setback without its site and an outline without corners have rules of their own.
bool saidElsewhere(const model::Fence& fence, const Subject& subject) {
    if (const auto* setback = std::get_if<model::Setback>(&fence.shape))
        return !subject.set.sites.find(setback->site);
    const auto faults = subject.drawnFaults.find(fence.id);
    return faults != subject.drawnFaults.end() &&
           std::any_of(faults->second.begin(), faults->second.end(), [](const DrawnFault& one) {
               return one.fault.kind == geometry::FaultKind::TooFewCorners && one.fault.ring == 0;
           });
}

} // namespace

constinit extern const Rule fenceWithoutArea{
    .id = "fence.without-area",
    .title = phrase("core", "Fence encloses nothing"),
    .why = phrase("core", "It neither permits nor forbids, whatever its name says."),
    .remedy = phrase("core", "Give it a size, or delete it."),
    .severity = Severity::Error,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        for (const auto& fence : subject.set.fences) {
            const auto outline = subject.outlines.find(fence.id);
            if (!fence.enabled || outline == subject.outlines.end() || !outline->second.empty() ||
                saidElsewhere(fence, subject))
                continue;
            Finding finding;
            finding.fence = fence.id;
            finding.place = detail::drawnPlace(fence, subject.set);
            finding.words = phrase("core", "%1 encloses nothing.")(detail::beginWith(fence));
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
