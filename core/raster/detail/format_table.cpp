#include "raster/detail/format_table.h"

#include "raster/dataset.h"

namespace fencewright::raster {

namespace detail {

std::span<const Format> formatTable() {
    static const std::array table{
        Format{"GeoTIFF", "GTiff", {"tif", "tiff", "gtiff"}},
        Format{"JPEG 2000", "JP2OpenJPEG", {"jp2", "j2k", "jpx"}},
        Format{"PNG", "PNG", {"png"}},
        Format{"JPEG", "JPEG", {"jpg", "jpeg"}},
        Format{"MBTiles", "MBTiles", {"mbtiles"}},
        Format{phrase("core", "GeoPackage tiles").english, "GPKG", {"gpkg"}},
        Format{phrase("core", "Virtual mosaic (VRT)").english, "VRT", {"vrt"}},
    };
    return table;
}

Wording formatNames() {
    Wording names = phrase("core", "folder of tiles z/x/y");
    const std::span<const Format> table = formatTable();
    for (auto format = table.rbegin(); format != table.rend(); ++format)
        names = phrase("core", "%1, %2")(Phrase{format->name}, names);
    return names;
}

} // namespace detail

std::vector<RasterFormat> rasterFormats() {
    std::vector<RasterFormat> formats;
    for (const detail::Format& format : detail::formatTable())
        formats.push_back({format.name, format.suffixes});
    formats.push_back({detail::kTileFolderName, {}});
    return formats;
}

} // namespace fencewright::raster
