#include "audit/detail/drawn.h"
#include "audit/rule.h"
#include "geometry/containment.h"
#include "geometry/offset.h"
#include "units/measure_notation.h"

#include <string>
#include <utility>

namespace fencewright::audit {

constinit extern const Rule homeLandingRadius{
    .id = "home.landing-radius",
    .title = phrase("core", "Landing place not wholly inside"),
    .why = phrase("core",
                  "The aircraft may come down anywhere in its landing radius, also on the wrong side of the boundary."),
    .remedy = phrase("core", "Move the home inwards, or state a smaller landing radius if the aircraft keeps it."),
    .severity = Severity::Doubt,
    .check = [](const Subject& subject, const Report& report) {
        if (subject.operatingArea.empty() || subject.set.homes.empty())
            return;
        for (const auto& home : subject.set.homes) {
            if (!detail::isUsable(home.place))
                continue;
            const auto area = detail::areaAround(subject.operatingArea, home.place, home.landingRadius.length);
            if (!geometry::contains(area, home.place))
                continue; // said by the rule on homes outside
            const auto room = geometry::distanceToBoundary(area, home.place);
            if (room >= home.landingRadius.length)
                continue;
            Finding finding;
            finding.home = home.id;
            finding.place = home.place;
            finding.words =
                phrase("core", "%1 lies %2 from the boundary of the operating area; its landing radius is %3.")(
                    detail::homeWords(home), units::formatLength(room, units::System::Metric),
                    detail::statedWords(home.landingRadius));
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
