#pragma once

#include "wording.h"

#include <span>
#include <string>
#include <vector>

namespace fencewright::raster::detail {

/// A format and the one driver that may read it. Whatever is not in the table is not opened.
struct Format {
    const char* name;
    const char* driver;
    std::vector<std::string> suffixes;
};
[[nodiscard]] std::span<const Format> formatTable();

inline constexpr const char* kTileFolderName = "Folder of tiles z/x/y";

/// "GeoTIFF, JPEG 2000, ...": for a person who has to convert a file.
[[nodiscard]] Wording formatNames();

} // namespace fencewright::raster::detail
