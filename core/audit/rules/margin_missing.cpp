#include "audit/rule.h"

#include <utility>

namespace fencewright::audit {

constinit extern const Rule marginMissing{
    .id = "margin.missing",
    .title = phrase("core", "Margin not stated"),
    .why =
        phrase("core", "An aircraft that turns back at the boundary stops beyond it: without a margin nobody can say "
                       "how near it may come."),
    .remedy = phrase("core", "State position error, speed, reaction and deceleration of the aircraft: Audit, Margin."),
    .severity = Severity::Doubt,
    .check = [](const Subject& subject, const Report& report) {
        if (subject.set.fences.empty() || subject.set.margin)
            return;
        Finding finding;
        finding.words = phrase("core", "No margin is stated for this set.");
        report(std::move(finding));
    }};

} // namespace fencewright::audit
