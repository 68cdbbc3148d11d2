#include "geometry/detail/geos_overlay.h"

#include "geometry/overlay.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <utility>

namespace fencewright::geometry::detail {

namespace {

/// Overlay leaves points and lines where surfaces only touch or thin ones collapse; the next overlay would refuse them.
Geometry surfacesOf(GeosContext& context, Geometry result) {
    const int type = GEOSGeomTypeId_r(context.handle(), result.get());
    if (type == GEOS_POLYGON || type == GEOS_MULTIPOLYGON)
        return result;
    std::vector<GEOSGeometry*> parts;
    const int count = type == GEOS_GEOMETRYCOLLECTION ? GEOSGetNumGeometries_r(context.handle(), result.get()) : 0;
    for (int i = 0; i < count; ++i) {
        const auto* part = GEOSGetGeometryN_r(context.handle(), result.get(), i);
        if (GEOSGeomTypeId_r(context.handle(), part) == GEOS_POLYGON)
            parts.push_back(GEOSGeom_clone_r(context.handle(), part));
    }
    return context.own(GEOSGeom_createCollection_r(context.handle(), GEOS_MULTIPOLYGON, parts.data(),
                                                   static_cast<unsigned>(parts.size())),
                       "gathering of surfaces");
}

/// The finest decimal grid on which the coordinates are whole numbers that a double holds with room to spare.
double gridFor(GeosContext& context, std::initializer_list<const GEOSGeometry*> geometries) {
    double greatest = 1.0;
    for (const auto* geometry : geometries) {
        double west = 0.0, south = 0.0, east = 0.0, north = 0.0;
        if (GEOSisEmpty_r(context.handle(), geometry) != 0 || !GEOSGeom_getXMin_r(context.handle(), geometry, &west) ||
            !GEOSGeom_getYMin_r(context.handle(), geometry, &south) ||
            !GEOSGeom_getXMax_r(context.handle(), geometry, &east) ||
            !GEOSGeom_getYMax_r(context.handle(), geometry, &north))
            continue;
        greatest = std::max({greatest, std::abs(west), std::abs(south), std::abs(east), std::abs(north)});
    }
    return std::pow(10.0, std::max(-12.0, std::ceil(std::log10(greatest)) - 15.0));
}

double areaOf(GeosContext& context, const GEOSGeometry* surface) {
    double area = 0.0;
    return GEOSArea_r(context.handle(), surface, &area) != 0 ? area : std::nan("");
}

/// Whether a free overlay of two surfaces, which the library may give grossly wrong, is one that their areas allow:
/// |a| + |b| = |a or b| + |a and b|, and |a or b| = |b| + |a less b|. The union is another walk over the same graph,
/// and counts differently what that has a wrong side of.
/// @param area  of the union, as the result of the overlay and the two areas have it.
bool agreesWithUnion(GeosContext& context, const Geometry& a, const Geometry& b, double area) {
    GEOSGeometry* const result = GEOSUnion_r(context.handle(), a.get(), b.get());
    if (!result)
        return false;
    const auto both = context.own(result, "union");
    double lengthA = 0.0, lengthB = 0.0;
    return GEOSLength_r(context.handle(), a.get(), &lengthA) != 0 &&
           GEOSLength_r(context.handle(), b.get(), &lengthB) != 0 &&
           std::abs(areaOf(context, both.get()) - area) <= kSliverWidthDegrees * (lengthA + lengthB);
}

} // namespace

Geometry noded(GeosContext& context, const Geometry& lines, std::string_view operation) {
    return context.own(GEOSUnaryUnionPrec_r(context.handle(), lines.get(), gridFor(context, {lines.get()})), operation);
}

Geometry copy(GeosContext& context, const GEOSGeometry* geometry) {
    return context.own(GEOSGeom_clone_r(context.handle(), geometry), "copying of a surface");
}

Geometry collected(GeosContext& context, std::vector<Geometry> parts) {
    std::vector<GEOSGeometry*> given;
    given.reserve(parts.size());
    for (auto& part : parts)
        given.push_back(part.release()); // the library takes them, whatever happens
    return context.own(GEOSGeom_createCollection_r(context.handle(), GEOS_GEOMETRYCOLLECTION, given.data(),
                                                   static_cast<unsigned>(given.size())),
                       "gathering of surfaces");
}

Geometry united(GeosContext& context, std::vector<Geometry> parts, std::string_view operation, Noding noding) {
    const auto all = collected(context, std::move(parts));
    auto* result = noding == Noding::Free
                       ? GEOSUnaryUnion_r(context.handle(), all.get())
                       : GEOSUnaryUnionPrec_r(context.handle(), all.get(), gridFor(context, {all.get()}));
    return surfacesOf(context, context.own(result, operation));
}

Geometry united(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation) {
    const double grid = gridFor(context, {a.get(), b.get()});
    return surfacesOf(context, context.own(GEOSUnionPrec_r(context.handle(), a.get(), b.get(), grid), operation));
}

Geometry common(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation, Noding noding) {
    if (noding == Noding::Free)
        if (GEOSGeometry* const free = GEOSIntersection_r(context.handle(), a.get(), b.get())) {
            auto result = surfacesOf(context, context.own(free, operation));
            if (agreesWithUnion(context, a, b,
                                areaOf(context, a.get()) + areaOf(context, b.get()) - areaOf(context, result.get())))
                return result;
        }
    const double grid = gridFor(context, {a.get(), b.get()});
    return surfacesOf(context,
                      context.own(GEOSIntersectionPrec_r(context.handle(), a.get(), b.get(), grid), operation));
}

Geometry less(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation, Noding noding) {
    if (noding == Noding::Free)
        if (GEOSGeometry* const free = GEOSDifference_r(context.handle(), a.get(), b.get())) {
            auto result = surfacesOf(context, context.own(free, operation));
            if (agreesWithUnion(context, a, b, areaOf(context, b.get()) + areaOf(context, result.get())))
                return result;
        }
    const double grid = gridFor(context, {a.get(), b.get()});
    return surfacesOf(context, context.own(GEOSDifferencePrec_r(context.handle(), a.get(), b.get(), grid), operation));
}

Geometry either(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation) {
    const double grid = gridFor(context, {a.get(), b.get()});
    return surfacesOf(context,
                      context.own(GEOSSymDifferencePrec_r(context.handle(), a.get(), b.get(), grid), operation));
}

} // namespace fencewright::geometry::detail
