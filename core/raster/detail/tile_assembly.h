#pragma once

#include "raster/detail/pixel_source.h"

#include <cstddef>

namespace fencewright::raster::detail {

/// A part of a level that lies in square tiles, shrunk to width x height by taking single pixels (see
/// PixelSource::read). Calls `tileAt(column, row)`, counted from the level's upper left, once for each stretch of rows
/// that lies in one tile; it answers a pointer to the tile's pixels, or null where there is no such tile.
template <class TileAt>
Pixels assembledFromTiles(PixelRect part, int width, int height, int tileSize, const Progress& progress,
                          TileAt&& tileAt) {
    Pixels result{width, height, nullptr, true};
    // The middle of each wanted pixel; without shrinking it is the pixel itself.
    const auto column = [&](int x) { return part.x + static_cast<int>((x + 0.5) * part.width / width); };
    const auto row = [&](int y) { return part.y + static_cast<int>((y + 0.5) * part.height / height); };
    for (int y = 0; y < height;) {
        const int tileY = row(y) / tileSize;
        int endY = y + 1;
        while (endY < height && row(endY) / tileSize == tileY)
            ++endY;
        for (int x = 0; x < width;) {
            const int tileX = column(x) / tileSize;
            int endX = x + 1;
            while (endX < width && column(endX) / tileSize == tileX)
                ++endX;
            progress.report(static_cast<double>(y) / height, phrase("core", "Reading tiles"));
            const Pixels* const source = tileAt(tileX, tileY);
            result.opaque = result.opaque && source && source->opaque;
            if (source && !result.words)
                result.words = pixelsOf(width, height, 0).words;
            if (source)
                for (int atY = y; atY < endY; ++atY)
                    for (int atX = x; atX < endX; ++atX)
                        result.words[static_cast<std::size_t>(atY) * static_cast<std::size_t>(width) +
                                     static_cast<std::size_t>(atX)] =
                            source->words[static_cast<std::size_t>(row(atY) % tileSize) *
                                              static_cast<std::size_t>(tileSize) +
                                          static_cast<std::size_t>(column(atX) % tileSize)];
            x = endX;
        }
        y = endY;
    }
    return result;
}

} // namespace fencewright::raster::detail
