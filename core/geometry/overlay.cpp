#include "geometry/overlay.h"

#include "fault.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/geos_overlay.h"
#include "geometry/detail/separation.h"
#include "geometry/spatial_index.h"

#include <cmath>
#include <iterator>
#include <utility>
#include <vector>

namespace fencewright::geometry {
namespace {

using detail::Geometry;
using detail::GeosContext;
using detail::Noding;

/// All parts of the surfaces in one, brought to the same turn of longitude as the first that is not empty.
model::MultiPolygon gathered(std::span<const model::MultiPolygon> surfaces) {
    model::MultiPolygon all;
    double longitude = 0.0;
    for (const auto& surface : surfaces) {
        if (surface.empty())
            continue;
        if (all.empty())
            longitude = detail::middleLongitude(surface);
        auto turned = detail::turnedNear(surface, longitude);
        std::move(turned.parts.begin(), turned.parts.end(), std::back_inserter(all.parts));
    }
    return all;
}

Noding nodingFor(const model::MultiPolygon& polygons) {
    return detail::wellSeparated(polygons) ? Noding::Free : Noding::Grid;
}

/// Two surfaces ready for an overlay.
struct Pair {
    Noding noding;
    Geometry first, second;
};
Pair brought(GeosContext& context, const model::MultiPolygon& a, const model::MultiPolygon& b) {
    const double longitude = detail::middleLongitude(a);
    const auto first = detail::turnedNear(a, longitude), second = detail::turnedNear(b, longitude);
    auto all = first;
    all.parts.insert(all.parts.end(), second.parts.begin(), second.parts.end());
    const auto noding = nodingFor(all);
    return {noding, detail::validGeos(context, first, noding), detail::validGeos(context, second, noding)};
}

} // namespace

model::MultiPolygon united(std::span<const model::MultiPolygon> surfaces) {
    GeosContext context;
    const auto all = gathered(surfaces);
    const auto noding = nodingFor(all);
    auto whole = detail::validGeos(context, all, noding);
    // Parts that are a valid surface as they are may still meet on the grid: what one union has rounded lies a hair off
    // what another has left as it was.
    const auto count = static_cast<std::size_t>(GEOSGetNumGeometries_r(context.handle(), whole.get()));
    if (noding == Noding::Grid && count > 1 && count == all.parts.size()) {
        std::vector<Geometry> one;
        one.push_back(std::move(whole));
        whole = detail::united(context, std::move(one), "union", noding);
    }
    return detail::withoutSlivers(context, whole.get());
}

model::MultiPolygon difference(const model::MultiPolygon& surface, const model::MultiPolygon& removed) {
    GeosContext context;
    const auto [noding, from, what] = brought(context, surface, removed);
    const auto result = detail::less(context, from, what, "difference", noding);
    return detail::withoutSlivers(context, result.get());
}

model::MultiPolygon intersection(const model::MultiPolygon& a, const model::MultiPolygon& b) {
    GeosContext context;
    const auto [noding, first, second] = brought(context, a, b);
    const auto result = detail::common(context, first, second, "intersection", noding);
    return detail::withoutSlivers(context, result.get());
}

model::MultiPolygon cutAtAntimeridian(const model::MultiPolygon& surface) {
    GeosContext context;
    model::MultiPolygon result;
    const auto whole = detail::validGeos(context, surface);
    const auto box = boxOf(surface);
    if (box.empty())
        return result;
    if (box.minX >= -180.0 && box.maxX <= 180.0)
        return detail::withoutSlivers(context, whole.get());
    const auto firstTurn = std::floor((box.minX + 180.0) / 360.0);
    const auto lastTurn = std::ceil((box.maxX - 180.0) / 360.0);
    if (!(lastTurn - firstTurn <= 16.0))
        throw Fault{phrase("core", "The surface reaches over more than sixteen turns of longitude."), "",
                    phrase("core", "Check the longitudes of its corners.")};
    for (double turn = firstTurn; turn <= lastTurn; turn += 1.0) {
        const double west = -180.0 + 360.0 * turn, east = 180.0 + 360.0 * turn;
        const double south = box.minY - 1.0, north = box.maxY + 1.0;
        const model::Polygon strip{{{{west, south}, {east, south}, {east, north}, {west, north}}, false}, {}};
        const auto window = detail::toGeos(context, strip);
        const auto part = detail::common(context, whole, window, "cut at the antimeridian");
        auto cut = detail::withoutSlivers(context, part.get());
        const auto bring = [&](model::Ring& ring) {
            for (auto& corner : ring.corners)
                corner.lon -= 360.0 * turn;
        };
        for (auto& polygon : cut.parts) {
            bring(polygon.shell);
            for (auto& hole : polygon.holes)
                bring(hole);
            result.parts.push_back(std::move(polygon));
        }
    }
    return result;
}

} // namespace fencewright::geometry
