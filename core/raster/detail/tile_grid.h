#pragma once

#include "raster/detail/pixel_source.h"
#include "raster/detail/server_address.h"
#include "raster/detail/wmts_capabilities.h"

#include <cstdint>
#include <string>
#include <vector>

namespace fencewright::raster::detail {

/// Which tiles a source of a server has, at each of its resolutions, and how to ask for one.
struct TileGrid {
    struct Level {
        std::string name;                                              ///< zoom, or the matrix' name
        std::int64_t minColumn = 0, minRow = 0, columns = 0, rows = 0; ///< rows from the north
        std::int64_t allRows = 0; ///< of the whole matrix, for rows that are counted from the south
    };

    std::string format; ///< in words
    std::string crs;    ///< "EPSG:n"
    int tileSize = 256;
    std::array<double, 6> geotransform{0, 1, 0, 0, 0, 1}; ///< of the finest level
    std::vector<Level> levels;                            ///< the finest first
    std::vector<PyramidLevel> pyramid;                    ///< of the same
    /// With {z}, {x}, {y}, {-y}, {key} to be filled in.
    std::string address;
    std::string tileServer; ///< where that leads
};

/// Of tiles z/x/y in Web Mercator.
/// @throws Fault  what stands behind '#' makes no sense.
[[nodiscard]] TileGrid gridOf(const ServerAddress& address);
/// Of a layer of a Web Map Tile Service.
/// @throws Fault  there is no such layer, set or style; it cannot be shown; its tiles come from a server that was not
/// named.
[[nodiscard]] TileGrid gridOf(const ServerAddress& address, const WmtsCapabilities& capabilities);

/// The template of a layer's tiles in a form that the server offers; empty: none can be used.
[[nodiscard]] std::string templateOf(const WmtsCapabilities& capabilities, const WmtsLayer& layer,
                                     const std::string& format);

} // namespace fencewright::raster::detail
