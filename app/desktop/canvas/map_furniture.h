#pragma once

#include <QFont>
#include <QPainter>

#include "desktop/canvas/label_layout.h"
#include "desktop/canvas/map_grid.h"
#include "desktop/canvas/view_transform.h"
#include "geodesy/coordinate_notation.h"
#include "units/measure_notation.h"

#include <span>

namespace fencewright::desktop {

/// A distance that makes a scale bar of a readable width, and its words in both systems, the person's own first.
struct ScaleBar {
    Length length;
    double pixels = 0.0;
    QString words; ///< "200 m · 656 ft"
};
constexpr double kWidestScaleBar = 140.0; ///< pixels, of the bar itself
ScaleBar scaleBar(double metresPerPixel, double widestPixels, units::System system);

/// The ground where there is no imagery: paper, with quiet lines of longitude and latitude that carry their numbers.
/// @param covered  where something will lie over it, in widget pixels: no number stands there.
void paintGround(QPainter& painter, const ViewTransform& view, bool dark, const GridLines& lines, const QFont& font,
                 std::span<const QRectF> covered);
QColor groundColour(bool dark);
/// Lines over the map, cased so that they read on any imagery.
void paintGridLines(QPainter& painter, const GridLines& grid);
/// Their labels at the map's edge, and the names of what is seen; none where something stands already.
void paintGridLabels(QPainter& painter, const GridLines& grid, const QRectF& widget, LabelLayout& layout,
                     const QFont& font);

/// The plate of the scale bar, in the lower left corner.
QRectF scaleBarPlate(const QRectF& widget, const ScaleBar& bar, const QFont& font);
/// How far from the left edge it reaches at most, at whatever scale.
constexpr int kScaleBarRoom = 332;
/// Answers the plate.
QRectF paintScaleBar(QPainter& painter, const QRectF& widget, double metresPerPixel, units::System system,
                     const QFont& font);
/// In the upper right corner; answers the plate. It points to true north at the middle of the view.
/// @param carriedDegrees  how far a turn that is under way has carried the map, clockwise
QRectF paintNorthArrow(QPainter& painter, const QRectF& widget, const ViewTransform& view, double carriedDegrees = 0.0);
QRectF northArrowPlate(const QRectF& widget);

} // namespace fencewright::desktop
