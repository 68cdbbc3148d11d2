// Native tiles of a large orthophoto, against plain reading of the same blocks by as many threads; and what a walk over
// it reads.

#include "bench/bar.h"
#include "bench/fence_sets.h"
#include "bench/map_stage.h"

#include "desktop/canvas/tile_layer.h"
#include "desktop/canvas/tile_store.h"
#include "raster/block_cache.h"
#include "raster/dataset.h"

#include <QApplication>

#include <gdal_priv.h>

#include <atomic>
#include <cmath>
#include <mutex>
#include <set>
#include <stdexcept>
#include <thread>

using namespace fencewright;
using namespace fencewright::bench;
namespace fs = std::filesystem;

namespace {

constexpr int kBlock = 512;
constexpr int kSquare = 16; // blocks a side that one run reads
constexpr int kSquares = 12;

/// Runs the work on so many threads, which share the blocks of the run's own part of the raster; answers megapixels a
/// second. Every run reads what none has read before it.
template <class Open> double speed(int workers, int run, const Open& open) {
    const int left = run % kSquares * kSquare, top = run / kSquares % kSquares * kSquare;
    std::atomic<int> next{0};
    std::atomic<bool> failed{false};
    const double time = milliseconds([&] {
        std::vector<std::thread> threads;
        for (int i = 0; i < workers; ++i)
            threads.emplace_back([&] {
                try {
                    const auto read = open();
                    for (int at = next++; at < kSquare * kSquare; at = next++)
                        read(left + at % kSquare, top + at / kSquare);
                } catch (const std::exception&) {
                    failed = true;
                }
            });
        for (std::thread& thread : threads)
            thread.join();
    });
    if (failed)
        throw std::runtime_error{"a block could not be read"};
    return double(kSquare * kSquare) * kBlock * kBlock / 1000.0 / time;
}

/// What the window has for as long as it is open. The memory of tiles that were dropped comes round again in it; their
/// pixels do not, for every run reads others.
struct Window {
    std::shared_ptr<raster::BlockCache> blocks = std::make_shared<raster::BlockCache>(48 << 20);
    desktop::TileStore store{desktop::TileLayer::kCacheBytes};
};

/// As the map's threads do: a data set each, one cache of blocks, a picture, and into the store.
double ours(Window& window, const fs::path& path, int workers, int run) {
    std::mutex guard; // stands for the window's thread, which alone puts tiles into the store
    return speed(workers, run, [&] {
        raster::OpenOptions options;
        options.blocks = window.blocks;
        auto dataset = std::make_shared<raster::Dataset>(path.string(), options);
        if (dataset->tilePixels() != kBlock)
            throw std::runtime_error{"a tile is not a block"};
        return [&, dataset](int column, int row) {
            const raster::PaintedPixels pixels = dataset->tile(0, column, row);
            auto* words = new std::shared_ptr<std::uint32_t[]>{pixels.words};
            QImage image{reinterpret_cast<uchar*>(words->get()),
                         pixels.width,
                         pixels.height,
                         pixels.opaque ? QImage::Format_RGB32 : QImage::Format_ARGB32_Premultiplied,
                         [](void* held) { delete static_cast<std::shared_ptr<std::uint32_t[]>*>(held); },
                         words};
            const std::lock_guard lock{guard};
            desktop::TileKey key;
            key.layer = std::uint64_t(run);
            key.x = column;
            key.y = row;
            window.store.put(key, {std::move(image), {}});
        };
    });
}

/// RasterIO of the same blocks into 32 bits a pixel, with a data set each.
double plain(const fs::path& path, int workers, int run) {
    return speed(workers, run, [&] {
        std::shared_ptr<GDALDataset> dataset{GDALDataset::Open(path.c_str()), [](GDALDataset* one) { GDALClose(one); }};
        if (!dataset)
            throw std::runtime_error{CPLGetLastErrorMsg()};
        auto pixels = std::make_shared<std::vector<std::uint32_t>>(std::size_t(kBlock) * kBlock, 0xff000000U);
        return [dataset, pixels](int column, int row) {
            int bands[] = {3, 2, 1};
            if (dataset->RasterIO(GF_Read, column * kBlock, row * kBlock, kBlock, kBlock, pixels->data(), kBlock,
                                  kBlock, GDT_Byte, 3, bands, 4, 4 * kBlock, 1, nullptr) != CE_None)
                throw std::runtime_error{CPLGetLastErrorMsg()};
        };
    });
}

std::function<Figures(const Options&)> pipeline(int workers) {
    return [workers](const Options& options) {
        const fs::path path = options.data / "ortho-10-gigapixel.tif";
        Window window;
        int run = 0;
        return interleaved(
            options.rounds(), [&] { return ours(window, path, workers, run++); },
            [&] { return plain(path, workers, run++); });
    };
}

Figures twoWorkers(const Options& options) {
    const fs::path path = options.data / "ortho-10-gigapixel.tif";
    Window window;
    int run = 0;
    Figures figures = interleaved(
        options.rounds(), [&] { return ours(window, path, 2, run++); }, [&] { return ours(window, path, 1, run++); });
    figures.note = "needs two idle processors";
    return figures;
}

/// A walk at the fineness of a level, and the blocks of that level that were in sight on it.
class Walk {
public:
    explicit Walk(const Options& options) : m_stage{options.data / "cache"} {
        const fs::path path = options.data / "ortho-10-gigapixel.tif";
        m_dataset.emplace(path.string());
        m_stage.addImagery(path);
        m_stage.settle();
        m_stage.map().zoomTo(countyBox(2));
        m_stage.map().zoomBy(m_stage.map().metresPerPixel() / kMetresPerPixel);
        m_stage.settle();
        m_before = counts();
    }
    /// There, or back again.
    void go(int direction) {
        note();
        for (int leg = 0; leg < 6; ++leg) {
            QPointF at{960, 540};
            m_stage.press(at, Qt::MiddleButton);
            for (int i = 0; i < 40; ++i) {
                at += QPointF(direction * 12, direction * 5);
                m_stage.moveMouse(at, Qt::MiddleButton);
                m_stage.paint();
                m_stage.breathe();
                note();
            }
            m_stage.release(at, Qt::MiddleButton);
            m_stage.settle();
        }
    }
    raster::BlockCache::Counts read() const {
        const raster::BlockCache::Counts now = counts();
        return {now.reads - m_before.reads, now.pixels - m_before.pixels};
    }
    void forget() {
        m_before = counts();
        m_seen.clear();
    }
    double seenPixels() const { return double(m_seen.size()) * kBlock * kBlock; }

private:
    static constexpr int kLevel = 2; // 1.6 m a pixel
    static constexpr double kMetresPerPixel = 1.6;

    raster::BlockCache::Counts counts() const {
        const auto& sources = m_stage.document().set().sources;
        return m_stage.sources().find(sources[0].id)->opening.blocks->counts();
    }
    void note() {
        std::vector<model::Position> places;
        for (int x = 0; x <= 1920; x += 240)
            for (int y = 0; y <= 1080; y += 270)
                places.push_back(m_stage.map().toEarth(QPointF(x, y)));
        double left = 1e300, top = 1e300, right = -1e300, bottom = -1e300;
        for (const auto& pixel : m_dataset->toPixels(places)) {
            left = std::min(left, pixel->x);
            right = std::max(right, pixel->x);
            top = std::min(top, pixel->y);
            bottom = std::max(bottom, pixel->y);
        }
        constexpr double size = kBlock << kLevel;
        for (int x = int(std::floor(left / size)); x * size < right; ++x)
            for (int y = int(std::floor(top / size)); y * size < bottom; ++y)
                m_seen.emplace(x, y);
    }

    mutable MapStage m_stage;
    std::optional<raster::Dataset> m_dataset;
    raster::BlockCache::Counts m_before;
    std::set<std::pair<int, int>> m_seen;
};

Figures decoded(const Options& options) {
    Walk walk{options};
    walk.go(1);
    walk.forget(); // what lies around the begin was read at other scales, too
    walk.go(1);
    Figures figures{.ours = double(walk.read().pixels) / 1e6, .baseline = walk.seenPixels() / 1e6};
    figures.note = std::to_string(walk.read().reads) + " reads; the baseline is counted from what was in sight, in "
                                                       "whole blocks of the level shown";
    return figures;
}

Figures readAgain(const Options& options) {
    Walk walk{options};
    walk.go(1);
    walk.forget();
    walk.go(-1);
    return {.ours = double(walk.read().reads)};
}

} // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application{argc, argv};
    GDALAllRegister();
    return runBars(argc, argv,
                   {{"native tiles, 1 worker (tile, picture, store), against RasterIO by 1 thread", "Mpx/s",
                     Sense::AtLeast, 0.8, pipeline(1)},
                    {"native tiles, 2 workers, against RasterIO by 2 threads with a data set each", "Mpx/s",
                     Sense::AtLeast, 0.8, pipeline(2)},
                    {"native tiles, 2 workers against 1", "Mpx/s", Sense::AtLeast, 1.5, twoWorkers},
                    {"a pan: source pixels decoded, against those of the blocks that came into sight", "Mpx",
                     Sense::AtMost, 1.15, decoded},
                    {"a pan back over ground that was seen: reads", "", Sense::AtMost, 0, readAgain}});
}
