#include "geometry/cutting.h"

#include "fault.h"
#include "geodesy/geodesic.h"
#include "geometry/detail/common_region.h"
#include "geometry/detail/corner_mending.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/made_valid.h"
#include "geometry/detail/soundness.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace fencewright::geometry {
namespace {

using detail::ExactSurface;
using detail::Geometry;
using detail::GeosContext;
using model::MultiPolygon;
using model::Polygon;

constexpr char kOperation[] = "cutting";
constexpr double kEndReach = 1e-9;

Geometry lineOf(GeosContext& context, const model::LineString& line) {
    std::vector<double> numbers;
    for (const auto& place : line) {
        numbers.push_back(place.lon);
        numbers.push_back(place.lat);
    }
    auto* sequence =
        GEOSCoordSeq_copyFromBuffer_r(context.handle(), numbers.data(), static_cast<unsigned>(line.size()), 0, 0);
    if (!sequence)
        context.fail(kOperation);
    return context.own(GEOSGeom_createLineString_r(context.handle(), sequence), kOperation);
}

/// An end that was snapped to the boundary moves on, out of the surface.
model::Position outside(const ExactSurface& surface, const model::Position& end, const model::Position& before) {
    if (surface.locate(end) == ExactSurface::Location::Outside)
        return end;
    const double length = std::hypot(end.lon - before.lon, end.lat - before.lat);
    for (const double beyond : {kEndReach / 100.0, kEndReach / 10.0, kEndReach}) {
        const model::Position farther{end.lon + (end.lon - before.lon) / length * beyond,
                                      end.lat + (end.lat - before.lat) / length * beyond};
        if (surface.locate(farther) == ExactSurface::Location::Outside)
            return farther;
    }
    throw Fault{phrase("core", "The line ends inside."), "",
                phrase("core", "Let it begin and end outside of what it is to cut.")};
}

model::LineString readied(const ExactSurface& surface, model::LineString line, double longitude) {
    const bool finite = std::all_of(line.begin(), line.end(), [](const model::Position& place) {
        return std::isfinite(place.lon) && std::isfinite(place.lat);
    });
    line.erase(std::unique(line.begin(), line.end()), line.end());
    if (!finite || line.size() < 2)
        throw Fault{phrase("core", "The line to cut along needs two different places."), "",
                    phrase("core", "Set the next place of it.")};
    const Box box = boxOf(line);
    const double turn = 360.0 * std::round((longitude - (box.minX + box.maxX) / 2.0) / 360.0);
    if (turn != 0.0)
        for (auto& place : line)
            place.lon += turn;
    line.front() = outside(surface, line.front(), line[1]);
    line.back() = outside(surface, line.back(), line[line.size() - 2]);
    return line;
}

/// The faces that lines enclose, as far as they lie in the surface.
MultiPolygon facesIn(GeosContext& context, const ExactSurface& surface, const Geometry& lines) {
    const GEOSGeometry* given = lines.get();
    const auto faces = context.own(GEOSPolygonize_r(context.handle(), &given, 1), kOperation);
    MultiPolygon inside;
    const int count = GEOSGetNumGeometries_r(context.handle(), faces.get());
    for (int i = 0; i < count; ++i) {
        const auto* face = GEOSGetGeometryN_r(context.handle(), faces.get(), i);
        const auto inner = context.own(GEOSPointOnSurface_r(context.handle(), face), kOperation);
        model::Position place;
        if (!GEOSGeomGetX_r(context.handle(), inner.get(), &place.lon) ||
            !GEOSGeomGetY_r(context.handle(), inner.get(), &place.lat))
            context.fail(kOperation);
        if (surface.locate(place) != ExactSurface::Location::Inside)
            continue;
        auto pieces = detail::withoutSlivers(context, face);
        std::move(pieces.parts.begin(), pieces.parts.end(), std::back_inserter(inside.parts));
    }
    return inside;
}

bool overlap(const std::vector<Polygon>& pieces) {
    std::vector<ExactSurface> exact;
    std::vector<Box> boxes;
    for (const auto& piece : pieces) {
        exact.emplace_back(MultiPolygon{{piece}});
        boxes.push_back(exact.back().box());
    }
    const SpatialIndex index{boxes};
    const ExactSurface nothing{MultiPolygon{}};
    for (std::size_t i = 0; i < pieces.size(); ++i)
        for (const auto other : index.meeting(boxes[i]))
            if (other > i && detail::anyRegion({&exact[i], &exact[other], &nothing},
                                               [](const std::array<bool, 3>& in) { return in[0] && in[1]; }))
                return true;
    return false;
}

bool isProven(const ExactSurface& surface, const std::vector<Polygon>& pieces, Side side) {
    const bool sound = std::all_of(pieces.begin(), pieces.end(), [](const Polygon& piece) {
        return detail::requireExamined(MultiPolygon{{piece}}, kOperation);
    });
    if (!sound || overlap(pieces))
        return false;
    const ExactSurface together = ExactSurface::joined(pieces), nothing{MultiPolygon{}};
    return !detail::anyRegion({&surface, &together, &nothing}, [side](const std::array<bool, 3>& in) {
        return side == Side::Grow ? in[0] && !in[1] : in[1] && !in[0];
    });
}

} // namespace

std::vector<Polygon> cutAlong(const MultiPolygon& surface, const model::LineString& line, Side side) {
    const auto whole = detail::madeValid(surface, side);
    const ExactSurface exact{whole};
    const auto cut = readied(exact, line, detail::middleLongitude(whole));

    GeosContext context;
    std::vector<Geometry> lines;
    for (const auto& part : whole.parts) {
        lines.push_back(detail::closedLine(context, part.shell));
        for (const auto& hole : part.holes)
            lines.push_back(detail::closedLine(context, hole));
    }
    lines.push_back(lineOf(context, cut));
    const auto noded = detail::noded(context, detail::collected(context, std::move(lines)), kOperation);
    auto pieces = facesIn(context, exact, noded);
    if (pieces.parts.size() <= whole.parts.size())
        throw NotCut{};

    const detail::NearCorners given{detail::cornersOf(std::array{whole})}, turns{cut};
    const auto wrong = side == Side::Grow ? ExactSurface::Location::Inside : ExactSurface::Location::Outside;
    pieces = detail::withCornersMoved(std::move(pieces), [&](const model::Position& corner) {
        if (const auto was = given.near(corner))
            return *was;
        const model::Position place = turns.near(corner).value_or(corner);
        if (detail::edgesBy(exact, place).empty())
            return place;
        return detail::placeNear(place, [&](const model::Position& one) { return exact.locate(one) != wrong; })
            .value_or(place);
    });
    if (!isProven(exact, pieces.parts, side))
        throw Fault{phrase("core", "The surface cannot be cut there so that nothing of it is lost or added."), "",
                    phrase("core", "Move the line a little, away from the corners and edges beside it.")};
    std::vector<std::pair<Area, std::size_t>> order;
    for (std::size_t i = 0; i < pieces.parts.size(); ++i)
        order.emplace_back(geodesy::measure(pieces.parts[i]).area, i);
    std::sort(order.begin(), order.end(), [](const auto& a, const auto& b) {
        return a.first > b.first || (a.first == b.first && a.second < b.second);
    });
    std::vector<Polygon> result;
    for (const auto& [area, number] : order)
        result.push_back(std::move(pieces.parts[number]));
    return result;
}

} // namespace fencewright::geometry
