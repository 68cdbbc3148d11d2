#pragma once

#include "raster/detail/pixel_source.h"
#include "raster/detail/server_conversation.h"

#include <list>
#include <memory>

namespace fencewright::raster::detail {

/// Tiles of a server that the person named (raster/tile_server.h).
class ServerPixels final : public PixelSource {
public:
    /// Reads the capabilities, or asks for one tile, so that a server that is not there or wants credentials is known
    /// from the start.
    /// @throws Fault  the address is none; not allowed; not reachable; not what it should be.
    ServerPixels(const std::string& address, std::shared_ptr<const ServerAccess> access, const Progress& progress);

    [[nodiscard]] const Header& header() const override { return m_header; }
    [[nodiscard]] const std::vector<PyramidLevel>& levels() const override { return m_grid.pyramid; }
    [[nodiscard]] BlockSize block(std::size_t) const override { return {m_grid.tileSize, m_grid.tileSize}; }
    [[nodiscard]] Cost cost() const override { return m_cost; }
    [[nodiscard]] Pixels read(std::size_t level, PixelRect part, int width, int height,
                              const Progress& progress) override;

private:
    struct Key {
        std::size_t level = 0;
        std::int64_t column = 0, row = 0;
        auto operator<=>(const Key&) const = default;
    };

    void describe();
    void knock(const Progress& progress);
    /// Null where there is no such tile. Holds until the next call.
    [[nodiscard]] const Pixels* tile(Key key, const Progress& progress);
    [[nodiscard]] const Pixels* take(Key key, ServerConversation::Tile sent, const Progress& progress);

    std::shared_ptr<const ServerAccess> m_access;
    ServerConversation m_conversation;
    TileGrid m_grid;
    Header m_header;
    Cost m_cost;
    std::list<std::pair<Key, Pixels>> m_recent; ///< decoded, the latest first: pictures share tiles at their edges
};

} // namespace fencewright::raster::detail
