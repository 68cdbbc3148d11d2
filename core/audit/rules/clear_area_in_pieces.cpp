#include "audit/rule.h"
#include "geometry/containment.h"
#include "geometry/spatial_index.h"
#include "units/measure_notation.h"

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

namespace fencewright::audit {
namespace {

/// The parts of the clear area by the part of the operating area that they lie in. Of shells around a place, it is in
/// the part with the smallest: the others have a hole there.
std::vector<std::vector<std::size_t>> piecesByPart(const Subject& subject) {
    const auto& parts = subject.operatingArea.parts;
    std::vector<geometry::Box> boxes;
    for (const auto& part : parts)
        boxes.push_back(geometry::boxOf(part));
    const auto size = [&](std::size_t part) {
        return (boxes[part].maxX - boxes[part].minX) * (boxes[part].maxY - boxes[part].minY);
    };
    const geometry::SpatialIndex index{boxes};
    std::vector<std::vector<std::size_t>> pieces(parts.size());
    for (std::size_t i = 0; i < subject.clear.surface.parts.size(); ++i) {
        const auto& corner = subject.clear.surface.parts[i].shell.corners.front();
        auto around = index.meeting({corner.lon, corner.lat, corner.lon, corner.lat});
        std::sort(around.begin(), around.end(), [&](std::size_t a, std::size_t b) { return size(a) < size(b); });
        const auto in = std::find_if(around.begin(), around.end(), [&](std::size_t part) {
            return around.size() == 1 || geometry::contains({{model::Polygon{parts[part].shell, {}}}}, corner);
        });
        if (in != around.end())
            pieces[*in].push_back(i);
    }
    return pieces;
}

} // namespace

constinit extern const Rule clearAreaInPieces{
    .id = "clear-area.in-pieces",
    .title = phrase("core", "Margin cuts the operating area"),
    .why = phrase("core", "Where the operating area is narrower than two margins, the aircraft cannot pass and still "
                          "stop before either boundary."),
    .remedy = phrase("core", "Widen the narrow place, or plan each piece with a home of its own."),
    .severity = Severity::Doubt,
    .check = [](const Subject& subject, const Report& report) {
        if (subject.clear.surface.parts.size() < 2 || subject.operatingArea.empty())
            return;
        const auto& areas = subject.clear.areas;
        std::size_t count = 0;
        std::size_t least = areas.size();
        for (const auto& pieces : piecesByPart(subject)) {
            if (pieces.size() < 2)
                continue;
            count += pieces.size();
            for (const std::size_t piece : pieces)
                if (least == areas.size() || areas[piece] < areas[least])
                    least = piece;
        }
        if (count == 0)
            return;
        Finding finding;
        finding.place = geometry::labelPlace({{subject.clear.surface.parts[least]}});
        finding.words = phrase("core", "The margin of %1 cuts the operating area on %2: %3 pieces of the clear area do "
                                       "not connect; the smallest, shown, has %4.")(
            units::formatLength(*subject.clear.margin, units::System::Metric), model::isoDate(subject.moment.date),
            count, units::formatArea(areas[least], units::System::Metric));
        report(std::move(finding));
    }};

} // namespace fencewright::audit
