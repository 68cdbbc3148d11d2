#include "exchange/feature_batch.h"

#include "fault.h"

namespace fencewright::exchange {

void FeatureBatch::endFeature(std::optional<double> lowest, std::optional<double> highest) {
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    featureLines.push_back(static_cast<std::uint32_t>(lineKinds.size()));
    constexpr std::size_t most = std::numeric_limits<std::uint32_t>::max();
    if (corners.size() > most || lineKinds.size() > most)
        throw Fault{phrase("core", "There are more corners than can be kept."), "",
                    phrase("core", "Read a part of the file by a filter.")};
    geometry::Box box;
    for (const model::Position& corner : cornersOf(size() - 1)) {
        box.minX = std::min(box.minX, corner.lon);
        box.maxX = std::max(box.maxX, corner.lon);
        box.minY = std::min(box.minY, corner.lat);
        box.maxY = std::max(box.maxY, corner.lat);
    }
    boxes.push_back(box);
    if (lowest || highest || !lows.empty()) {
        lows.resize(size() - 1, unknown);
        highs.resize(size() - 1, unknown);
        lows.push_back(lowest.value_or(unknown));
        highs.push_back(highest.value_or(unknown));
    }
}

void FeatureBatch::add(const Feature& feature) {
    const auto line = [this](LineKind kind, std::span<const model::Position> places) {
        for (const model::Position& place : places)
            if (!std::isfinite(place.lon) || !std::isfinite(place.lat))
                throw Fault{phrase("core", "A coordinate is not a finite number."), "",
                            phrase("core", "Repair the file.")};
        corners.insert(corners.end(), places.begin(), places.end());
        endLine(kind);
    };
    for (const FeatureGeometry& part : feature.parts) {
        if (const auto* place = std::get_if<model::Position>(&part)) {
            line(LineKind::Point, {place, 1});
        } else if (const auto* open = std::get_if<model::LineString>(&part)) {
            line(LineKind::Line, *open);
        } else {
            const auto& polygon = std::get<model::Polygon>(part);
            line(polygon.shell.closureAssumed ? LineKind::ShellClosed : LineKind::Shell, polygon.shell.corners);
            for (const model::Ring& hole : polygon.holes)
                line(hole.closureAssumed ? LineKind::HoleClosed : LineKind::Hole, hole.corners);
        }
    }
    endFeature(feature.lowestZ, feature.highestZ);
}

} // namespace fencewright::exchange
