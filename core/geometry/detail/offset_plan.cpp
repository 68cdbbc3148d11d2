#include "geometry/detail/offset_plan.h"

#include "fault.h"
#include "geometry/detail/edge_bounds.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/made_valid.h"
#include "geometry/detail/orientation.h"
#include "geometry/detail/repeated_corners.h"
#include "units/number_notation.h"

#include <algorithm>
#include <numbers>
#include <optional>
#include <utility>

namespace fencewright::geometry::detail {
namespace {

using geodesy::LocalFrame;
using geodesy::PlanePoint;

constexpr double kMostMetres = 200'000.0;
constexpr double kMostLatitude = 89.0;
constexpr double kMostLongitudes = 180.0;
constexpr double kNearestToPole = 89.9; ///< a result that comes nearer is refused: it might enclose the pole
constexpr double kSliverMetres = 1e-4;

bool isGap(GeosContext& context, const model::Ring& hole) {
    if (meanWidth(asPlaneRing(hole)) > kSliverMetres)
        return false;
    const auto surface = toGeos(context, model::Polygon{hole, {}});
    const auto across = context.own(GEOSMinimumWidth_r(context.handle(), surface.get()), "offset");
    double metres = 0.0;
    if (!GEOSGeomGetLength_r(context.handle(), across.get(), &metres))
        context.fail("offset");
    return metres <= kGapMetres;
}

} // namespace

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
            kLargestRadiusMetres * kRadiansPerDegree * ((north - south) + (east - west) * widestBetween(south, north)) /
                2.0,
            std::max(std::abs(south), std::abs(north))};
}

OffsetPlan planFor(double distance, Side side, std::span<const Path> paths, const Extent& extent, double hull) {
    const double reach = extent.radius + 1.01 * distance;
    const double scale = LocalFrame::scaleError(Length::metres(reach));
    const double latitude = extent.latitude + 1.01 * distance / (kLeastRadiusMetres * kRadiansPerDegree);
    if (latitude > kNearestToPole)
        throw Fault{phrase("core", "The distance reaches to the pole."),
                    phrase("core", "longitude %1, latitude %2")(units::shortest(extent.middle.lon),
                                                                units::shortest(extent.middle.lat)),
                    phrase("core", "Give a smaller distance.")};
    std::optional<OffsetPlan> best;
    double fewest = HUGE_VAL;
    for (const std::size_t corners : {72, 96, 120, 144, 192, 240}) {
        const double arcs = 1.0 / std::cos(std::numbers::pi / static_cast<double>(corners)) - 1.0;
        const double left = 0.00099 - arcs - 1.01 * (scale + hull / distance);
        if (left < 4e-6)
            continue;
        OffsetPlan plan;
        plan.corners = corners;
        // Edges part four times: in the input, in the result, and both are made up for.
        plan.edgeParting = left / 4.0 * distance + 0.0004;
        plan.curvature = curvatureWithin(latitude, reach);
        const double count = static_cast<double>(corners);
        double total = count * static_cast<double>(plan.pieces(2.0 * std::numbers::pi * distance / count));
        for (const auto& path : paths)
            for (std::size_t i = 0; i < path.edgeCount(); ++i)
                total += static_cast<double>(plan.pieces(lengthAtMost(path.corners[i], path.end(i))));
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

PlaneRing planeRing(const LocalFrame& frame, const Path& path, const OffsetPlan& plan) {
    std::vector<model::Position> places;
    places.reserve(path.corners.size());
    for (std::size_t i = 0; i < path.corners.size(); ++i) {
        places.push_back(path.corners[i]);
        if (i >= path.edgeCount())
            continue;
        const auto &a = path.corners[i], &b = path.end(i);
        const std::size_t pieces = plan.pieces(lengthAtMost(a, b));
        for (std::size_t k = 1; k < pieces; ++k) {
            const double t = static_cast<double>(k) / static_cast<double>(pieces);
            places.push_back({std::lerp(a.lon, b.lon, t), std::lerp(a.lat, b.lat, t)});
        }
    }
    return frame.toPlane(places);
}

model::Ring earthRing(const LocalFrame& frame, std::span<const PlanePoint> ring, const OffsetPlan& plan) {
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
    dropRepeats(corners);
    return result;
}

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

double meanWidth(const PlaneRing& ring) {
    double perimeter = 0.0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const auto &a = ring[i], &b = ring[(i + 1) % ring.size()];
        perimeter += std::hypot(b.x - a.x, b.y - a.y);
    }
    return perimeter > 0.0 ? 2.0 * std::abs(signedArea(ring)) / perimeter : 0.0;
}

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
            return orientation({a.x, a.y}, {b.x, b.y}, {point.x, point.y}) > 0;
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

Geometry unitedPieces(GeosContext& context, const std::vector<PlaneRing>& pieces) {
    model::MultiPolygon all;
    all.parts.reserve(pieces.size());
    for (const auto& piece : pieces)
        all.parts.push_back({asRing(piece), {}});
    const auto geometry = toGeos(context, all);
    const auto whole = context.own(GEOSUnaryUnionPrec_r(context.handle(), geometry.get(), kGridMetres), "offset");
    auto result = fromGeos(context, whole.get());
    for (auto& part : result.parts)
        std::erase_if(part.holes, [&](const model::Ring& hole) { return isGap(context, hole); });
    return toGeos(context, result);
}

model::MultiPolygon toEarth(GeosContext& context, const GEOSGeometry* plane, const LocalFrame& frame,
                            const OffsetPlan& plan, Side side) {
    return toEarth(fromGeos(context, plane), frame, plan, side);
}

model::MultiPolygon toEarth(const model::MultiPolygon& plane, const LocalFrame& frame, const OffsetPlan& plan,
                            Side side) {
    model::MultiPolygon result;
    for (const auto& part : plane.parts) {
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
    return madeValid(result, side);
}

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
        const auto steps = static_cast<std::size_t>(std::max(1.0, std::ceil(lengthAtMost(a, b) / (radius / 4.0))));
        for (std::size_t k = 1; k <= steps; ++k) {
            const double t = static_cast<double>(k) / static_cast<double>(steps);
            const model::Position next =
                k == steps ? b : model::Position{std::lerp(a.lon, b.lon, t), std::lerp(a.lat, b.lat, t)};
            const double w = std::min(west, next.lon), e = std::max(east, next.lon);
            const double s = std::min(south, next.lat), n = std::max(north, next.lat);
            const Path box{{{w, s}, {e, n}}, Chain::Open};
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

} // namespace fencewright::geometry::detail
