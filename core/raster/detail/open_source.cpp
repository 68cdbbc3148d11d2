#include "raster/detail/open_source.h"

#include "fault.h"
#include "raster/detail/gdal_pixels.h"
#include "raster/detail/mosaic_folder.h"
#include "raster/detail/server_pixels.h"
#include "raster/detail/tile_folder.h"
#include "raster/pyramid.h"
#include "raster/tile_server.h"

#include <filesystem>

namespace fencewright::raster::detail {

namespace fs = std::filesystem;

std::string existing(const std::string& path) {
    std::error_code failed;
    if (path.empty() || !fs::exists(path, failed))
        throw Fault{phrase("core", "There is no such file or folder."), path,
                    phrase("core", "Check the name, or look where it was moved to.")};
    // From here on GDAL cannot take the name for anything but a file.
    return fs::absolute(path).lexically_normal().string();
}

namespace {

std::unique_ptr<PixelSource> openFolder(const std::string& path, const OpenOptions& options) {
    if (TileFolder::hasZooms(path) || !holdsGeoTiffs(path))
        return std::make_unique<TileFolder>(path);
    Mosaic mosaic = openMosaic(path);
    const auto opened = [&](const std::string& pyramid) {
        return std::make_unique<GdalPixels>(GdalPixels::Opened{std::move(mosaic.dataset), path, kMosaicName,
                                                               std::move(mosaic.notes), std::move(mosaic.state)},
                                            options.appearance, pyramid);
    };
    // Beside a file the library looks itself.
    const fs::path beside = pyramidBeside(path);
    std::error_code failed;
    if (!options.pyramid.empty() || !fs::is_regular_file(beside, failed))
        return opened(options.pyramid);
    Wording reason = phrase("core", "it is older than the files in it.");
    if (fs::last_write_time(beside, failed) >= mosaic.changed) {
        try {
            return opened(beside.string());
        } catch (const Fault& fault) {
            if (fault.place() != beside.string())
                throw;
            reason = fault.words().problem;
        }
        mosaic = openMosaic(path);
    }
    mosaic.notes.push_back(phrase("core", "The pyramid beside the folder is not used: %1")(reason));
    return opened("");
}

} // namespace

std::unique_ptr<PixelSource> openSource(const std::string& path, const OpenOptions& options, const Progress& progress) {
    if (isServerAddress(path))
        return std::make_unique<ServerPixels>(path, options.servers, progress);
    if (fs::is_directory(path))
        return openFolder(path, options);
    if (!fs::is_regular_file(path))
        throw Fault{phrase("core", "This is neither a file nor a folder."), path,
                    phrase("core", "Choose a raster file, or a folder of tiles z/x/y or of GeoTIFFs.")};
    return std::make_unique<GdalPixels>(path, options.appearance, options.pyramid);
}

std::string stateOf(const std::string& path) {
    std::error_code failed;
    const auto time = fs::last_write_time(path, failed).time_since_epoch().count();
    const bool isFile = fs::is_regular_file(path, failed);
    return path + '\n' + std::to_string(time) + '\n' + (isFile ? std::to_string(fs::file_size(path, failed)) : "");
}

// FNV-1a of 64 bits (Fowler, Noll, Vo); twice, with two starts, names one of very many files.
std::string digest(const std::string& text) {
    std::string digits;
    for (const std::uint64_t start : {14695981039346656037ULL, 0x9e3779b97f4a7c15ULL}) {
        std::uint64_t hash = start;
        for (const char letter : text)
            hash = (hash ^ static_cast<unsigned char>(letter)) * 1099511628211ULL;
        for (int shift = 60; shift >= 0; shift -= 4)
            digits += "0123456789abcdef"[hash >> shift & 15U];
    }
    return digits;
}

} // namespace fencewright::raster::detail
