#pragma once

#include "model/position.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fencewright::geometry::detail {

/// Radii of curvature of the WGS 84 ellipsoid: none is smaller than a (1 - e2), none larger than a2 / b.
inline constexpr double kLeastRadiusMetres = 6'335'439.0;
inline constexpr double kLargestRadiusMetres = 6'399'594.0;
inline constexpr double kRadiansPerDegree = std::numbers::pi / 180.0;

/// The largest cosine of a latitude between the two.
inline double widestBetween(double south, double north) {
    return south * north <= 0.0 ? 1.0 : std::cos(std::min(std::abs(south), std::abs(north)) * kRadiansPerDegree);
}

/// Metres, no less than the ground length of the lon/lat edge.
inline double lengthAtMost(const model::Position& a, const model::Position& b) {
    return kLargestRadiusMetres * kRadiansPerDegree *
           std::hypot(b.lat - a.lat, (b.lon - a.lon) * widestBetween(a.lat, b.lat));
}

/// 1/m: how much lon/lat lines are bent at most in a conformal plane, up to a latitude (degrees) and a distance from
/// its origin (metres). On a sphere, a lon/lat line with azimuth A at latitude B has the geodesic curvature
/// tan B sin A (1 + cos2 A) / R, at most 1.0887 tan B / R; by derivation. A geodesic is bent in the plane by the slope
/// of the scale's logarithm, tan(distance / R) / R. A fiftieth is for the ellipsoid.
inline double curvatureWithin(double latitude, double reach) {
    return 1.02 * (1.0887 * std::tan(latitude * kRadiansPerDegree) + 1.01 * std::tan(reach / kLeastRadiusMetres)) /
           kLeastRadiusMetres;
}

} // namespace fencewright::geometry::detail
