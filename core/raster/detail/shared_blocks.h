#pragma once

#include "raster/block_cache.h"
#include "raster/detail/pixel_source.h"

#include <cstdint>
#include <memory>

namespace fencewright::raster::detail {

/// A source's pixels as they are painted. What is not shrunk is put together from blocks, which all who read the raster
/// share; without a cache it is read each time.
class SharedBlocks {
public:
    /// @param identity  tells this raster in this state, shown this way, from all others.
    SharedBlocks(std::unique_ptr<PixelSource> source, std::shared_ptr<BlockCache> cache, const std::string& identity);

    [[nodiscard]] PixelSource& source() { return *m_source; }
    [[nodiscard]] const PixelSource& source() const { return *m_source; }
    [[nodiscard]] const std::vector<PyramidLevel>& levels() const { return m_source->levels(); }
    /// See Dataset::tilePixels.
    [[nodiscard]] int tilePixels() const { return m_tilePixels; }

    /// As PixelSource::read, painted.
    [[nodiscard]] PaintedPixels painted(std::size_t level, PixelRect part, int width, int height,
                                        const Progress& progress);
    /// A part of the finest level unchanged: colours not multiplied by alpha. Never from the cache.
    [[nodiscard]] Pixels straight(PixelRect part, const Progress& progress);
    /// Reports to the cache what the source has cost since it was asked last.
    void count();

private:
    [[nodiscard]] PaintedPixels fromSource(std::size_t level, PixelRect part, int width, int height,
                                           const Progress& progress);
    [[nodiscard]] PaintedPixels blockAt(std::size_t level, int column, int row, const Progress& progress);
    [[nodiscard]] PaintedPixels fromBlocks(std::size_t level, PixelRect part, const Progress& progress);

    std::unique_ptr<PixelSource> m_source;
    std::shared_ptr<BlockCache> m_cache;
    std::uint64_t m_number = 0;
    int m_tilePixels = 512;
    std::vector<BlockSize> m_blocks; ///< of the cache, for each level
    Cost m_counted;
};

} // namespace fencewright::raster::detail
