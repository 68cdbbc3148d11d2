#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <mutex>
#include <optional>
#include <string>

namespace fencewright::raster::detail {

/// A tile's name in the cache. Nothing secret is part of it.
struct TileName {
    std::string source; ///< the address of the source, without keys
    std::string level;
    std::int64_t column = 0, row = 0;
};

struct KeptTile {
    std::string bytes; ///< as the server sent them; empty: there is no such tile
    std::chrono::system_clock::time_point freshUntil;
};

/// Tiles of servers in files of a cache folder, bounded: what was not used for longest goes first. A cache: what cannot
/// be written or read is not there. Safe on any thread, and for several programs at once.
class KeptTiles {
public:
    /// @param folder  made where it is missing, for this person's eyes only; empty: nothing is kept.
    KeptTiles(std::filesystem::path folder, std::uint64_t byteLimit);

    [[nodiscard]] std::optional<KeptTile> find(const TileName& name) const;
    void keep(const TileName& name, const KeptTile& tile);
    void drop(const TileName& name);
    /// All tiles of a source.
    void dropAll(const std::string& source);

private:
    [[nodiscard]] std::filesystem::path folderOf(const std::string& source) const;
    [[nodiscard]] std::filesystem::path pathOf(const TileName& name) const;
    void countAll();
    void makeRoom();

    std::filesystem::path m_folder;
    std::uint64_t m_byteLimit;
    std::mutex m_mutex;
    std::optional<std::uint64_t> m_bytes; ///< nothing: not counted yet
};

} // namespace fencewright::raster::detail
