#pragma once

#include "progress.h"
#include "raster/detail/pixel_source.h"

#include <string>

namespace fencewright::raster::detail {

/// Whether bytes begin as a PNG or a JPEG does: what a tile may be.
[[nodiscard]] bool isPicture(std::string_view bytes);

/// A tile as a server sent it: a PNG or JPEG of side x side pixels, or twice as many, which are averaged. Nothing else
/// is decoded, whatever it is called.
/// @param place  what words call it.
/// @throws Fault  neither, cut off, or of another size. Cancelled.
[[nodiscard]] Pixels decodedTile(const std::string& bytes, int side, const Wording& place, const Progress& progress);

} // namespace fencewright::raster::detail
