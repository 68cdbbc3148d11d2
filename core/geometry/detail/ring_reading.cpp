#include "geometry/detail/ring_reading.h"

#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/geos_overlay.h"
#include "geometry/spatial_index.h"

#include <cstddef>
#include <utility>
#include <vector>

namespace fencewright::geometry::detail {
namespace {

/// Answers how a place lies to one ring, by counting crossings of the ray to the east.
class Parity {
public:
    explicit Parity(const model::Ring& ring) : m_corners{ring.corners} {
        std::vector<Box> boxes(m_corners.size());
        for (std::size_t i = 0; i < m_corners.size(); ++i) {
            const auto& a = m_corners[i];
            const auto& b = m_corners[(i + 1) % m_corners.size()];
            boxes[i].add(a.lon, a.lat);
            boxes[i].add(b.lon, b.lat);
        }
        m_edges = SpatialIndex{boxes};
    }
    [[nodiscard]] bool odd(model::Position place) const {
        bool inside = false;
        for (const auto edge : m_edges.meeting({place.lon, place.lat, 1e300, place.lat})) {
            const auto& a = m_corners[edge];
            const auto& b = m_corners[(edge + 1) % m_corners.size()];
            // The place lies well inside a face, so rounding in the crossing does not matter.
            if ((a.lat > place.lat) != (b.lat > place.lat) &&
                place.lon < a.lon + (place.lat - a.lat) * ((b.lon - a.lon) / (b.lat - a.lat)))
                inside = !inside;
        }
        return inside;
    }

private:
    const std::vector<model::Position>& m_corners;
    SpatialIndex m_edges;
};

} // namespace

RingReading readingOf(GeosContext& context, const model::Ring& ring) {
    if (ring.corners.size() < 3) {
        requireFinite(ring);
        return {emptySurface(context), emptySurface(context)};
    }
    const auto line = closedLine(context, ring);
    const auto cut = noded(context, line, "reading of a ring");
    const GEOSGeometry* lines = cut.get();
    const auto faces = context.own(GEOSPolygonize_r(context.handle(), &lines, 1), "reading of a ring");

    const Parity parity{ring};
    std::vector<Geometry> odd, all;
    const int count = GEOSGetNumGeometries_r(context.handle(), faces.get());
    for (int i = 0; i < count; ++i) {
        const auto* face = GEOSGetGeometryN_r(context.handle(), faces.get(), i);
        const auto inner = context.own(GEOSPointOnSurface_r(context.handle(), face), "reading of a ring");
        model::Position place;
        if (!GEOSGeomGetX_r(context.handle(), inner.get(), &place.lon) ||
            !GEOSGeomGetY_r(context.handle(), inner.get(), &place.lat))
            context.fail("reading of a ring");
        if (parity.odd(place))
            odd.push_back(copy(context, face));
        all.push_back(copy(context, face));
    }
    // A face that polygonize could not close, because all its edges run back along themselves, encloses nothing.
    auto filled = united(context, std::move(all), "reading of a ring");
    // Faces inside faces come as holes of the outer ones; what lies in a hole cannot be left either.
    return {united(context, std::move(odd), "reading of a ring"), std::move(filled)};
}

Geometry evenOddReading(GeosContext& context, const model::Polygon& polygon) {
    auto result = readingOf(context, polygon.shell).odd;
    for (const auto& hole : polygon.holes) {
        const auto reading = readingOf(context, hole);
        result = either(context, result, reading.odd, "reading of a polygon");
    }
    return result;
}

} // namespace fencewright::geometry::detail
