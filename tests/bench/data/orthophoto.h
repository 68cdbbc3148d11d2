#pragma once

#include "bench/data/picture.h"

#include <filesystem>

namespace fencewright::bench {

/// Where the bench's invented county lies: a square of 40 km in UTM zone 29 north (EPSG:32629), off its meridian.
constexpr double kCountyWest = 620'000.0;
constexpr double kCountyNorth = 4'690'000.0;
constexpr double kCountyMetres = 40'000.0;

/// A tiled BigTIFF: JPEG, YCbCr, quality 85, blocks of 512, overviews down to a block, `blocks` times `blocks` of them,
/// over the county from its upper left corner. The picture's side is a power of two times 512.
///
/// Only the picture's own blocks are encoded; they are written again and again, so that the file is as large as a true
/// one, and every block lies at a place of its own.
void writeTiledOrthophoto(const std::filesystem::path& to, const Picture& picture, int blocks, double pixelMetres);

/// The same ground as uncompressed strips, without overviews.
void writeStripOrthophoto(const std::filesystem::path& to, const Picture& picture, int pixels, double pixelMetres);

/// The file as a cloud-optimised GeoTIFF: JPEG, YCbCr, quality 85, blocks of 512, with overviews.
void writeCloudOptimised(const std::filesystem::path& to, const std::filesystem::path& from);

} // namespace fencewright::bench
