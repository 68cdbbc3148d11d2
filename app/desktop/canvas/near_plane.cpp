#include "desktop/canvas/near_plane.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fencewright::desktop {
namespace {

// WGS 84 (NIMA TR8350.2, table 3.1 and 3.3): semi-major axis, first eccentricity squared.
constexpr double kSemiMajorMetres = 6378137.0;
constexpr double kEccentricitySquared = 6.69437999014e-3;
constexpr double kRadians = std::numbers::pi / 180.0;

} // namespace

NearPlane::NearPlane(model::Position origin) : m_origin{origin} {
    const double sine = std::sin(origin.lat * kRadians);
    const double w = 1.0 - kEccentricitySquared * sine * sine;
    const double primeVertical = kSemiMajorMetres / std::sqrt(w);
    const double meridian = kSemiMajorMetres * (1.0 - kEccentricitySquared) / (w * std::sqrt(w));
    // A centimetre a degree at the pole itself, so that nothing is divided by zero there.
    m_metresPerLon = std::max(primeVertical * std::cos(origin.lat * kRadians) * kRadians, 0.01);
    m_metresPerLat = meridian * kRadians;
}

QPointF NearPlane::toPlane(const model::Position& place) const {
    return {std::remainder(place.lon - m_origin.lon, 360.0) * m_metresPerLon,
            (place.lat - m_origin.lat) * m_metresPerLat};
}

model::Position NearPlane::toEarth(const QPointF& metres) const {
    return {m_origin.lon + metres.x() / m_metresPerLon, m_origin.lat + metres.y() / m_metresPerLat};
}

QPointF nearestOnSegment(const QPointF& point, const QPointF& from, const QPointF& to) {
    const QPointF along = to - from;
    const double squared = QPointF::dotProduct(along, along);
    if (squared == 0.0)
        return from;
    return from + along * std::clamp(QPointF::dotProduct(point - from, along) / squared, 0.0, 1.0);
}

double distanceBetween(const QPointF& a, const QPointF& b) { return std::hypot(a.x() - b.x(), a.y() - b.y()); }

} // namespace fencewright::desktop
