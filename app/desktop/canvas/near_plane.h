#pragma once

#include <QPointF>

#include "model/position.h"

namespace fencewright::desktop {

/// Metres east and north of a place, for distances of some thousand metres at most: what is under the pointer, which
/// corner is nearest. Straight edges in longitude and latitude stay exactly straight, for it only scales the two axes.
/// Error: scales are those of the ellipsoid at the origin; under 0.1 % within 5 km up to 80 degrees of latitude.
class NearPlane {
public:
    explicit NearPlane(model::Position origin);

    QPointF toPlane(const model::Position& place) const;
    /// The longitude is continuous with the origin's.
    model::Position toEarth(const QPointF& metres) const;

private:
    model::Position m_origin;
    double m_metresPerLon;
    double m_metresPerLat;
};

/// The point of the segment that is nearest to `point`.
QPointF nearestOnSegment(const QPointF& point, const QPointF& from, const QPointF& to);
double distanceBetween(const QPointF& a, const QPointF& b);

} // namespace fencewright::desktop
