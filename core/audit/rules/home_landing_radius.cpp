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
    .title = "Landing place not wholly inside",
    .why = "The aircraft may come down anywhere in its landing radius, also on the wrong side of the boundary.",
    .remedy = "Move the home inwards, or state a smaller landing radius if the aircraft keeps it.",
    .severity = Severity::Doubt,
    .check = [](const Subject& subject, const Report& report) {
        if (subject.operatingArea.empty() || subject.set.homes.empty())
            return;
        for (const auto& home : subject.set.homes) {
            if (!detail::isUsable(home.place))
                continue;
            const auto area = detail::areaAround(subject, home.place, home.landingRadius.length);
            if (!geometry::contains(area, home.place))
                continue; // said by the rule on homes outside
            const auto room = geometry::distanceToBoundary(area, home.place);
            if (room >= home.landingRadius.length)
                continue;
            Finding finding;
            finding.home = home.id;
            finding.place = home.place;
            finding.words = std::string{home.kind == model::HomeKind::Home ? "Home" : "Alternate"} + " \"" + home.name +
                            "\" lies " + units::formatLength(room, units::System::Metric) +
                            " from the boundary of the operating area; its landing radius is " +
                            detail::statedWords(home.landingRadius) + ".";
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
