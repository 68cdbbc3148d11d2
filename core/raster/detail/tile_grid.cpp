#include "raster/detail/tile_grid.h"

#include "fault.h"
#include "geodesy/crs_transform.h"
#include "units/number_notation.h"

#include <charconv>
#include <numbers>

namespace fencewright::raster::detail {

namespace {

constexpr int kDeepestZoom = 22; // 2^22 tiles of 256 pixels: the last whose pixels an int can count
constexpr int kUsualDeepestZoom = 19;
// Half the circumference of the sphere of Web Mercator: pi * 6 378 137 m (EPSG method 1024).
constexpr double kHalfWorld = 20037508.342789244;
constexpr double kMercatorLatitude = 85.0511287798066; // where its square ends
// OGC 07-057r7, 6.1: a pixel of a scale's denominator is 0.28 mm; a degree is as long as on the equator of WGS 84.
constexpr double kStandardPixel = 0.28e-3;
constexpr double kMetresPerDegree = 6378137.0 * std::numbers::pi / 180.0;

[[noreturn]] void refuse(const ServerAddress& address, const Wording& problem, const Wording& remedy) {
    throw Fault{problem, address.plain, remedy};
}

std::vector<double> numbers(const std::string& text, char between) {
    std::vector<double> values;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find(between, at), text.size());
        double value = 0;
        const auto [stop, error] = std::from_chars(text.data() + at, text.data() + end, value);
        if (error != std::errc{} || stop != text.data() + end || !std::isfinite(value))
            return {};
        values.push_back(value);
        at = end + 1;
    }
    return values;
}

/// One resolution, measured in the CRS.
struct Measured {
    std::string name;
    double resolution = 0; ///< of the CRS for a pixel
    double cornerX = 0, cornerY = 0;
    std::int64_t columns = 0, rows = 0;
    TileLimits limits;
};

struct Box {
    double minX = 0, minY = 0, maxX = 0, maxY = 0;
};

void clip(Measured& level, const Box& box, int tileSize) {
    const double tile = level.resolution * tileSize;
    constexpr double kEdge = 1e-6; // of a tile: a box that ends with a tile does not touch the next
    const auto within = [](double value, std::int64_t count) {
        return static_cast<std::int64_t>(std::clamp(value, 0.0, static_cast<double>(count - 1)));
    };
    level.limits.minColumn =
        std::max(level.limits.minColumn, within(std::floor((box.minX - level.cornerX) / tile + kEdge), level.columns));
    level.limits.maxColumn = std::min(level.limits.maxColumn,
                                      within(std::ceil((box.maxX - level.cornerX) / tile - kEdge) - 1, level.columns));
    level.limits.minRow =
        std::max(level.limits.minRow, within(std::floor((level.cornerY - box.maxY) / tile + kEdge), level.rows));
    level.limits.maxRow =
        std::min(level.limits.maxRow, within(std::ceil((level.cornerY - box.minY) / tile - kEdge) - 1, level.rows));
}

// The finest first. Leaves out the finest ones whose pixels an int cannot count.
void take(std::vector<Measured> levels, TileGrid& grid) {
    const std::int64_t most = std::numeric_limits<int>::max() / grid.tileSize;
    const auto counts = [&](const Measured& level) {
        return level.limits.maxColumn - level.limits.minColumn < most &&
               level.limits.maxRow - level.limits.minRow < most;
    };
    while (!levels.empty() && !counts(levels.front()))
        levels.erase(levels.begin());
    std::erase_if(levels, [](const Measured& level) {
        return level.limits.maxColumn < level.limits.minColumn || level.limits.maxRow < level.limits.minRow;
    });
    if (levels.empty())
        return;
    const Measured& finest = levels.front();
    const double size = grid.tileSize;
    for (const Measured& level : levels) {
        double scale = level.resolution / finest.resolution;
        const double whole = std::exp2(std::round(std::log2(scale)));
        if (std::abs(scale / whole - 1) < 1e-9)
            scale = whole;
        const TileLimits& limits = level.limits;
        const std::int64_t columns = limits.maxColumn - limits.minColumn + 1;
        const std::int64_t rows = limits.maxRow - limits.minRow + 1;
        grid.levels.push_back({level.name, limits.minColumn, limits.minRow, columns, rows, level.rows});
        const auto offset = [&](std::int64_t first, std::int64_t finestFirst, double shift) {
            return static_cast<double>(first) * size - static_cast<double>(finestFirst) * size / scale -
                   shift / level.resolution;
        };
        grid.pyramid.push_back({static_cast<int>(columns) * grid.tileSize, static_cast<int>(rows) * grid.tileSize,
                                scale, scale,
                                offset(limits.minColumn, finest.limits.minColumn, finest.cornerX - level.cornerX),
                                offset(limits.minRow, finest.limits.minRow, level.cornerY - finest.cornerY)});
    }
    grid.geotransform = {finest.cornerX + static_cast<double>(finest.limits.minColumn) * size * finest.resolution,
                         finest.resolution,
                         0,
                         finest.cornerY - static_cast<double>(finest.limits.minRow) * size * finest.resolution,
                         0,
                         -finest.resolution};
}

std::optional<Box> boxIn(const geodesy::CrsTransform& crs, const std::array<double, 4>& degrees) {
    // Its border in steps: an edge of it may bulge in the CRS.
    constexpr int steps = 16;
    std::vector<model::Position> border;
    for (int step = 0; step <= steps; ++step) {
        const double share = static_cast<double>(step) / steps;
        const double lon = degrees[0] + share * (degrees[2] - degrees[0]);
        const double lat = degrees[1] + share * (degrees[3] - degrees[1]);
        border.push_back({lon, degrees[1]});
        border.push_back({lon, degrees[3]});
        border.push_back({degrees[0], lat});
        border.push_back({degrees[2], lat});
    }
    Box box{1e300, 1e300, -1e300, -1e300};
    for (const auto& point : crs.fromWgs84(border)) {
        if (!point)
            return std::nullopt;
        box.minX = std::min(box.minX, point->x);
        box.minY = std::min(box.minY, point->y);
        box.maxX = std::max(box.maxX, point->x);
        box.maxY = std::max(box.maxY, point->y);
    }
    return box;
}

const WmtsLayer& layerNamed(const ServerAddress& address, const WmtsCapabilities& capabilities) {
    const std::string name = address.word("layer");
    for (const WmtsLayer& layer : capabilities.layers)
        if (layer.name == name)
            return layer;
    refuse(address,
           name.empty() ? Wording{phrase("core", "The address does not say which layer.")}
                        : Wording{phrase("core", "The server has no layer '%1'.")(name)},
           phrase("core", "Add the imagery anew and choose one of the layers that the server has now."));
}

std::string formatOf(const ServerAddress& address, const WmtsLayer& layer) {
    const std::string asked = address.word("format");
    for (const std::string& format : layer.formats)
        if (asked.empty() || format == asked)
            return format;
    refuse(address, phrase("core", "The server offers '%1' neither as PNG nor as JPEG.")(layer.name),
           phrase("core", "Choose another layer."));
}

std::string filled(std::string text, const std::string& name, const std::string& value) {
    // Servers write the names in capitals and without.
    for (std::size_t at = text.find('{'); at != std::string::npos; at = text.find('{', at + 1)) {
        const std::size_t close = text.find('}', at);
        if (close == std::string::npos)
            break;
        if (units::lowered(text.substr(at + 1, close - at - 1)) == units::lowered(name))
            text.replace(at, close - at + 1, value);
    }
    return text;
}

} // namespace

TileGrid gridOf(const ServerAddress& address) {
    TileGrid grid;
    grid.format = "Tiles of a server (XYZ)";
    grid.crs = "EPSG:3857";
    grid.address = address.plain;
    grid.tileServer = address.server;
    if (const std::string tile = address.word("tile"); !tile.empty()) {
        if (tile != "256" && tile != "512")
            refuse(address, phrase("core", "Behind '#' the address says tiles of '%1' pixels.")(tile),
                   phrase("core", "Say 256 or 512."));
        grid.tileSize = tile == "256" ? 256 : 512;
    }
    int first = 0;
    int deepest = kUsualDeepestZoom;
    if (const std::string zoom = address.word("zoom"); !zoom.empty()) {
        const auto values = numbers(zoom, '-');
        const bool good = values.size() == 2 && values[0] >= 0 && values[0] <= values[1] && values[1] <= kDeepestZoom &&
                          values[0] == std::floor(values[0]) && values[1] == std::floor(values[1]);
        if (!good)
            refuse(address, phrase("core", "Behind '#' the address says the zooms '%1'.")(zoom),
                   phrase("core", "Say the first and the deepest, such as zoom=0-19; the deepest that is read is 22."));
        first = static_cast<int>(values[0]);
        deepest = static_cast<int>(values[1]);
    }
    Box box{-kHalfWorld, -kHalfWorld, kHalfWorld, kHalfWorld};
    if (const std::string degrees = address.word("box"); !degrees.empty()) {
        const auto values = numbers(degrees, ',');
        const bool good = values.size() == 4 && values[0] >= -180 && values[0] < values[2] && values[2] <= 180 &&
                          values[1] < values[3] && values[1] < kMercatorLatitude && values[3] > -kMercatorLatitude;
        if (!good)
            refuse(address, phrase("core", "Behind '#' the address says the box '%1'.")(degrees),
                   phrase("core", "Say west, south, east and north in degrees, such as box=-7.6,46.1,-7.4,46.3."));
        const auto mercator = [](double lat) {
            const double angle = std::clamp(lat, -kMercatorLatitude, kMercatorLatitude) * std::numbers::pi / 180.0;
            return std::asinh(std::tan(angle)) * kHalfWorld / std::numbers::pi;
        };
        box = {values[0] / 180.0 * kHalfWorld, mercator(values[1]), values[2] / 180.0 * kHalfWorld,
               mercator(values[3])};
    }
    std::vector<Measured> levels;
    for (int zoom = deepest; zoom >= first; --zoom) {
        const std::int64_t side = std::int64_t{1} << zoom;
        Measured level{std::to_string(zoom),
                       2.0 * kHalfWorld / (static_cast<double>(side) * grid.tileSize),
                       -kHalfWorld,
                       kHalfWorld,
                       side,
                       side,
                       {0, side - 1, 0, side - 1}};
        clip(level, box, grid.tileSize);
        levels.push_back(std::move(level));
    }
    take(std::move(levels), grid);
    if (grid.levels.empty())
        refuse(address, phrase("core", "The address describes no tiles."),
               phrase("core", "Check what it says behind '#'."));
    return grid;
}

std::string templateOf(const WmtsCapabilities& capabilities, const WmtsLayer& layer, const std::string& format) {
    const auto restful = layer.templates.find(format);
    if (restful != layer.templates.end() && isServerAddress(restful->second))
        return restful->second;
    if (!isServerAddress(capabilities.keyValueAddress))
        return {};
    std::string address = capabilities.keyValueAddress;
    for (const char* parameter :
         {"SERVICE=WMTS", "REQUEST=GetTile", "VERSION=1.0.0", "LAYER={Layer}", "STYLE={Style}", "FORMAT={Format}",
          "TILEMATRIXSET={TileMatrixSet}", "TILEMATRIX={TileMatrix}", "TILEROW={TileRow}", "TILECOL={TileCol}"})
        address = withParameter(address, parameter);
    for (const auto& [name, value] : layer.dimensions)
        address = withParameter(address, percentEncoded(name) + "={" + name + "}");
    return address;
}

TileGrid gridOf(const ServerAddress& address, const WmtsCapabilities& capabilities) {
    const WmtsLayer& layer = layerNamed(address, capabilities);
    const std::string setName = address.word("set");
    const auto set = capabilities.sets.find(setName);
    if (set == capabilities.sets.end() || std::find(layer.sets.begin(), layer.sets.end(), setName) == layer.sets.end())
        refuse(address, phrase("core", "The server does not offer '%1' in the grid '%2'.")(layer.name, setName),
               phrase("core", "Add the imagery anew and choose one of those that it has now."));
    if (!set->second.reason.empty())
        refuse(address, phrase("core", "The grid '%1' cannot be shown: %2.")(setName, set->second.reason),
               phrase("core", "Choose a layer in another grid, such as GoogleMapsCompatible."));
    std::string style = address.word("style");
    if (style.empty() && !layer.styles.empty())
        style = layer.styles.front().name;

    TileGrid grid;
    grid.format = "Web Map Tile Service";
    grid.crs = set->second.crs;
    grid.tileSize = set->second.matrices.front().tileWidth;
    const std::string format = formatOf(address, layer);
    grid.address = templateOf(capabilities, layer, format);
    if (grid.address.empty())
        refuse(address, phrase("core", "The server does not say how its tiles are asked for."),
               phrase("core", "Ask whoever runs it."));
    grid.tileServer = serverOf(grid.address);
    const std::string agreed = address.word("tiles");
    if (!isSameServer(address.server, grid.tileServer) &&
        !(isServerAddress(agreed) && isSameServer(agreed, grid.tileServer)))
        refuse(address, phrase("core", "The tiles come from another server, %1, which was not named.")(grid.tileServer),
               phrase("core", "Add the imagery anew, and agree to it if that is right."));
    grid.address = filled(grid.address, "Layer", percentEncoded(layer.name));
    grid.address = filled(grid.address, "Style", percentEncoded(style));
    grid.address = filled(grid.address, "Format", percentEncoded(format));
    grid.address = filled(grid.address, "TileMatrixSet", percentEncoded(setName));
    for (const auto& [name, value] : layer.dimensions)
        grid.address = filled(grid.address, name, percentEncoded(value));
    grid.address = filled(grid.address, "TileMatrix", "{z}");
    grid.address = filled(grid.address, "TileRow", "{y}");
    grid.address = filled(grid.address, "TileCol", "{x}");
    // A key that opened the capabilities opens the tiles of the same server.
    if (const std::string key = keyParameter(address.plain);
        !key.empty() && isSameServer(address.server, grid.tileServer) &&
        units::lowered(grid.address).find(units::lowered(key.substr(0, key.find('=') + 1))) == std::string::npos)
        grid.address = withParameter(grid.address, key);

    const geodesy::CrsTransform crs{grid.crs};
    const double metresPerUnit = crs.metresPerUnit().value_or(kMetresPerDegree);
    const std::optional<Box> box = layer.box ? boxIn(crs, *layer.box) : std::nullopt;
    const auto limits = layer.limits.find(setName);
    std::vector<Measured> levels;
    for (const TileMatrix& matrix : set->second.matrices) {
        Measured level{matrix.name,
                       matrix.scaleDenominator * kStandardPixel / metresPerUnit,
                       matrix.cornerX,
                       matrix.cornerY,
                       matrix.columns,
                       matrix.rows,
                       {0, matrix.columns - 1, 0, matrix.rows - 1}};
        if (limits != layer.limits.end()) {
            const auto own = limits->second.find(matrix.name);
            if (own == limits->second.end())
                continue; // the layer is not offered at this resolution
            level.limits = {own->second.minColumn, std::min(own->second.maxColumn, matrix.columns - 1),
                            own->second.minRow, std::min(own->second.maxRow, matrix.rows - 1)};
        }
        if (box)
            clip(level, *box, grid.tileSize);
        levels.push_back(std::move(level));
    }
    take(std::move(levels), grid);
    if (grid.levels.empty())
        refuse(address, phrase("core", "The server has no tiles of '%1' in the grid '%2'.")(layer.name, setName),
               phrase("core", "Choose another layer or grid."));
    return grid;
}

} // namespace fencewright::raster::detail
