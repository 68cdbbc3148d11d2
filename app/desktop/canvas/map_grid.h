#pragma once

#include <QPolygonF>
#include <QString>

#include "desktop/canvas/view_transform.h"
#include "geodesy/coordinate_notation.h"
#include "session/settings.h"

#include <vector>

namespace fencewright::desktop {

/// What stands at a line: the principal digits, large, with what leads them and follows them, small.
struct GridLabel {
    QString lead;
    QString main;
    QString tail;

    bool isEmpty() const { return main.isEmpty(); }
};

struct GridLine {
    enum class Kind {
        Step,   ///< one of many
        Square, ///< between two squares of 100 km
        Zone    ///< between two zones or bands
    };

    QPolygonF shape; ///< widget pixels
    Kind kind = Kind::Step;
    bool northward = false; ///< of one longitude or easting; else of one latitude or northing
    int zone = 0;           ///< of UTM; 0: degrees
    double value = 0.0;     ///< degrees, or metres as they are written
    GridLabel label;
};

/// A zone and band, or a square of 100 km, that is seen.
struct GridRegion {
    QString name;
    QPointF middle; ///< of what is seen of it
};

/// Lines of one view, as places on the screen.
struct GridLines {
    std::vector<GridLine> lines;
    std::vector<GridRegion> regions;
};

/// Every line lies within a pixel of its true place.
GridLines gridLines(const ViewTransform& view, session::MapGrid grid, geodesy::Notation notation);

/// The step between lines of longitude or latitude that leaves at least so many degrees between two.
double niceDegrees(double atLeast, geodesy::Notation notation);

} // namespace fencewright::desktop
