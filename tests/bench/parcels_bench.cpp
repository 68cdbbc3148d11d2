// A million parcels on the map: memory, the picture of all of them, the one under the pointer, and opening them.

#include "bench/bar.h"
#include "bench/map_stage.h"

#include "desktop/canvas/reference_layer.h"
#include "desktop/canvas/view_transform.h"
#include "reference/layer_cache.h"

#include <QApplication>
#include <QPainter>

#include <malloc.h>

#include <cstdlib>
#include <random>
#include <stdexcept>

using namespace fencewright;
using namespace fencewright::bench;
using namespace fencewright::desktop;
namespace fs = std::filesystem;

namespace {

std::shared_ptr<const reference::Layer> keptLayer(const Options& options) {
    exchange::ReadRequest request;
    request.path = (options.data / "parcels-wgs84.gpkg").string();
    return reference::openLayer(FENCEWRIGHT_BUILD "/bin/fencewright-cli", request, {options.data / "cache" / "layers"},
                                {}, {});
}

/// All of the layer in a window of 1920 x 1080: its tiles at that scale.
struct Overview {
    ViewTransform view;
    std::vector<ReferenceTile> tiles;

    explicit Overview(const std::shared_ptr<const reference::Layer>& layer) {
        const geometry::Box box = boxOf(*layer);
        view.setSize({1920, 1080});
        view.setOrigin({(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2});
        view.showBox(box, 0);
        const QRectF seen = view.visiblePlane();
        const double side = view.metresPerPixel() * ReferenceTile::kPixels;
        for (double x = seen.left(); x < seen.right(); x += side)
            for (double y = seen.bottom(); y > seen.top(); y -= side) {
                ReferenceTile tile;
                tile.layer = layer;
                tile.plane = view.plane().definition();
                tile.metresPerPixel = view.metresPerPixel();
                tile.left = x;
                tile.top = y;
                tile.style = LineStyle::Dense;
                tiles.push_back(tile);
            }
    }
    static geometry::Box boxOf(const reference::Layer& layer) {
        geometry::Box box;
        for (std::size_t i = 0; i < layer.size(); i += 97)
            box.add(layer.box(i));
        return box;
    }
    void draw() const {
        for (const ReferenceTile& tile : tiles)
            (void)drawn(tile, view.plane(), {});
    }
};

Figures residentBytesEach(const Options& options) {
    (void)keptLayer(options); // read, where it was not
    ::malloc_trim(0);
    const std::size_t before = residentBytes();
    const auto layer = keptLayer(options);
    Overview{layer}.draw();
    ::malloc_trim(0);
    const std::size_t after = residentBytes();
    return {.ours = double(after - before) / double(layer->size()),
            .note = "after all of them were drawn; most of it are pages of a file, which the system can take back"};
}

Figures overview(const Options& options) {
    const auto layer = keptLayer(options);
    const Overview all{layer};
    std::vector<QPointF> corners;
    std::vector<int> ends;
    for (std::size_t i = 0; i < layer->size(); ++i) {
        for (const auto& part : layer->parts(i))
            if (const auto* polygon = std::get_if<model::Polygon>(&part))
                for (const QPointF& point : all.view.planeOf(polygon->shell.corners))
                    corners.push_back(all.view.toWidget(point));
        ends.push_back(int(corners.size()));
    }
    QImage frame{1920, 1080, QImage::Format_RGB32};
    return interleaved(
        options.rounds(), [&] { return milliseconds([&] { all.draw(); }); },
        [&] {
            frame.fill(Qt::gray);
            return milliseconds([&] {
                QPainter painter{&frame};
                painter.setPen(QPen{Qt::white, 0});
                int begin = 0;
                for (const int end : ends) {
                    painter.drawPolygon(corners.data() + begin, end - begin);
                    begin = end;
                }
            });
        });
}

Figures pick(const Options& options) {
    const auto layer = keptLayer(options);
    const geometry::Box box = Overview::boxOf(*layer);
    const std::vector<ReferenceSource> sources{{"parcels", "Parcels", layer, {}, layer->column("number"), 1.0}};
    std::mt19937 random{5};
    // Well inside, where every place lies in a parcel.
    const double dx = (box.maxX - box.minX) / 20, dy = (box.maxY - box.minY) / 20;
    std::uniform_real_distribution<double> lon{box.minX + dx, box.maxX - dx}, lat{box.minY + dy, box.maxY - dy};
    std::vector<double> times;
    for (int i = 0; i < 10'000; ++i) {
        const model::Position place{lon(random), lat(random)};
        std::vector<PickableParcel> found;
        times.push_back(milliseconds([&] { found = parcelsAt(sources, place); }));
        if (found.empty())
            throw std::runtime_error{"a place lies in no parcel"};
    }
    return {.ours = quantile(times, 0.99),
            .note = "99th percentile of 10,000 places; in the middle " + std::to_string(int(1000 * median(times))) +
                    " microseconds"};
}

/// How long the plain copy takes, and the first and the second opening, in turns.
class Openings {
public:
    Figures first(const Options& options) {
        measure(options);
        return {.ours = median(m_first), .baseline = median(m_copy), .note = "until the picture is complete"};
    }
    Figures second(const Options& options) {
        measure(options);
        return {.ours = median(m_second), .baseline = median(m_copy), .note = "until the picture is complete"};
    }

private:
    void measure(const Options& options) {
        const fs::path file = options.data / "parcels-wgs84.gpkg", copy = options.data / "copy.gpkg",
                       cache = options.data / "opening-cache";
        for (int round = int(m_copy.size()); round < (options.quick ? 3 : 5); ++round) {
            fs::remove(copy);
            m_copy.push_back(milliseconds([&] {
                if (std::system(("ogr2ogr -f GPKG " + copy.string() + " " + file.string()).c_str()) != 0)
                    throw std::runtime_error{"ogr2ogr failed"};
            }));
            fs::remove_all(cache);
            m_first.push_back(opened(file, cache));
            m_second.push_back(opened(file, cache));
        }
        fs::remove(copy);
        fs::remove_all(cache);
    }
    static double opened(const fs::path& file, const fs::path& cache) {
        MapStage stage{cache};
        stage.settle();
        stage.addParcels(file);
        return stage.watch().complete;
    }
    std::vector<double> m_copy, m_first, m_second;
};

} // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application{argc, argv};
    const auto openings = std::make_shared<Openings>();
    return runBars(
        argc, argv,
        {{"1,000,000 parcels of 8 corners: resident bytes each (geometry and index)", "B", Sense::AtMost, 120.0,
          residentBytesEach},
         {"picture of 1,000,000 parcels, 1920 x 1080, 1 thread, against drawPolygon (width 0, not smooth)", "ms",
          Sense::AtMost, 0.25, overview},
         {"the parcel under the pointer, with its number and surface", "ms", Sense::AtMost, 1.0, pick},
         {"opening 1,000,000 parcels for the first time, until they are drawn, against a copy by ogr2ogr", "ms",
          Sense::AtMost, 0.25, [openings](const Options& options) { return openings->first(options); }},
         {"opening them again", "ms", Sense::AtMost, 0.05,
          [openings](const Options& options) { return openings->second(options); }}});
}
