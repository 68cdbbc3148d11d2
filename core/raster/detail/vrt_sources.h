#pragma once

#include <string>

namespace fencewright::raster::detail {

/// Whether the file is a virtual mosaic, told by its first bytes as GDAL tells it.
[[nodiscard]] bool isVirtualMosaic(const std::string& path);

/// Refuses a virtual mosaic that could reach beyond its own folder, run code, or never end: each source must be a plain
/// image file (or another such mosaic, up to four deep, no cycle) in the mosaic's own folder or below it, links
/// followed.
/// @throws Fault  names the mosaic and the source.
void checkVirtualMosaic(const std::string& path);

} // namespace fencewright::raster::detail
