#include "geometry/offset.h"

#include "geodesy/local_frame.h"
#include "geometry/detail/beside_line.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/made_valid.h"
#include "geometry/detail/minkowski.h"
#include "geometry/detail/offset_plan.h"
#include "geometry/detail/soundness.h"
#include "geometry/detail/winding.h"
#include "geometry/overlay.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>
#include <iterator>
#include <utility>
#include <vector>

namespace fencewright::geometry {
namespace {

using detail::asRing;
using detail::Extent;
using detail::extentOf;
using detail::GeosContext;
using detail::kFrameReach;
using detail::kGridMetres;
using detail::meanWidth;
using detail::Path;
using detail::PlaneRing;
using detail::requireNarrow;
using detail::requireUsable;
using geodesy::LocalFrame;

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

std::vector<Path> boundaryOf(const model::MultiPolygon& surface) {
    std::vector<Path> paths;
    const auto add = [&](const model::Ring& ring) { paths.push_back({ring.corners, detail::Chain::Closed}); };
    for (const auto& part : surface.parts) {
        add(part.shell);
        std::for_each(part.holes.begin(), part.holes.end(), add);
    }
    return paths;
}

/// What becomes of a boundary's sweep: it is the result, or is added to the surface, or taken off it.
enum class Use { Alone, Added, TakenOff };

/// What it costs to take the convex hull in place of the geometry, where that is small beside the distance: a place at
/// distance d from the middle of a chord of length 2 r lies sqrt(d2 + r2), at most r2 / 2 d more, from its nearer end.
double hullCost(const Extent& extent, double distance) {
    return 1.01 * extent.radius * extent.radius / (2.0 * distance);
}

/// The surface from its rings in the plane, in the order of boundaryOf(). Turns the rings so that the surface lies to
/// their left.
model::MultiPolygon inPlane(const model::MultiPolygon& surface, std::vector<PlaneRing>& rings) {
    model::MultiPolygon plane;
    std::size_t next = 0;
    const auto take = [&](bool hole) {
        auto& ring = rings[next++];
        if ((detail::signedArea(ring) > 0.0) == hole)
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
    const auto plan = detail::planFor(distance, sweepSide, paths, extent, byHull ? hull : 0.0);
    if (plan.radius <= 0.0)
        return use == Use::Alone ? model::MultiPolygon{} : surface;
    const LocalFrame frame{extent.middle};
    const auto disc = plan.disc(sweepSide);

    if (byHull) {
        PlaneRing points;
        for (const auto& path : paths) {
            const auto ring = detail::planeRing(frame, path, plan);
            points.insert(points.end(), ring.begin(), ring.end());
        }
        const auto ring = detail::convexHull(std::move(points));
        const auto sum = ring.size() < 3 ? detail::straightSum(ring, disc) : detail::convexSum(ring, disc);
        if (sum)
            return detail::madeValid({{{detail::earthRing(frame, *sum, plan), {}}}}, side);
    }
    GeosContext context;
    if (paths.size() == 1 && use != Use::TakenOff) {
        auto line = detail::planeRing(frame, paths.front(), plan);
        auto sum = use == Use::Alone ? detail::straightSum(line, disc) : detail::convexSum(line, disc);
        if (!sum && use == Use::Added) {
            std::reverse(line.begin(), line.end());
            sum = detail::convexSum(line, disc);
        }
        if (sum)
            return detail::madeValid({{{detail::earthRing(frame, *sum, plan), {}}}}, side);
    }

    std::vector<PlaneRing> rings;
    for (const auto& path : paths)
        rings.push_back(detail::planeRing(frame, path, plan));
    const auto plane = use == Use::Alone ? model::MultiPolygon{} : inPlane(surface, rings);
    const auto wanted = wantedSide(use, plane, rings);
    if (wanted == detail::Wanted::Right && rings.size() == 1) // inPlane() has turned it counter-clockwise
        if (const auto line = detail::convolution(rings.front(), disc))
            if (const auto sum = detail::woundRound(*line))
                return detail::toEarth(*sum, frame, plan, side);
    std::vector<PlaneRing> pieces;
    for (std::size_t i = 0; i < rings.size(); ++i) {
        auto swept = detail::sweep(rings[i], paths[i].chain, disc, wanted);
        std::move(swept.begin(), swept.end(), std::back_inserter(pieces));
    }
    auto swept = detail::unitedPieces(context, pieces);
    if (use != Use::Alone) {
        const auto inside = detail::validGeos(context, plane);
        swept = context.own(use == Use::Added
                                ? GEOSUnionPrec_r(context.handle(), inside.get(), swept.get(), kGridMetres)
                                : GEOSDifferencePrec_r(context.handle(), inside.get(), swept.get(), kGridMetres),
                            "offset");
    }
    return detail::toEarth(context, swept.get(), frame, plan, side);
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
        detail::cut(path, std::min(reach - distance, kFrameReach / 2.0), pieces);
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

model::MultiPolygon grown(const model::LineString& line, Length left, Length right, Side side) {
    requireUsable(left);
    requireUsable(right);
    if (left == right)
        return grown(line, left, side);
    const auto [narrow, wide] = std::minmax(left, right);
    const bool sided = std::adjacent_find(line.begin(), line.end(), std::not_equal_to{}) != line.end();
    if (!sided)
        return grown(line, side == Side::Grow ? wide : narrow, side);
    for (const auto& corner : line)
        requireUsable(corner);
    requireNarrow(boxOf(line));
    const auto wider = left > right ? detail::Hand::Left : detail::Hand::Right;
    const auto narrower = left > right ? detail::Hand::Right : detail::Hand::Left;
    std::vector<model::MultiPolygon> parts;
    if (side == Side::Grow) {
        parts.push_back(detail::sweptBeside(line, wider, wide.inMetres()));
        parts.push_back(grown(line, narrow, side));
    } else {
        // What is taken off is grown, so that what is left is within the wider width, and on no narrower side.
        parts.push_back(difference(grown(line, wide, side), detail::sweptBeside(line, narrower, wide.inMetres())));
        // A strip that is thinner than what the sweep takes too much would lie apart.
        if (narrow.inMetres() > detail::leastBeside(wide.inMetres()))
            parts.push_back(grown(line, narrow, side));
    }
    return united(parts);
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
