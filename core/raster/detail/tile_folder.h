#pragma once

#include "raster/detail/pixel_source.h"

#include <cstdint>
#include <list>
#include <map>

namespace fencewright::raster::detail {

/// A folder of PNG or JPEG tiles z/x/y in Web Mercator (EPSG:3857), rows counted from the north; from the south where
/// the folder has a tilemapresource.xml, as the Tile Map Service specification says. The deepest zoom says how large
/// the raster is.
class TileFolder final : public PixelSource {
public:
    /// @throws Fault  no tiles in it, or too many.
    explicit TileFolder(const std::string& folder);

    /// Whether there are folders named as zooms in it.
    [[nodiscard]] static bool hasZooms(const std::string& folder);

    [[nodiscard]] const Header& header() const override { return m_header; }
    [[nodiscard]] const std::vector<PyramidLevel>& levels() const override { return m_levels; }
    [[nodiscard]] BlockSize block(std::size_t) const override { return {m_tileSize, m_tileSize}; }
    [[nodiscard]] Cost cost() const override { return m_cost; }
    [[nodiscard]] Pixels read(std::size_t level, PixelRect part, int width, int height,
                              const Progress& progress) override;

private:
    struct Zoom {
        int zoom = 0;
        std::int64_t minX = 0, minY = 0, maxX = 0, maxY = 0; ///< tiles, rows from the north
    };
    struct Key {
        std::size_t level = 0;
        std::int64_t x = 0, y = 0;
        auto operator<=>(const Key&) const = default;
    };

    void findZooms();
    void findExtent(Zoom& deepest);
    void findTileForm(const Zoom& deepest);
    [[nodiscard]] std::string tilePath(const Zoom& zoom, std::int64_t x, std::int64_t y) const;
    /// Null where there is no such tile. Holds until the next call.
    [[nodiscard]] const Pixels* tile(Key key, const Progress& progress);

    std::string m_folder;
    bool m_rowsFromSouth = false;
    std::string m_suffix;
    int m_tileSize = 256;
    Header m_header;
    std::vector<PyramidLevel> m_levels;
    std::vector<Zoom> m_zooms; ///< of each level
    Cost m_cost;
    std::list<std::pair<Key, Pixels>>
        m_recent; ///< decoded tiles, the latest first: pictures share tiles at their edges
};

} // namespace fencewright::raster::detail
