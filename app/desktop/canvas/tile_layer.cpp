#include "desktop/canvas/tile_layer.h"

#include "fault.h"
#include "raster/dataset.h"
#include "raster/warp.h"

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr int kWorkers = 2;
constexpr int kCoarserFirst = 3; // levels: a picture of all that is seen, out of one tile or two
constexpr int kStandInLevels = 8;
constexpr int kDatasetsAWorker = 8;

QImage imageOf(const raster::RgbaImage& read) {
    bool any = false, all = true;
    for (std::size_t i = 3; i < read.pixels.size(); i += 4) {
        any = any || read.pixels[i] != 0;
        all = all && read.pixels[i] == 255;
    }
    if (!any)
        return {};
    const QImage image{read.pixels.data(), read.width, read.height, read.width * 4, QImage::Format_RGBA8888};
    // The formats that are painted without conversion.
    return image.convertToFormat(all ? QImage::Format_RGB32 : QImage::Format_ARGB32_Premultiplied);
}

} // namespace

TileLayer::TileLayer(QObject* parent) : QObject{parent} {}

TileLayer::~TileLayer() {
    {
        const std::lock_guard lock{m_mutex};
        m_stop = true;
        m_wishes.clear();
    }
    m_wake.notify_all();
    for (std::thread& worker : m_workers)
        worker.join();
}

void TileLayer::setSources(std::vector<ImagerySource> sources) {
    std::vector<Layer> layers;
    for (ImagerySource& source : sources) {
        const auto same = std::find_if(m_layers.begin(), m_layers.end(), [&](const Layer& layer) {
            return layer.source.id == source.id && layer.source.path == source.path && layer.source.crs == source.crs;
        });
        const bool known = same != m_layers.end();
        layers.push_back({std::move(source), known ? same->number : m_nextNumber++, known && same->failed});
    }
    m_layers = std::move(layers);
    if (!m_layers.empty() && m_workers.empty())
        for (int i = 0; i < kWorkers; ++i)
            m_workers.emplace_back([this] { work(); });
}

void TileLayer::work() {
    struct Open {
        std::string path;
        std::string crs;
        std::unique_ptr<raster::Dataset> dataset;
    };
    std::list<Open> open;
    std::optional<geodesy::MapPlane> plane;

    while (true) {
        Wish wish;
        {
            std::unique_lock lock{m_mutex};
            m_wake.wait(lock, [this] { return m_stop || !m_wishes.empty(); });
            if (m_stop)
                return;
            wish = m_wishes.front();
            m_wishes.erase(m_wishes.begin());
            m_underWay.push_back(wish.key);
        }
        QImage image;
        QString fault;
        bool cancelled = false;
        try {
            auto at = std::find_if(open.begin(), open.end(),
                                   [&](const Open& one) { return one.path == wish.path && one.crs == wish.crs; });
            if (at == open.end()) {
                if (open.size() >= kDatasetsAWorker)
                    open.pop_back();
                open.push_front({wish.path, wish.crs,
                                 std::make_unique<raster::Dataset>(wish.path, raster::OpenOptions{.crs = wish.crs})});
                at = open.begin();
            }
            if (!plane || plane->definition() != wish.plane) {
                plane.emplace(wish.plane);
            }
            const double size = kTilePixels * std::exp2(wish.key.level);
            const raster::FrameWindow window{wish.key.x * size, wish.key.y * size, (wish.key.x + 1) * size,
                                             (wish.key.y + 1) * size};
            // The view takes what it no longer wants off the list.
            const Progress progress{[&](double, std::string_view) {
                const std::lock_guard lock{m_mutex};
                return !m_stop && std::find(m_underWay.begin(), m_underWay.end(), wish.key) != m_underWay.end();
            }};
            image = imageOf(raster::warped(*at->dataset, *plane, window, kTilePixels, kTilePixels, progress));
        } catch (const Cancelled&) {
            cancelled = true;
        } catch (const Fault& problem) {
            fault = QString::fromUtf8(problem.what());
        } catch (const std::exception& problem) {
            fault = QString::fromUtf8(problem.what());
        }
        {
            const std::lock_guard lock{m_mutex};
            std::erase(m_underWay, wish.key);
        }
        if (!cancelled)
            QMetaObject::invokeMethod(
                this, [this, key = wish.key, image, fault] { take(key, image, fault); }, Qt::QueuedConnection);
    }
}

void TileLayer::take(const Key& key, const QImage& image, const QString& fault) {
    if (m_tiles.contains(key))
        return;
    m_byUse.push_front(key);
    m_tiles.emplace(key, Tile{image, m_byUse.begin()});
    m_cachedBytes += image.sizeInBytes();
    while (m_cachedBytes > kCacheBytes && m_byUse.size() > 1) {
        const auto oldest = m_tiles.find(m_byUse.back());
        m_cachedBytes -= oldest->second.image.sizeInBytes();
        m_tiles.erase(oldest);
        m_byUse.pop_back();
    }
    if (!fault.isEmpty())
        for (Layer& layer : m_layers)
            if (layer.number == key.source && !std::exchange(layer.failed, true))
                emit sourceFailed(layer.source.id, fault);
    emit tileArrived();
}

const QImage* TileLayer::find(const Key& key) {
    const auto at = m_tiles.find(key);
    if (at == m_tiles.end())
        return nullptr;
    m_byUse.splice(m_byUse.begin(), m_byUse, at->second.use);
    return &at->second.image;
}

void TileLayer::paint(QPainter& painter, const ViewTransform& view) {
    std::vector<Wish> wishes;
    painter.save();
    for (const Layer& layer : m_layers) {
        painter.setOpacity(layer.source.opacity);
        paintLayer(painter, view, layer, wishes);
    }
    painter.restore();
    m_complete = wishes.empty();
    {
        const std::lock_guard lock{m_mutex};
        const auto wanted = [&](const Key& key) {
            return std::any_of(wishes.begin(), wishes.end(), [&](const Wish& wish) { return wish.key == key; });
        };
        // What is under way and not wanted any more stops at its next report of progress.
        std::erase_if(m_underWay, [&](const Key& key) { return !wanted(key); });
        std::erase_if(wishes, [&](const Wish& wish) {
            return std::find(m_underWay.begin(), m_underWay.end(), wish.key) != m_underWay.end();
        });
        m_wishes = std::move(wishes);
    }
    m_wake.notify_all();
}

void TileLayer::paintLayer(QPainter& painter, const ViewTransform& view, const Layer& layer,
                           std::vector<Wish>& wishes) {
    QRectF extent;
    const std::vector<QPointF> corners = view.planeOf(layer.source.corners);
    for (const QPointF& corner : corners)
        extent =
            extent.isNull() ? QRectF{corner, QSizeF{1e-6, 1e-6}} : extent.united(QRectF{corner, QSizeF{1e-6, 1e-6}});
    // Edges of the image may bulge between its corners.
    extent.adjust(-extent.width() / 50, -extent.height() / 50, extent.width() / 50, extent.height() / 50);
    const QRectF visible = view.visiblePlane();
    const QRectF wanted = corners.empty() ? visible : visible.intersected(extent);
    if (wanted.isEmpty())
        return;

    const double native = layer.source.pixelSize.inMetres();
    const int finest = native > 0.0 ? int(std::floor(std::log2(native))) : -8;
    const int level = std::max(int(std::round(std::log2(view.metresPerPixel()))), finest);
    const auto tilesAt = [&](int at) {
        const double size = kTilePixels * std::exp2(at);
        return std::array{int(std::floor(wanted.left() / size)), int(std::floor(wanted.right() / size)),
                          int(std::floor(wanted.top() / size)), int(std::floor(wanted.bottom() / size))};
    };
    const auto wish = [&](const Key& key) {
        wishes.push_back(
            {key, layer.source.path.toStdString(), layer.source.crs.toStdString(), view.plane().definition()});
    };
    const auto rectOf = [&](const Key& key) {
        const double size = kTilePixels * std::exp2(key.level);
        // Edges on whole pixels, so that neighbours meet without a seam.
        const QPointF upperLeft = view.toWidget(QPointF{key.x * size, (key.y + 1) * size});
        const QPointF lowerRight = view.toWidget(QPointF{(key.x + 1) * size, key.y * size});
        return QRectF{QPointF{std::round(upperLeft.x()), std::round(upperLeft.y())},
                      QPointF{std::round(lowerRight.x()), std::round(lowerRight.y())}};
    };

    const auto coarse = tilesAt(level + kCoarserFirst);
    for (int x = coarse[0]; x <= coarse[1]; ++x)
        for (int y = coarse[2]; y <= coarse[3]; ++y)
            if (const Key key{layer.number, view.planeNumber(), level + kCoarserFirst, x, y};
                !find(key) && !layer.failed)
                wish(key);

    std::vector<std::pair<double, Key>> missing;
    const auto range = tilesAt(level);
    for (int x = range[0]; x <= range[1]; ++x)
        for (int y = range[2]; y <= range[3]; ++y) {
            const Key key{layer.number, view.planeNumber(), level, x, y};
            if (const QImage* image = find(key)) {
                if (image->isNull())
                    continue;
                const QRectF target = rectOf(key);
                painter.setRenderHint(QPainter::SmoothPixmapTransform, target.size() != QSizeF{image->size()});
                painter.drawImage(target, *image);
                continue;
            }
            const double size = kTilePixels * std::exp2(level);
            missing.emplace_back(std::hypot((x + 0.5) * size - view.centre().x(), (y + 0.5) * size - view.centre().y()),
                                 key);
            paintStandIn(painter, view, key);
        }
    if (layer.failed)
        return;
    std::sort(missing.begin(), missing.end());
    for (const auto& [distance, key] : missing)
        wish(key);
}

bool TileLayer::paintStandIn(QPainter& painter, const ViewTransform& view, const Key& key) {
    const double size = kTilePixels * std::exp2(key.level);
    const QRectF target = QRectF{view.toWidget(QPointF{key.x * size, (key.y + 1) * size}),
                                 view.toWidget(QPointF{(key.x + 1) * size, key.y * size})};
    const QRectF whole{std::round(target.left()), std::round(target.top()),
                       std::round(target.right()) - std::round(target.left()),
                       std::round(target.bottom()) - std::round(target.top())};
    painter.setRenderHint(QPainter::SmoothPixmapTransform, true);
    // Four finer ones, where the view has just moved away from them.
    bool finer = true;
    std::array<const QImage*, 4> quarters{};
    for (int i = 0; i < 4; ++i) {
        quarters[std::size_t(i)] = find({key.source, key.plane, key.level - 1, key.x * 2 + i % 2, key.y * 2 + i / 2});
        finer = finer && quarters[std::size_t(i)];
    }
    if (finer) {
        const QPointF middle{std::round(whole.center().x()), std::round(whole.center().y())};
        for (int i = 0; i < 4; ++i)
            if (!quarters[std::size_t(i)]->isNull())
                painter.drawImage(
                    QRectF{QPointF{i % 2 ? middle.x() : whole.left(), i / 2 ? whole.top() : middle.y()},
                           QPointF{i % 2 ? whole.right() : middle.x(), i / 2 ? middle.y() : whole.bottom()}},
                    *quarters[std::size_t(i)]);
        return true;
    }
    int x = key.x, y = key.y;
    double left = 0.0, top = 0.0, share = 1.0; // the part of the coarser tile, from its upper left
    for (int up = 1; up <= kStandInLevels; ++up) {
        const int parentX = x >> 1, parentY = y >> 1;
        left = (left + (x - parentX * 2)) / 2.0;
        top = (top + (1 - (y - parentY * 2))) / 2.0;
        share /= 2.0;
        x = parentX;
        y = parentY;
        if (const QImage* image = find({key.source, key.plane, key.level + up, x, y})) {
            if (!image->isNull())
                painter.drawImage(
                    whole, *image,
                    QRectF{left * kTilePixels, top * kTilePixels, share * kTilePixels, share * kTilePixels});
            return true;
        }
    }
    return false;
}

} // namespace fencewright::desktop
