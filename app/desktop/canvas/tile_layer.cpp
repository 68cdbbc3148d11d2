#include "desktop/canvas/tile_layer.h"

#include "raster/tile_server.h"
#include "raster/warp.h"
#include "session/translated.h"

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

// A pixel of a tile takes from 0.7 to 1.4 of the screen: sharp, and cheap to paint.
constexpr double kMostStretched = 1.42;
constexpr double kLeastStretched = 0.5; // of a pyramid that has no coarser level
constexpr double kCoarseFirst = 8.0;    // times as coarse: a picture of all that is seen, out of one tile or two
constexpr double kWorthAStandIn = 4.0;
constexpr int kCoarserWarped = 3; // levels
constexpr double kShareOfCache = 0.8;
constexpr int kMostCoarser = 4;
constexpr double kFarMetres = 300'000.0; // across: more, and edges bulge far beyond their corners

/// Without a copy.
QImage imageOf(const raster::PaintedPixels& read) {
    if (!read.words)
        return {};
    auto* kept = new std::shared_ptr<std::uint32_t[]>{read.words};
    return {reinterpret_cast<const uchar*>(read.words.get()),
            read.width,
            read.height,
            qsizetype{read.width} * 4,
            read.opaque ? QImage::Format_RGB32 : QImage::Format_ARGB32_Premultiplied,
            [](void* info) { delete static_cast<std::shared_ptr<std::uint32_t[]>*>(info); },
            kept};
}

TileJob::Lane laneOf(const ImagerySource& source) {
    return raster::isServerAddress(source.path.toStdString()) ? TileJob::Lane::Server : TileJob::Lane::Local;
}

/// Whether its rows run east and its columns south: then it is painted by scaling alone.
bool isNorthUp(const raster::RasterDescription& raster) {
    const auto& g = raster.geotransform;
    return raster.georeferenced && g[2] == 0.0 && g[4] == 0.0 && g[1] > 0.0 && g[5] < 0.0 &&
           std::abs(std::log2(-g[5] / g[1])) < 0.5;
}

/// Where the CRS has the plane's origin, if the raster lies in the plane as it lies in its CRS.
std::optional<QPointF> crsOriginFor(const raster::RasterDescription* raster, const ViewTransform& view) {
    const geodesy::MapPlane::Definition& plane = view.plane().definition();
    if (!raster || plane.crs.empty() || plane.crs != raster->crsDefinition || plane.upAzimuthDegrees != 0.0 ||
        !isNorthUp(*raster))
        return std::nullopt;
    const auto origin = view.plane().originInCrs();
    return origin ? std::optional{QPointF{origin->x, origin->y}} : std::nullopt;
}

/// The picture of all of a raster that was there before any tile.
TileKey glanceKey(std::uint64_t layer, const ImagerySource& source) {
    constexpr int ofNoLevel = -1;
    const double pixels = std::min(source.glance->width, source.glance->height);
    const double metres = source.raster->geotransform[1] * std::min(source.raster->width, source.raster->height);
    return {layer, 0, ofNoLevel, metres / pixels, 0, 0};
}

/// Whether it is so large that its corners, far out of the map's plane, do not tell where it lies there.
bool isContinental(const raster::RasterDescription& raster) {
    constexpr double kDegrees = 30.0;
    const geometry::Box box = geometry::boxOf(raster.corners);
    return !box.empty() && (box.maxX - box.minX > kDegrees || box.maxY - box.minY > kDegrees);
}

/// Columns and rows of a grid of squares that meet the rectangle.
struct Cells {
    int fromX, toX, fromY, toY;
};
Cells cellsIn(const QRectF& rect, double size) {
    return {int(std::floor(rect.left() / size)), int(std::floor(rect.right() / size)),
            int(std::floor(rect.top() / size)), int(std::floor(rect.bottom() / size))};
}

} // namespace

TileLayer::TileLayer(TileQueue& queue, QObject* parent) : QObject{parent}, m_board{queue, kCacheBytes}, m_queue{queue} {
    connect(&m_board, &TileBoard::arrived, this, &TileLayer::tileArrived);
    connect(&m_board, &TileBoard::failed, this, [this](quint64 number, const QString& words, const QString& reason) {
        for (const Layer& layer : m_layers)
            if (layer.number == number && m_failed.insert(number).second)
                emit sourceFailed(layer.source.id, words, reason);
    });
    connect(&m_board, &TileBoard::whole, this, [this](quint64 number) {
        for (const Layer& layer : m_layers)
            if (layer.number == number && m_failed.erase(number) > 0)
                emit sourceWhole(layer.source.id);
    });
}

bool TileLayer::covers(const ViewTransform& view) const {
    const QRectF seen = view.visiblePlane();
    return std::any_of(m_layers.begin(), m_layers.end(), [&](const Layer& layer) {
        const ImagerySource& source = layer.source;
        if (source.opacity < 1.0 || !source.raster || source.raster->corners.size() != 4 ||
            m_failed.contains(layer.number))
            return false;
        QPolygonF image;
        for (const QPointF& corner : view.planeOf(source.raster->corners))
            image << corner;
        const std::array corners{seen.topLeft(), seen.topRight(), seen.bottomLeft(), seen.bottomRight()};
        return !image.isEmpty() && std::all_of(corners.begin(), corners.end(), [&](const QPointF& corner) {
            return image.containsPoint(corner, Qt::OddEvenFill);
        });
    });
}

std::vector<std::vector<model::Position>> TileLayer::corners() const {
    std::vector<std::vector<model::Position>> all;
    for (const Layer& layer : m_layers)
        if (layer.source.raster && !layer.source.raster->corners.empty())
            all.push_back(layer.source.raster->corners);
    return all;
}

void TileLayer::setSources(std::vector<ImagerySource> sources) {
    std::vector<Layer> layers;
    std::vector<std::uint64_t> numbers;
    for (ImagerySource& source : sources) {
        const auto same = std::find_if(m_layers.begin(), m_layers.end(), [&](const Layer& layer) {
            const raster::OpenOptions &a = layer.source.opening, &b = source.opening;
            return layer.source.id == source.id && layer.source.path == source.path && a.crs == b.crs &&
                   a.appearance == b.appearance && (a.pyramid != b.pyramid || layer.source.raster == source.raster);
        });
        Layer layer;
        layer.number = same != m_layers.end() ? same->number : m_nextNumber++;
        // With a pyramid that was built meanwhile the picture is the same: what is there may stay.
        const bool isOpenAlready = same != m_layers.end() && same->source.opening.pyramid == source.opening.pyramid;
        layer.opening = isOpenAlready ? same->opening
                                      : std::make_shared<const RasterOpening>(source.path.toStdString(), source.opening,
                                                                              source.spare);
        source.spare.reset(); // of what is shown no more, nothing stays open
        layer.source = std::move(source);
        if (same == m_layers.end())
            lendGlance(layer);
        numbers.push_back(layer.number);
        layers.push_back(std::move(layer));
    }
    m_layers = std::move(layers);
    m_board.keepOnly(numbers);
    m_queue.closeUnused();
}

void TileLayer::lendGlance(const Layer& layer) {
    const ImagerySource& source = layer.source;
    if (!source.glance || !source.raster || !isNorthUp(*source.raster))
        return;
    const auto& g = source.raster->geotransform;
    const QRectF ground{QPointF{g[0], g[3] + g[5] * source.raster->height},
                        QPointF{g[0] + g[1] * source.raster->width, g[3]}};
    m_board.lend(glanceKey(layer.number, source), imageOf(*source.glance), ground);
}

void TileLayer::show(const ViewTransform& view, double pixelRatio) {
    // Where a great screen shows many sources, coarser tiles must do: else they would push each other out of the cache.
    for (int coarser = 0;; ++coarser) {
        std::vector<WantedLayer> layers = wanted(view, pixelRatio, coarser);
        double bytes = 0.0;
        for (std::size_t i = 0; i < layers.size(); ++i) // in the order of m_layers
            for (const WantedTile& tile : layers[i].tiles)
                bytes += 4.0 * std::pow(tile.key.plane == 0 ? m_layers[i].source.tilePixels : kTilePixels, 2);
        if (coarser < kMostCoarser && bytes > kShareOfCache * double(kCacheBytes))
            continue;
        m_board.show(std::move(layers), view);
        return;
    }
}

void TileLayer::paintPart(QPainter& painter, const ViewTransform& view, const QRectF& seen, TileQuality quality) {
    m_board.paint(painter, view, seen, quality);
}

void TileLayer::paint(QPainter& painter, const ViewTransform& view) {
    show(view, painter.device()->devicePixelRatioF());
    paintPart(painter, view, QRectF{QPointF{}, view.size()}, TileQuality::Fine);
}

std::vector<WantedLayer> TileLayer::wanted(const ViewTransform& view, double pixelRatio, int coarser) {
    const double scale = view.metresPerPixel() / pixelRatio * std::exp2(coarser);
    std::vector<WantedLayer> all;
    for (Layer& layer : m_layers) {
        WantedLayer one;
        one.layer = layer.number;
        one.opacity = layer.source.opacity;
        one.crsOrigin = crsOriginFor(layer.source.raster.get(), view);
        if (one.crsOrigin && layer.source.glance)
            one.lent = glanceKey(layer.number, layer.source);
        if (!addNative(one, layer, view, scale))
            addWarped(one, layer, view, scale);
        all.push_back(std::move(one));
    }
    return all;
}

bool TileLayer::addNative(WantedLayer& wanted, const Layer& layer, const ViewTransform& view, double scale) const {
    const raster::RasterDescription* raster = layer.source.raster.get();
    const auto& levels = layer.source.levels;
    if (!wanted.crsOrigin || levels.empty() || layer.source.tilePixels <= 0)
        return false;
    const auto& g = raster->geotransform;

    const auto metresOf = [&](std::size_t level) { return g[1] * levels[level].scaleX; };
    std::size_t chosen = 0;
    std::optional<std::size_t> coarse;
    for (std::size_t level = 0; level < levels.size(); ++level)
        if (metresOf(level) <= kMostStretched * scale)
            chosen = level;
    if (metresOf(chosen) < kLeastStretched * scale)
        return false;
    for (std::size_t level = 0; level < levels.size(); ++level)
        if (const double times = metresOf(level) / metresOf(chosen); times >= kWorthAStandIn)
            if (!coarse || std::abs(std::log2(times / kCoarseFirst)) <
                               std::abs(std::log2(metresOf(*coarse) / metresOf(chosen) / kCoarseFirst)))
                coarse = level;

    const QRectF seen = view.visiblePlane().translated(*wanted.crsOrigin);
    const int size = layer.source.tilePixels;
    const auto add = [&](std::size_t number, bool standIn) {
        const raster::PyramidLevel& level = levels[number];
        // What is seen, in pixels of the level; rows run south.
        const auto column = [&](double x) { return (x - g[0]) / g[1] / level.scaleX - level.offsetX; };
        const auto row = [&](double y) { return (y - g[3]) / g[5] / level.scaleY - level.offsetY; };
        const auto x = [&](double c) { return g[0] + g[1] * level.scaleX * (c + level.offsetX); };
        const auto y = [&](double r) { return g[3] + g[5] * level.scaleY * (r + level.offsetY); };
        const double left = std::max(column(seen.left()), 0.0),
                     right = std::min(column(seen.right()), level.width - 1.0);
        const double top = std::max(row(seen.bottom()), 0.0), bottom = std::min(row(seen.top()), level.height - 1.0);
        if (!(left <= right && top <= bottom))
            return;
        for (int c = int(left) / size; c <= int(right) / size; ++c)
            for (int r = int(top) / size; r <= int(bottom) / size; ++r) {
                const double toX = x(std::min((c + 1) * size, level.width)),
                             toY = y(std::min((r + 1) * size, level.height));
                const TileKey key{layer.number, 0, int(number), metresOf(number), c, r};
                wanted.tiles.push_back(
                    {key, QRectF{QPointF{x(c * size), toY}, QPointF{toX, y(r * size)}}, laneOf(layer.source), standIn});
            }
    };
    add(chosen, false);
    if (coarse)
        add(*coarse, true);
    wanted.maker = [opening = layer.opening](const WantedTile& tile) {
        return [opening, key = tile.key](TileBench& bench, const Progress& progress) {
            return imageOf(bench.dataset(opening).tile(std::size_t(key.kind), key.x, key.y, progress));
        };
    };
    return true;
}

void TileLayer::addWarped(WantedLayer& wanted, Layer& layer, const ViewTransform& view, double scale) const {
    const raster::RasterDescription* raster = layer.source.raster.get();
    if (layer.extentPlane != view.planeNumber()) {
        layer.extentPlane = view.planeNumber();
        layer.extent.reset();
        if (raster && !isContinental(*raster))
            for (const QPointF& corner : view.planeOf(raster->corners)) {
                const QRectF dot{corner, QSizeF{1e-6, 1e-6}};
                layer.extent = layer.extent ? layer.extent->united(dot) : dot;
            }
        if (layer.extent) {
            const double far = std::max(layer.extent->width(), layer.extent->height());
            const double bulge = far > kFarMetres ? 0.25 : 0.02;
            const double x = layer.extent->width() * bulge, y = layer.extent->height() * bulge;
            layer.extent->adjust(-x, -y, x, y);
        }
    }
    // Also where nothing of it is seen: what was left half done is made all the same.
    wanted.maker = [opening = layer.opening, plane = view.plane().definition()](const WantedTile& tile) {
        return [opening, plane, ground = tile.ground](TileBench& bench, const Progress& progress) {
            const raster::FrameWindow window{ground.left(), ground.top(), ground.right(), ground.bottom()};
            return imageOf(raster::warpedForPainting(bench.dataset(opening), bench.plane(plane), window, kTilePixels,
                                                     kTilePixels, progress));
        };
    };
    const QRectF visible = view.visiblePlane();
    const QRectF seen = layer.extent ? visible.intersected(*layer.extent) : visible;
    if (seen.isEmpty())
        return;

    const double native = raster && raster->pixelSize ? raster->pixelSize->inMetres() : 0.0;
    const int finest = native > 0.0 ? int(std::floor(std::log2(native))) : -8;
    const int chosen = std::max(int(std::round(std::log2(scale))), finest);
    const auto add = [&](int level, bool standIn) {
        const double metres = std::exp2(level), size = kTilePixels * metres;
        const Cells cells = cellsIn(seen, size);
        for (int x = cells.fromX; x <= cells.toX; ++x)
            for (int y = cells.fromY; y <= cells.toY; ++y)
                wanted.tiles.push_back({TileKey{layer.number, view.planeNumber(), 0, metres, x, y},
                                        QRectF{x * size, y * size, size, size}, laneOf(layer.source), standIn});
    };
    add(chosen, false);
    add(chosen + kCoarserWarped, true);
}

} // namespace fencewright::desktop
