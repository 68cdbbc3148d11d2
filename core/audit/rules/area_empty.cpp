#include "audit/detail/drawn.h"
#include "audit/rule.h"

#include <utility>

namespace fencewright::audit {

constinit extern const Rule areaEmpty{
    .id = "area.empty",
    .title = phrase("core", "Operating area is empty"),
    .why = phrase("core", "The keep-outs leave nothing of the keep-ins, so there is nowhere to fly."),
    .remedy = phrase("core", "Make a keep-in larger, or check the keep-outs, their dates and their heights."),
    .severity = Severity::Error,
    .check = [](const Subject& subject, const Report& report) {
        if (!subject.operatingArea.empty())
            return;
        Finding finding;
        if (subject.areaFault) {
            finding.words = phrase("core", "The operating area cannot be computed, and so counts as empty. %1")(
                subject.areaFault->words().problem);
            finding.remedy = subject.areaFault->words().remedy;
            report(std::move(finding));
            return;
        }
        for (const auto& keepIn : detail::enclosing(subject, model::FenceKind::KeepIn))
            if (subject.active.contains(keepIn.fence->id)) {
                finding.place = detail::placeOf(subject, keepIn.fence->id);
                finding.words = phrase(
                    "core",
                    "Nothing is left of the operating area on %1: the active keep-outs cover all active keep-ins.")(
                    model::isoDate(subject.moment.date));
                report(std::move(finding));
                return;
            }
    }};

} // namespace fencewright::audit
