#include "raster/detail/tile_folder.h"

#include "fault.h"
#include "raster/detail/format_table.h"
#include "raster/detail/gdal_pixels.h"
#include "raster/detail/tile_assembly.h"

#include <charconv>
#include <filesystem>

namespace fencewright::raster::detail {

namespace fs = std::filesystem;

namespace {

constexpr int kDeepestZoom = 22; // 2^22 tiles of 256 pixels: the last whose pixels an int can count
constexpr std::size_t kMostTiles = 4'000'000;
constexpr std::size_t kTilesKept = 16;
// Half the circumference of the sphere of Web Mercator: pi * 6 378 137 m (EPSG method 1024).
constexpr double kHalfWorld = 20037508.342789244;

std::optional<int> number(const std::string& text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || value < 0)
        return std::nullopt;
    return value;
}

bool isTileSuffix(const std::string& suffix) { return suffix == ".png" || suffix == ".jpg" || suffix == ".jpeg"; }

std::vector<int> zoomsIn(const fs::path& folder) {
    std::vector<int> zooms;
    for (const fs::directory_entry& entry : fs::directory_iterator{folder})
        if (const auto zoom = number(entry.path().filename().string());
            zoom && *zoom <= kDeepestZoom && entry.is_directory())
            zooms.push_back(*zoom);
    return zooms;
}

} // namespace

bool TileFolder::hasZooms(const std::string& folder) {
    try {
        return !zoomsIn(folder).empty();
    } catch (const fs::filesystem_error&) {
        return false; // the constructor says why
    }
}

TileFolder::TileFolder(const std::string& folder) : m_folder{folder} {
    try {
        findZooms();
    } catch (const fs::filesystem_error& error) {
        throw Fault{phrase("core", "The folder of tiles cannot be listed: %1.")(error.code().message()), folder,
                    phrase("core", "Check the rights of the folder.")};
    }
}

void TileFolder::findZooms() {
    m_rowsFromSouth = fs::exists(fs::path{m_folder} / "tilemapresource.xml");
    std::vector<int> zooms = zoomsIn(m_folder);
    std::sort(zooms.rbegin(), zooms.rend());

    Zoom deepest{0, 0, 0, -1, -1};
    for (const int zoom : zooms) {
        deepest = {zoom, 0, 0, -1, -1};
        findExtent(deepest);
        if (deepest.maxX >= 0)
            break;
    }
    if (deepest.maxX < 0)
        throw Fault{phrase("core", "There are no tiles in this folder."), m_folder,
                    phrase("core", "A folder of tiles holds PNG or JPEG files named zoom/column/row, such as "
                                   "17/66012/43218.png; a folder that makes one picture holds GeoTIFFs.")};
    findTileForm(deepest);

    for (const int zoom : zooms) {
        const int steps = deepest.zoom - zoom;
        if (steps < 0)
            continue;
        const double scale = std::ldexp(1.0, steps);
        const Zoom here{zoom, deepest.minX >> steps, deepest.minY >> steps, deepest.maxX >> steps,
                        deepest.maxY >> steps};
        m_zooms.push_back(here);
        const auto size = static_cast<double>(m_tileSize);
        m_levels.push_back({static_cast<int>(here.maxX - here.minX + 1) * m_tileSize,
                            static_cast<int>(here.maxY - here.minY + 1) * m_tileSize, scale, scale,
                            (static_cast<double>(here.minX) - static_cast<double>(deepest.minX) / scale) * size,
                            (static_cast<double>(here.minY) - static_cast<double>(deepest.minY) / scale) * size});
    }

    const double tileWidth = 2.0 * kHalfWorld / std::ldexp(1.0, deepest.zoom);
    m_header.format = kTileFolderName;
    m_header.width = m_levels.front().width;
    m_header.height = m_levels.front().height;
    m_header.crs = "EPSG:3857";
    m_header.hasGeotransform = true;
    m_header.geotransform = {static_cast<double>(deepest.minX) * tileWidth - kHalfWorld,
                             tileWidth / m_tileSize,
                             0,
                             kHalfWorld - static_cast<double>(deepest.minY) * tileWidth,
                             0,
                             -tileWidth / m_tileSize};
    for (const char* colour : {"Red", "Green", "Blue", "Alpha"}) {
        BandDescription band{"Byte", colour, std::nullopt, {}};
        for (std::size_t level = 1; level < m_levels.size(); ++level)
            band.overviews.push_back({m_levels[level].width, m_levels[level].height});
        m_header.bands.push_back(std::move(band));
    }
}

void TileFolder::findExtent(Zoom& deepest) {
    const std::int64_t side = std::int64_t{1} << deepest.zoom;
    std::size_t tiles = 0;
    bool any = false;
    for (const fs::directory_entry& column :
         fs::directory_iterator{fs::path{m_folder} / std::to_string(deepest.zoom)}) {
        const auto x = number(column.path().filename().string());
        if (!x || *x >= side || !column.is_directory())
            continue;
        for (const fs::directory_entry& file : fs::directory_iterator{column}) {
            if (++tiles > kMostTiles)
                throw Fault{phrase("core", "There are more than 4 million tiles at zoom %1.")(deepest.zoom), m_folder,
                            phrase("core", "Use an MBTiles file or a GeoTIFF instead.")};
            auto y = number(file.path().stem().string());
            const std::string suffix = file.path().extension().string();
            if (!y || *y >= side || !isTileSuffix(suffix))
                continue;
            const std::int64_t row = m_rowsFromSouth ? side - 1 - *y : *y;
            if (!any) {
                deepest.minX = deepest.maxX = *x;
                deepest.minY = deepest.maxY = row;
                m_suffix = suffix;
                any = true;
            }
            deepest.minX = std::min<std::int64_t>(deepest.minX, *x);
            deepest.maxX = std::max<std::int64_t>(deepest.maxX, *x);
            deepest.minY = std::min(deepest.minY, row);
            deepest.maxY = std::max(deepest.maxY, row);
        }
    }
}

void TileFolder::findTileForm(const Zoom& deepest) {
    for (const fs::directory_entry& entry :
         fs::recursive_directory_iterator{fs::path{m_folder} / std::to_string(deepest.zoom)}) {
        if (entry.path().extension() != m_suffix)
            continue;
        const GdalPixels first{entry.path().string()};
        if (first.header().width != first.header().height || first.header().width < 64 || first.header().width > 1024)
            throw Fault{phrase("core", "The tile has %1 x %2 pixels.")(first.header().width, first.header().height),
                        entry.path().string(), phrase("core", "Tiles are squares of 64 to 1024 pixels.")};
        m_tileSize = first.header().width;
        break;
    }
    const std::int64_t most = std::numeric_limits<int>::max() / m_tileSize;
    if (deepest.maxX - deepest.minX >= most || deepest.maxY - deepest.minY >= most)
        throw Fault{phrase("core", "The tiles cover too much ground at zoom %1.")(deepest.zoom), m_folder,
                    phrase("core", "Remove the deepest zoom, or the tiles that lie far away.")};
}

std::string TileFolder::tilePath(const Zoom& zoom, std::int64_t x, std::int64_t y) const {
    const std::int64_t row = m_rowsFromSouth ? (std::int64_t{1} << zoom.zoom) - 1 - y : y;
    return m_folder + "/" + std::to_string(zoom.zoom) + "/" + std::to_string(x) + "/" + std::to_string(row);
}

const Pixels* TileFolder::tile(Key key, const Progress& progress) {
    const auto known =
        std::find_if(m_recent.begin(), m_recent.end(), [&](const auto& entry) { return entry.first == key; });
    if (known != m_recent.end()) {
        m_recent.splice(m_recent.begin(), m_recent, known);
        return m_recent.front().second.words ? &m_recent.front().second : nullptr;
    }
    Pixels decoded;
    const std::string stem = tilePath(m_zooms[key.level], key.x, key.y);
    for (const std::string& suffix : {m_suffix, std::string{".png"}, std::string{".jpg"}, std::string{".jpeg"}}) {
        std::error_code failed;
        if (!fs::is_regular_file(stem + suffix, failed))
            continue;
        GdalPixels file{stem + suffix};
        if (file.header().width != m_tileSize || file.header().height != m_tileSize)
            throw Fault{phrase("core", "The tile has %1 x %2 pixels; the first had %3.")(
                            file.header().width, file.header().height, m_tileSize),
                        stem + suffix, phrase("core", "All tiles of a folder have one size.")};
        decoded = file.read(0, {0, 0, m_tileSize, m_tileSize}, m_tileSize, m_tileSize, progress);
        m_cost.reads += file.cost().reads;
        m_cost.pixels += file.cost().pixels;
        break;
    }
    m_recent.emplace_front(key, std::move(decoded));
    if (m_recent.size() > kTilesKept)
        m_recent.pop_back();
    return m_recent.front().second.words ? &m_recent.front().second : nullptr;
}

Pixels TileFolder::read(std::size_t level, PixelRect part, int width, int height, const Progress& progress) {
    const Zoom& zoom = m_zooms[level];
    return assembledFromTiles(part, width, height, m_tileSize, progress, [&](int column, int row) {
        return tile({level, zoom.minX + column, zoom.minY + row}, progress);
    });
}

} // namespace fencewright::raster::detail
