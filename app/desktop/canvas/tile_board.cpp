#include "desktop/canvas/tile_board.h"
#include "session/translated.h"

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr std::chrono::seconds kTriedAgain{30};
constexpr std::size_t kFailedKept = 4096;
constexpr double kNear = 0.5; // of the view's sides, beyond them
constexpr std::size_t kMostLeft = 24;
constexpr double kMuchShrunk = 1.5;
constexpr double kWholly = 0.98; // of a tile covered: levels of a pyramid are rounded to whole pixels

QRectF planeOf(const QRectF& ground, const TileKey& key, const WantedLayer& layer) {
    return key.plane == 0 && layer.crsOrigin ? ground.translated(-*layer.crsOrigin) : ground;
}

/// On whole pixels of the device, all rounded alike, so that neighbours meet without a seam.
QRectF snapped(const QRectF& rect, double ratio) {
    // A bit more than half: the middle of a widget of odd size lies at half a pixel, where noise would decide.
    const auto round = [ratio](double value) { return std::floor(value * ratio + 0.501) / ratio; };
    return {QPointF{round(rect.left()), round(rect.top())}, QPointF{round(rect.right()), round(rect.bottom())}};
}

QRectF widgetOf(const QRectF& plane, const ViewTransform& view) {
    // In the plane y runs up: the lower edge of the rectangle in numbers is the upper one in the picture.
    return {view.toWidget(QPointF{plane.left(), plane.bottom()}), view.toWidget(QPointF{plane.right(), plane.top()})};
}

/// Whether two arrangements show their tiles alike wherever both have one.
bool isLike(const WantedLayer& a, const WantedLayer& b) {
    const auto grid = [](const WantedLayer& layer) {
        const auto at =
            std::find_if(layer.tiles.begin(), layer.tiles.end(), [](const WantedTile& tile) { return !tile.standIn; });
        return at == layer.tiles.end() ? std::optional<TileKey>{} : std::optional{at->key};
    };
    const auto ofA = grid(a), ofB = grid(b);
    const bool alike = !ofA || !ofB || (ofA->kind == ofB->kind && ofA->metresPerPixel == ofB->metresPerPixel);
    return a.layer == b.layer && a.opacity == b.opacity && alike;
}

} // namespace

TileBoard::TileBoard(TileQueue& queue, qint64 byteLimit, QObject* parent)
    : QObject{parent}, m_queue{queue}, m_client{queue.join([this](MadeTile made) { take(std::move(made)); })},
      m_store{byteLimit} {
    m_again.setSingleShot(true);
    m_again.setInterval(kTriedAgain + std::chrono::milliseconds{100});
    connect(&m_again, &QTimer::timeout, this, [this] { emit arrived({}); });
}

TileBoard::~TileBoard() { m_queue.leave(m_client); }

void TileBoard::show(std::vector<WantedLayer> layers, const ViewTransform& view) {
    m_queue.want(m_client, arrange(std::move(layers), view));
}

void TileBoard::showWithoutAsking(std::vector<WantedLayer> layers, const ViewTransform& view) {
    (void)arrange(std::move(layers), view);
    m_queue.want(m_client, {});
}

void TileBoard::lend(const TileKey& key, QImage image, const QRectF& ground) {
    m_store.put(key, {std::move(image), ground});
}

void TileBoard::keepOnly(const std::vector<std::uint64_t>& layers) {
    m_store.dropWhere(
        [&](const TileKey& key) { return std::find(layers.begin(), layers.end(), key.layer) == layers.end(); });
}

void TileBoard::keepWhatWasLeft(WantedLayer& layer, const WantedLayer& before, const ViewTransform& view) {
    const QRectF seen = view.visiblePlane();
    const QRectF near =
        seen.adjusted(-seen.width() * kNear, -seen.height() * kNear, seen.width() * kNear, seen.height() * kNear);
    const auto isWanted = [&](const TileKey& key) {
        return std::any_of(layer.tiles.begin(), layer.tiles.end(),
                           [&](const WantedTile& tile) { return tile.key == key; });
    };
    for (const auto* tiles : {&before.tiles, &before.left})
        for (const WantedTile& tile : *tiles)
            if (layer.left.size() < kMostLeft && !tile.standIn && tile.lane == TileJob::Lane::Local &&
                !isWanted(tile.key) && !m_failed.contains(tile.key) && !m_store.find(tile.key) &&
                planeOf(tile.ground, tile.key, layer).intersects(near))
                layer.left.push_back(tile);
}

std::vector<TileJob> TileBoard::arrange(std::vector<WantedLayer> layers, const ViewTransform& view) {
    const bool isOtherPlane = m_planeNumber != view.planeNumber();
    if (isOtherPlane) {
        m_planeNumber = view.planeNumber();
        m_store.dropWhere([&](const TileKey& key) { return key.plane != 0 && key.plane != m_planeNumber; });
        ++m_arrangement;
    } else if (!std::equal(layers.begin(), layers.end(), m_layers.begin(), m_layers.end(), isLike)) {
        ++m_arrangement;
    }
    if (!isOtherPlane)
        for (WantedLayer& layer : layers)
            for (const WantedLayer& before : m_layers)
                if (isLike(layer, before))
                    keepWhatWasLeft(layer, before, view);
    m_layers = std::move(layers);
    m_complete = true;
    settleTrouble();

    const auto now = Clock::now();
    std::vector<TileJob> jobs;
    for (const WantedLayer& layer : m_layers) {
        std::vector<QRectF> missing;
        const auto ask = [&](const WantedTile& tile, int stage) {
            const QPointF middle = planeOf(tile.ground, tile.key, layer).center() - view.centre();
            const double distance = std::hypot(middle.x(), middle.y()) / view.metresPerPixel();
            jobs.push_back({tile.key, tile.lane, stage, distance, layer.maker(tile), tile.ground});
        };
        const auto isThere = [&](const TileKey& key) {
            if (m_store.find(key))
                return true;
            const auto failed = m_failed.find(key);
            if (failed == m_failed.end())
                return false;
            if (failed->second > now)
                return true;
            m_failed.erase(failed);
            return false;
        };
        for (const WantedTile& tile : layer.tiles)
            if (!tile.standIn && !isThere(tile.key)) {
                missing.push_back(planeOf(tile.ground, tile.key, layer));
                ask(tile, 1);
            }
        m_complete = m_complete && missing.empty();
        const bool isLent = !missing.empty() && layer.lent && m_store.find(*layer.lent);
        for (const WantedTile& tile : layer.tiles)
            if (tile.standIn && !(isLent && layer.lent->metresPerPixel <= tile.key.metresPerPixel * kMuchShrunk) &&
                !isThere(tile.key)) {
                const QRectF plane = planeOf(tile.ground, tile.key, layer);
                if (std::any_of(missing.begin(), missing.end(), [&](const QRectF& m) { return m.intersects(plane); }))
                    ask(tile, 0);
            }
        for (const WantedTile& tile : layer.left)
            ask(tile, 2);
    }
    return jobs;
}

void TileBoard::take(MadeTile made) {
    const WantedLayer* layer = nullptr;
    const WantedTile* wanted = nullptr;
    for (const WantedLayer& one : m_layers) {
        const auto at = std::find_if(one.tiles.begin(), one.tiles.end(),
                                     [&](const WantedTile& tile) { return tile.key == made.key; });
        if (at != one.tiles.end()) {
            layer = &one;
            wanted = &*at;
        }
    }
    if (!made.fault.isEmpty()) {
        if (m_failed.size() >= kFailedKept)
            m_failed.clear();
        m_failed[made.key] = Clock::now() + kTriedAgain;
        m_troubled.insert(made.key.layer);
        if (!m_again.isActive())
            m_again.start();
        emit failed(made.key.layer, made.fault, made.reason);
        return;
    }
    if (wanted) {
        m_store.put(made.key, {std::move(made.image), made.ground});
        settleTrouble();
        emit arrived(planeOf(made.ground, made.key, *layer));
        return;
    }
    // The view has moved on; it may come back.
    const bool isShown = std::any_of(m_layers.begin(), m_layers.end(),
                                     [&](const WantedLayer& one) { return one.layer == made.key.layer; });
    if (isShown && (made.key.plane == 0 || made.key.plane == m_planeNumber))
        m_store.put(made.key, {std::move(made.image), made.ground});
}

void TileBoard::settleTrouble() {
    for (const WantedLayer& layer : m_layers) {
        if (!m_troubled.contains(layer.layer) || layer.tiles.empty())
            continue;
        const bool isWhole = std::all_of(layer.tiles.begin(), layer.tiles.end(), [&](const WantedTile& tile) {
            return tile.standIn || m_store.find(tile.key);
        });
        if (!isWhole)
            continue;
        m_troubled.erase(layer.layer);
        // Later: whoever hears of it may want another view, and this one is just being made.
        QTimer::singleShot(0, this, [this, number = layer.layer] { emit whole(number); });
    }
}

void TileBoard::paint(QPainter& painter, const ViewTransform& view, const QRectF& seen, TileQuality quality) {
    const double ratio = painter.device()->devicePixelRatioF();
    const QPointF upperLeft = view.toPlane(seen.topLeft()), lowerRight = view.toPlane(seen.bottomRight());
    const QRectF seenPlane{QPointF{upperLeft.x(), lowerRight.y()}, QPointF{lowerRight.x(), upperLeft.y()}};
    painter.save();
    for (const WantedLayer& layer : m_layers) {
        painter.setOpacity(layer.opacity);
        std::optional<std::vector<Other>> others;
        for (const WantedTile& tile : layer.tiles) {
            if (tile.standIn)
                continue;
            const QRectF plane = planeOf(tile.ground, tile.key, layer);
            if (!plane.intersects(seenPlane))
                continue;
            if (const TileStore::Tile* there = m_store.find(tile.key)) {
                if (there->image.isNull())
                    continue;
                QRectF target = snapped(widgetOf(plane, view), ratio);
                const QSizeF exact = QSizeF{there->image.size()} / ratio;
                const bool isExact = std::abs(plane.width() / view.metresPerPixel() - exact.width()) < 0.01 &&
                                     std::abs(plane.height() / view.metresPerPixel() - exact.height()) < 0.01;
                if (isExact)
                    target.setSize(exact);
                painter.setRenderHint(QPainter::SmoothPixmapTransform, !isExact && quality == TileQuality::Fine);
                painter.drawImage(target, there->image);
                continue;
            }
            if (!others)
                others = othersOf(layer, seenPlane);
            paintStandIn(painter, view, tile, plane, *others, quality);
        }
    }
    painter.restore();
}

std::vector<TileBoard::Other> TileBoard::othersOf(const WantedLayer& layer, const QRectF& seenPlane) const {
    std::vector<Other> others;
    m_store.visit(layer.layer, [&](const TileKey& key, const TileStore::Tile& tile) {
        if (key.plane == 0 && !layer.crsOrigin)
            return;
        if (const QRectF plane = planeOf(tile.ground, key, layer); plane.intersects(seenPlane))
            others.push_back({key, plane, &tile.image});
    });
    return others;
}

void TileBoard::paintStandIn(QPainter& painter, const ViewTransform& view, const WantedTile& missing,
                             const QRectF& plane, const std::vector<Other>& others, TileQuality quality) {
    // One level only, so that what is translucent is not laid over itself: the nearest that covers the whole, or else
    // the one that covers most. In the order of the store the tiles of one level follow each other.
    struct Level {
        double unlikeness = 0.0, covered = 0.0;
        std::size_t from = 0, to = 0;
    };
    std::optional<Level> best;
    const auto isBetter = [&](const Level& level) {
        if (!best || (level.covered >= kWholly) != (best->covered >= kWholly))
            return !best || level.covered >= kWholly;
        return level.covered >= kWholly ? level.unlikeness < best->unlikeness : level.covered > best->covered;
    };
    for (std::size_t from = 0, to = 0; from < others.size(); from = to) {
        const TileKey& key = others[from].key;
        Level level{std::abs(std::log2(key.metresPerPixel / missing.key.metresPerPixel)), 0.0, from, from};
        for (to = from; to < others.size() && others[to].key.plane == key.plane && others[to].key.kind == key.kind &&
                        others[to].key.metresPerPixel == key.metresPerPixel;
             ++to) {
            const QRectF common = others[to].plane.intersected(plane);
            level.covered += common.width() * common.height() / (plane.width() * plane.height());
        }
        level.to = to;
        if (level.covered > 0.0 && isBetter(level))
            best = level;
    }
    if (!best)
        return;
    const double ratio = painter.device()->devicePixelRatioF();
    // Smoothing what is much shrunk is dear, and does not show for the moment that it is seen.
    const bool isShrunk = others[best->from].key.metresPerPixel * kMuchShrunk < view.metresPerPixel() / ratio;
    painter.setRenderHint(QPainter::SmoothPixmapTransform, quality == TileQuality::Fine && !isShrunk);
    for (std::size_t i = best->from; i < best->to; ++i) {
        const Other& other = others[i];
        const QRectF common = other.plane.intersected(plane);
        if (other.image->isNull() || common.isEmpty())
            continue;
        const QRectF target = snapped(widgetOf(common, view), ratio);
        if (target.isEmpty())
            continue;
        // Of the picture the part that lies there; y runs down in it.
        const double perX = other.image->width() / other.plane.width(),
                     perY = other.image->height() / other.plane.height();
        painter.drawImage(target, *other.image,
                          QRectF{(common.left() - other.plane.left()) * perX,
                                 (other.plane.bottom() - common.bottom()) * perY, common.width() * perX,
                                 common.height() * perY});
    }
}

} // namespace fencewright::desktop
