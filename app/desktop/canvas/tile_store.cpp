#include "desktop/canvas/tile_store.h"

namespace fencewright::desktop {

const TileStore::Tile* TileStore::find(const TileKey& key) {
    const auto at = m_tiles.find(key);
    if (at == m_tiles.end())
        return nullptr;
    m_byUse.splice(m_byUse.begin(), m_byUse, at->second.use);
    return &at->second.tile;
}

void TileStore::put(const TileKey& key, Tile tile) {
    if (const auto at = m_tiles.find(key); at != m_tiles.end())
        erase(at);
    m_bytes += bytesOf(tile);
    m_byUse.push_front(key);
    m_tiles.emplace(key, Kept{std::move(tile), m_byUse.begin()});
    while (m_bytes > m_byteLimit && m_byUse.size() > 1)
        erase(m_tiles.find(m_byUse.back()));
}

void TileStore::erase(std::map<TileKey, Kept>::iterator at) {
    m_bytes -= bytesOf(at->second.tile);
    m_byUse.erase(at->second.use);
    m_tiles.erase(at);
}

} // namespace fencewright::desktop
