#pragma once

#include "progress.h"
#include "raster/dataset.h"
#include "raster/detail/word_pool.h"
#include "wording.h"

#include <array>
#include <cstdint>
#include <memory>
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
    std::vector<Wording> notes; ///< what a person should know of it, such as files that were left out
    std::string state;          ///< changes with the pixels, where the file's own size and time do not tell it all
};

/// 32 bits a pixel, 0xAARRGGBB, colours NOT multiplied by alpha; rows from the top, no padding.
struct Pixels {
    int width = 0, height = 0;
    std::shared_ptr<std::uint32_t[]> words; ///< width * height; null: nothing there at all
    bool opaque = false;                    ///< alpha is 255 everywhere
};

/// What reading cost so far: see BlockCache::Counts.
struct Cost {
    std::uint64_t reads = 0;
    std::uint64_t pixels = 0;
};

struct BlockSize {
    int width = 0, height = 0;
};

/// GDAL's name of a band's colour, to be said in the language wanted; one that is not known stays as it is.
[[nodiscard]] Wording colourWords(const std::string& colour);

/// Where the pixels come from: a file that GDAL reads, or a folder of tiles. Not for two threads at once.
class PixelSource {
public:
    virtual ~PixelSource() = default;

    [[nodiscard]] virtual const Header& header() const = 0;
    /// The finest first; never empty.
    [[nodiscard]] virtual const std::vector<PyramidLevel>& levels() const = 0;
    /// The pieces in which a level is decoded, counted from its upper left corner; at most as large as the level.
    [[nodiscard]] virtual BlockSize block(std::size_t level) const = 0;
    /// A part of a level, shrunk to width x height (never enlarged). The part lies inside the level.
    /// @throws Fault  cannot be decoded. Cancelled.
    [[nodiscard]] virtual Pixels read(std::size_t level, PixelRect part, int width, int height,
                                      const Progress& progress) = 0;
    /// How many rows of a shrunken part should stand for one that is read: more than one where each costs much more to
    /// read than to leave out.
    [[nodiscard]] virtual int rowsForOne(std::size_t level, PixelRect part, int width, int height) const {
        (void)level, (void)part, (void)width, (void)height;
        return 1;
    }
    /// Whether a picture of a whole level, shrunk to width x height, is a matter of moments on a disk of today.
    [[nodiscard]] virtual bool isQuick(std::size_t level, int width, int height) {
        (void)level, (void)width, (void)height;
        return false;
    }
    [[nodiscard]] virtual Cost cost() const = 0;
    /// @throws Fault, Cancelled  as read().
    [[nodiscard]] virtual AppearanceProposal proposal(const Progress& progress);

    /// Where the memory of what is read comes from; null: from the system.
    void takeMemoryFrom(std::shared_ptr<WordPool> pool) { m_pool = std::move(pool); }
    /// Pixels of any content, of that memory.
    [[nodiscard]] Pixels blank(int width, int height) const;

private:
    std::shared_ptr<WordPool> m_pool;
};

/// All of one colour.
[[nodiscard]] Pixels pixelsOf(int width, int height, std::uint32_t word);

} // namespace fencewright::raster::detail
