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
        Format{"GeoPackage tiles", "GPKG", {"gpkg"}},
        Format{"Virtual mosaic (VRT)", "VRT", {"vrt"}},
    };
    return table;
}

std::string formatNames() {
    std::string names;
    for (const Format& format : formatTable())
        names += std::string{format.name} + ", ";
    return names + "folder of tiles z/x/y";
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
