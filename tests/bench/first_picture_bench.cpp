// The first picture of a whole orthophoto, from adding it to the document, against opening and reading it plainly.

#include "bench/bar.h"
#include "bench/map_stage.h"

#include "desktop/canvas/map_canvas.h"

#include <QApplication>

#include <gdal_priv.h>
#include <ogr_spatialref.h>

#include <exception>
#include <memory>
#include <stdexcept>
#include <thread>

using namespace fencewright;
using namespace fencewright::bench;
namespace fs = std::filesystem;

namespace {

MapStage::Arrival shown(const Options& options, const fs::path& path) {
    const fs::path cache = options.data / "first-picture-cache";
    fs::remove_all(cache); // no pyramid of an earlier run
    MapStage stage{cache};
    stage.settle();
    stage.addImagery(path);
    return stage.watch();
}

/// All of it in a thousand by a thousand pixels, nearest neighbour.
double plain(const fs::path& path) {
    std::vector<std::uint32_t> pixels(1'000'000);
    return milliseconds([&] {
        const GDALDatasetUniquePtr file{GDALDataset::Open(path.c_str())};
        int bands[] = {3, 2, 1};
        if (!file || file->RasterIO(GF_Read, 0, 0, file->GetRasterXSize(), file->GetRasterYSize(), pixels.data(), 1000,
                                    1000, GDT_Byte, 3, bands, 4, 4000, 1, nullptr) != CE_None)
            throw std::runtime_error{CPLGetLastErrorMsg()};
    });
}

Figures cloudOptimised(const Options& options) {
    const fs::path path = options.data / "ortho-cog.tif";
    std::vector<double> complete;
    Figures figures = interleaved(
        options.rounds(),
        [&] {
            const MapStage::Arrival arrival = shown(options, path);
            complete.push_back(arrival.complete);
            return arrival.covered;
        },
        [&] { return plain(path); });
    figures.note = "complete after " + std::to_string(int(median(complete))) + " ms";
    return figures;
}

/// What no opening gets under: GDAL opens the file and says its coordinate system, on a thread that has not asked the
/// library of coordinate systems before, as that of a job.
double openedWithCrs(const fs::path& path) {
    return milliseconds([&] {
        std::thread{[&] {
            const GDALDatasetUniquePtr file{GDALDataset::Open(path.c_str())};
            char* text = nullptr;
            const char* options[] = {"FORMAT=WKT2_2019", nullptr};
            if (file && file->GetSpatialRef())
                file->GetSpatialRef()->exportToWkt(&text, options);
            if (!text)
                std::terminate(); // the bench's own file has one
            CPLFree(text);
        }}.join();
    });
}

Figures opening(const Options& options) {
    const fs::path path = options.data / "ortho-strips.tif";
    return interleaved(
        options.rounds(), [&] { return openedWithCrs(path); }, [&] { return plain(path); });
}

/// One set of runs answers both bars of the strips.
class Strips {
public:
    Figures firstPicture(const Options& options) {
        const fs::path path = options.data / "ortho-strips.tif";
        std::vector<double> complete;
        Figures figures = interleaved(
            options.quick ? 3 : 5,
            [&] {
                const MapStage::Arrival arrival = shown(options, path);
                complete.push_back(arrival.complete);
                m_longestTasks.push_back(arrival.longestTask);
                return arrival.covered;
            },
            [&] { return plain(path); });
        figures.note = "complete, out of its own pyramid, after " + std::to_string(int(median(complete))) + " ms";
        return figures;
    }
    Figures longestTask(const Options&) const { return {.ours = median(m_longestTasks)}; }

private:
    std::vector<double> m_longestTasks;
};

} // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application{argc, argv};
    GDALAllRegister();
    const auto strips = std::make_shared<Strips>();
    return runBars(
        argc, argv,
        {{"first whole picture of a cloud-optimised orthophoto of 20,480 x 20,480, from adding it; against "
          "opening it and reading 1000 x 1000",
          "ms", Sense::AtMost, 2.0, cloudOptimised},
         {"first whole picture of strips without overviews, from adding them; against reading 1000 x 1000 "
          "(nearest)",
          "ms", Sense::AtMost, 0.25, [strips](const Options& options) { return strips->firstPicture(options); }},
         {"floor: opening the strips with GDAL, and their coordinate system, against that reading",
          "ms",
          Sense::AtMost,
          {},
          opening},
         {"longest task of the window's thread meanwhile", "ms", Sense::AtMost, 16.0,
          [strips](const Options& options) { return strips->longestTask(options); }}});
}
