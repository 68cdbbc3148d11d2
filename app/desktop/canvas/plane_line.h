#pragma once

#include <QPointF>
#include <QPolygonF>
#include <QRectF>

#include <span>
#include <vector>

namespace fencewright::desktop {

/// The line with fewer points, never farther than `tolerance` from itself. Ends are kept; a ring keeps its first point.
/// Depends on nothing but the line, so that it looks the same however the view is moved.
/// Source: Douglas and Peucker, Cartographica 10 (1973) 112-122, after a pass that drops points nearer than half the
/// tolerance to the one kept before.
std::vector<QPointF> decimated(std::span<const QPointF> line, double tolerance, bool closed);

/// The part of a closed ring inside the rectangle. Where the ring leaves it, the result runs along its border: give a
/// rectangle somewhat larger than what is seen.
/// Source: Sutherland and Hodgman, Comm. ACM 17 (1974) 32-42.
QPolygonF clippedRing(const QPolygonF& ring, const QRectF& to);

/// Pieces of an open line inside the rectangle, cut at its border (Liang and Barsky, ACM TOG 3 (1984) 1-22).
std::vector<QPolygonF> clippedLine(const QPolygonF& line, const QRectF& to);

/// Twice the area: positive where the ring runs counter-clockwise with y up.
double signedDoubleArea(std::span<const QPointF> ring);

QRectF boundsOf(std::span<const QPointF> points);

} // namespace fencewright::desktop
