#include "geometry/containment.h"

#include "geodesy/geodesic.h"
#include "geometry/detail/exact_surface.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/soundness.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fencewright::geometry {

using detail::ExactSurface;
using detail::GeosContext;

namespace {

/// Exact where the surface is valid as it is written; else what overlay makes of it.
ExactSurface exact(const model::MultiPolygon& surface) {
    if (detail::requireExamined(surface, "test of containment"))
        return ExactSurface{surface};
    GeosContext context;
    return ExactSurface{detail::fromGeos(context, detail::validGeos(context, surface).get())};
}

} // namespace

struct PreparedSurface::Parts {
    double longitude;
    ExactSurface surface;
};

PreparedSurface::PreparedSurface(const model::MultiPolygon& surface) {
    const double longitude = detail::middleLongitude(surface);
    m_parts = std::make_unique<Parts>(Parts{longitude, exact(detail::turnedNear(surface, longitude))});
}
PreparedSurface::~PreparedSurface() = default;
PreparedSurface::PreparedSurface(PreparedSurface&&) noexcept = default;
PreparedSurface& PreparedSurface::operator=(PreparedSurface&&) noexcept = default;

bool PreparedSurface::contains(model::Position place) const {
    place.lon += 360.0 * std::round((m_parts->longitude - place.lon) / 360.0);
    return m_parts->surface.locate(place) != ExactSurface::Location::Outside;
}

bool PreparedSurface::contains(const model::MultiPolygon& inner) const {
    return m_parts->surface.covers(exact(detail::turnedNear(inner, m_parts->longitude)));
}

bool contains(const model::MultiPolygon& outer, const model::MultiPolygon& inner) {
    return inner.empty() || PreparedSurface{outer}.contains(inner);
}

bool contains(const model::MultiPolygon& surface, model::Position place) {
    return PreparedSurface{surface}.contains(place);
}

bool PreparedSurface::touches(const model::MultiPolygon& other) const {
    const auto turned = detail::turnedNear(other, m_parts->longitude);
    return m_parts->surface.box().meets(boxOf(turned)) && m_parts->surface.meets(exact(turned));
}

bool touches(const model::MultiPolygon& a, const model::MultiPolygon& b) {
    return !a.empty() && !b.empty() && PreparedSurface{a}.touches(b);
}

bool sameArea(const model::MultiPolygon& a, const model::MultiPolygon& b) {
    const double longitude = detail::middleLongitude(a);
    const auto first = exact(detail::turnedNear(a, longitude));
    const auto second = exact(detail::turnedNear(b, longitude));
    return first.covers(second) && second.covers(first);
}

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
