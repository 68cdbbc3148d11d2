#include "geometry/detail/geos_overlay.h"

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

} // namespace

Geometry noded(GeosContext& context, const Geometry& lines, std::string_view operation) {
    return context.own(GEOSUnaryUnionPrec_r(context.handle(), lines.get(), kGridDegrees), operation);
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

Geometry united(GeosContext& context, std::vector<Geometry> parts, std::string_view operation) {
    const auto all = collected(context, std::move(parts));
    return surfacesOf(context, context.own(GEOSUnaryUnionPrec_r(context.handle(), all.get(), kGridDegrees), operation));
}

Geometry united(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation) {
    return surfacesOf(context,
                      context.own(GEOSUnionPrec_r(context.handle(), a.get(), b.get(), kGridDegrees), operation));
}

Geometry common(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation) {
    return surfacesOf(context,
                      context.own(GEOSIntersectionPrec_r(context.handle(), a.get(), b.get(), kGridDegrees), operation));
}

Geometry less(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation) {
    return surfacesOf(context,
                      context.own(GEOSDifferencePrec_r(context.handle(), a.get(), b.get(), kGridDegrees), operation));
}

Geometry either(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation) {
    return surfacesOf(
        context, context.own(GEOSSymDifferencePrec_r(context.handle(), a.get(), b.get(), kGridDegrees), operation));
}

} // namespace fencewright::geometry::detail
