// Makes what the bench measures with, once: bench-data FOLDER. What is there already stays.

#include "bench/data/orthophoto.h"
#include "bench/data/parcels.h"

#include <gdal_priv.h>

#include <cstdio>
#include <exception>
#include <functional>
#include <optional>

using namespace fencewright::bench;
namespace fs = std::filesystem;

namespace {

/// Under another name until it is whole.
void make(const fs::path& path, const std::function<void(const fs::path&)>& write) {
    if (fs::exists(path))
        return;
    std::printf("Making %s\n", path.filename().c_str());
    std::fflush(stdout);
    const fs::path unfinished = path.parent_path() / ("unfinished-" + path.filename().string());
    fs::remove_all(unfinished);
    write(unfinished);
    fs::rename(unfinished, path);
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fputs("bench-data FOLDER\n", stderr);
        return 2;
    }
    GDALAllRegister();
    CPLSetConfigOption("OGR_SQLITE_SYNCHRONOUS", "OFF");
    const fs::path folder = argv[1];
    try {
        fs::create_directories(folder);
        std::optional<Picture> drawn;
        const auto picture = [&]() -> const Picture& { return drawn ? *drawn : drawn.emplace(farmland(8192)); };
        make(folder / "ortho-10-gigapixel.tif",
             [&](const fs::path& to) { writeTiledOrthophoto(to, picture(), 196, 0.4); });
        make(folder / "ortho-strips.tif",
             [&](const fs::path& to) { writeStripOrthophoto(to, picture(), 20'480, 0.4); });
        make(folder / "ortho-cog.tif",
             [&](const fs::path& to) { writeCloudOptimised(to, folder / "ortho-strips.tif"); });
        make(folder / "ortho-small-strips.tif",
             [&](const fs::path& to) { writeStripOrthophoto(to, picture(), 8'192, 0.4); });
        make(folder / "parcels-wgs84.gpkg", [&](const fs::path& to) { writeParcels(to, "GPKG", 4326); });
        make(folder / "parcels-utm.gpkg", [&](const fs::path& to) { writeParcels(to, "GPKG", 32629); });
        // A folder, for a shapefile is several files.
        make(folder / "parcels-shapefile", [&](const fs::path& to) {
            fs::create_directories(to);
            writeParcels(to / "parcels.shp", "ESRI Shapefile", 4326);
        });
    } catch (const std::exception& problem) {
        std::fprintf(stderr, "%s\n", problem.what());
        return 1;
    }
    return 0;
}
