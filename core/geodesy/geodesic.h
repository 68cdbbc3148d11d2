#pragma once

#include "model/polygon.h"
#include "model/position.h"
#include "units/angle.h"
#include "units/area.h"
#include "units/length.h"

#include <span>

namespace fencewright::geodesy {

/// A geodesic between two places. Azimuths in [0, 360), clockwise from true north, both in the direction of travel.
struct Segment {
    Length length;
    Angle azimuthAtStart;
    Angle azimuthAtEnd;
};

/// Shortest path between two places on the WGS 84 ellipsoid: the inverse geodesic problem.
/// @param from,to  degrees; any longitudes, also across the antimeridian. Coincident places give zero for all.
/// Error: under 1e-8 m and 1e-13 degrees on the lines of the reference test (2 300 to 17 300 km).
/// @throws Fault  a coordinate is not finite, or a latitude is beyond 90: says which.
/// Source: Karney, "Algorithms for geodesics", J. Geodesy 87 (2013) 43-55, through PROJ's geodesic.h.
[[nodiscard]] Segment inverse(model::Position from, model::Position to);

/// Where one comes to along a geodesic: the direct problem. The longitude is continuous with that of `from`.
/// @throws Fault  as inverse().
[[nodiscard]] model::Position direct(model::Position from, Angle azimuth, Length distance);

/// How an edge between two corners runs.
enum class EdgeMeaning {
    LonLatLine, ///< straight in longitude and latitude: ours, and RFC 7946's
    Geodesic    ///< the shortest path
};

struct RingMeasure {
    Area area;        ///< never negative
    Length perimeter; ///< the closing edge included
};

/// Area and perimeter of a ring on the ellipsoid. A ring of under three corners has area zero.
/// Error: Geodesic: 1e-4 m, 1 m2 on the reference polygons. LonLatLine: edges are replaced by geodesics that stay
/// within 1 mm of them.
/// @throws Fault  as inverse().
[[nodiscard]] RingMeasure measure(const model::Ring& ring, EdgeMeaning edges);

/// Shell less holes, LonLatLine edges; the perimeter is that of all rings.
[[nodiscard]] RingMeasure measure(const model::Polygon& polygon);
[[nodiscard]] RingMeasure measure(const model::MultiPolygon& surface);
/// The area between an open line with LonLatLine edges and the equator, in square metres with a sign: what an edge to
/// the east in the north adds, one to the west takes off. So the lines that make up a ring sum up to its area: less
/// than zero where it runs counter-clockwise.
[[nodiscard]] double areaToEquator(std::span<const model::Position> line);
/// Length of an open line with LonLatLine edges.
[[nodiscard]] Length lengthOf(const model::LineString& line);

} // namespace fencewright::geodesy
