#pragma once

#include <memory>
#include <string>

namespace fencewright::exchange::detail {

// What a layer says of itself. A layer is an OGRLayerH, a CRS an OGRSpatialReferenceH that the layer owns.

struct DestroyCrs {
    void operator()(void* crs) const;
};
/// An OGRSpatialReferenceH of our own.
using CrsHandle = std::unique_ptr<void, DestroyCrs>;

/// "Point", "Line", "Polygon", "mixed" or "none".
[[nodiscard]] std::string geometryWordsOf(void* layer);
/// The one geometry of a layer that is read, where a feature has several: the first surface.
[[nodiscard]] int geometryColumnOf(void* layer);

/// The layer's own CRS; null where it has none, or none on the earth.
[[nodiscard]] void* crsOf(void* layer);
/// Empty for null.
[[nodiscard]] std::string crsName(void* crs);
[[nodiscard]] std::string crsText(void* crs);
/// WGS 84 longitude and latitude, in whatever order; a height beside them does not matter.
[[nodiscard]] bool isWgs84(void* crs);
/// The same of a person's words, such as "EPSG:4326".
[[nodiscard]] bool saysWgs84(const std::string& crs);
/// Drivers give the coordinates in the order of a map, unless they say otherwise.
[[nodiscard]] bool swapsAxes(void* crs);

} // namespace fencewright::exchange::detail
