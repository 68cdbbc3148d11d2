#pragma once

#include "fault.h"
#include "geometry/side.h"
#include "model/polygon.h"
#include "model/position.h"

#include <vector>

namespace fencewright::geometry {

/// A line to cut along that cuts nothing off.
class NotCut : public Fault {
public:
    NotCut()
        : Fault{phrase("core", "The line cuts nothing off."), "",
                phrase("core", "Let it cross from one side to the other.")} {}
};

/// The pieces into which a line cuts a surface, the largest first. Edges of the line are straight in longitude and
/// latitude, and it may cross itself. Where it does not cross, parts are whole pieces; what leads nowhere, such as into
/// a hole and no farther, cuts nothing.
///
/// Pieces do not overlap, and neighbours have the same corners along the cut, so that no sliver is between them. All
/// corners of the surface stay what they are. Where the line meets a boundary, the double nearest to that place lies
/// beside the edge more often than on it; so the corner there errs, by under 2e-11 degrees (two micrometres). Pieces
/// thinner than kSliverWidthDegrees are left out where the side allows it. Side Grow: the pieces together contain the
/// surface. Shrink: they lie in it. Tested exactly. An end of the line that lies on the boundary, or up to 1e-9 degrees
/// (0.1 mm) inside it, as a snapped one does, counts as outside.
/// @throws NotCut  it cuts nothing.
/// @throws Fault  an end of the line lies inside; the surface is too intricate; or the side cannot be
/// kept.
[[nodiscard]] std::vector<model::Polygon> cutAlong(const model::MultiPolygon& surface, const model::LineString& line,
                                                   Side side);

} // namespace fencewright::geometry
