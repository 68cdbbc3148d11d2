// The pyramid of a raster without overviews, against GDAL's own building of overviews with the same settings.

#include "bench/bar.h"
#include "raster/pyramid.h"

#include <gdal_priv.h>

#include <atomic>
#include <chrono>
#include <stdexcept>
#include <thread>

using namespace fencewright;
using namespace fencewright::bench;
namespace fs = std::filesystem;

namespace {

double ours(const fs::path& raster, const fs::path& to) {
    fs::remove(to);
    return milliseconds([&] { raster::buildPyramid(raster.string(), to, {}); });
}

/// The settings of core/raster/pyramid.cpp for a photograph of three bands.
double plain(const fs::path& raster, GIntBig cacheBytes) {
    fs::remove(raster.string() + ".ovr");
    const std::pair<const char*, const char*> settings[] = {
        {"GDAL_NUM_THREADS", "ALL_CPUS"}, {"GDAL_TIFF_OVR_BLOCKSIZE", "512"}, {"COMPRESS_OVERVIEW", "JPEG"},
        {"JPEG_QUALITY_OVERVIEW", "85"},  {"PHOTOMETRIC_OVERVIEW", "YCBCR"},  {"INTERLEAVE_OVERVIEW", "PIXEL"},
        {"BIGTIFF_OVERVIEW", "IF_SAFER"}};
    // With the cache that the library usually has; ours makes do with less.
    const GIntBig cacheOfOurs = GDALGetCacheMax64();
    GDALSetCacheMax64(cacheBytes);
    const double time = milliseconds([&] {
        // Opened before the settings are made: a strip a thread is slower than strip after strip.
        const GDALDatasetUniquePtr file{GDALDataset::Open(raster.c_str())};
        for (const auto& [key, value] : settings)
            CPLSetThreadLocalConfigOption(key, value);
        int factors[] = {2, 4, 8, 16, 32};
        if (!file || file->BuildOverviews("AVERAGE", 5, factors, 0, nullptr, nullptr, nullptr) != CE_None)
            throw std::runtime_error{CPLGetLastErrorMsg()};
    });
    GDALSetCacheMax64(cacheOfOurs);
    for (const auto& [key, value] : settings)
        CPLSetThreadLocalConfigOption(key, nullptr);
    fs::remove(raster.string() + ".ovr");
    return time;
}

Figures building(const Options& options) {
    const fs::path raster = options.data / "ortho-small-strips.tif", to = options.data / "built-pyramid.ovr";
    const GIntBig usualCacheBytes = GDALGetCacheMax64(); // nothing of ours has run yet
    const Figures figures = interleaved(
        options.quick ? 3 : 5, [&] { return ours(raster, to); }, [&] { return plain(raster, usualCacheBytes); });
    fs::remove(to);
    return figures;
}

/// The longest time that it went on after it was told to stop, of several moments to tell it.
Figures stopping(const Options& options) {
    const fs::path raster = options.data / "ortho-strips.tif", to = options.data / "stopped-pyramid.ovr";
    double longest = 0.0;
    for (const int after : {20, 150, 400, 900, 1600, 2500}) {
        fs::remove(to);
        std::atomic<bool> stop{false};
        double told = 0.0;
        bool stopped = false;
        const auto begin = std::chrono::steady_clock::now();
        const auto now = [&] {
            return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
        };
        std::thread teller{[&] {
            std::this_thread::sleep_for(std::chrono::milliseconds{after});
            told = now();
            stop = true;
        }};
        try {
            raster::buildPyramid(raster.string(), to, Progress{[&](double, std::string_view) { return !stop; }});
        } catch (const Cancelled&) {
            stopped = true;
        }
        const double ended = now();
        teller.join();
        if (!stopped)
            throw std::runtime_error{"it was done before it was told to stop"};
        longest = std::max(longest, ended - told);
    }
    return {.ours = longest};
}

} // namespace

int main(int argc, char** argv) {
    GDALAllRegister();
    return runBars(argc, argv,
                   {{"pyramid of 8,192 x 8,192, against GDALBuildOverviews with the same settings", "ms", Sense::AtMost,
                     1.15, building},
                    {"pyramid of 20,480 x 20,480: longest way from being told to stop until it has", "ms",
                     Sense::AtMost, 250.0, stopping}});
}
