#include "raster/detail/shared_blocks.h"

#include "raster/detail/block_parts.h"

#include <cstring>
#include <numeric>

namespace fencewright::raster::detail {

namespace {

constexpr int kUsualTile = 512;    // pixels a side: what costs the least to decode and to paint
constexpr int kLargestTile = 1024; // beyond it a tile holds too much that nobody looks at

int tilePixelsFor(BlockSize block, const PyramidLevel& level) {
    if (block.width >= level.width || block.height >= level.height)
        return kUsualTile; // strips, or all in one piece
    const std::int64_t side = std::lcm(std::int64_t{block.width}, std::int64_t{block.height});
    return side > kLargestTile ? kUsualTile : static_cast<int>(side * std::max<std::int64_t>(1, kUsualTile / side));
}

BlockSize cacheBlockFor(BlockSize block, const PyramidLevel& level, int tile) {
    if (block.width >= level.width) {
        // Strips: whatever part of one is wanted, all of it is decoded.
        const std::int64_t pixels = std::int64_t{block.height} * level.width;
        const std::int64_t strips = std::max<std::int64_t>(1, std::int64_t{tile} * tile / pixels);
        return {level.width, static_cast<int>(std::min<std::int64_t>(level.height, strips * block.height))};
    }
    const auto side = [&](int size) { return tile % size == 0 ? tile : size * std::max(1, tile / size); };
    return {side(block.width), side(block.height)};
}

// Colours multiplied by alpha, in place: nobody else has these pixels yet.
PaintedPixels painted(Pixels&& pixels) {
    if (pixels.words && !pixels.opaque) {
        const auto count = static_cast<std::size_t>(pixels.width) * static_cast<std::size_t>(pixels.height);
        for (std::size_t index = 0; index < count; ++index) {
            const std::uint32_t word = pixels.words[index];
            const std::uint32_t alpha = word >> 24;
            if (alpha == 255)
                continue;
            const auto share = [&](int shift) { return ((((word >> shift) & 255U) * alpha + 127U) / 255U) << shift; };
            pixels.words[index] = alpha == 0 ? 0 : alpha << 24 | share(16) | share(8) | share(0);
        }
    }
    return {pixels.width, pixels.height, std::move(pixels.words), pixels.opaque};
}

} // namespace

Pixels pixelsOf(int width, int height, std::uint32_t word) {
    const auto count = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    Pixels pixels{width, height, std::make_shared_for_overwrite<std::uint32_t[]>(count), word >> 24 == 255};
    std::fill_n(pixels.words.get(), count, word);
    return pixels;
}

Pixels PixelSource::blank(int width, int height) const {
    const auto count = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    return {width, height, m_pool ? m_pool->take(count) : std::make_shared_for_overwrite<std::uint32_t[]>(count),
            false};
}

SharedBlocks::SharedBlocks(std::unique_ptr<PixelSource> source, std::shared_ptr<BlockCache> cache,
                           const std::string& identity)
    : m_source{std::move(source)}, m_cache{std::move(cache)} {
    m_tilePixels = tilePixelsFor(m_source->block(0), levels().front());
    for (std::size_t level = 0; level < levels().size(); ++level)
        m_blocks.push_back(cacheBlockFor(m_source->block(level), levels()[level], m_tilePixels));
    if (m_cache) {
        m_number = m_cache->m_parts->numberOf(identity);
        m_source->takeMemoryFrom(m_cache->m_parts->pool);
    }
    count();
}

void SharedBlocks::count() {
    const Cost now = m_source->cost();
    if (m_cache)
        m_cache->m_parts->count(now.reads - m_counted.reads, now.pixels - m_counted.pixels);
    m_counted = now;
}

PaintedPixels SharedBlocks::fromSource(std::size_t level, PixelRect part, int width, int height,
                                       const Progress& progress) {
    struct Count {
        SharedBlocks& blocks;
        ~Count() { blocks.count(); } // also of what was cancelled or failed
    } const counting{*this};
    return detail::painted(m_source->read(level, part, width, height, progress));
}

Pixels SharedBlocks::straight(PixelRect part, const Progress& progress) {
    Pixels pixels = m_source->read(0, part, part.width, part.height, progress);
    count();
    return pixels;
}

PaintedPixels SharedBlocks::blockAt(std::size_t level, int column, int row, const Progress& progress) {
    const auto [width, height] = m_blocks[level];
    PixelRect part{column * width, row * height, width, height};
    part.width = std::min(part.width, levels()[level].width - part.x);
    part.height = std::min(part.height, levels()[level].height - part.y);
    return m_cache->m_parts->take(
        {m_number, level, column, row}, [&] { return fromSource(level, part, part.width, part.height, progress); },
        progress);
}

PaintedPixels SharedBlocks::fromBlocks(std::size_t level, PixelRect part, const Progress& progress) {
    const auto [width, height] = m_blocks[level];
    const int firstColumn = part.x / width;
    const int lastColumn = (part.x + part.width - 1) / width;
    const int firstRow = part.y / height;
    const int lastRow = (part.y + part.height - 1) / height;

    PaintedPixels result{part.width, part.height, nullptr, true};
    const auto count = static_cast<std::size_t>(part.width) * static_cast<std::size_t>(part.height);
    for (int row = firstRow; row <= lastRow; ++row)
        for (int column = firstColumn; column <= lastColumn; ++column) {
            progress.report(static_cast<double>(row - firstRow) / (lastRow - firstRow + 1),
                            phrase("core", "Reading imagery"));
            const PaintedPixels block = blockAt(level, column, row, progress);
            if (column * width == part.x && row * height == part.y && block.width == part.width &&
                block.height == part.height)
                return block;
            result.opaque = result.opaque && block.opaque;
            if (!block.words)
                continue;
            if (!result.words)
                result.words = std::make_shared<std::uint32_t[]>(count);
            const int left = std::max(part.x, column * width);
            const int right = std::min(part.x + part.width, column * width + block.width);
            const int top = std::max(part.y, row * height);
            const int bottom = std::min(part.y + part.height, row * height + block.height);
            for (int y = top; y < bottom; ++y)
                std::memcpy(
                    &result.words[static_cast<std::size_t>(y - part.y) * static_cast<std::size_t>(part.width) +
                                  static_cast<std::size_t>(left - part.x)],
                    &block.words[static_cast<std::size_t>(y - row * height) * static_cast<std::size_t>(block.width) +
                                 static_cast<std::size_t>(left - column * width)],
                    static_cast<std::size_t>(right - left) * sizeof(std::uint32_t));
        }
    if (!result.words)
        result.opaque = false;
    return result;
}

PaintedPixels SharedBlocks::painted(std::size_t level, PixelRect part, int width, int height,
                                    const Progress& progress) {
    if (m_cache && width == part.width && height == part.height)
        return fromBlocks(level, part, progress);
    return fromSource(level, part, width, height, progress);
}

} // namespace fencewright::raster::detail
