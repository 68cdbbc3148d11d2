#pragma once

#include "model/polygon.h"

#include <limits>
#include <string>

namespace fencewright::store {

/// Longitudes and latitudes that a layer covers.
struct Extent {
    double west = std::numeric_limits<double>::infinity();
    double south = std::numeric_limits<double>::infinity();
    double east = -std::numeric_limits<double>::infinity();
    double north = -std::numeric_limits<double>::infinity();

    [[nodiscard]] bool empty() const { return west > east; }
    void include(model::Position place);
    void include(const Extent& other);
};

/// A geometry as GeoPackage stores it: a header with the extent, then well-known binary (OGC 12-128r18, clause 2.1.3).
/// No bytes for a geometry that has no places, or places that are not finite: the feature is kept without one.
struct GeometryBlob {
    std::string bytes;
    Extent extent;
};

[[nodiscard]] GeometryBlob geometryBlob(model::Position place);
[[nodiscard]] GeometryBlob geometryBlob(const model::LineString& line);
/// Shells anticlockwise, holes clockwise, rings closed.
[[nodiscard]] GeometryBlob geometryBlob(const model::Polygon& polygon);
[[nodiscard]] GeometryBlob geometryBlob(const model::MultiPolygon& surface);

} // namespace fencewright::store
