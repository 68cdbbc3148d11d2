#include "desktop/canvas/reference_layer.h"

#include "fault.h"
#include "geometry/containment.h"

#include <QElapsedTimer>
#include <QTimer>

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr int kWorkers = 2;
// Features in sight up to which lines get their casing, and up to which they are smooth; beyond half as many again they
// lose it.
constexpr std::size_t kCased = 4'000;
constexpr std::size_t kFine = 20'000;
constexpr std::size_t kLooked = 6'000; // features in sight beyond which no number is looked for
constexpr std::size_t kLabelled = 600;
constexpr double kFewestPixels = 18.0;   // across: less, and no number fits
constexpr qint64 kLabelMilliseconds = 4; // for new places of labels in one painting

std::string textOf(const ReferenceSource& source, std::size_t feature, std::optional<std::size_t> column) {
    return column ? std::string{source.layer->attribute(feature, *column)} : std::string{};
}

/// Calls `visit(feature, box)` for what may be seen in the box, on whatever turn, until it answers no.
template <class Visit> void visitSeen(const reference::Layer& layer, const geometry::Box& box, Visit&& visit) {
    bool go = true;
    for (const double turn : layer.turnsOf(box))
        if (go)
            layer.visitMeeting({box.minX + turn, box.minY, box.maxX + turn, box.maxY},
                               [&](std::size_t feature, const geometry::Box& at) { return go = visit(feature, at); });
}

} // namespace

QString nameOf(const ReferenceSource& source, std::size_t feature) {
    const std::string number = textOf(source, feature, source.numberColumn);
    return number.empty() ? source.name : ReferenceLayer::tr("Parcel %1").arg(QString::fromStdString(number));
}

std::vector<PickableParcel> parcelsAt(const std::vector<ReferenceSource>& sources, const model::Position& place) {
    std::vector<PickableParcel> parcels;
    for (auto source = sources.rbegin(); source != sources.rend(); ++source) {
        const reference::Layer& layer = *source->layer;
        std::vector<std::size_t> under = layer.meeting({place.lon, place.lat, place.lon, place.lat});
        std::erase_if(under, [&](std::size_t feature) { return !layer.encloses(feature, place); });
        std::sort(under.begin(), under.end(),
                  [&](std::size_t a, std::size_t b) { return layer.fileNumber(a) > layer.fileNumber(b); });
        for (const std::size_t feature : under)
            parcels.push_back({source->id.toStdString() + '/' + std::to_string(layer.fileNumber(feature)),
                               {textOf(*source, feature, source->numberColumn), layer.surface(feature)}});
    }
    return parcels;
}

ReferenceLayer::ReferenceLayer(QObject* parent) : QObject{parent} {}

ReferenceLayer::~ReferenceLayer() {
    {
        const std::lock_guard lock{m_mutex};
        m_stop = true;
        m_wishes.clear();
    }
    m_wake.notify_all();
    for (std::thread& worker : m_workers)
        worker.join();
}

void ReferenceLayer::setSources(std::vector<ReferenceSource> sources) {
    m_sources = std::move(sources);
    const auto gone = [&](const void* layer) {
        return std::none_of(m_sources.begin(), m_sources.end(),
                            [&](const ReferenceSource& source) { return source.layer.get() == layer; });
    };
    std::erase_if(m_shown, [&](const auto& entry) { return gone(entry.first); });
    std::erase_if(m_tiles, [&](const auto& entry) {
        if (!gone(entry.first.layer))
            return false;
        m_cachedBytes -= entry.second.image.sizeInBytes();
        m_byUse.erase(entry.second.use);
        return true;
    });
    if (!m_sources.empty() && m_workers.empty())
        for (int i = 0; i < kWorkers; ++i)
            m_workers.emplace_back([this] { work(); });
}

void ReferenceLayer::work() {
    std::optional<geodesy::MapPlane> plane;
    while (true) {
        Wish wish;
        {
            std::unique_lock lock{m_mutex};
            m_wake.wait(lock, [this] { return m_stop || !m_wishes.empty(); });
            if (m_stop)
                return;
            wish = std::move(m_wishes.front());
            m_wishes.erase(m_wishes.begin());
            m_underWay.push_back(wish.key);
        }
        QImage image;
        bool cancelled = false;
        try {
            if (!plane || plane->definition() != wish.tile.plane)
                plane.emplace(wish.tile.plane);
            // The view takes what it no longer wants off the list.
            image = drawn(wish.tile, *plane, Progress{[&](double, std::string_view) {
                              const std::lock_guard lock{m_mutex};
                              return !m_stop &&
                                     std::find(m_underWay.begin(), m_underWay.end(), wish.key) != m_underWay.end();
                          }});
        } catch (const Cancelled&) {
            cancelled = true;
        } catch (const Fault&) {
            // So far off the map that nothing of it can be seen.
        }
        {
            const std::lock_guard lock{m_mutex};
            std::erase(m_underWay, wish.key);
        }
        if (!cancelled)
            QMetaObject::invokeMethod(
                this, [this, key = wish.key, layer = wish.tile.layer, image] { take(key, layer, image); },
                Qt::QueuedConnection);
    }
}

void ReferenceLayer::take(const Key& key, std::shared_ptr<const reference::Layer> layer, const QImage& image) {
    if (m_tiles.contains(key) || !m_shown.contains(key.layer))
        return;
    m_byUse.push_front(key);
    m_tiles.emplace(key, Tile{std::move(layer), image, m_byUse.begin()});
    m_cachedBytes += image.sizeInBytes();
    while (m_cachedBytes > kCacheBytes && m_byUse.size() > 1) {
        const auto oldest = m_tiles.find(m_byUse.back());
        m_cachedBytes -= oldest->second.image.sizeInBytes();
        m_tiles.erase(oldest);
        m_byUse.pop_back();
    }
    emit ready();
}

const QImage* ReferenceLayer::find(const Key& key) {
    const auto at = m_tiles.find(key);
    if (at == m_tiles.end())
        return nullptr;
    m_byUse.splice(m_byUse.begin(), m_byUse, at->second.use);
    return &at->second.image;
}

/// By the number of features in sight; one that was chosen holds on a little, so that a pan along the bound does not
/// draw all anew again and again.
LineStyle ReferenceLayer::styleOf(const ReferenceSource& source, const ViewTransform& view) {
    LineStyle& style = m_shown[source.layer.get()].style;
    const std::size_t cased = style == LineStyle::Cased ? kCased * 3 / 2 : kCased;
    const std::size_t fine = style == LineStyle::Dense ? kFine : kFine * 3 / 2;
    std::size_t seen = 0;
    visitSeen(*source.layer, view.visibleLonLat(), [&](std::size_t, const geometry::Box&) { return ++seen <= fine; });
    return style = seen <= cased ? LineStyle::Cased : seen <= fine ? LineStyle::Fine : LineStyle::Dense;
}

void ReferenceLayer::paint(QPainter& painter, const ViewTransform& view) {
    std::vector<Wish> wishes;
    painter.save();
    for (const ReferenceSource& source : m_sources) {
        painter.setOpacity(source.opacity);
        paintSource(painter, view, source, wishes);
    }
    painter.restore();
    m_complete = wishes.empty();
    {
        const std::lock_guard lock{m_mutex};
        // What is under way and not wanted any more stops at its next report of progress.
        std::erase_if(m_underWay, [&](const Key& key) {
            return std::none_of(wishes.begin(), wishes.end(), [&](const Wish& wish) { return wish.key == key; });
        });
        std::erase_if(wishes, [&](const Wish& wish) {
            return std::find(m_underWay.begin(), m_underWay.end(), wish.key) != m_underWay.end();
        });
        m_wishes = std::move(wishes);
    }
    m_wake.notify_all();
}

void ReferenceLayer::paintSource(QPainter& painter, const ViewTransform& view, const ReferenceSource& source,
                                 std::vector<Wish>& wishes) {
    const double ratio = painter.device()->devicePixelRatioF();
    const double scale = view.metresPerPixel() / ratio;
    const double size = ReferenceTile::kPixels * scale;
    const QRectF visible = view.visiblePlane();
    const LineStyle style = styleOf(source, view);
    std::vector<std::pair<double, Wish>> missing;
    for (int x = int(std::floor(visible.left() / size)); x <= int(std::floor(visible.right() / size)); ++x)
        for (int y = int(std::floor(visible.top() / size)); y <= int(std::floor(visible.bottom() / size)); ++y) {
            const Key key{source.layer.get(), view.planeNumber(), scale, style, x, y};
            // On whole device pixels, all by the same part of one, so that neighbours meet without a seam.
            const QPointF corner = view.toWidget(QPointF{x * size, (y + 1) * size});
            const QRectF target{QPointF{std::round(corner.x() * ratio) / ratio, std::round(corner.y() * ratio) / ratio},
                                QSizeF{ReferenceTile::kPixels / ratio, ReferenceTile::kPixels / ratio}};
            if (const QImage* image = find(key)) {
                if (!image->isNull()) {
                    painter.setRenderHint(QPainter::SmoothPixmapTransform, false);
                    painter.drawImage(target, *image);
                }
                continue;
            }
            paintStandIn(painter, view, key, target);
            missing.emplace_back(
                std::hypot((x + 0.5) * size - view.centre().x(), (y + 0.5) * size - view.centre().y()),
                Wish{key, {source.layer, view.plane().definition(), scale, x * size, (y + 1) * size, style, ratio}});
        }
    std::sort(missing.begin(), missing.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (auto& [distance, wish] : missing)
        wishes.push_back(std::move(wish));
}

void ReferenceLayer::paintStandIn(QPainter& painter, const ViewTransform& view, const Key& key, const QRectF& target) {
    // The other scales at which something lies here, the nearest first.
    struct Other {
        double unlikeness;
        QRectF rect;
        const QImage* image;
        double metresPerPixel;
    };
    std::vector<Other> others;
    for (const auto& [known, tile] : m_tiles) {
        if (known.layer != key.layer || known.plane != key.plane)
            continue;
        const double size = ReferenceTile::kPixels * known.metresPerPixel;
        const QRectF rect{view.toWidget(QPointF{known.x * size, (known.y + 1) * size}),
                          view.toWidget(QPointF{(known.x + 1) * size, known.y * size})};
        if (rect.intersects(target))
            others.push_back({std::abs(std::log2(known.metresPerPixel / key.metresPerPixel)) +
                                  (known.style == key.style ? 0.0 : 0.01),
                              rect, &tile.image, known.metresPerPixel});
    }
    if (others.empty())
        return;
    const auto nearest = std::min_element(others.begin(), others.end(),
                                          [](const Other& a, const Other& b) { return a.unlikeness < b.unlikeness; });
    painter.save();
    painter.setClipRect(target, Qt::IntersectClip);
    painter.setRenderHint(QPainter::SmoothPixmapTransform, true);
    for (const Other& other : others)
        if (other.unlikeness == nearest->unlikeness && !other.image->isNull())
            painter.drawImage(other.rect, *other.image);
    painter.restore();
}

std::vector<ReferenceLayer::Label> ReferenceLayer::labels(const ViewTransform& view) {
    QElapsedTimer clock;
    clock.start();
    bool more = false;
    std::vector<Label> labels;
    for (const ReferenceSource& source : m_sources) {
        const std::optional<std::size_t> column = source.labelColumn ? source.labelColumn : source.numberColumn;
        if (!column)
            continue;
        const reference::Layer& layer = *source.layer;
        const geometry::Box seen = view.visibleLonLat();
        const double perLat = 111'320.0 / view.metresPerPixel();
        const double perLon = perLat * std::cos((seen.minY + seen.maxY) / 2 * (3.14159265358979323846 / 180.0));
        struct Candidate {
            std::size_t feature;
            QSizeF room;
        };
        std::vector<Candidate> candidates;
        std::size_t looked = 0;
        visitSeen(layer, seen, [&](std::size_t feature, const geometry::Box& box) {
            const QSizeF room{(box.maxX - box.minX) * perLon, (box.maxY - box.minY) * perLat};
            if (room.width() >= kFewestPixels && room.height() >= kFewestPixels)
                candidates.push_back({feature, room});
            return ++looked <= kLooked;
        });
        if (looked > kLooked)
            continue;
        // The largest, and always the same of those that are alike.
        std::sort(candidates.begin(), candidates.end(), [](const Candidate& a, const Candidate& b) {
            const double roomA = a.room.width() * a.room.height(), roomB = b.room.width() * b.room.height();
            return roomA != roomB ? roomA > roomB : a.feature < b.feature;
        });
        candidates.resize(std::min(candidates.size(), kLabelled));
        auto& places = m_shown[source.layer.get()].labelPlaces;
        for (const Candidate& candidate : candidates) {
            const std::string text = textOf(source, candidate.feature, column);
            if (text.empty())
                continue;
            auto known = places.find(candidate.feature);
            if (known == places.end()) {
                if (clock.elapsed() >= kLabelMilliseconds) {
                    more = true;
                    continue;
                }
                constexpr std::size_t kept = 20'000;
                if (places.size() >= kept)
                    places.clear();
                std::optional<model::Position> place;
                try {
                    place = geometry::labelPlace(layer.surface(candidate.feature));
                } catch (const Fault&) {
                    // No number on a parcel that cannot be computed with.
                }
                known = places.emplace(candidate.feature, place).first;
            }
            if (const auto at = known->second ? view.widgetOf(*known->second) : std::nullopt)
                labels.push_back({*at, candidate.room, QString::fromStdString(text)});
        }
    }
    if (more)
        QTimer::singleShot(0, this, &ReferenceLayer::ready);
    return labels;
}

} // namespace fencewright::desktop
