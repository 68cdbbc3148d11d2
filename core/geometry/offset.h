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

/// The places of the surface farther than `distance` from its boundary.
/// Side Shrink: only such places; Grow: all of them.
[[nodiscard]] model::MultiPolygon eroded(const model::MultiPolygon& surface, Length distance, Side side);

/// The shortest ground distance from a place to the surface (zero inside), or to its boundary.
/// Infinite where the surface is empty. Error: under 1 mm + 1e-6 of the result.
[[nodiscard]] Length distanceTo(const model::MultiPolygon& surface, model::Position place);
[[nodiscard]] Length distanceToBoundary(const model::MultiPolygon& surface, model::Position place);

} // namespace fencewright::geometry
