#include "geometry/detail/geos_conversion.h"

#include "fault.h"
#include "geometry/detail/ring_reading.h"
#include "geometry/detail/soundness.h"
#include "geometry/overlay.h"
#include "geometry/spatial_index.h"
#include "units/number_notation.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace fencewright::geometry::detail {
namespace {

GEOSCoordSequence* sequenceOf(GeosContext& context, const model::Ring& ring) {
    requireFinite(ring);
    std::vector<double> numbers;
    numbers.reserve(2 * (ring.corners.size() + 1));
    for (const auto& corner : ring.corners) {
        numbers.push_back(corner.lon);
        numbers.push_back(corner.lat);
    }
    numbers.push_back(ring.corners.front().lon);
    numbers.push_back(ring.corners.front().lat);
    auto* sequence = GEOSCoordSeq_copyFromBuffer_r(context.handle(), numbers.data(),
                                                   static_cast<unsigned>(numbers.size() / 2), 0, 0);
    if (!sequence)
        context.fail("reading of a ring");
    return sequence;
}

Geometry ringOf(GeosContext& context, const model::Ring& ring) {
    return context.own(GEOSGeom_createLinearRing_r(context.handle(), sequenceOf(context, ring)), "reading of a ring");
}

double twiceSignedArea(const std::vector<model::Position>& corners) {
    // Relative to the first corner, so that digits are not lost far from the origin.
    double sum = 0.0;
    for (std::size_t i = 1; i + 1 < corners.size(); ++i) {
        const double ax = corners[i].lon - corners[0].lon, ay = corners[i].lat - corners[0].lat;
        const double bx = corners[i + 1].lon - corners[0].lon, by = corners[i + 1].lat - corners[0].lat;
        sum += ax * by - ay * bx;
    }
    return sum;
}

enum class Winding { CounterClockwise, Clockwise };

model::Ring ringFrom(GeosContext& context, const GEOSGeometry* ring, Winding winding) {
    const auto* sequence = GEOSGeom_getCoordSeq_r(context.handle(), ring);
    unsigned size = 0;
    if (!sequence || !GEOSCoordSeq_getSize_r(context.handle(), sequence, &size))
        context.fail("reading of a result");
    std::vector<double> numbers(std::size_t{2} * size);
    if (size && !GEOSCoordSeq_copyToBuffer_r(context.handle(), sequence, numbers.data(), 0, 0))
        context.fail("reading of a result");
    model::Ring result;
    result.corners.reserve(size);
    for (unsigned i = 0; i + 1 < size; ++i)
        result.corners.push_back({numbers[2 * i], numbers[2 * i + 1]});
    if ((twiceSignedArea(result.corners) < 0.0) == (winding == Winding::CounterClockwise))
        std::reverse(result.corners.begin(), result.corners.end());
    return result;
}

void addPolygons(GeosContext& context, const GEOSGeometry* geometry, model::MultiPolygon& result) {
    const int type = GEOSGeomTypeId_r(context.handle(), geometry);
    if (type == GEOS_POLYGON) {
        if (GEOSisEmpty_r(context.handle(), geometry) == 1)
            return;
        model::Polygon polygon;
        polygon.shell = ringFrom(context, GEOSGetExteriorRing_r(context.handle(), geometry), Winding::CounterClockwise);
        const int holes = GEOSGetNumInteriorRings_r(context.handle(), geometry);
        for (int i = 0; i < holes; ++i)
            polygon.holes.push_back(
                ringFrom(context, GEOSGetInteriorRingN_r(context.handle(), geometry, i), Winding::Clockwise));
        result.parts.push_back(std::move(polygon));
    } else if (type == GEOS_MULTIPOLYGON || type == GEOS_GEOMETRYCOLLECTION) {
        const int count = GEOSGetNumGeometries_r(context.handle(), geometry);
        for (int i = 0; i < count; ++i)
            addPolygons(context, GEOSGetGeometryN_r(context.handle(), geometry, i), result);
    }
}

/// The mean width of a long thin thing: area over half the perimeter.
double meanWidth(const model::Ring& ring) {
    double perimeter = 0.0;
    for (std::size_t i = 0; i < ring.corners.size(); ++i) {
        const auto& a = ring.corners[i];
        const auto& b = ring.corners[(i + 1) % ring.corners.size()];
        perimeter += std::hypot(b.lon - a.lon, b.lat - a.lat);
    }
    return perimeter > 0.0 ? std::abs(twiceSignedArea(ring.corners)) / perimeter : 0.0;
}

} // namespace

void requireFinite(const model::Ring& ring) {
    for (std::size_t i = 0; i < ring.corners.size(); ++i)
        if (!std::isfinite(ring.corners[i].lon) || !std::isfinite(ring.corners[i].lat))
            throw Fault{phrase("core", "A coordinate is not a finite number."), phrase("core", "corner %1")(i + 1),
                        phrase("core", "Correct or delete that corner.")};
}

Geometry toGeos(GeosContext& context, const model::Polygon& polygon) {
    if (polygon.shell.corners.size() < 3) {
        requireFinite(polygon.shell);
        return context.own(GEOSGeom_createEmptyPolygon_r(context.handle()), "reading of a polygon");
    }
    auto shell = ringOf(context, polygon.shell);
    std::vector<Geometry> holes;
    for (const auto& hole : polygon.holes)
        if (hole.corners.size() >= 3)
            holes.push_back(ringOf(context, hole));
    std::vector<GEOSGeometry*> given;
    for (auto& hole : holes)
        given.push_back(hole.release()); // GEOS takes them, whatever happens
    return context.own(
        GEOSGeom_createPolygon_r(context.handle(), shell.release(), given.data(), static_cast<unsigned>(given.size())),
        "reading of a polygon");
}

Geometry toGeos(GeosContext& context, const model::MultiPolygon& surface) {
    std::vector<Geometry> parts;
    for (const auto& part : surface.parts) {
        parts.push_back(toGeos(context, part));
        if (part.shell.corners.size() < 3)
            parts.pop_back();
    }
    std::vector<GEOSGeometry*> given;
    for (auto& part : parts)
        given.push_back(part.release());
    return context.own(GEOSGeom_createCollection_r(context.handle(), GEOS_MULTIPOLYGON, given.data(),
                                                   static_cast<unsigned>(given.size())),
                       "reading of a surface");
}

Geometry closedLine(GeosContext& context, const model::Ring& ring) {
    return context.own(GEOSGeom_createLineString_r(context.handle(), sequenceOf(context, ring)), "reading of a ring");
}

Geometry emptySurface(GeosContext& context) {
    return context.own(GEOSGeom_createEmptyPolygon_r(context.handle()), "reading of a surface");
}

model::MultiPolygon fromGeos(GeosContext& context, const GEOSGeometry* geometry) {
    model::MultiPolygon result;
    addPolygons(context, geometry, result);
    return result;
}

bool isSliver(const model::Ring& ring) { return meanWidth(ring) < kSliverWidthDegrees; }

model::MultiPolygon withoutSlivers(GeosContext& context, const GEOSGeometry* geometry) {
    auto result = fromGeos(context, geometry);
    std::erase_if(result.parts, [](const model::Polygon& part) { return isSliver(part.shell); });
    return result;
}

Geometry validGeos(GeosContext& context, const model::MultiPolygon& surface, Noding noding) {
    auto whole = toGeos(context, surface);
    if (requireExamined(surface, "overlay"))
        return whole;
    std::vector<Geometry> parts;
    for (const auto& part : surface.parts)
        parts.push_back(requireExamined({{part}}, "overlay") ? toGeos(context, part) : evenOddReading(context, part));
    return united(context, std::move(parts), "union of the parts of a surface", noding);
}

double middleLongitude(const model::MultiPolygon& surface) {
    const auto box = boxOf(surface);
    return box.empty() ? 0.0 : (box.minX + box.maxX) / 2.0;
}

model::MultiPolygon turnedNear(model::MultiPolygon surface, double longitude) {
    for (auto& part : surface.parts) {
        const auto box = boxOf(part);
        const double turns = box.empty() ? 0.0 : std::round((longitude - (box.minX + box.maxX) / 2.0) / 360.0);
        if (turns == 0.0 || !std::isfinite(turns))
            continue;
        const auto turn = [&](model::Ring& ring) {
            for (auto& corner : ring.corners)
                corner.lon += 360.0 * turns;
        };
        turn(part.shell);
        std::for_each(part.holes.begin(), part.holes.end(), turn);
    }
    return surface;
}

} // namespace fencewright::geometry::detail
