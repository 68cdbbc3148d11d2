#include "raster/detail/open_source.h"

#include "fault.h"
#include "raster/detail/gdal_pixels.h"
#include "raster/detail/server_pixels.h"
#include "raster/detail/tile_folder.h"
#include "raster/tile_server.h"

#include <filesystem>

namespace fencewright::raster::detail {

namespace fs = std::filesystem;

std::string existing(const std::string& path) {
    std::error_code failed;
    if (path.empty() || !fs::exists(path, failed))
        throw Fault{"There is no such file or folder.", path, "Check the name, or look where it was moved to."};
    // From here on GDAL cannot take the name for anything but a file.
    return fs::absolute(path).lexically_normal().string();
}

std::unique_ptr<PixelSource> openSource(const std::string& path, const OpenOptions& options) {
    if (isServerAddress(path))
        return std::make_unique<ServerPixels>(path, options.servers);
    if (fs::is_directory(path))
        return std::make_unique<TileFolder>(path);
    if (!fs::is_regular_file(path))
        throw Fault{"This is neither a file nor a folder.", path,
                    "Choose a raster file, or a folder of tiles z/x/y or of GeoTIFFs."};
    return std::make_unique<GdalPixels>(path, options.appearance, options.pyramid);
}

std::string stateOf(const std::string& path) {
    std::error_code failed;
    const auto time = fs::last_write_time(path, failed).time_since_epoch().count();
    const bool isFile = fs::is_regular_file(path, failed);
    return path + '\n' + std::to_string(time) + '\n' + (isFile ? std::to_string(fs::file_size(path, failed)) : "");
}

} // namespace fencewright::raster::detail
