#pragma once

#include "progress.h"
#include "raster/dataset.h"

#include <array>
#include <string>
#include <vector>

namespace fencewright::raster::detail {

/// Whole pixels of one level.
struct PixelRect {
    int x = 0, y = 0, width = 0, height = 0;
};

/// What a raster says of itself, before any of it is put on the earth.
struct Header {
    std::string format;
    int width = 0, height = 0;
    std::string crs; ///< WKT or "EPSG:n"; empty: none
    std::array<double, 6> geotransform{0, 1, 0, 0, 0, 1};
    bool hasGeotransform = false;
    std::vector<BandDescription> bands;
};

struct Pixels {
    RgbaImage image;
    bool opaque = false; ///< alpha is 255 everywhere
};

/// Where the pixels come from: a file that GDAL reads, or a folder of tiles.
class PixelSource {
public:
    virtual ~PixelSource() = default;

    [[nodiscard]] virtual const Header& header() const = 0;
    /// The finest first; never empty.
    [[nodiscard]] virtual const std::vector<PyramidLevel>& levels() const = 0;
    /// A part of a level, shrunk to width x height (never enlarged). The part lies inside the level.
    /// @throws Fault  cannot be decoded. Cancelled.
    [[nodiscard]] virtual Pixels read(std::size_t level, PixelRect part, int width, int height,
                                      const Progress& progress) = 0;
};

} // namespace fencewright::raster::detail
