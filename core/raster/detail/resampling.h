#pragma once

#include "geodesy/local_frame.h"
#include "raster/detail/shared_blocks.h"

#include <functional>
#include <optional>
#include <vector>

namespace fencewright::raster::detail {

/// Places of the raster, in its pixels, for places of the picture, in the picture's. Nothing where there is none.
using PictureToRaster =
    std::function<std::vector<std::optional<geodesy::PlanePoint>>(const std::vector<geodesy::PlanePoint>&)>;

/// How far, in pixels of the picture, a pixel may come from where it should.
inline constexpr double kLargestShift = 0.125;

/// The raster as a picture of width x height pixels, bilinear. Where a pixel of the picture covers several of the
/// raster, it is the mean of samples spread over it.
/// @throws Fault, Cancelled  as PixelSource::read.
[[nodiscard]] PaintedPixels resampled(SharedBlocks& source, const PictureToRaster& toRaster, int width, int height,
                                      const Progress& progress);

/// The same pixels, colours not multiplied by alpha.
[[nodiscard]] RgbaImage asImage(const PaintedPixels& pixels);

} // namespace fencewright::raster::detail
