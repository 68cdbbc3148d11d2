#include "audit/detail/drawn.h"
#include "audit/rule.h"

#include <utility>

namespace fencewright::audit {

constinit extern const Rule areaEmpty{
    .id = "area.empty",
    .title = "Operating area is empty",
    .why = "The keep-outs leave nothing of the keep-ins, so there is nowhere to fly.",
    .remedy = "Make a keep-in larger, or check the keep-outs, their dates and their heights.",
    .severity = Severity::Error,
    .check = [](const Subject& subject, const Report& report) {
        if (!subject.operatingArea.empty())
            return;
        Finding finding;
        if (subject.areaFault) {
            finding.words =
                "The operating area cannot be computed, and so counts as empty. " + subject.areaFault->problem();
            finding.remedy = subject.areaFault->remedy();
            report(std::move(finding));
            return;
        }
        for (const auto& keepIn : detail::enclosing(subject, model::FenceKind::KeepIn))
            if (subject.active.contains(keepIn.fence->id)) {
                finding.place = detail::placeOf(subject, keepIn.fence->id);
                finding.words = "Nothing is left of the operating area on " + model::isoDate(subject.moment.date) +
                                ": the active keep-outs cover all active keep-ins.";
                report(std::move(finding));
                return;
            }
    }};

} // namespace fencewright::audit
