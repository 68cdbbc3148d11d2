#include "geometry/detail/corner_mending.h"

#include "geometry/detail/repeated_corners.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace fencewright::geometry::detail {

NearCorners::NearCorners(std::vector<model::Position> corners) : m_corners{std::move(corners)} {
    std::vector<Box> boxes;
    boxes.reserve(m_corners.size());
    for (const auto& corner : m_corners)
        boxes.push_back({corner.lon, corner.lat, corner.lon, corner.lat});
    m_index = SpatialIndex{boxes};
}

std::optional<model::Position> NearCorners::near(const model::Position& place) const {
    std::optional<model::Position> nearest;
    double least = kRoundingReach;
    m_index.visitMeeting({place.lon - kRoundingReach, place.lat - kRoundingReach, place.lon + kRoundingReach,
                          place.lat + kRoundingReach},
                         [&](std::size_t number) {
                             const auto& corner = m_corners[number];
                             const double distance = std::hypot(corner.lon - place.lon, corner.lat - place.lat);
                             if (distance <= least) {
                                 least = distance;
                                 nearest = corner;
                             }
                             return true;
                         });
    return nearest;
}

std::optional<model::Position> placeNear(const model::Position& place,
                                         const std::function<bool(const model::Position&)>& isGood) {
    if (isGood(place))
        return place;
    // From a few steps between doubles upwards; narrow wedges want many directions.
    constexpr std::array<double, 8> distances{3e-14, 1e-13, 3e-13, 1e-12, 3e-12, 6e-12, 1e-11, 2e-11};
    constexpr int directions = 64;
    for (const double distance : distances)
        for (int i = 0; i < directions; ++i) {
            const double angle = 2.0 * std::numbers::pi * i / directions;
            const model::Position candidate{place.lon + distance * std::cos(angle),
                                            place.lat + distance * std::sin(angle)};
            if (isGood(candidate))
                return candidate;
        }
    return std::nullopt;
}

std::vector<ExactSurface::Edge> edgesBy(const ExactSurface& surface, const model::Position& place) {
    std::vector<ExactSurface::Edge> found;
    for (const auto number : surface.index().meeting({place.lon - kRoundingReach, place.lat - kRoundingReach,
                                                      place.lon + kRoundingReach, place.lat + kRoundingReach})) {
        const auto& edge = surface.edges()[number];
        const double dx = edge.to.lon - edge.from.lon, dy = edge.to.lat - edge.from.lat;
        const double along =
            ((place.lon - edge.from.lon) * dx + (place.lat - edge.from.lat) * dy) / (dx * dx + dy * dy);
        const double share = std::clamp(along, 0.0, 1.0);
        if (std::hypot(place.lon - edge.from.lon - share * dx, place.lat - edge.from.lat - share * dy) <=
            kRoundingReach)
            found.push_back(edge);
    }
    return found;
}

std::vector<model::Position> cornersOf(std::span<const model::MultiPolygon> surfaces) {
    std::vector<model::Position> corners;
    const auto add = [&](const model::Ring& ring) {
        corners.insert(corners.end(), ring.corners.begin(), ring.corners.end());
    };
    for (const auto& surface : surfaces)
        for (const auto& part : surface.parts) {
            add(part.shell);
            std::for_each(part.holes.begin(), part.holes.end(), add);
        }
    return corners;
}

model::MultiPolygon withCornersMoved(model::MultiPolygon surface,
                                     const std::function<model::Position(const model::Position&)>& moved) {
    const auto move = [&](model::Ring& ring) {
        auto& corners = ring.corners;
        std::transform(corners.begin(), corners.end(), corners.begin(), moved);
        dropRepeats(corners);
    };
    for (auto& part : surface.parts) {
        move(part.shell);
        std::for_each(part.holes.begin(), part.holes.end(), move);
        std::erase_if(part.holes, [](const model::Ring& hole) { return hole.corners.size() < 3; });
    }
    std::erase_if(surface.parts, [](const model::Polygon& part) { return part.shell.corners.size() < 3; });
    return surface;
}

} // namespace fencewright::geometry::detail
