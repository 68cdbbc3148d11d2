#include "geometry/containment.h"

#include "geodesy/geodesic.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fencewright::geometry {

using detail::GeosContext;

struct PreparedSurface::Parts {
    GeosContext context;
    double longitude = 0.0;
    detail::Geometry surface;
    detail::PreparedGeometry prepared;
};

PreparedSurface::PreparedSurface(const model::MultiPolygon& surface) : m_parts{std::make_unique<Parts>()} {
    m_parts->longitude = detail::middleLongitude(surface);
    m_parts->surface = detail::validGeos(m_parts->context, detail::turnedNear(surface, m_parts->longitude));
    m_parts->prepared = detail::PreparedGeometry{GEOSPrepare_r(m_parts->context.handle(), m_parts->surface.get()),
                                                 {m_parts->context.handle()}};
}
PreparedSurface::~PreparedSurface() = default;
PreparedSurface::PreparedSurface(PreparedSurface&&) noexcept = default;
PreparedSurface& PreparedSurface::operator=(PreparedSurface&&) noexcept = default;

bool PreparedSurface::contains(model::Position place) const {
    auto& context = m_parts->context;
    const auto point = context.own(GEOSGeom_createPointFromXY_r(context.handle(), place.lon, place.lat), "containment");
    return context.answer(GEOSPreparedCovers_r(context.handle(), m_parts->prepared.get(), point.get()), "containment");
}

bool PreparedSurface::contains(const model::MultiPolygon& inner) const {
    if (inner.empty())
        return true;
    auto& context = m_parts->context;
    const auto other = detail::validGeos(context, detail::turnedNear(inner, m_parts->longitude));
    return context.answer(GEOSPreparedCovers_r(context.handle(), m_parts->prepared.get(), other.get()), "containment");
}

bool contains(const model::MultiPolygon& outer, const model::MultiPolygon& inner) {
    return PreparedSurface{outer}.contains(inner);
}
bool contains(const model::MultiPolygon& surface, model::Position place) {
    return PreparedSurface{surface}.contains(place);
}
bool touches(const model::MultiPolygon& a, const model::MultiPolygon& b) {
    GeosContext context;
    const double longitude = detail::middleLongitude(a);
    const auto first = detail::validGeos(context, detail::turnedNear(a, longitude));
    const auto second = detail::validGeos(context, detail::turnedNear(b, longitude));
    return context.answer(GEOSIntersects_r(context.handle(), first.get(), second.get()), "containment");
}
bool sameArea(const model::MultiPolygon& a, const model::MultiPolygon& b) { return contains(a, b) && contains(b, a); }

std::optional<model::Position> labelPlace(const model::MultiPolygon& surface) {
    const auto largest = std::max_element(surface.parts.begin(), surface.parts.end(), [](const auto& a, const auto& b) {
        return geodesy::measure(a).area < geodesy::measure(b).area;
    });
    if (largest == surface.parts.end())
        return std::nullopt;
    GeosContext context;
    // Stretched so that a degree is as long both ways: the widest place on the map is meant.
    const auto box = boxOf(*largest);
    const double squeeze = std::max(0.01, std::cos((box.minY + box.maxY) / 2.0 * std::numbers::pi / 180.0));
    auto stretched = *largest;
    const auto stretch = [&](model::Ring& ring) {
        for (auto& corner : ring.corners)
            corner.lon *= squeeze;
    };
    stretch(stretched.shell);
    std::for_each(stretched.holes.begin(), stretched.holes.end(), stretch);
    const auto geometry = detail::validGeos(context, model::MultiPolygon{{stretched}});
    if (GEOSisEmpty_r(context.handle(), geometry.get()) == 1)
        return std::nullopt;
    const double tolerance = std::max({(box.maxX - box.minX) * squeeze, box.maxY - box.minY, 1e-9}) / 200.0;
    const auto line = context.own(GEOSMaximumInscribedCircle_r(context.handle(), geometry.get(), tolerance),
                                  "search of a place for a label");
    const auto centre =
        context.own(GEOSGeomGetStartPoint_r(context.handle(), line.get()), "search of a place for a label");
    model::Position place;
    if (!GEOSGeomGetX_r(context.handle(), centre.get(), &place.lon) ||
        !GEOSGeomGetY_r(context.handle(), centre.get(), &place.lat))
        context.fail("search of a place for a label");
    place.lon /= squeeze;
    return place;
}

} // namespace fencewright::geometry
