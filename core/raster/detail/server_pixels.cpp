#include "raster/detail/server_pixels.h"

#include "fault.h"
#include "raster/detail/tile_assembly.h"
#include "raster/detail/tile_decoding.h"

namespace fencewright::raster::detail {

namespace {

constexpr std::size_t kTilesKept = 32;
// A picture of much more than the coarsest tiles cover would ask the server for thousands of them.
constexpr std::int64_t kMostTilesARead = 256;

const ServerAccess& given(const std::shared_ptr<const ServerAccess>& access, const std::string& address) {
    if (!access)
        throw Fault{phrase("core", "Addresses of servers are not opened here."),
                    isServerAddress(address) ? serverOf(address) : address, phrase("core", "Choose a file.")};
    return *access;
}

} // namespace

ServerPixels::ServerPixels(const std::string& address, std::shared_ptr<const ServerAccess> access,
                           const Progress& progress)
    : m_access{std::move(access)}, m_conversation{given(m_access, address), parsedAddress(address)} {
    if (m_conversation.address().kind == ServerAddress::Kind::Capabilities) {
        m_grid = gridOf(m_conversation.address(), *m_conversation.capabilities(progress));
    } else {
        m_grid = gridOf(m_conversation.address());
        knock(progress);
    }
    describe();
}

// Any tile will do; that of the coarsest level is the one that is most often there already.
void ServerPixels::knock(const Progress& progress) {
    const TileGrid::Level& coarsest = m_grid.levels.back();
    const Key key{m_grid.levels.size() - 1, coarsest.minColumn + coarsest.columns / 2,
                  coarsest.minRow + coarsest.rows / 2};
    if (auto sent = m_conversation.knock(m_grid, coarsest, key.column, key.row, progress))
        (void)take(key, std::move(*sent), progress);
}

void ServerPixels::describe() {
    m_header.format = m_grid.format;
    m_header.width = m_grid.pyramid.front().width;
    m_header.height = m_grid.pyramid.front().height;
    m_header.crs = m_grid.crs;
    m_header.hasGeotransform = true;
    m_header.geotransform = m_grid.geotransform;
    for (const char* colour : {"Red", "Green", "Blue", "Alpha"}) {
        BandDescription band{"Byte", colour, std::nullopt, {}};
        for (std::size_t level = 1; level < m_grid.pyramid.size(); ++level)
            band.overviews.push_back({m_grid.pyramid[level].width, m_grid.pyramid[level].height});
        m_header.bands.push_back(std::move(band));
    }
}

const Pixels* ServerPixels::tile(Key key, const Progress& progress) {
    const auto known =
        std::find_if(m_recent.begin(), m_recent.end(), [&](const auto& entry) { return entry.first == key; });
    if (known != m_recent.end()) {
        m_recent.splice(m_recent.begin(), m_recent, known);
        return m_recent.front().second.words ? &m_recent.front().second : nullptr;
    }
    const TileGrid::Level& level = m_grid.levels[key.level];
    return take(key, m_conversation.tile(m_grid, level, key.column, key.row, progress), progress);
}

const Pixels* ServerPixels::take(Key key, ServerConversation::Tile sent, const Progress& progress) {
    const TileGrid::Level& level = m_grid.levels[key.level];
    const auto decode = [&] {
        if (sent.bytes.empty())
            return Pixels{};
        ++m_cost.reads;
        m_cost.pixels += static_cast<std::uint64_t>(m_grid.tileSize) * static_cast<std::uint64_t>(m_grid.tileSize);
        return decodedTile(sent.bytes, m_grid.tileSize, m_conversation.placeOf(level, key.column, key.row), progress);
    };
    Pixels decoded;
    try {
        decoded = decode();
    } catch (const Cancelled&) {
        throw;
    } catch (const Fault&) {
        if (!sent.wasKept)
            throw;
        // The kept file was damaged; the server may have a good one.
        m_conversation.drop(level, key.column, key.row);
        sent = m_conversation.tile(m_grid, level, key.column, key.row, progress);
        decoded = decode();
    }
    m_conversation.keep(level, key.column, key.row, sent);
    m_recent.emplace_front(key, std::move(decoded));
    if (m_recent.size() > kTilesKept)
        m_recent.pop_back();
    return m_recent.front().second.words ? &m_recent.front().second : nullptr;
}

Pixels ServerPixels::read(std::size_t level, PixelRect part, int width, int height, const Progress& progress) {
    const TileGrid::Level& tiles = m_grid.levels[level];
    const int size = m_grid.tileSize;
    const std::int64_t firstColumn = part.x / size;
    const std::int64_t lastColumn = (part.x + part.width - 1) / size;
    const std::int64_t firstRow = part.y / size;
    const std::int64_t lastRow = (part.y + part.height - 1) / size;
    if ((lastColumn - firstColumn + 1) * (lastRow - firstRow + 1) > kMostTilesARead)
        return {width, height, nullptr, false};

    return assembledFromTiles(part, width, height, size, progress, [&](int column, int row) {
        return tile({level, tiles.minColumn + column, tiles.minRow + row}, progress);
    });
}

} // namespace fencewright::raster::detail
