#pragma once

#include "geodesy/crs_transform.h"
#include "raster/dataset.h"
#include "raster/detail/shared_blocks.h"

namespace fencewright::raster {

struct Dataset::Parts {
    std::unique_ptr<detail::SharedBlocks> pixels;
    RasterDescription description;
    std::optional<geodesy::CrsTransform> transform;
    std::array<double, 6> fromCrs{};       ///< CRS to pixel
    std::optional<double> middleLongitude; ///< of a raster in degrees

    /// Puts the raster on the earth, as far as it says or the person says where it is.
    void place(const std::string& crsOfPerson);
    void describePlace();
    /// A window of whole pixels at its own size, unchanged.
    [[nodiscard]] RgbaImage wholePixels(const PixelWindow& window, const Progress& progress) const;
    [[nodiscard]] std::vector<std::optional<geodesy::PlanePoint>>
    toPixels(const std::vector<model::Position>& places) const;
    [[nodiscard]] std::vector<std::optional<model::Position>>
    toEarth(const std::vector<geodesy::PlanePoint>& points) const;
};

namespace detail {
/// @throws Fault  not a size of a picture that fits into memory.
void checkPictureSize(int width, int height);
} // namespace detail

} // namespace fencewright::raster
