#pragma once

#include <string>

namespace fencewright::raster::detail {

/// "EPSG:n" where the system is just that one, whatever it is called; else the text as it is.
/// @param crs  WKT, or "EPSG:n" already.
[[nodiscard]] std::string crsDefinition(const std::string& crs);

} // namespace fencewright::raster::detail
