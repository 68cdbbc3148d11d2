#pragma once

#include <QImage>
#include <QRectF>

#include "desktop/canvas/tile_queue.h"

#include <limits>
#include <list>
#include <map>

namespace fencewright::desktop {

/// Tiles that were made, up to a bound; what was not used for longest goes first.
class TileStore {
public:
    struct Tile {
        QImage image;  ///< null: nothing is there
        QRectF ground; ///< where it lies, y up: in the plane, or in the CRS of a raster that has its own pyramid
    };

    explicit TileStore(qint64 byteLimit) : m_byteLimit{byteLimit} {}

    /// Counts as use. Null: not there.
    const Tile* find(const TileKey& key);
    /// Replaces what was there.
    void put(const TileKey& key, Tile tile);
    template <class Which> void dropWhere(Which&& which);
    /// Calls `visit(key, tile)` for each of the layer; does not count as use.
    template <class Visit> void visit(std::uint64_t layer, Visit&& visit) const;

    qint64 bytes() const { return m_bytes; }
    qint64 byteLimit() const { return m_byteLimit; }

private:
    struct Kept {
        Tile tile;
        std::list<TileKey>::iterator use;
    };
    /// Also what is empty takes room, for its key.
    static qint64 bytesOf(const Tile& tile) { return tile.image.sizeInBytes() + 512; }
    void erase(std::map<TileKey, Kept>::iterator at);

    qint64 m_byteLimit;
    qint64 m_bytes = 0;
    std::map<TileKey, Kept> m_tiles;
    std::list<TileKey> m_byUse; ///< the most recently used first
};

template <class Which> void TileStore::dropWhere(Which&& which) {
    for (auto at = m_tiles.begin(); at != m_tiles.end();) {
        const auto next = std::next(at);
        if (which(at->first))
            erase(at);
        at = next;
    }
}

template <class Visit> void TileStore::visit(std::uint64_t layer, Visit&& visit) const {
    TileKey first;
    first.layer = layer;
    first.kind = std::numeric_limits<int>::min();
    for (auto at = m_tiles.lower_bound(first); at != m_tiles.end() && at->first.layer == layer; ++at)
        visit(at->first, at->second.tile);
}

} // namespace fencewright::desktop
