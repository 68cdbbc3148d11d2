#pragma once

#include "geodesy/map_plane.h"
#include "model/position.h"
#include "progress.h"
#include "wording.h"

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
    std::string crs;           ///< name; empty: none
    std::string crsDefinition; ///< as CrsTransform takes it: "EPSG:25829" where it is just that one, else WKT
    std::array<double, 6> geotransform{0, 1, 0, 0, 0, 1}; ///< pixel to CRS, as GDAL orders it
    bool hasGeotransform = false;    ///< lies in some CRS, be it one that is not named, as with a world file
    bool georeferenced = false;      ///< and the CRS is known
    std::optional<Length> pixelSize; ///< on the ground at the middle
    std::vector<BandDescription> bands;
    std::vector<model::Position> corners; ///< of the image, WGS 84, clockwise from the upper left; empty: no CRS
    std::vector<Wording> notes;           ///< what a person should know, such as files of a folder that are left out
};

/// Eight bits of red, green, blue and alpha, rows from the top, not premultiplied. Transparent where there is no data.
struct RgbaImage {
    int width = 0;
    int height = 0;
    std::vector<std::uint8_t> pixels; ///< width * height * 4
};

/// How values become colours.
struct Appearance {
    std::optional<std::array<int, 3>> bands{};      ///< shown as red, green, blue, from 1; nothing: as the file says
    std::optional<std::array<double, 2>> stretch{}; ///< become black and white; nothing: as Dataset::read says

    bool operator==(const Appearance&) const = default;
};

class BlockCache;   // of raster/block_cache.h
class ServerAccess; // of raster/tile_server.h

struct OpenOptions {
    std::string crs{}; ///< the person's word for a raster that has none; empty: its own
    Appearance appearance{};
    std::string pyramid{}; ///< a file that buildPyramid() made of this raster (raster/pyramid.h); empty: none
    std::shared_ptr<BlockCache> blocks{}; ///< shared by all who read this raster, so that each block is decoded once
    std::shared_ptr<const ServerAccess> servers{}; ///< without it no address is opened

    bool operator==(const OpenOptions&) const = default;
};

/// One resolution of a raster. The place p of the raster (pixels of the finest) lies at p / scale - offset of the
/// level.
struct PyramidLevel {
    int width = 0, height = 0;
    double scaleX = 1, scaleY = 1;
    double offsetX = 0, offsetY = 0;
};

/// Pixels as they are painted: 32 bits each, 0xAARRGGBB, colours multiplied by alpha; rows from the top, no padding.
struct PaintedPixels {
    int width = 0;
    int height = 0;
    std::shared_ptr<std::uint32_t[]> words; ///< width * height; null: nothing there at all
    bool opaque = false;                    ///< alpha is 255 everywhere
};

struct FrameWindow;        // of raster/warp.h
struct AppearanceProposal; // of raster/appearance_proposal.h

/// Pixel coordinates: x to the right, y down, whole numbers at pixel corners.
struct PixelWindow {
    double x = 0, y = 0, width = 0, height = 0;
};

/// An open raster: any format of the table rasterFormats(). Not for two threads at once; each opens its own.
class Dataset {
public:
    /// @param path  a file; a folder of tiles z/x/y; a folder of GeoTIFFs that make one picture;
    ///     the address of a server (raster/tile_server.h).
    /// @param progress  a server may take its time.
    /// @throws Fault  not readable, no format we know, absurd size, or points to other places (network, outside VRT).
    explicit Dataset(const std::string& path, const OpenOptions& options = {}, const Progress& progress = {});
    ~Dataset();
    Dataset(Dataset&&) noexcept;
    Dataset& operator=(Dataset&&) noexcept;

    [[nodiscard]] const RasterDescription& description() const;

    /// The window resampled to width x height pixels from the nearest overview that is fine enough. Parts outside the
    /// raster are transparent. Palettes are looked up, grey becomes RGB, 16 bits are stretched (2nd to 98th percentile
    /// of a coarse view), no-data and alpha are honoured.
    /// @throws Fault  a block cannot be decoded: names file and place. Cancelled.
    [[nodiscard]] RgbaImage read(const PixelWindow& window, int width, int height, const Progress& progress = {}) const;

    /// The resolutions it can be read at without resampling, the finest first; never empty.
    [[nodiscard]] const std::vector<PyramidLevel>& levels() const;
    /// Which parts tile() reads best: tiles of so many pixels from the level's upper left corner, a multiple of the
    /// file's blocks, or 512 where those do not matter. Square but for the last of a row or column.
    [[nodiscard]] int tilePixels() const;
    /// A tile of a level, not resampled: column and row of tiles counted from the upper left. Colours as read().
    /// @throws Fault, Cancelled  as read().
    [[nodiscard]] PaintedPixels tile(std::size_t level, int column, int row, const Progress& progress = {}) const;

    /// A coarse picture of all of it that is a matter of moments; nothing where it would take decoding much of it. Its
    /// pixels need not be square, and may be single ones of the raster.
    /// @throws Fault, Cancelled  as read().
    [[nodiscard]] std::optional<PaintedPixels> glance(const Progress& progress = {}) const;

    /// Pixel coordinates of places and back; nothing where the transformation fails. Vectors of the same length.
    [[nodiscard]] std::vector<std::optional<geodesy::PlanePoint>>
    toPixels(const std::vector<model::Position>& places) const;
    [[nodiscard]] std::vector<std::optional<model::Position>>
    toEarth(const std::vector<geodesy::PlanePoint>& pixels) const;

private:
    struct Parts;
    std::unique_ptr<Parts> m_parts;

    friend AppearanceProposal proposeAppearance(const Dataset& dataset, const Progress& progress);
    friend PaintedPixels warpedForPainting(const Dataset& dataset, const geodesy::MapPlane& plane,
                                           const FrameWindow& window, int width, int height, const Progress& progress);
};

/// Has this thread look into the database of coordinate systems, so that the first orthophoto it opens does not wait
/// for that: the library of them keeps what it needs for each thread, and the first question costs more than all else
/// of an opening. For threads that wait for work. Never fails.
void prepareThread();

/// A kind of file that Dataset opens. The folder of tiles has no suffix.
struct RasterFormat {
    std::string name;
    std::vector<std::string> suffixes; ///< without the dot
};
[[nodiscard]] std::vector<RasterFormat> rasterFormats();

} // namespace fencewright::raster
