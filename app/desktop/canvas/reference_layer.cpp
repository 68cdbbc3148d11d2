#include "desktop/canvas/reference_layer.h"

#include "fault.h"
#include "geometry/containment.h"

#include <QElapsedTimer>

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

// Features in sight up to which lines get their casing, and up to which they are smooth; beyond half as many again they
// lose it.
constexpr std::size_t kCased = 4'000;
constexpr std::size_t kFine = 20'000;
constexpr std::size_t kLooked = 6'000; // features in sight beyond which no number is looked for
constexpr std::size_t kLabelled = 600;
constexpr double kFewestPixels = 18.0;      // across: less, and no number fits
constexpr double kLabelNanoseconds = 0.7e6; // for new places of labels in one painting
constexpr double kLabelRoom = 0.2;          // of the view's size, on each side, where labels are looked for too
constexpr double kStyleHolds = 0.25;        // of the view's breadth, that it may move
constexpr int kReleaseMilliseconds = 5000;

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
        if (!source->isWhole)
            continue;
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

ReferenceLayer::ReferenceLayer(TileQueue& queue, QObject* parent) : QObject{parent}, m_board{queue, kCacheBytes} {
    connect(&m_board, &TileBoard::arrived, this, &ReferenceLayer::tileArrived);
    // What was looked at of a layer's file lies in memory until it is let go.
    m_release.setSingleShot(true);
    m_release.setInterval(kReleaseMilliseconds);
    connect(&m_release, &QTimer::timeout, this, [this] {
        for (const ReferenceSource& source : m_sources)
            source.layer->release();
    });
}

void ReferenceLayer::setSources(std::vector<ReferenceSource> sources) {
    m_sources = std::move(sources);
    std::erase_if(m_shown, [&](const auto& entry) {
        return std::none_of(m_sources.begin(), m_sources.end(),
                            [&](const ReferenceSource& source) { return source.layer.get() == entry.first; });
    });
    std::vector<std::uint64_t> numbers;
    for (const ReferenceSource& source : m_sources) {
        Shown& one = m_shown[source.layer.get()];
        if (!one.layer) {
            one.layer = source.layer;
            one.number = m_nextNumber++;
        }
        numbers.push_back(one.number);
    }
    m_board.keepOnly(numbers);
}

/// By the number of features in sight; one that was chosen holds on a little, so that a pan along the bound does not
/// draw all anew again and again.
LineStyle ReferenceLayer::styleOf(const ReferenceSource& source, const ViewTransform& view) {
    Shown& one = shown(source);
    const QPointF moved = (view.centre() - one.styleCentre) / view.metresPerPixel();
    if (one.stylePlane == view.planeNumber() && one.styleScale == view.metresPerPixel() &&
        std::hypot(moved.x(), moved.y()) < kStyleHolds * view.size().width())
        return one.style;
    one.stylePlane = view.planeNumber();
    one.styleScale = view.metresPerPixel();
    one.styleCentre = view.centre();
    const std::size_t cased = one.style == LineStyle::Cased ? kCased * 3 / 2 : kCased;
    const std::size_t fine = one.style == LineStyle::Dense ? kFine : kFine * 3 / 2;
    std::size_t seen = 0;
    visitSeen(*source.layer, view.visibleLonLat(), [&](std::size_t, const geometry::Box&) { return ++seen <= fine; });
    return one.style = seen <= cased ? LineStyle::Cased : seen <= fine ? LineStyle::Fine : LineStyle::Dense;
}

void ReferenceLayer::show(const ViewTransform& view, double pixelRatio, TileQuality quality) {
    if (quality == TileQuality::Fine)
        m_board.show(wanted(view, pixelRatio), view);
    else
        m_board.showWithoutAsking(wanted(view, pixelRatio), view);
    if (!m_sources.empty() && !m_release.isActive())
        m_release.start();
}

void ReferenceLayer::paintPart(QPainter& painter, const ViewTransform& view, const QRectF& seen, TileQuality quality) {
    m_board.paint(painter, view, seen, quality);
}

void ReferenceLayer::paint(QPainter& painter, const ViewTransform& view) {
    show(view, painter.device()->devicePixelRatioF(), TileQuality::Fine);
    paintPart(painter, view, QRectF{QPointF{}, view.size()}, TileQuality::Fine);
}

std::vector<WantedLayer> ReferenceLayer::wanted(const ViewTransform& view, double pixelRatio) {
    const double scale = view.metresPerPixel() / pixelRatio;
    const double size = ReferenceTile::kPixels * scale;
    const QRectF visible = view.visiblePlane();
    std::vector<WantedLayer> all;
    for (const ReferenceSource& source : m_sources) {
        const LineStyle style = styleOf(source, view);
        WantedLayer layer;
        layer.layer = shown(source).number;
        layer.opacity = source.opacity;
        for (int x = int(std::floor(visible.left() / size)); x <= int(std::floor(visible.right() / size)); ++x)
            for (int y = int(std::floor(visible.top() / size)); y <= int(std::floor(visible.bottom() / size)); ++y)
                layer.tiles.push_back({TileKey{layer.layer, view.planeNumber(), int(style), scale, x, y},
                                       QRectF{x * size, y * size, size, size}});
        layer.maker = [layer = source.layer, plane = view.plane().definition(), scale, style,
                       pixelRatio](const WantedTile& tile) {
            const ReferenceTile piece{layer, plane, scale, tile.ground.left(), tile.ground.bottom(), style, pixelRatio};
            return [piece](TileBench& bench, const Progress& progress) -> QImage {
                try {
                    return drawn(piece, bench.plane(piece.plane), progress);
                } catch (const Cancelled&) {
                    throw;
                } catch (const Fault&) {
                    return {}; // so far off the map that nothing of it can be seen
                }
            };
        };
        all.push_back(std::move(layer));
    }
    return all;
}

/// In a box somewhat larger than the view, so that a pan need not look again in every frame.
void ReferenceLayer::findCandidates(const ReferenceSource& source, std::size_t column, const ViewTransform& view,
                                    TileQuality quality) {
    Shown& own = shown(source);
    const geometry::Box seen = view.visibleLonLat();
    const auto holds = [&](const geometry::Box& box) {
        return box.minX <= seen.minX && box.maxX >= seen.maxX && box.minY <= seen.minY && box.maxY >= seen.maxY;
    };
    // Amid a motion those found last will do: the next scale follows at once.
    if (own.candidates && own.candidates->column == column && own.candidates->plane == view.planeNumber() &&
        (quality == TileQuality::Fast ||
         (own.candidates->metresPerPixel == view.metresPerPixel() && holds(own.candidates->box))))
        return;
    const double wide = kLabelRoom * (seen.maxX - seen.minX), high = kLabelRoom * (seen.maxY - seen.minY);
    const geometry::Box box{seen.minX - wide, seen.minY - high, seen.maxX + wide, seen.maxY + high};
    own.candidates = {column, view.planeNumber(), view.metresPerPixel(), box, {}};
    std::vector<Shown::Candidate>& all = own.candidates->all;
    const double perLat = 111'320.0 / view.metresPerPixel();
    const double perLon = perLat * std::cos((seen.minY + seen.maxY) / 2 * (3.14159265358979323846 / 180.0));
    constexpr double times = (1.0 + 2.0 * kLabelRoom) * (1.0 + 2.0 * kLabelRoom);
    std::size_t looked = 0;
    visitSeen(*source.layer, box, [&](std::size_t feature, const geometry::Box& at) {
        const QSizeF room{(at.maxX - at.minX) * perLon, (at.maxY - at.minY) * perLat};
        if (room.width() >= kFewestPixels && room.height() >= kFewestPixels)
            all.push_back({feature, room, {}, {}});
        return double(++looked) <= times * double(kLooked);
    });
    if (double(looked) > times * double(kLooked)) {
        all.clear();
        return;
    }
    // The largest, and always the same of those that are alike.
    std::sort(all.begin(), all.end(), [](const Shown::Candidate& a, const Shown::Candidate& b) {
        const double roomA = a.room.width() * a.room.height(), roomB = b.room.width() * b.room.height();
        return roomA != roomB ? roomA > roomB : a.feature < b.feature;
    });
    all.resize(std::min(all.size(), std::size_t(times * double(kLabelled))));
}

std::vector<ReferenceLayer::Label> ReferenceLayer::labels(const ViewTransform& view, TileQuality quality) {
    QElapsedTimer clock;
    clock.start();
    bool more = false, hasSought = false;
    std::vector<Label> labels;
    for (const ReferenceSource& source : m_sources) {
        const std::optional<std::size_t> column = source.labelColumn ? source.labelColumn : source.numberColumn;
        if (!column)
            continue;
        const reference::Layer& layer = *source.layer;
        findCandidates(source, *column, view, quality);
        Shown& own = shown(source);
        auto& places = own.labelPlaces;
        const double stretch = own.candidates->metresPerPixel / view.metresPerPixel();
        constexpr std::size_t kept = 20'000;
        if (std::exchange(own.labelPlane, view.planeNumber()) != view.planeNumber() || places.size() > kept)
            places.clear();
        for (Shown::Candidate& candidate : own.candidates->all) {
            if (!candidate.isSought) {
                auto known = places.find(candidate.feature);
                if (known == places.end()) {
                    // One each time at least, or the map would never come to rest where the known ones take as long.
                    if (std::exchange(hasSought, true) && double(clock.nsecsElapsed()) >= kLabelNanoseconds) {
                        more = true;
                        continue;
                    }
                    constexpr std::size_t mostCorners = 20'000; // more, and the search would hold up the window
                    std::optional<QPointF> place;
                    try {
                        const bool isSought = layer.cornersOf(candidate.feature) <= mostCorners;
                        if (const auto onEarth =
                                isSought ? geometry::labelPlace(layer.surface(candidate.feature)) : std::nullopt)
                            place = view.planeOf(*onEarth);
                    } catch (const Fault&) {
                        // No number on a parcel that cannot be computed with.
                    }
                    known = places.emplace(candidate.feature, place).first;
                }
                candidate.place = known->second;
                candidate.text = QString::fromStdString(textOf(source, candidate.feature, column));
                candidate.isSought = true;
            }
            if (candidate.place && !candidate.text.isEmpty())
                labels.push_back({view.toWidget(*candidate.place), candidate.room * stretch, candidate.text});
        }
    }
    if (more)
        QTimer::singleShot(0, this, &ReferenceLayer::ready);
    return labels;
}

} // namespace fencewright::desktop
