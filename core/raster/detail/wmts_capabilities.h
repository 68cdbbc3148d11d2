#pragma once

#include "raster/tile_server.h"

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace fencewright::raster::detail {

/// One resolution of a grid of tiles (TileMatrix of OGC 07-057r7, 6.1).
struct TileMatrix {
    std::string name;
    double scaleDenominator = 0;
    double cornerX = 0, cornerY = 0; ///< upper left, of the CRS; easting or longitude first
    int tileWidth = 256, tileHeight = 256;
    std::int64_t columns = 1, rows = 1;
};

struct TileMatrixSet {
    std::string name;
    std::string crsAsNamed;           ///< "urn:ogc:def:crs:EPSG::3857"
    std::string crs;                  ///< "EPSG:3857"
    std::vector<TileMatrix> matrices; ///< the finest first
    Wording reason;                   ///< why it cannot be shown; empty where it can
};

/// Which tiles there are, of one matrix.
struct TileLimits {
    std::int64_t minColumn = 0, maxColumn = 0, minRow = 0, maxRow = 0;
};

struct WmtsLayer {
    std::string name;
    std::string title;
    std::optional<std::array<double, 4>> box;
    std::vector<ServerLayer::Style> styles;
    std::vector<std::string> formats;                                ///< that can be read
    std::map<std::string, std::string> dimensions;                   ///< with what each is by default
    std::vector<std::string> sets;                                   ///< names
    std::map<std::string, std::map<std::string, TileLimits>> limits; ///< of set and matrix
    std::map<std::string, std::string> templates;                    ///< of format, RESTful
};

struct WmtsCapabilities {
    std::string title;
    std::vector<WmtsLayer> layers;
    std::map<std::string, TileMatrixSet> sets;
    std::string keyValueAddress; ///< of GetTile; empty: only RESTful
};

/// Reads capabilities as the schema of OGC 07-057r7 says, without entities, schemas or anything else from elsewhere.
/// @param place  what words call it.
/// @throws Fault  not well-formed, no capabilities, or beyond the bounds.
[[nodiscard]] WmtsCapabilities parsedCapabilities(const std::string& text, const std::string& place);

} // namespace fencewright::raster::detail
