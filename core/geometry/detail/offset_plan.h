#pragma once

#include "geodesy/local_frame.h"
#include "geometry/detail/geos_context.h"
#include "geometry/detail/minkowski.h"
#include "geometry/side.h"
#include "geometry/spatial_index.h"
#include "model/polygon.h"

#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

// What all offsets by ground distance share: how a distance is kept in a plane, and the way there and back.
//
// How the distance is kept. The work is done in a transverse Mercator plane around the geometry, as the Minkowski sum
// with a regular polygon (detail/minkowski.h). Five things part the plane from the truth, and the polygon's radius
// makes up for each of them, the safe side out:
//   scale    the plane's lengths are those on the ground or longer, by up to LocalFrame::scaleError;
//   arcs     the regular polygon circumscribes the circle, or lies in it;
//   hulls    geometry that is small beside the distance is replaced by its convex hull;
//   edges    an edge is straight in longitude and latitude, and bent in the plane: edges are split, before and after,
//            until no more than `edgeParting` is left of that;
//   rounding some hundredths of a millimetre for crossing points and coordinates.

namespace fencewright::geometry::detail {

/// A frame reaches this far, so that its scale takes no more than an eighth of the error that is allowed.
inline constexpr double kFrameReach = 100'000.0;
/// Overlay in the plane snaps to this grid: in free floating point the library errs grossly on rare input.
inline constexpr double kGridMetres = 1e-6;
/// Snapping leaves gaps between pieces that share an end. They are filled where they are nowhere wider.
inline constexpr double kGapMetres = 1e-5;
inline constexpr double kRoundingMetres = 3.0 * kGapMetres;

/// @throws Fault  not finite, or beyond 89 degrees of latitude.
void requireUsable(const model::Position& place);
/// @throws Fault  over more than half a turn of longitude.
void requireNarrow(const Box& box);
/// @throws Fault  not finite, negative, or over 200 km.
void requireUsable(Length distance);

/// A line of lon/lat edges, or a ring of them.
struct Path {
    std::vector<model::Position> corners;
    Chain chain = Chain::Open;

    [[nodiscard]] std::size_t edgeCount() const { return chain == Chain::Closed ? corners.size() : corners.size() - 1; }
    [[nodiscard]] const model::Position& end(std::size_t edge) const { return corners[(edge + 1) % corners.size()]; }
};

/// The middle of some places, how far any of them lies from it at most, and how near they come to a pole.
struct Extent {
    model::Position middle;
    double radius = 0.0;
    double latitude = 0.0;
};

[[nodiscard]] Extent extentOf(std::span<const Path> paths);

/// How a distance is kept in a frame.
struct OffsetPlan {
    std::size_t corners = 0;  ///< of the disc
    double edgeParting = 0.0; ///< metres
    double radius = 0.0;      ///< metres; the disc contains, or lies in, the circle with this radius
    double curvature = 0.0;   ///< 1/m: no lon/lat edge is bent more in the plane

    [[nodiscard]] Disc disc(Side side) const {
        return side == Side::Grow ? Disc::circumscribed(radius, corners) : Disc::inscribed(radius, corners);
    }
    /// Into how many pieces an edge is cut, so that each of them parts from straight by no more than edgeParting.
    [[nodiscard]] std::size_t pieces(double length) const {
        return static_cast<std::size_t>(std::max(1.0, std::ceil(length * std::sqrt(curvature / (8.0 * edgeParting)))));
    }
};

/// Shares the thousandth that is allowed between arcs, scale and edges, with the fewest corners.
/// `hull` is what the hull in place of the geometry costs, in metres.
/// @throws Fault  the distance reaches to the pole, or is too small for what it is kept from.
[[nodiscard]] OffsetPlan planFor(double distance, Side side, std::span<const Path> paths, const Extent& extent,
                                 double hull);

/// The path in the plane, its edges split as the plan says.
[[nodiscard]] PlaneRing planeRing(const geodesy::LocalFrame& frame, const Path& path, const OffsetPlan& plan);
[[nodiscard]] model::Ring earthRing(const geodesy::LocalFrame& frame, std::span<const geodesy::PlanePoint> ring,
                                    const OffsetPlan& plan);

// GEOS knows only coordinates: the bridge's polygons serve for the plane as well, x and y in metres.
[[nodiscard]] model::Ring asRing(const PlaneRing& points);
[[nodiscard]] PlaneRing asPlaneRing(const model::Ring& ring);

[[nodiscard]] double signedArea(const PlaneRing& ring);
/// Area over half the perimeter: the width of a thin thing.
[[nodiscard]] double meanWidth(const PlaneRing& ring);
/// Counter-clockwise. Source: Andrew, "Another efficient algorithm for convex hulls in two dimensions", Information
/// Processing Letters 9 (1979) 216-219.
[[nodiscard]] PlaneRing convexHull(PlaneRing points);

/// The union of polygons in the plane, without the gaps that rounding leaves between them.
[[nodiscard]] Geometry unitedPieces(GeosContext& context, const std::vector<PlaneRing>& pieces);
/// Back from the plane, valid.
[[nodiscard]] model::MultiPolygon toEarth(const model::MultiPolygon& plane, const geodesy::LocalFrame& frame,
                                          const OffsetPlan& plan, Side side);
[[nodiscard]] model::MultiPolygon toEarth(GeosContext& context, const GEOSGeometry* plane,
                                          const geodesy::LocalFrame& frame, const OffsetPlan& plan, Side side);

/// Cuts a path into open ones that reach no farther than `radius` from their middles, and adds them to `result`.
void cut(const Path& path, double radius, std::vector<Path>& result);

} // namespace fencewright::geometry::detail
