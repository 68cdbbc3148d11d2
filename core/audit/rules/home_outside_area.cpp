#include "audit/detail/drawn.h"
#include "audit/rule.h"
#include "fault.h"
#include "geometry/containment.h"
#include "geometry/offset.h"
#include "units/measure_notation.h"

#include <string>
#include <utility>

namespace fencewright::audit {
namespace {

std::string distanceWords(const Subject& subject, const model::Home& home) {
    try {
        return units::formatLength(geometry::distanceTo(subject.operatingArea, home.place), units::System::Metric);
    } catch (const Fault&) {
        return {}; // the distance is for information only
    }
}

} // namespace

constinit extern const Rule homeOutsideArea{
    .id = "home.outside-area",
    .title = phrase("core", "Home outside the operating area"),
    .why = phrase("core", "An aircraft that starts or lands there is outside from its first metre."),
    .remedy = phrase("core", "Move the home into the operating area, or enlarge a keep-in."),
    .severity = Severity::Error,
    .check = [](const Subject& subject, const Report& report) {
        if (subject.operatingArea.empty() || subject.set.homes.empty())
            return;
        for (const auto& home : subject.set.homes) {
            if (!detail::isUsable(home.place) ||
                geometry::contains(detail::areaAround(subject.operatingArea, home.place, {}), home.place))
                continue;
            Finding finding;
            finding.home = home.id;
            finding.place = home.place;
            const auto distance = distanceWords(subject, home);
            finding.words = distance.empty()
                                ? phrase("core", "%1 lies outside the operating area on %2.")(
                                      detail::homeWords(home), model::isoDate(subject.moment.date))
                                : phrase("core", "%1 lies outside the operating area on %2, %3 from it.")(
                                      detail::homeWords(home), model::isoDate(subject.moment.date), distance);
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
