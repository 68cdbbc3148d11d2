#pragma once

#include <QFont>
#include <QPainter>

#include "desktop/canvas/view_transform.h"
#include "geodesy/coordinate_notation.h"
#include "units/measure_notation.h"

namespace fencewright::desktop {

/// A distance that makes a scale bar of a readable width, and its words in both systems, the person's own first.
struct ScaleBar {
    Length length;
    double pixels = 0.0;
    QString words; ///< "200 m · 656 ft"
};
ScaleBar scaleBar(double metresPerPixel, double widestPixels, units::System system);

/// The ground where there is no imagery: paper, with lines of longitude and latitude that carry their numbers.
void paintGround(QPainter& painter, const ViewTransform& view, bool dark, geodesy::Notation notation,
                 const QFont& font);
QColor groundColour(bool dark);
/// The step between lines of longitude or latitude that leaves at least so many degrees between two.
double niceDegrees(double atLeast, geodesy::Notation notation);

/// In the lower left corner; answers the plate.
QRectF paintScaleBar(QPainter& painter, const QRectF& widget, double metresPerPixel, units::System system,
                     const QFont& font);
/// In the upper right corner; answers the plate. It points to true north at the middle of the view.
/// @param carriedDegrees  how far a turn that is under way has carried the map, clockwise
QRectF paintNorthArrow(QPainter& painter, const QRectF& widget, const ViewTransform& view, double carriedDegrees = 0.0);
QRectF northArrowPlate(const QRectF& widget);

} // namespace fencewright::desktop
