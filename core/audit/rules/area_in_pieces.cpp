#include "audit/rule.h"
#include "geometry/containment.h"
#include "units/measure_notation.h"

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>

namespace fencewright::audit {

constinit extern const Rule areaInPieces{
    .id = "area.in-pieces",
    .title = phrase("core", "Operating area in several pieces"),
    .why = phrase("core", "The aircraft cannot pass from one piece to another without leaving the operating area."),
    .remedy =
        phrase("core", "Join the pieces, or give each piece its own home and plan it as an operation of its own."),
    .severity = Severity::Doubt,
    .check = [](const Subject& subject, const Report& report) {
        const auto& parts = subject.operatingArea.parts;
        if (parts.size() < 2)
            return;
        const auto& areas = subject.areas;
        const auto largest = static_cast<std::size_t>(std::max_element(areas.begin(), areas.end()) - areas.begin());
        const auto least = static_cast<std::size_t>(std::min_element(areas.begin(), areas.end()) - areas.begin());
        Finding finding;
        finding.place = geometry::labelPlace({{parts[least]}});
        finding.words = phrase(
            "core", "The operating area on %1 is in %2 pieces; the largest has %3, the smallest, shown, %4.")(
            model::isoDate(subject.moment.date), parts.size(), units::formatArea(areas[largest], units::System::Metric),
            units::formatArea(areas[least], units::System::Metric));
        report(std::move(finding));
    }};

} // namespace fencewright::audit
