// A million parcels: reading them, against a plain loop over the features of the same file.

#include "bench/bar.h"
#include "reference/layer_cache.h"

#include <gdal_priv.h>
#include <ogrsf_frmts.h>
#include <proj.h>

#include <chrono>
#include <cstdio>
#include <fstream>
#include <future>
#include <stdexcept>

using namespace fencewright;
using namespace fencewright::bench;
namespace fs = std::filesystem;

namespace {

double ours(const Options& options, const fs::path& file) {
    const reference::LayerCache cache{options.data / "freshly-kept-layers"};
    fs::remove_all(cache.folder);
    exchange::ReadRequest request;
    request.path = file.string();
    // Until it can be drawn: its attributes are read on.
    double drawable = 0.0;
    const auto begin = std::chrono::steady_clock::now();
    const auto layer =
        reference::openLayer(FENCEWRIGHT_BUILD "/bin/fencewright-cli", request, cache, {}, {}, [&](const auto& shown) {
            if (shown->size() == 1'000'000)
                drawable = std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
        });
    if (layer->size() != 1'000'000 || drawable == 0.0)
        throw std::runtime_error{"not all parcels were read"};
    return drawable;
}

double plainLoop(const fs::path& file) {
    return milliseconds([&] {
        const GDALDatasetUniquePtr data{GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR)};
        if (!data)
            throw std::runtime_error{CPLGetLastErrorMsg()};
        OGRLayer* layer = data->GetLayer(0);
        std::vector<const char*> ignored;
        for (int i = 0; i < layer->GetLayerDefn()->GetFieldCount(); ++i)
            ignored.push_back(layer->GetLayerDefn()->GetFieldDefn(i)->GetNameRef());
        ignored.push_back(nullptr);
        layer->SetIgnoredFields(ignored.data());
        std::size_t corners = 0;
        for (const auto& feature : *layer)
            corners += std::size_t(feature->GetGeometryRef()->toPolygon()->getExteriorRing()->getNumPoints());
        if (corners != 9'000'000)
            throw std::runtime_error{"not all corners were read"};
    });
}

std::function<Figures(const Options&)> against(const char* file) {
    return [file](const Options& options) {
        const fs::path path = options.data / file;
        return interleaved(
            options.quick ? 3 : 5, [&] { return ours(options, path); }, [&] { return plainLoop(path); });
    };
}

// ---- What nobody gets under ----

/// All corners of the file as its driver reads them, without the repeated ones.
std::vector<PJ_COORD> cornersOf(const fs::path& file) {
    std::vector<PJ_COORD> corners;
    const GDALDatasetUniquePtr data{GDALDataset::Open(file.c_str(), GDAL_OF_VECTOR)};
    if (!data)
        throw std::runtime_error{CPLGetLastErrorMsg()};
    for (const auto& feature : *data->GetLayer(0)) {
        const OGRLinearRing* ring = feature->GetGeometryRef()->toPolygon()->getExteriorRing();
        for (int i = 0; i + 1 < ring->getNumPoints(); ++i)
            corners.push_back(proj_coord(ring->getX(i), ring->getY(i), 0.0, 0.0));
    }
    return corners;
}

/// PROJ's own time for all of them, on two threads.
double projected(std::vector<PJ_COORD> corners) {
    const auto half = [&](std::size_t begin, std::size_t end) {
        const std::unique_ptr<PJ_CONTEXT, decltype(&proj_context_destroy)> context{proj_context_create(),
                                                                                   &proj_context_destroy};
        const std::unique_ptr<PJ, decltype(&proj_destroy)> way{
            proj_create_crs_to_crs(context.get(), "EPSG:32629", "EPSG:4326", nullptr), &proj_destroy};
        if (!way || proj_trans_array(way.get(), PJ_FWD, end - begin, corners.data() + begin) != 0)
            throw std::runtime_error{"PROJ failed"};
    };
    return milliseconds([&] {
        auto second = std::async(std::launch::async, [&] { half(corners.size() / 2, corners.size()); });
        half(0, corners.size() / 2);
        second.get();
    });
}

Figures projection(const Options& options) {
    const fs::path file = options.data / "parcels-utm.gpkg";
    const std::vector<PJ_COORD> corners = cornersOf(file);
    if (corners.size() != 8'000'000)
        throw std::runtime_error{"not all corners were read"};
    return interleaved(
        options.quick ? 3 : 5, [&] { return projected(corners); }, [&] { return plainLoop(file); });
}

/// The bytes of the file, one after the other.
double read(const fs::path& file) {
    return milliseconds([&] {
        std::ifstream from{file, std::ios::binary};
        std::vector<char> room(std::size_t{1} << 20);
        while (from.read(room.data(), std::streamsize(room.size()))) {
        }
        if (!from.eof())
            throw std::runtime_error{"the file cannot be read"};
    });
}

Figures bytesOfFile(const Options& options) {
    const fs::path file = options.data / "parcels-utm.gpkg";
    return interleaved(
        options.quick ? 3 : 5, [&] { return read(file); }, [&] { return plainLoop(file); });
}

/// The child starts, opens the file by its driver, says what is in it, and ends.
Figures child(const Options& options) {
    const fs::path file = options.data / "parcels-utm.gpkg";
    return interleaved(
        options.quick ? 3 : 5,
        [&] {
            return milliseconds([&] {
                (void)exchange::describeVectorApart(FENCEWRIGHT_BUILD "/bin/fencewright-cli", file.string(), {}, {});
            });
        },
        [&] { return plainLoop(file); });
}

/// As many bytes as the geometry of the layer takes, from another process through a pipe into a file.
double transferred(const fs::path& to) {
    constexpr const char* command = "head -c 112000000 /dev/zero";
    return milliseconds([&] {
        const std::unique_ptr<std::FILE, decltype(&pclose)> from{popen(command, "r"), &pclose};
        std::ofstream file{to, std::ios::binary | std::ios::trunc};
        std::vector<char> room(std::size_t{1} << 18);
        std::size_t all = 0;
        while (const std::size_t count = std::fread(room.data(), 1, room.size(), from.get())) {
            file.write(room.data(), std::streamsize(count));
            all += count;
        }
        if (all != 112'000'000 || !file.flush())
            throw std::runtime_error{"not all bytes arrived"};
    });
}

Figures transfer(const Options& options) {
    const fs::path file = options.data / "parcels-utm.gpkg", copy = options.data / "transferred";
    const Figures figures = interleaved(
        options.quick ? 3 : 5, [&] { return transferred(copy); }, [&] { return plainLoop(file); });
    fs::remove(copy);
    return figures;
}

} // namespace

int main(int argc, char** argv) {
    GDALAllRegister();
    return runBars(
        argc, argv,
        {{"1,000,000 parcels, GeoPackage in WGS 84: file to ready-to-draw, against a geometry-only feature loop", "ms",
          Sense::AtMost, 0.8, against("parcels-wgs84.gpkg")},
         {"the same, GeoPackage in UTM (with the transformation)", "ms", Sense::AtMost, 0.8,
          against("parcels-utm.gpkg")},
         {"the same, Shapefile", "ms", Sense::AtMost, 1.5, against("parcels-shapefile/parcels.shp")},
         {"floor: PROJ alone for the 8,000,000 corners in UTM, 2 threads, against that loop",
          "ms",
          Sense::AtMost,
          {},
          projection},
         {"floor: the bytes of the file alone", "ms", Sense::AtMost, {}, bytesOfFile},
         {"floor: the process that reads, started, the file opened by its driver, ended",
          "ms",
          Sense::AtMost,
          {},
          child},
         {"floor: 112 MB from a process through a pipe into a file", "ms", Sense::AtMost, {}, transfer}});
}
