#pragma once

#include <QPainter>

#include "audit/finding.h"
#include "model/home.h"

namespace fencewright::desktop {

// Marks on the map, in widget pixels. Our own, each with a white casing, so that they read on any imagery and without
// colour.

inline constexpr double kSiteRadiusPixels = 9.0;
inline constexpr double kHomeRadiusPixels = 11.0;
inline constexpr double kFindingRadiusPixels = 8.0;

/// A triangle, white with a dark edge.
void paintSite(QPainter& painter, const QPointF& at, const QColor& edge, bool selected);
/// A diamond with a dot; an alternate is a hollow one.
void paintHome(QPainter& painter, const QPointF& at, model::HomeKind kind, bool selected);
/// The ring within which the aircraft lands, radius in pixels.
void paintLandingRing(QPainter& painter, const QPointF& at, double radius);
/// Error: a square; doubt: a triangle; note: a small circle. Told apart by form alone.
void paintFinding(QPainter& painter, const QPointF& at, audit::Severity severity);
/// A corner that can be taken hold of.
void paintHandle(QPainter& painter, const QPointF& at, const QColor& edge, bool chosen);
/// The middle of an edge: taken hold of, it becomes a corner.
void paintMidpoint(QPainter& painter, const QPointF& at, const QColor& edge);

/// A small readable plate for text and furniture; its inside.
void paintPlate(QPainter& painter, const QRectF& plate);

} // namespace fencewright::desktop
