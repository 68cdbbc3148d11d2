#include "geometry/simplify.h"

#include "fault.h"
#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/made_valid.h"
#include "geometry/detail/soundness.h"
#include "geometry/detail/thinning.h"
#include "geometry/overlay.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace fencewright::geometry {
namespace {

using detail::GeosContext;
using model::MultiPolygon;
using model::Position;

bool keepsSide(const MultiPolygon& result, const MultiPolygon& surface, Side side) {
    if (!detail::requireExamined(result, "simplification"))
        return false;
    return side == Side::Grow ? contains(result, surface) : contains(surface, result);
}

Simplified withCost(MultiPolygon result, const MultiPolygon& surface, Side side) {
    const double before = geodesy::measure(surface).area.inSquareMetres();
    const double after = geodesy::measure(result).area.inSquareMetres();
    return {std::move(result), Area::squareMetres(std::max(0.0, side == Side::Grow ? after - before : before - after))};
}

/// A triangle around a convex part of few corners: over one of its edges, as high and as wide as its box there.
/// Far from the least one, but right for any shape, and only asked for where steps of thinning come to no end.
model::Polygon triangleAround(const model::Polygon& part) {
    const auto& corners = part.shell.corners;
    const auto box = boxOf(part);
    const double squeeze = std::cos((box.minY + box.maxY) / 2.0 * std::numbers::pi / 180.0);
    std::optional<std::pair<double, model::Polygon>> best;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const auto &a = corners[i], &b = corners[(i + 1) % corners.size()];
        const double ux = (b.lon - a.lon) * squeeze, uy = b.lat - a.lat, length = std::hypot(ux, uy);
        double least = HUGE_VAL, most = -HUGE_VAL, lowest = HUGE_VAL, highest = -HUGE_VAL;
        for (const auto& corner : corners) {
            const double x = (corner.lon - a.lon) * squeeze, y = corner.lat - a.lat;
            const double along = (x * ux + y * uy) / length, across = (ux * y - uy * x) / length;
            least = std::min(least, along);
            most = std::max(most, along);
            lowest = std::min(lowest, across);
            highest = std::max(highest, across);
        }
        const double width = (most - least) * 1.000001 + 1e-12, height = (highest - lowest) * 1.000001 + 1e-12;
        const auto place = [&](double along, double across) {
            return Position{a.lon + (along * ux - across * uy) / length / squeeze,
                            a.lat + (along * uy + across * ux) / length};
        };
        const double middle = (least + most) / 2.0, base = lowest - 1e-7 * height - 1e-13;
        const model::Polygon triangle{
            {{place(middle - width, base), place(middle + width, base), place(middle, base + 2.0 * height)}, false},
            {}};
        if (!best || width * height < best->first)
            best = {width * height, triangle};
    }
    return best->second;
}

model::Polygon hullOf(const model::Polygon& part) {
    GeosContext context;
    const auto geometry = detail::toGeos(context, part);
    const auto hull = context.own(GEOSConvexHull_r(context.handle(), geometry.get()), "convex hull");
    const auto parts = detail::fromGeos(context, hull.get()).parts;
    return parts.empty() ? part : parts.front();
}

/// A convex ring moved out by more than the rounding of crossing points, which a union would take off it.
model::Polygon nudgedOutward(model::Polygon convex) {
    constexpr double kDegrees = 1e-12, kLongestMitre = 1e5;
    const auto corners = convex.shell.corners; // counter-clockwise
    const std::size_t count = corners.size();
    const auto normal = [&](std::size_t i) {
        const auto &a = corners[i % count], &b = corners[(i + 1) % count];
        const double length = std::hypot(b.lon - a.lon, b.lat - a.lat);
        return Position{(b.lat - a.lat) / length, (a.lon - b.lon) / length};
    };
    for (std::size_t i = 0; i < count; ++i) {
        const auto before = normal(i + count - 1), after = normal(i);
        const Position middle{before.lon + after.lon, before.lat + after.lat};
        // Both edges move by kDegrees where the corner moves by 2 kDegrees / |middle|2 along it.
        const double square = middle.lon * middle.lon + middle.lat * middle.lat;
        const double factor = kDegrees * std::min(2.0 / square, kLongestMitre / std::sqrt(square));
        convex.shell.corners[i].lon += factor * middle.lon;
        convex.shell.corners[i].lat += factor * middle.lat;
    }
    return convex;
}

/// Each part as a convex ring of few corners; parts that then meet are united, and the union treated likewise.
MultiPolygon coarselyGrown(MultiPolygon surface, std::size_t corners) {
    while (true) {
        const std::size_t each = std::max<std::size_t>(3, corners / std::max<std::size_t>(1, surface.parts.size()));
        std::vector<MultiPolygon> parts;
        for (const auto& part : surface.parts) {
            const MultiPolygon hull{{hullOf(part)}};
            auto few = detail::thinned(hull, {HUGE_VAL, each, false}, Side::Grow);
            if (cornerCount(few) > each || !keepsSide(few, hull, Side::Grow))
                few = {{triangleAround(hull.parts.front())}};
            if (surface.parts.size() > 1)
                few.parts.front() = nudgedOutward(std::move(few.parts.front()));
            parts.push_back(std::move(few));
        }
        auto result = united(parts);
        if (cornerCount(result) <= corners || result.parts.size() == surface.parts.size())
            return result;
        surface = std::move(result);
    }
}

/// A triangle of corners of the surface that lies in it: the largest of a triangulation. Nothing where the library
/// cannot triangulate it.
MultiPolygon triangleOfCorners(const MultiPolygon& surface) {
    GeosContext context;
    const auto geometry = detail::toGeos(context, surface);
    const detail::Geometry triangles{GEOSConstrainedDelaunayTriangulation_r(context.handle(), geometry.get()),
                                     {context.handle()}};
    MultiPolygon best;
    if (!triangles)
        return best;
    Area area;
    for (auto& triangle : detail::fromGeos(context, triangles.get()).parts) {
        const Area its = geodesy::measure(triangle).area;
        if (its > area) {
            area = its;
            best = {{std::move(triangle)}};
        }
    }
    return best;
}

/// A triangle around the widest place of the surface that lies in it, as large as halving finds it.
MultiPolygon triangleAtWidestPlace(const MultiPolygon& surface) {
    const auto middle = labelPlace(surface);
    if (!middle)
        return {};
    const auto box = boxOf(surface);
    const double squeeze = std::cos(middle->lat * std::numbers::pi / 180.0);
    const PreparedSurface prepared{surface};
    for (double size = box.maxY - box.minY; size > 1e-13; size /= 1.25) {
        const double half = size * 0.8660254037844386 / squeeze; // of the side of a triangle with circumradius 1
        const MultiPolygon triangle{{{{{{middle->lon - half, middle->lat - size / 2.0},
                                        {middle->lon + half, middle->lat - size / 2.0},
                                        {middle->lon, middle->lat + size}},
                                       false},
                                      {}}}};
        if (prepared.contains(triangle))
            return triangle;
    }
    return {};
}

[[noreturn]] void refuseBudget(std::size_t corners, std::size_t needed) {
    throw Fault{phrase("core", "The outline cannot be drawn with %1 corners.")(corners), "",
                phrase("core", "Allow at least %1.")(needed)};
}

} // namespace

std::size_t cornerCount(const MultiPolygon& surface) {
    std::size_t count = 0;
    for (const auto& part : surface.parts) {
        count += part.shell.corners.size();
        for (const auto& hole : part.holes)
            count += hole.corners.size();
    }
    return count;
}

Simplified simplified(const MultiPolygon& surface, Length tolerance, Side side) {
    const auto whole = detail::madeValid(surface, side);
    // The check has never been seen to fail; where it does, less is asked for.
    for (double metres = tolerance.inMetres(); metres > tolerance.inMetres() / 1000.0; metres /= 4.0) {
        auto result = detail::thinned(whole, {metres, 0, false}, side);
        if (keepsSide(result, surface, side))
            return withCost(std::move(result), surface, side);
    }
    return withCost(whole, surface, side);
}

Simplified withinBudget(const MultiPolygon& surface, std::size_t corners, Side side) {
    const auto whole = detail::madeValid(surface, side);
    if (cornerCount(whole) <= corners)
        return withCost(whole, surface, side);
    const std::size_t needed = side == Side::Grow ? 3 * whole.parts.size() : 3;
    if (corners < needed)
        refuseBudget(corners, needed);
    auto result = detail::thinned(whole, {HUGE_VAL, corners, true}, side);
    if (cornerCount(result) <= corners && keepsSide(result, surface, side))
        return withCost(std::move(result), surface, side);
    const auto fits = [&] {
        return !result.empty() && cornerCount(result) <= corners && keepsSide(result, surface, side);
    };
    // Rings stand in each other's way.
    result = side == Side::Grow ? coarselyGrown(whole, corners) : triangleOfCorners(whole);
    if (!fits() && side == Side::Shrink)
        result = triangleAtWidestPlace(whole);
    if (!fits())
        refuseBudget(corners, cornerCount(whole));
    return withCost(std::move(result), surface, side);
}

} // namespace fencewright::geometry
