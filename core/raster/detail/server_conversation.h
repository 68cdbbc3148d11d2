#pragma once

#include "raster/detail/http_client.h"
#include "raster/detail/kept_tiles.h"
#include "raster/detail/tile_grid.h"

#include <map>
#include <mutex>
#include <set>

namespace fencewright::raster {

struct ServerAccess::Parts {
    struct Rest {
        std::chrono::steady_clock::time_point until;
        Wording problem;
        Wording remedy;
    };

    explicit Parts(ServerRules given) : rules{std::move(given)}, tiles{rules.tileFolder, rules.tileFolderBytes} {}

    const ServerRules rules;
    detail::KeptTiles tiles;

    std::mutex mutex; ///< of all below
    std::set<std::string> allowed;
    std::map<std::string, Credentials> credentials;
    std::map<std::string, Rest> resting;
    std::map<std::string, std::chrono::steady_clock::time_point> answered; ///< when, by the address of tiles
    std::map<std::string, std::shared_ptr<const detail::WmtsCapabilities>> capabilities; ///< by plain address
};

/// One thread's talk with a server about one source.
class ServerConversation {
public:
    /// @throws Fault  the person did not name this server.
    ServerConversation(const ServerAccess& access, detail::ServerAddress address);

    [[nodiscard]] const detail::ServerAddress& address() const { return m_address; }
    /// @throws Fault  as describeServer.
    [[nodiscard]] std::shared_ptr<const detail::WmtsCapabilities> capabilities(const Progress& progress);

    struct Tile {
        std::string bytes; ///< empty: there is none
        bool wasKept = false;
        bool mayBeKept = true;
        std::chrono::system_clock::time_point freshUntil;
    };
    /// A kept tile while it is fresh, or as long as the server does not answer; else the server's.
    /// @param column,row  of the whole level, rows from the north.
    /// @throws Fault  refused, or no answer and nothing kept. Cancelled.
    [[nodiscard]] Tile tile(const detail::TileGrid& grid, const detail::TileGrid::Level& level, std::int64_t column,
                            std::int64_t row, const Progress& progress);
    /// Asks for a tile whatever is kept, unless the server answered a moment ago: so that one that wants to know who
    /// asks is known before its tiles are missing. What is kept stands in for a server that does not answer.
    [[nodiscard]] std::optional<Tile> knock(const detail::TileGrid& grid, const detail::TileGrid::Level& level,
                                            std::int64_t column, std::int64_t row, const Progress& progress);
    /// After it was seen to be one.
    void keep(const detail::TileGrid::Level& level, std::int64_t column, std::int64_t row, const Tile& tile);
    /// After it was seen to be broken.
    void drop(const detail::TileGrid::Level& level, std::int64_t column, std::int64_t row);
    [[nodiscard]] Wording placeOf(const detail::TileGrid::Level& level, std::int64_t column, std::int64_t row) const;

private:
    [[nodiscard]] Tile askedTile(const detail::TileGrid& grid, const detail::TileGrid::Level& level,
                                 std::int64_t column, std::int64_t row, const std::optional<detail::KeptTile>& kept,
                                 const Progress& progress);
    [[nodiscard]] detail::TileName nameOf(const detail::TileGrid::Level& level, std::int64_t column,
                                          std::int64_t row) const;
    [[nodiscard]] detail::HttpAnswer ask(const std::string& address, const std::string& server, const Wording& place,
                                         std::size_t mostBytes, const Progress& progress);

    ServerAccess::Parts& m_access;
    detail::ServerAddress m_address;
    detail::HttpClient m_client;
};

} // namespace fencewright::raster
