// The pyramid of a raster without overviews, against GDAL's own building of overviews with the same settings.

#include "bench/bar.h"
#include "raster/pyramid.h"

#include <gdal_priv.h>

#include <array>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <optional>
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

/// How long it went on after it was told to stop; nothing: it was done before. One whole building answers nothing, too.
struct Stopping {
    double lasted = 0.0;
    std::optional<double> wentOn;
};

/// @param after  milliseconds; nothing: it is not told.
Stopping toldToStop(const fs::path& raster, const fs::path& to, std::optional<double> after) {
    fs::remove(to);
    std::atomic<bool> stop{false};
    std::atomic<double> told{0.0};
    const auto begin = std::chrono::steady_clock::now();
    const auto now = [&] {
        return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
    };
    std::mutex mutex;
    std::condition_variable over;
    bool isOver = false;
    std::thread teller{[&] {
        std::unique_lock lock{mutex};
        if (!after || over.wait_for(lock, std::chrono::duration<double, std::milli>{*after}, [&] { return isOver; }))
            return;
        told = now();
        stop = true;
    }};
    Stopping result;
    bool stopped = false;
    try {
        raster::buildPyramid(raster.string(), to, Progress{[&](double, std::string_view) { return !stop; }});
    } catch (const Cancelled&) {
        stopped = true;
    }
    result.lasted = now();
    {
        const std::lock_guard lock{mutex};
        isOver = true;
    }
    over.notify_all();
    teller.join();
    if (stopped)
        result.wentOn = result.lasted - told;
    return result;
}

/// The longest of several moments to tell it: shares of the time that a whole building took just before, for a fixed
/// time is nothing on one machine and too late on another.
Figures stopping(const Options& options) {
    const fs::path raster = options.data / "ortho-strips.tif", to = options.data / "stopped-pyramid.ovr";
    (void)toldToStop(raster, to, std::nullopt); // the file is in memory after it
    const double whole = toldToStop(raster, to, std::nullopt).lasted;
    constexpr std::array shares{0.01, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8};
    std::size_t stopped = 0;
    double longest = 0.0;
    for (const double share : shares)
        if (const Stopping one = toldToStop(raster, to, share * whole); one.wentOn) {
            ++stopped;
            longest = std::max(longest, *one.wentOn);
        }
    fs::remove(to);
    // The last ones may be too late where a building went faster than the whole one before.
    if (stopped + 2 < shares.size())
        throw std::runtime_error{"it was done before it was told to stop"};
    Figures figures{.ours = longest};
    figures.note = std::to_string(stopped) + " moments out of the " + std::to_string(int(whole)) +
                   " ms that a whole building takes";
    return figures;
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
