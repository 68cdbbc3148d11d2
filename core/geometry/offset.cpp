#include "geometry/offset.h"

#include "fault.h"
#include "geodesy/local_frame.h"
#include "geometry/detail/edge_bounds.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/made_valid.h"
#include "geometry/detail/minkowski.h"
#include "geometry/detail/orientation.h"
#include "geometry/detail/soundness.h"
#include "geometry/overlay.h"
#include "geometry/spatial_index.h"
#include "units/number_notation.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <numbers>
#include <optional>
#include <utility>
#include <vector>

// How the distance is kept. The work is done in a transverse Mercator plane around the geometry, as the Minkowski sum
// with a regular polygon (detail/minkowski.h). Five things part the plane from the truth, and the polygon's radius
// makes up for each of them, the safe side out:
//   scale    the plane's lengths are those on the ground or longer, by up to LocalFrame::scaleError;
//   arcs     the regular polygon circumscribes the circle, or lies in it;
//   hulls    geometry that is small beside the distance is replaced by its convex hull;
//   edges    an edge is straight in longitude and latitude, and bent in the plane: edges are split, before and after,
//            until no more than `edgeParting` is left of that;
//   rounding some hundredths of a millimetre for crossing points and coordinates.

namespace fencewright::geometry {
namespace {

using detail::Disc;
using detail::Geometry;
using detail::GeosContext;
using detail::PlaneRing;
using geodesy::LocalFrame;
using geodesy::PlanePoint;

constexpr double kMostMetres = 200'000.0;
constexpr double kMostLatitude = 89.0;
constexpr double kMostLongitudes = 180.0;
constexpr double kNearestToPole = 89.9; ///< a result that comes nearer is refused: it might enclose the pole
/// Overlay in the plane snaps to this grid: in free floating point the library errs grossly on rare input.
constexpr double kGridMetres = 1e-6;
/// Snapping leaves gaps between pieces that share an end. They are filled where they are nowhere wider.
constexpr double kGapMetres = 1e-5;
constexpr double kRoundingMetres = 3.0 * kGapMetres;
constexpr double kSliverMetres = 1e-4;
/// A frame reaches this far, so that its scale takes no more than an eighth of the error that is allowed.
constexpr double kFrameReach = 100'000.0;

void requireUsable(const model::Position& place) {
    if (std::isfinite(place.lon) && std::isfinite(place.lat) && std::abs(place.lat) <= kMostLatitude)
        return;
    throw Fault{
        phrase(
            "core",
            "Distances cannot be kept there: the coordinate is not a number, or lies beyond 89 degrees of latitude."),
        phrase("core", "longitude %1, latitude %2")(units::shortest(place.lon), units::shortest(place.lat)),
        phrase("core", "Correct that coordinate.")};
}

/// Half a turn is far beyond any operation; past a whole one, a shape would lie over itself.
void requireNarrow(const Box& box) {
    if (box.empty() || box.maxX - box.minX <= kMostLongitudes)
        return;
    throw Fault{phrase("core", "The shape reaches over more than half a turn of longitude."),
                phrase("core", "longitude %1 to %2")(units::shortest(box.minX), units::shortest(box.maxX)),
                phrase("core", "Correct the coordinate that lies far off.")};
}

void requireUsable(Length distance) {
    const double metres = distance.inMetres();
    if (std::isfinite(metres) && metres >= 0.0 && metres <= kMostMetres)
        return;
    throw Fault{phrase("core", "The distance %1 m cannot be kept.")(units::shortest(metres)), "",
                phrase("core", "Give a distance from 0 to 200 km.")};
}

void requireUsable(const model::MultiPolygon& surface) {
    for (const auto& part : surface.parts) {
        for (const auto& corner : part.shell.corners)
            requireUsable(corner);
        for (const auto& hole : part.holes)
            for (const auto& corner : hole.corners)
                requireUsable(corner);
        requireNarrow(boxOf(part));
    }
}

/// A line of lon/lat edges, or a ring of them.
struct Path {
    std::vector<model::Position> corners;
    detail::Chain chain = detail::Chain::Open;

    [[nodiscard]] std::size_t edgeCount() const {
        return chain == detail::Chain::Closed ? corners.size() : corners.size() - 1;
    }
    [[nodiscard]] const model::Position& end(std::size_t edge) const { return corners[(edge + 1) % corners.size()]; }
};

std::vector<Path> boundaryOf(const model::MultiPolygon& surface) {
    std::vector<Path> paths;
    const auto add = [&](const model::Ring& ring) { paths.push_back({ring.corners, detail::Chain::Closed}); };
    for (const auto& part : surface.parts) {
        add(part.shell);
        std::for_each(part.holes.begin(), part.holes.end(), add);
    }
    return paths;
}

/// The middle of some places, how far any of them lies from it at most, and how near they come to a pole.
struct Extent {
    model::Position middle;
    double radius = 0.0;
    double latitude = 0.0;
};

Extent extentOf(std::span<const Path> paths) {
    double west = HUGE_VAL, south = HUGE_VAL, east = -HUGE_VAL, north = -HUGE_VAL;
    for (const auto& path : paths)
        for (const auto& corner : path.corners) {
            west = std::min(west, corner.lon);
            east = std::max(east, corner.lon);
            south = std::min(south, corner.lat);
            north = std::max(north, corner.lat);
        }
    return {{(west + east) / 2.0, (south + north) / 2.0},
            detail::kLargestRadiusMetres * detail::kRadiansPerDegree *
                ((north - south) + (east - west) * detail::widestBetween(south, north)) / 2.0,
            std::max(std::abs(south), std::abs(north))};
}

/// How a distance is kept in a frame.
struct Plan {
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
Plan planFor(double distance, Side side, std::span<const Path> paths, const Extent& extent, double hull) {
    const double reach = extent.radius + 1.01 * distance;
    const double scale = LocalFrame::scaleError(Length::metres(reach));
    const double latitude =
        extent.latitude + 1.01 * distance / (detail::kLeastRadiusMetres * detail::kRadiansPerDegree);
    if (latitude > kNearestToPole)
        throw Fault{phrase("core", "The distance reaches to the pole."),
                    phrase("core", "longitude %1, latitude %2")(units::shortest(extent.middle.lon),
                                                                units::shortest(extent.middle.lat)),
                    phrase("core", "Give a smaller distance.")};
    std::optional<Plan> best;
    double fewest = HUGE_VAL;
    for (const std::size_t corners : {72, 96, 120, 144, 192, 240}) {
        const double arcs = 1.0 / std::cos(std::numbers::pi / static_cast<double>(corners)) - 1.0;
        const double left = 0.00099 - arcs - 1.01 * (scale + hull / distance);
        if (left < 4e-6)
            continue;
        Plan plan;
        plan.corners = corners;
        // Edges part four times: in the input, in the result, and both are made up for.
        plan.edgeParting = left / 4.0 * distance + 0.0004;
        plan.curvature = detail::curvatureWithin(latitude, reach);
        const double count = static_cast<double>(corners);
        double total = count * static_cast<double>(plan.pieces(2.0 * std::numbers::pi * distance / count));
        for (const auto& path : paths)
            for (std::size_t i = 0; i < path.edgeCount(); ++i)
                total += static_cast<double>(plan.pieces(detail::lengthAtMost(path.corners[i], path.end(i))));
        if (total < fewest) {
            fewest = total;
            const double reserve = 2.0 * plan.edgeParting + kRoundingMetres;
            plan.radius = side == Side::Grow ? distance * (1.0 + scale) + reserve : distance - reserve - hull;
            best = plan;
        }
    }
    if (!best)
        throw Fault{
            phrase("core", "A distance of %1 m cannot be kept to a thousandth there.")(units::shortest(distance)),
            phrase("core", "longitude %1, latitude %2")(units::shortest(extent.middle.lon),
                                                        units::shortest(extent.middle.lat)),
            phrase("core", "Give a distance of a metre or more, or cut the shape into smaller ones.")};
    return *best;
}

PlaneRing planeRing(const LocalFrame& frame, const Path& path, const Plan& plan) {
    std::vector<model::Position> places;
    places.reserve(path.corners.size());
    for (std::size_t i = 0; i < path.corners.size(); ++i) {
        places.push_back(path.corners[i]);
        if (i >= path.edgeCount())
            continue;
        const auto &a = path.corners[i], &b = path.end(i);
        const std::size_t pieces = plan.pieces(detail::lengthAtMost(a, b));
        for (std::size_t k = 1; k < pieces; ++k) {
            const double t = static_cast<double>(k) / static_cast<double>(pieces);
            places.push_back({std::lerp(a.lon, b.lon, t), std::lerp(a.lat, b.lat, t)});
        }
    }
    return frame.toPlane(places);
}

model::Ring earthRing(const LocalFrame& frame, std::span<const PlanePoint> ring, const Plan& plan) {
    std::vector<PlanePoint> points;
    points.reserve(ring.size());
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const auto &a = ring[i], &b = ring[(i + 1) % ring.size()];
        points.push_back(a);
        const std::size_t pieces = plan.pieces(std::hypot(b.x - a.x, b.y - a.y));
        for (std::size_t k = 1; k < pieces; ++k) {
            const double t = static_cast<double>(k) / static_cast<double>(pieces);
            points.push_back({std::lerp(a.x, b.x, t), std::lerp(a.y, b.y, t)});
        }
    }
    model::Ring result{frame.toEarth(points), false};
    auto& corners = result.corners;
    corners.erase(std::unique(corners.begin(), corners.end()), corners.end());
    while (corners.size() > 1 && corners.front() == corners.back())
        corners.pop_back();
    return result;
}

// GEOS knows only coordinates: the bridge's polygons serve for the plane as well, x and y in metres.
model::Ring asRing(const PlaneRing& points) {
    model::Ring ring;
    ring.corners.reserve(points.size());
    for (const auto& point : points)
        ring.corners.push_back({point.x, point.y});
    return ring;
}
PlaneRing asPlaneRing(const model::Ring& ring) {
    PlaneRing points;
    points.reserve(ring.corners.size());
    for (const auto& corner : ring.corners)
        points.push_back({corner.lon, corner.lat});
    return points;
}

double signedArea(const PlaneRing& ring) {
    double twice = 0.0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i)
        twice += (ring[i].x - ring[0].x) * (ring[i + 1].y - ring[0].y) -
                 (ring[i].y - ring[0].y) * (ring[i + 1].x - ring[0].x);
    return twice / 2.0;
}

/// Area over half the perimeter: the width of a thin thing.
double meanWidth(const PlaneRing& ring) {
    double perimeter = 0.0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const auto &a = ring[i], &b = ring[(i + 1) % ring.size()];
        perimeter += std::hypot(b.x - a.x, b.y - a.y);
    }
    return perimeter > 0.0 ? 2.0 * std::abs(signedArea(ring)) / perimeter : 0.0;
}

bool isGap(GeosContext& context, const model::Ring& hole) {
    if (meanWidth(asPlaneRing(hole)) > kSliverMetres)
        return false;
    const auto surface = detail::toGeos(context, model::Polygon{hole, {}});
    const auto across = context.own(GEOSMinimumWidth_r(context.handle(), surface.get()), "offset");
    double metres = 0.0;
    if (!GEOSGeomGetLength_r(context.handle(), across.get(), &metres))
        context.fail("offset");
    return metres <= kGapMetres;
}

Geometry unitedPieces(GeosContext& context, const std::vector<PlaneRing>& pieces) {
    model::MultiPolygon all;
    all.parts.reserve(pieces.size());
    for (const auto& piece : pieces)
        all.parts.push_back({asRing(piece), {}});
    const auto geometry = detail::toGeos(context, all);
    const auto whole = context.own(GEOSUnaryUnionPrec_r(context.handle(), geometry.get(), kGridMetres), "offset");
    auto result = detail::fromGeos(context, whole.get());
    for (auto& part : result.parts)
        std::erase_if(part.holes, [&](const model::Ring& hole) { return isGap(context, hole); });
    return detail::toGeos(context, result);
}

model::MultiPolygon toEarth(GeosContext& context, const GEOSGeometry* plane, const LocalFrame& frame, const Plan& plan,
                            Side side) {
    model::MultiPolygon result;
    for (const auto& part : detail::fromGeos(context, plane).parts) {
        const auto shell = asPlaneRing(part.shell);
        if (side == Side::Shrink && meanWidth(shell) < kSliverMetres)
            continue;
        model::Polygon polygon{earthRing(frame, shell, plan), {}};
        for (const auto& hole : part.holes) {
            const auto ring = asPlaneRing(hole);
            if (side == Side::Grow && meanWidth(ring) < kSliverMetres)
                continue;
            polygon.holes.push_back(earthRing(frame, ring, plan));
        }
        result.parts.push_back(std::move(polygon));
    }
    // Bending the edges back can make rings touch that nearly touched.
    return detail::madeValid(result, side);
}

/// What becomes of a boundary's sweep: it is the result, or is added to the surface, or taken off it.
enum class Use { Alone, Added, TakenOff };

/// What it costs to take the convex hull in place of the geometry, where that is small beside the distance: a place at
/// distance d from the middle of a chord of length 2 r lies sqrt(d2 + r2), at most r2 / 2 d more, from its nearer end.
double hullCost(const Extent& extent, double distance) {
    return 1.01 * extent.radius * extent.radius / (2.0 * distance);
}

/// Counter-clockwise. Source: Andrew, "Another efficient algorithm for convex hulls in two dimensions", Information
/// Processing Letters 9 (1979) 216-219.
PlaneRing convexHull(PlaneRing points) {
    std::sort(points.begin(), points.end(),
              [](const PlanePoint& a, const PlanePoint& b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
    points.erase(std::unique(points.begin(), points.end()), points.end());
    if (points.size() < 3)
        return points;
    PlaneRing hull;
    const auto add = [&](const PlanePoint& point, std::size_t base) {
        const auto turnsLeft = [&] {
            const auto &a = hull[hull.size() - 2], &b = hull.back();
            return detail::orientation({a.x, a.y}, {b.x, b.y}, {point.x, point.y}) > 0;
        };
        while (hull.size() >= base + 2 && !turnsLeft())
            hull.pop_back();
        hull.push_back(point);
    };
    for (const auto& point : points)
        add(point, 0);
    const std::size_t lower = hull.size() - 1;
    for (std::size_t i = points.size() - 1; i-- > 0;)
        add(points[i], lower);
    hull.pop_back();
    return hull;
}

/// The surface from its rings in the plane, in the order of boundaryOf(). Turns the rings so that the surface lies to
/// their left.
model::MultiPolygon inPlane(const model::MultiPolygon& surface, std::vector<PlaneRing>& rings) {
    model::MultiPolygon plane;
    std::size_t next = 0;
    const auto take = [&](bool hole) {
        auto& ring = rings[next++];
        if ((signedArea(ring) > 0.0) == hole)
            std::reverse(ring.begin(), ring.end());
        return asRing(ring);
    };
    for (const auto& part : surface.parts) {
        model::Polygon polygon{take(false), {}};
        for (std::size_t i = 0; i < part.holes.size(); ++i)
            polygon.holes.push_back(take(true));
        plane.parts.push_back(std::move(polygon));
    }
    return plane;
}

/// Bends towards the surface itself need no fans where it is added, nor those away from it where the sweep is taken
/// off. Where the bending of edges may have turned thin rings over, no side can be told.
detail::Wanted wantedSide(Use use, const model::MultiPolygon& plane, const std::vector<PlaneRing>& rings) {
    constexpr double kWideMetres = 0.1;
    const auto isThin = [](const PlaneRing& ring) { return meanWidth(ring) < kWideMetres; };
    if (use == Use::Alone || std::any_of(rings.begin(), rings.end(), isThin) ||
        !detail::requireExamined(plane, "offset"))
        return detail::Wanted::BothSides;
    return use == Use::Added ? detail::Wanted::Right : detail::Wanted::Left;
}

model::MultiPolygon inFrame(std::span<const Path> paths, const model::MultiPolygon& surface, Use use, double distance,
                            Side side) {
    const auto extent = extentOf(paths);
    // What is taken off errs the other way than what is left.
    const Side sweepSide = use == Use::TakenOff ? (side == Side::Grow ? Side::Shrink : Side::Grow) : side;
    const double hull = use == Use::TakenOff ? HUGE_VAL : hullCost(extent, distance);
    const bool byHull = hull <= 1e-4 * distance;
    const auto plan = planFor(distance, sweepSide, paths, extent, byHull ? hull : 0.0);
    if (plan.radius <= 0.0)
        return use == Use::Alone ? model::MultiPolygon{} : surface;
    const LocalFrame frame{extent.middle};
    const auto disc = plan.disc(sweepSide);

    if (byHull) {
        PlaneRing points;
        for (const auto& path : paths) {
            const auto ring = planeRing(frame, path, plan);
            points.insert(points.end(), ring.begin(), ring.end());
        }
        const auto ring = convexHull(std::move(points));
        const auto sum = ring.size() < 3 ? detail::straightSum(ring, disc) : detail::convexSum(ring, disc);
        if (sum)
            return detail::madeValid({{{earthRing(frame, *sum, plan), {}}}}, side);
    }
    GeosContext context;
    if (paths.size() == 1 && use != Use::TakenOff) {
        auto line = planeRing(frame, paths.front(), plan);
        auto sum = use == Use::Alone ? detail::straightSum(line, disc) : detail::convexSum(line, disc);
        if (!sum && use == Use::Added) {
            std::reverse(line.begin(), line.end());
            sum = detail::convexSum(line, disc);
        }
        if (sum)
            return detail::madeValid({{{earthRing(frame, *sum, plan), {}}}}, side);
    }

    std::vector<PlaneRing> rings;
    for (const auto& path : paths)
        rings.push_back(planeRing(frame, path, plan));
    const auto plane = use == Use::Alone ? model::MultiPolygon{} : inPlane(surface, rings);
    const auto wanted = wantedSide(use, plane, rings);
    std::vector<PlaneRing> pieces;
    for (std::size_t i = 0; i < rings.size(); ++i) {
        auto swept = detail::sweep(rings[i], paths[i].chain, disc, wanted);
        std::move(swept.begin(), swept.end(), std::back_inserter(pieces));
    }
    auto swept = unitedPieces(context, pieces);
    if (use != Use::Alone) {
        const auto inside = detail::validGeos(context, plane);
        swept = context.own(use == Use::Added
                                ? GEOSUnionPrec_r(context.handle(), inside.get(), swept.get(), kGridMetres)
                                : GEOSDifferencePrec_r(context.handle(), inside.get(), swept.get(), kGridMetres),
                            "offset");
    }
    return toEarth(context, swept.get(), frame, plan, side);
}

/// Cuts a path into open ones that reach no farther than `radius` from their middles.
void cut(const Path& path, double radius, std::vector<Path>& result) {
    Path piece;
    double west = 0.0, east = 0.0, south = 0.0, north = 0.0;
    const auto begin = [&](const model::Position& place) {
        piece.corners.assign(1, place);
        west = east = place.lon;
        south = north = place.lat;
    };
    begin(path.corners.front());
    for (std::size_t i = 0; i < path.edgeCount(); ++i) {
        const auto &a = path.corners[i], &b = path.end(i);
        const auto steps =
            static_cast<std::size_t>(std::max(1.0, std::ceil(detail::lengthAtMost(a, b) / (radius / 4.0))));
        for (std::size_t k = 1; k <= steps; ++k) {
            const double t = static_cast<double>(k) / static_cast<double>(steps);
            const model::Position next =
                k == steps ? b : model::Position{std::lerp(a.lon, b.lon, t), std::lerp(a.lat, b.lat, t)};
            const double w = std::min(west, next.lon), e = std::max(east, next.lon);
            const double s = std::min(south, next.lat), n = std::max(north, next.lat);
            const Path box{{{w, s}, {e, n}}, detail::Chain::Open};
            if (piece.corners.size() > 1 && extentOf(std::span{&box, 1}).radius > radius) {
                const auto joint = piece.corners.back();
                result.push_back(piece);
                begin(joint);
            }
            piece.corners.push_back(next);
            west = std::min(west, next.lon);
            east = std::max(east, next.lon);
            south = std::min(south, next.lat);
            north = std::max(north, next.lat);
        }
    }
    if (piece.corners.size() > 1 || path.edgeCount() == 0)
        result.push_back(std::move(piece));
}

model::MultiPolygon offset(std::span<const Path> paths, const model::MultiPolygon& surface, Use use, double distance,
                           Side side) {
    if (paths.empty())
        return {};
    const double reach = std::max(kFrameReach, distance + kFrameReach / 4.0);
    if (extentOf(paths).radius + distance <= reach)
        return inFrame(paths, surface, use, distance, side);
    std::vector<Path> pieces;
    for (const auto& path : paths)
        cut(path, std::min(reach - distance, kFrameReach / 2.0), pieces);
    const Side sweepSide = use == Use::TakenOff ? (side == Side::Grow ? Side::Shrink : Side::Grow) : side;
    std::vector<model::MultiPolygon> swept;
    for (const auto& piece : pieces)
        swept.push_back(inFrame(std::span{&piece, 1}, {}, Use::Alone, distance, sweepSide));
    if (use == Use::TakenOff)
        return difference(surface, united(swept));
    if (use == Use::Added)
        swept.push_back(surface);
    return united(swept);
}

} // namespace

model::MultiPolygon grown(model::Position place, Length distance, Side side) {
    return grown(model::LineString{place}, distance, side);
}

model::MultiPolygon grown(const model::LineString& line, Length distance, Side side) {
    requireUsable(distance);
    for (const auto& corner : line)
        requireUsable(corner);
    requireNarrow(boxOf(line));
    if (line.empty() || distance.inMetres() == 0.0)
        return {};
    const Path path{line, detail::Chain::Open};
    return offset(std::span{&path, 1}, {}, Use::Alone, distance.inMetres(), side);
}

model::MultiPolygon grown(const model::MultiPolygon& surface, Length distance, Side side) {
    requireUsable(distance);
    requireUsable(surface);
    if (distance.inMetres() == 0.0)
        return surface;
    const auto usable = detail::madeValid(surface, side);
    return offset(boundaryOf(usable), usable, Use::Added, distance.inMetres(), side);
}

model::MultiPolygon eroded(const model::MultiPolygon& surface, Length distance, Side side) {
    requireUsable(distance);
    requireUsable(surface);
    if (distance.inMetres() == 0.0)
        return surface;
    const auto usable = detail::madeValid(surface, side);
    return offset(boundaryOf(usable), usable, Use::TakenOff, distance.inMetres(), side);
}

} // namespace fencewright::geometry
