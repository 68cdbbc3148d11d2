#pragma once

#include "geodesy/map_plane.h"
#include "raster/dataset.h"

namespace fencewright::raster {

/// A square or oblong of a map's plane, in metres; the picture's first row lies at maxY.
struct FrameWindow {
    double minX = 0, minY = 0, maxX = 0, maxY = 0;
};

/// The part of the raster that a map shows: resampled (bilinear) into the plane at width x height pixels.
/// Error: pixels lie within 0.125 of a picture's pixel of their true place: the plane-to-pixel mapping is interpolated
/// over a grid that is refined until that holds.
/// @throws Fault, Cancelled  as Dataset::read.
[[nodiscard]] RgbaImage warped(const Dataset& dataset, const geodesy::MapPlane& plane, const FrameWindow& window,
                               int width, int height, const Progress& progress = {});

/// The same as it is painted, without a conversion.
[[nodiscard]] PaintedPixels warpedForPainting(const Dataset& dataset, const geodesy::MapPlane& plane,
                                              const FrameWindow& window, int width, int height,
                                              const Progress& progress = {});

} // namespace fencewright::raster
