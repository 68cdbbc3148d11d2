#include "audit/rule.h"
#include "geometry/containment.h"
#include "units/measure_notation.h"

#include <utility>

namespace fencewright::audit {

constinit extern const Rule clearAreaEmpty{
    .id = "clear-area.empty",
    .title = phrase("core", "Clear area is empty"),
    .why = phrase("core", "Wherever the aircraft flies, it may come to a stop outside the operating area."),
    .remedy = phrase("core", "Make the operating area larger, or fly slower and state that in the margin."),
    .severity = Severity::Error,
    .check = [](const Subject& subject, const Report& report) {
        if (!subject.set.margin || subject.operatingArea.empty() || !subject.clear.surface.empty())
            return;
        Finding finding;
        finding.place = geometry::labelPlace(subject.operatingArea);
        if (subject.clear.fault) {
            finding.words = phrase("core", "The clear area cannot be computed, and so counts as empty. %1")(
                subject.clear.fault->words().problem);
            finding.remedy = subject.clear.fault->words().remedy;
        } else {
            finding.words = phrase("core", "The margin of %1 leaves nothing of the operating area on %2.")(
                units::formatLength(*subject.clear.margin, units::System::Metric), model::isoDate(subject.moment.date));
        }
        report(std::move(finding));
    }};

} // namespace fencewright::audit
