#pragma once

#include "geodesy/local_frame.h"
#include "model/position.h"
#include "progress.h"

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace fencewright::raster {

struct BandDescription {
    std::string type;   ///< "Byte", "UInt16"
    std::string colour; ///< "Red", "Alpha", "Palette", "Undefined"
    std::optional<double> noData;
    std::vector<std::array<int, 2>> overviews; ///< width and height of each
};

/// What a raster is, without its pixels.
struct RasterDescription {
    std::string path;
    std::string format; ///< "GeoTIFF"
    int width = 0;
    int height = 0;
    std::string crs;                                      ///< name; empty: none
    std::array<double, 6> geotransform{0, 1, 0, 0, 0, 1}; ///< pixel to CRS, as GDAL orders it
    bool georeferenced = false;
    std::optional<Length> pixelSize; ///< on the ground at the middle
    std::vector<BandDescription> bands;
    std::vector<model::Position> corners; ///< of the image, WGS 84, clockwise from the upper left; empty: no CRS
};

/// Eight bits of red, green, blue and alpha, rows from the top, not premultiplied. Transparent where there is no data.
struct RgbaImage {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> pixels; ///< width * height * 4
};

struct FrameWindow; // of raster/warp.h

/// Pixel coordinates: x to the right, y down, whole numbers at pixel corners.
struct PixelWindow {
    double x = 0, y = 0, width = 0, height = 0;
};

/// An open raster: any format of the table rasterFormats(). Not for two threads at once; each opens its own.
class Dataset {
public:
    /// @param path  a file, or a folder of tiles z/x/y.
    /// @param crs   the person's word for a raster that has none; empty: its own.
    /// @throws Fault  not readable, no format we know, absurd size, or points to other places (network, outside VRT).
    explicit Dataset(const std::string& path, const std::string& crs = {});
    ~Dataset();
    Dataset(Dataset&&) noexcept;
    Dataset& operator=(Dataset&&) noexcept;

    [[nodiscard]] const RasterDescription& description() const;

    /// The window resampled to width x height pixels from the nearest overview that is fine enough. Parts outside the
    /// raster are transparent. Palettes are looked up, grey becomes RGB, 16 bits are stretched (2nd to 98th percentile
    /// of a coarse view), no-data and alpha are honoured.
    /// @throws Fault  a block cannot be decoded: names file and place. Cancelled.
    [[nodiscard]] RgbaImage read(const PixelWindow& window, int width, int height, const Progress& progress = {}) const;

    /// Pixel coordinates of places and back; nothing where the transformation fails. Vectors of the same length.
    [[nodiscard]] std::vector<std::optional<geodesy::PlanePoint>>
    toPixels(const std::vector<model::Position>& places) const;
    [[nodiscard]] std::vector<std::optional<model::Position>>
    toEarth(const std::vector<geodesy::PlanePoint>& pixels) const;

private:
    struct Parts;
    std::unique_ptr<Parts> m_parts;

    friend RgbaImage warped(const Dataset& dataset, const geodesy::LocalFrame& frame, const FrameWindow& window,
                            int width, int height, const Progress& progress);
};

/// A kind of file that Dataset opens. The folder of tiles has no suffix.
struct RasterFormat {
    std::string name;
    std::vector<std::string> suffixes; ///< without the dot
};
[[nodiscard]] std::vector<RasterFormat> rasterFormats();

} // namespace fencewright::raster
