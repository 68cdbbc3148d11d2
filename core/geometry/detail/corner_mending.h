#pragma once

#include "geometry/detail/exact_surface.h"
#include "model/polygon.h"
#include "model/position.h"

#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace fencewright::geometry::detail {

/// The places that overlay may have moved a little, or made, by rounding.
class NearCorners {
public:
    explicit NearCorners(std::vector<model::Position> corners);
    /// The nearest of the given corners within kRoundingReach.
    [[nodiscard]] std::optional<model::Position> near(const model::Position& place) const;

private:
    std::vector<model::Position> m_corners;
    SpatialIndex m_index;
};

/// Farther than overlay moves a corner, and far nearer than any two corners that were drawn. Degrees.
inline constexpr double kRoundingReach = 3e-12;

/// The place, or the first found around it, at most 2e-11 degrees away, that is good.
[[nodiscard]] std::optional<model::Position> placeNear(const model::Position& place,
                                                       const std::function<bool(const model::Position&)>& isGood);

/// The edges that pass within kRoundingReach of the place.
[[nodiscard]] std::vector<ExactSurface::Edge> edgesBy(const ExactSurface& surface, const model::Position& place);

/// All corners of the surfaces.
[[nodiscard]] std::vector<model::Position> cornersOf(std::span<const model::MultiPolygon> surfaces);

/// Each corner moved; neighbours that come to lie in one place are one corner.
[[nodiscard]] model::MultiPolygon withCornersMoved(model::MultiPolygon surface,
                                                   const std::function<model::Position(const model::Position&)>& moved);

} // namespace fencewright::geometry::detail
