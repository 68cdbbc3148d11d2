#pragma once

#include "geometry/side.h"
#include "model/polygon.h"
#include "model/position.h"
#include "units/length.h"

namespace fencewright::geometry {

// Offsets by true ground distance: geodesic on the ellipsoid, never degrees. Worked out in local frames; shapes too
// large for one frame are cut into several. All lon/lat edges of input and result are honoured as such.
//
// Error, for distances from 1 m to 50 km: Grow: the result contains all places within `distance`, and none beyond
// distance * 1.001 + 2 mm. Shrink: only places within `distance`, and all those within distance * 0.999 - 2 mm.
// A distance of zero gives a surface back as it is, and nothing for points and lines.
// @throws Fault  the distance is negative, not finite or over 200 km; a coordinate is not finite or beyond 89 degrees
// of latitude; a line, or a part of a surface, over more than 180 degrees of longitude; the result would reach
// beyond 89.9 degrees, where it might enclose the pole.

/// The places within `distance` of a place, a line, or a surface (its inside included).
[[nodiscard]] model::MultiPolygon grown(model::Position place, Length distance, Side side);
[[nodiscard]] model::MultiPolygon grown(const model::LineString& line, Length distance, Side side);
[[nodiscard]] model::MultiPolygon grown(const model::MultiPolygon& surface, Length distance, Side side);

/// The places beside a line: within `left` of it on its left as one goes along it, within `right` on its right. Equal
/// widths give what the one width gives; one of them may be zero.
///
/// A place is seen from the places of the line that are nearest to it, as compared with those next to them on the
/// line: square to an edge, outside a bend, or beyond an end. Inside an edge it lies on that edge's side of it; at a
/// bend on its outer side; at an end on the side to which the geodesic from there leaves the line's last direction. So
/// where the widths differ, an end is a quarter of a circle on each side, with a step straight ahead. A place that lies
/// to the left of one stretch and to the right of another within the wider width, as in a sharp bend or between legs
/// that double back, belongs to the narrower side for Shrink, and to the wider one for Grow. A line of one place has no
/// sides: Grow takes the wider width, Shrink the narrower.
/// Error: Grow: contains these places, and no place farther from them than 0.002 of the wider width + 5 mm. Shrink:
/// only such places, and all those farther than that from all others.
[[nodiscard]] model::MultiPolygon grown(const model::LineString& line, Length left, Length right, Side side);

/// The places of the surface farther than `distance` from its boundary.
/// Side Shrink: only such places; Grow: all of them.
[[nodiscard]] model::MultiPolygon eroded(const model::MultiPolygon& surface, Length distance, Side side);

/// The shortest ground distance from a place to the surface (zero inside), or to its boundary.
/// Infinite where the surface is empty. Error: under 1 mm + 1e-6 of the result.
[[nodiscard]] Length distanceTo(const model::MultiPolygon& surface, model::Position place);
[[nodiscard]] Length distanceToBoundary(const model::MultiPolygon& surface, model::Position place);

} // namespace fencewright::geometry
