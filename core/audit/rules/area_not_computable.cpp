#include "airspace/operating_area.h"
#include "audit/rule.h"
#include "fault.h"

#include <utility>

namespace fencewright::audit {

constinit extern const Rule areaNotComputable{
    .id = "area.not-computable",
    .title = "Operating area cannot be computed",
    .why = "Where the operating area is not known, nothing may be flown.",
    .remedy = "Mend the fences that other findings name, or simplify them.",
    .severity = Severity::Error,
    .check = [](const Subject& subject, const Report& report) {
        if (!subject.operatingArea.empty())
            return;
        try {
            (void)airspace::operatingArea(subject.set, subject.outlines, subject.moment, subject.ground);
        } catch (const Fault& fault) {
            Finding finding;
            finding.words = "The operating area cannot be computed. " + fault.problem();
            finding.remedy = fault.remedy();
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
