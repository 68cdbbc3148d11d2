// A frame of the whole map, against what painting so many pixels costs at the least.

#include "bench/bar.h"
#include "bench/fence_sets.h"
#include "bench/map_stage.h"

#include "desktop/canvas/map_canvas.h"

#include <QApplication>
#include <QPainter>

#include <cmath>

using namespace fencewright;
using namespace fencewright::bench;

namespace {

constexpr int kFramesARound = 40;

/// One full-window picture and one translucent one over it.
class PlainFrame {
public:
    PlainFrame() {
        m_ground.fill(QColor{90, 110, 70});
        m_over.fill(QColor{10, 40, 90, 60});
    }
    double operator()() {
        return milliseconds([this] {
                   for (int i = 0; i < kFramesARound; ++i) {
                       QPainter painter{&m_frame};
                       painter.drawImage(0, 0, m_ground);
                       painter.drawImage(0, 0, m_over);
                   }
               }) /
               kFramesARound;
    }

private:
    QImage m_frame{1920, 1080, QImage::Format_RGB32};
    QImage m_ground{1920, 1080, QImage::Format_RGB32};
    QImage m_over{1920, 1080, QImage::Format_ARGB32_Premultiplied};
};

/// To and fro over ground that was all seen before: each frame's milliseconds, its mouse event included.
std::vector<double> panFrames(MapStage& stage, int frames, int stepPixels) {
    std::vector<double> times;
    QPointF at{960, 540};
    stage.press(at, Qt::MiddleButton);
    for (int i = 0; i < frames; ++i) {
        const int step = i / 20 % 2 == 0 ? stepPixels : -stepPixels;
        at += QPointF(step, step / 2);
        times.push_back(milliseconds([&] {
            stage.moveMouse(at, Qt::MiddleButton);
            stage.paint();
        }));
        stage.breathe();
    }
    stage.release(at, Qt::MiddleButton);
    return times;
}

void fill(MapStage& stage, const Options& options) {
    stage.addFences(fences(200, 200, countyBox(4), 0.12));
    stage.addImagery(options.data / "ortho-10-gigapixel.tif");
    stage.addParcels(options.data / "parcels-wgs84.gpkg");
}

Figures panFrame(const Options& options) {
    MapStage stage{options.data / "cache"};
    fill(stage, options);
    stage.settle();
    stage.map().zoomTo(countyBox(3));
    stage.settle();
    for (int i = 0; i < 4; ++i) { // all that will be seen is in the caches
        (void)panFrames(stage, kFramesARound, 8);
        stage.settle();
    }
    PlainFrame plain;
    return interleaved(
        options.rounds(), [&] { return median(panFrames(stage, kFramesARound, 8)); }, plain);
}

Figures fractionalZoom(const Options& options) {
    MapStage stage{options.data / "cache"};
    stage.addImagery(options.data / "ortho-10-gigapixel.tif");
    stage.settle();
    // So near that a pixel of the raster's level of 1.6 m becomes 1.3 of the screen's.
    constexpr double scale = 1.3;
    const double wanted = 1.6 / scale;
    stage.map().zoomTo(countyBox(2));
    stage.map().zoomBy(stage.map().metresPerPixel() / wanted);
    stage.settle();
    QImage tile{512, 512, QImage::Format_RGB32};
    for (int y = 0; y < 512; ++y)
        for (int x = 0; x < 512; ++x)
            tile.setPixel(x, y, qRgb(x & 255, y & 255, (x * y) & 255));
    QImage frame{1920, 1080, QImage::Format_RGB32};
    const auto plain = [&] {
        return milliseconds([&] {
                   for (int i = 0; i < kFramesARound; ++i) {
                       QPainter painter{&frame};
                       painter.setRenderHint(QPainter::SmoothPixmapTransform);
                       const double side = 512 * scale;
                       for (double y = -200.3; y < 1080; y += side)
                           for (double x = -300.7; x < 1920; x += side)
                               painter.drawImage(QRectF{x, y, side, side}, tile);
                   }
               }) /
               kFramesARound;
    };
    Figures figures = interleaved(
        options.rounds(),
        [&] {
            return milliseconds([&] {
                       for (int i = 0; i < kFramesARound; ++i)
                           stage.paint();
                   }) /
                   kFramesARound;
        },
        plain);
    figures.note = "whole map widget (ground, imagery, scale bar) against drawImage of 512 tiles x1.3, smooth";
    return figures;
}

Figures peakWhileLoading(const Options& options) {
    MapStage stage{options.data / "cache"};
    fill(stage, options);
    stage.settle();
    stage.map().zoomTo(countyBox(3));
    stage.settle();
    int places = 0;
    return interleaved(
        options.rounds(),
        [&] {
            // Onto ground that was never seen at this scale.
            ++places;
            const geometry::Box home = countyBox(3);
            const double away = 0.02 * (places % 2 == 0 ? places : -places);
            stage.map().zoomTo({home.minX + away, home.minY + away / 2, home.maxX + away, home.maxY + away / 2});
            const std::vector<double> times = panFrames(stage, kFramesARound, 8);
            stage.settle();
            return *std::max_element(times.begin(), times.end());
        },
        [&] {
            (void)panFrames(stage, kFramesARound, 8);
            stage.settle();
            return median(panFrames(stage, kFramesARound, 8));
        });
}

} // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application{argc, argv};
    return runBars(
        argc, argv,
        {{"pan frame, all cached: imagery, 1,000,000 parcels, 200 fences, names; against one full drawImage "
          "and one translucent",
          "ms", Sense::AtMost, 3.0, panFrame},
         {"frame at a fractional zoom, against the same tiles drawn smooth", "ms", Sense::AtMost, 1.5, fractionalZoom},
         {"longest pan frame while tiles load, against the usual one", "ms", Sense::AtMost, 2.0, peakWhileLoading}});
}
