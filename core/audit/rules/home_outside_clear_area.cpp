#include "audit/detail/drawn.h"
#include "audit/rule.h"
#include "geometry/containment.h"
#include "geometry/offset.h"
#include "units/measure_notation.h"

#include <utility>

namespace fencewright::audit {
namespace {

/// Whether the rules on homes and the operating area have said already that it lies too far out.
bool liesWrong(const Subject& subject, const model::Home& home) {
    const auto area = detail::areaAround(subject.operatingArea, home.place, home.landingRadius.length);
    return !geometry::contains(area, home.place) ||
           geometry::distanceToBoundary(area, home.place) < home.landingRadius.length;
}

} // namespace

constinit extern const Rule homeOutsideClearArea{
    .id = "home.outside-clear-area",
    .title = phrase("core", "Home within the margin"),
    .why = phrase("core", "On its last metres home the aircraft is nearer to a boundary than the distance in which it "
                          "stops for certain."),
    .remedy = phrase("core", "Move the home inwards by the margin, or say why a landing there is safe all the same."),
    .severity = Severity::Doubt,
    .check = [](const Subject& subject, const Report& report) {
        if (subject.operatingArea.empty() || subject.clear.surface.empty())
            return;
        const std::string date = model::isoDate(subject.moment.date);
        const std::string margin = units::formatLength(*subject.clear.margin, units::System::Metric);
        for (const auto& home : subject.set.homes) {
            if (!detail::isUsable(home.place) || liesWrong(subject, home))
                continue;
            const auto area = detail::areaAround(subject.clear.surface, home.place, home.landingRadius.length);
            Finding finding;
            if (!geometry::contains(area, home.place)) {
                finding.words =
                    phrase("core", "%1 lies within the margin of %2 on %3.")(detail::homeWords(home), margin, date);
            } else {
                const auto room = geometry::distanceToBoundary(area, home.place);
                if (room >= home.landingRadius.length)
                    continue;
                finding.words =
                    phrase("core", "The landing radius of %1, %2, reaches into the margin of %3 on %4; the clear area "
                                   "ends %5 from it.")(detail::homeWords(home), detail::statedWords(home.landingRadius),
                                                       margin, date, units::formatLength(room, units::System::Metric));
            }
            finding.home = home.id;
            finding.place = home.place;
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
