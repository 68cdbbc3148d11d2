#include "desktop/canvas/map_painter.h"

#include "desktop/canvas/comb.h"
#include "desktop/canvas/edit_mark.h"
#include "desktop/canvas/map_furniture.h"
#include "desktop/canvas/near_plane.h"
#include "desktop/canvas/plane_line.h"
#include "desktop/canvas/snap_mark.h"
#include "desktop/canvas/symbol.h"
#include "desktop/palette.h"
#include "fault.h"
#include "geodesy/map_plane.h"

#include <QElapsedTimer>
#include <QFontMetricsF>
#include <QThreadPool>
#include <QTimer>

#include <algorithm>
#include <cmath>
#include <functional>
#include <latch>
#include <set>
#include <utility>

namespace fencewright::desktop {
namespace {

constexpr double kFindingRoomPixels = 4.0;
constexpr std::size_t kManyHandles = 1'500;
constexpr std::size_t kFewMarks = 150;   // more are thinned
constexpr std::size_t kFewSelected = 64; // more are painted with all others

QColor ink() { return QColor::fromRgba(kMapInk); }
QColor casing(int alpha) {
    QColor colour = QColor::fromRgba(kMapCasing);
    colour.setAlpha(alpha);
    return colour;
}

QRectF square(const QPointF& centre, double radius) {
    return {centre.x() - radius, centre.y() - radius, 2 * radius, 2 * radius};
}

model::Position anyPlaceOf(const model::MultiPolygon& surface) {
    return surface.parts.empty() || surface.parts.front().shell.corners.empty()
               ? model::Position{}
               : surface.parts.front().shell.corners.front();
}

bool isActive(const session::OutlinedFence& fence, const MapContents& contents) {
    return airspace::isActive(*fence.fence, contents.moment, anyPlaceOf(fence.surface), {});
}

using ToEarth = std::function<std::vector<model::Position>(const std::vector<QPointF>&)>;

/// A box in longitude and latitude that all of the plane's rectangle lies in; nothing where it may be anywhere.
std::optional<geometry::Box> lonLatAround(const QRectF& plane, const ToEarth& toEarth) {
    constexpr double farthest = 2e6, highest = 80.0; // metres, degrees
    if (std::hypot(plane.width(), plane.height()) > farthest)
        return std::nullopt;
    std::vector<QPointF> points;
    constexpr int steps = 4;
    for (int i = 0; i <= steps; ++i) {
        const double x = std::lerp(plane.left(), plane.right(), double(i) / steps);
        const double y = std::lerp(plane.top(), plane.bottom(), double(i) / steps);
        points.insert(points.end(), {{x, plane.top()}, {x, plane.bottom()}, {plane.left(), y}, {plane.right(), y}});
    }
    geometry::Box box;
    for (const model::Position& place : toEarth(points))
        box.add(place.lon, place.lat);
    if (box.empty() || std::max(std::abs(box.minY), std::abs(box.maxY)) > highest)
        return std::nullopt;
    // Between the places the border bulges: by under a twentieth of a view of that size up to that latitude.
    const double wide = 0.05 * (box.maxX - box.minX), high = 0.05 * (box.maxY - box.minY);
    return geometry::Box{box.minX - wide, box.minY - high, box.maxX + wide, box.maxY + high};
}

QRectF planeOf(const QRectF& widget, const ViewTransform& view) {
    return QRectF{view.toPlane(widget.bottomLeft()), view.toPlane(widget.topRight())}.normalized();
}

/// Calls `visit(number)` for the boxes that may be seen, until it answers false.
template <class Visit>
void visitSeen(const geometry::ChangingIndex& places, const std::optional<geometry::Box>& lonLat, Visit visit) {
    if (!lonLat) {
        for (std::size_t i = 0; i < places.size(); ++i)
            if (!places.box(i).empty() && !visit(i))
                return;
        return;
    }
    std::set<std::size_t> twice; // on two turns of longitude at once
    for (const double turn : {0.0, -360.0, 360.0, -720.0, 720.0}) {
        bool on = true;
        places.visitMeeting({lonLat->minX + turn, lonLat->minY, lonLat->maxX + turn, lonLat->maxY},
                            [&](std::size_t number) {
                                const geometry::Box& box = places.box(number);
                                if (box.maxX - box.minX > 180.0 && !twice.insert(number).second)
                                    return true;
                                return on = visit(number);
                            });
        if (!on)
            return;
    }
}

ToEarth earthOf(const ViewTransform& view) {
    return [&view](const std::vector<QPointF>& points) {
        std::vector<model::Position> places;
        for (const QPointF& point : points)
            places.push_back(view.earthAt(view.toWidget(point)));
        return places;
    };
}

/// The distance that makes the shape, for its name: "1/4 mi" where that is what was stated.
std::optional<StatedLength> distanceOf(const model::Shape& shape) {
    if (const auto* circle = std::get_if<model::Circle>(&shape))
        return circle->radius;
    if (const auto* setback = std::get_if<model::Setback>(&shape))
        return setback->distance;
    return std::nullopt;
}

QString nameOf(const model::Fence& fence, units::System units) {
    QString name = QString::fromStdString(fence.name);
    if (const auto distance = distanceOf(fence.shape))
        name += ", " + QString::fromStdString(distance->asWritten.empty() ? units::formatLength(distance->length, units)
                                                                          : distance->asWritten);
    return name;
}

/// Qt spreads fills of many rows over the threads of its common pool, and waits for them. A thread gets the priority of
/// the one that it was started by: so they are all started now, by the window's, and never end.
void startThreadsOfQt() {
    QThreadPool& pool = *QThreadPool::globalInstance();
    pool.setExpiryTimeout(-1);
    const auto arrived = std::make_shared<std::latch>(pool.maxThreadCount());
    for (int i = 0; i < pool.maxThreadCount(); ++i)
        pool.start([arrived] { arrived->arrive_and_wait(); });
}

} // namespace

MapPainter::MapPainter(const QFont& font, QObject* parent) : QObject{parent}, m_font{font}, m_text{font} {
    startThreadsOfQt();
    connect(&m_fencePicture, &DeferredLayer::arrived, this, &MapPainter::arrived);
    connect(&m_clearArea, &ClearAreaLine::arrived, this, &MapPainter::arrived);
    connect(&m_labelPlaces, &LabelPlaces::arrived, this, &MapPainter::arrived);
}

MapPainter::~MapPainter() = default;

void MapPainter::paint(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    const QRectF widget{QPointF{}, view.size()};
    paintMap(painter, view, contents);
    paintToolLine(painter, view, contents);
    paintSites(painter, view, contents);
    paintHandles(painter, view, contents);

    LabelLayout layout{widget};
    paintFurniture(painter, view, contents, layout);
    if (contents.grid != session::MapGrid::None)
        paintGridLabels(painter, m_grid, widget, layout, m_font);
    paintNames(painter, view, contents, layout);
    paintAtPointer(painter, view, contents);
}

/// North arrow and scale bar, out of a picture: they look the same in one frame after another.
void MapPainter::paintFurniture(QPainter& painter, const ViewTransform& view, const MapContents& contents,
                                LabelLayout& layout) {
    const QRectF widget{QPointF{}, view.size()};
    const qreal ratio = painter.device()->devicePixelRatioF();
    const double metresPerPixel = view.groundMetresPerPixel();
    constexpr double told = 1'000.0; // of a degree, and of the scale: less is not seen
    const Furniture::Look look{std::round(view.trueUpAzimuth() * told), std::round(std::log(metresPerPixel) * told),
                               contents.units, view.size(), ratio};
    if (!m_furniture.look || *m_furniture.look != look) {
        m_furniture.look = look;
        m_furniture.plates.clear();
        const auto keep = [&](const auto& paint) {
            // Once to learn where it lies, once to keep it.
            QImage nothing{1, 1, QImage::Format_ARGB32_Premultiplied};
            QPainter nowhere{&nothing};
            const QRectF plate = paint(nowhere);
            nowhere.end();
            const QRect place = plate.adjusted(-2, -2, 2, 2).toAlignedRect();
            QImage image{(QSizeF{place.size()} * ratio).toSize(), QImage::Format_ARGB32_Premultiplied};
            image.setDevicePixelRatio(ratio);
            image.fill(Qt::transparent);
            QPainter into{&image};
            into.translate(-place.topLeft());
            (void)paint(into);
            into.end();
            m_furniture.plates.push_back({plate, place.topLeft(), image});
        };
        keep([&](QPainter& into) { return paintNorthArrow(into, widget, view); });
        keep([&](QPainter& into) { return paintScaleBar(into, widget, metresPerPixel, contents.units, m_font); });
    }
    for (const Furniture::Plate& plate : m_furniture.plates) {
        painter.drawImage(plate.at, plate.image);
        layout.block(plate.rect);
    }
}

void MapPainter::paintMap(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    // Without a grid, the paper has quiet lines where nothing lies on it.
    const bool plain = contents.grid == session::MapGrid::None;
    const bool bare = plain && !m_underlay.covers(view);
    m_grid = plain && !bare ? GridLines{}
                            : gridLines(view, plain ? session::MapGrid::Degrees : contents.grid, contents.notation);
    // Under what covers all and lets through nothing but its own holes, the ground is one colour.
    const bool isOneColour = m_before.isNull() && m_underlay.covers(view);
    if (!isOneColour) {
        paintGround(painter, view, contents.dark, bare ? m_grid : GridLines{}, m_font,
                    bare ? m_underlay.placesIn(view) : std::vector<QRectF>{});
        m_before.paint(painter, view);
    }
    m_underlay.paint(painter, view, contents.inMotion ? TileQuality::Fast : TileQuality::Fine,
                     isOneColour ? std::optional{groundColour(contents.dark)} : std::nullopt);
    if (m_underlay.tiles().isComplete())
        m_before.drop();
    if (!plain)
        paintGridLines(painter, m_grid);
    paintFences(painter, view, contents);
    m_clearArea.paint(painter, view, contents.clearArea ? contents.audit : nullptr, contents.inMotion);
    painter.setRenderHint(QPainter::Antialiasing);
}

/// Whether there is nothing but paper to see.
bool MapPainter::isBare(const ViewTransform& view, const MapContents& contents) const {
    bool hasFence = false;
    visitSeen(contents.places, lonLatAround(planeOf(QRectF{QPointF{}, view.size()}, view), earthOf(view)),
              [&](std::size_t) { return !(hasFence = true); });
    return !hasFence && !contents.draft && contents.set.sites.empty() && contents.set.homes.empty() &&
           m_underlay.placesIn(view).empty();
}

void MapPainter::keepPicture(const ViewTransform& view, const MapContents& contents, double pixelRatio) {
    if (isBare(view, contents))
        return m_before.drop();
    QPixmap picture{(view.size() * pixelRatio).toSize()};
    picture.setDevicePixelRatio(pixelRatio);
    QPainter painter{&picture};
    paintMap(painter, view, contents);
    paintSites(painter, view, contents);
    painter.end();
    m_before.keep(std::move(picture), view);
}

void MapPainter::paintCarried(QPainter& painter, const ViewTransform& view, const MapContents& contents,
                              const QTransform& carried, double clockwiseDegrees) {
    const QRectF widget{QPointF{}, view.size()};
    painter.fillRect(widget, groundColour(contents.dark));
    m_before.paint(painter, carried);
    paintNorthArrow(painter, widget, view, clockwiseDegrees);
}

/// Where the selected fences stand in the list.
void MapPainter::findSelected(const MapContents& contents) {
    m_selected.clear();
    const std::vector<model::FenceId> ids = contents.selection.fences();
    for (std::size_t i = 0; !ids.empty() && i < contents.outlined.size(); ++i)
        if (ids.size() == 1 ? contents.outlined[i]->fence->id == ids.front()
                            : contents.selection.contains(contents.outlined[i]->fence->id))
            m_selected.push_back(i);
}

/// What the picture shows and should not, and what it should and does not.
void MapPainter::updateScene(const ViewTransform& view, const MapContents& contents) {
    const bool sameMoment = m_scene && m_knownMoment == contents.moment;
    if (sameMoment && m_knownNumber == contents.outlinesNumber && m_knownSelection == contents.selection)
        return;
    const auto& outlined = contents.outlined;
    m_knownNumber = contents.outlinesNumber;
    m_knownMoment = contents.moment;
    m_knownSelection = contents.selection;
    const bool fewer = outlined.size() < m_known.size();
    m_known.resize(outlined.size());
    for (std::size_t i = 0; i < outlined.size(); ++i)
        if (m_known[i].fence != outlined[i] || !sameMoment)
            m_known[i] = {outlined[i], isActive(*outlined[i], contents)};
    findSelected(contents);

    // The selected ones change under the pointer: they lie on top, and not in the picture. Very many are in it.
    const bool alone = m_selected.size() <= kFewSelected;
    const auto wanted = [&](std::size_t i) {
        const bool selected = isSelected(i), active = m_known[i].active;
        if (selected && alone)
            return FencePainter::Item{};
        return FencePainter::Item{outlined[i], selected ? (active ? FenceLook::Selected : FenceLook::SelectedQuiet)
                                                        : (active ? FenceLook::Active : FenceLook::Quiet)};
    };
    std::vector<std::size_t> changed;
    const std::size_t had = m_scene ? m_scene->items.size() : 0;
    for (std::size_t i = 0; i < outlined.size(); ++i) {
        if (i >= had || m_scene->items[i] != wanted(i))
            changed.push_back(i);
    }
    if (m_scene && changed.empty() && had == outlined.size())
        return;
    constexpr std::size_t many = 200;
    if (!m_scene || changed.size() > many || had > outlined.size() + many) {
        m_fencePicture.invalidate();
    } else {
        const auto invalidate = [&](const FencePainter::Item& item) {
            if (!item.fence || item.fence->surface.empty())
                return;
            const double reach = FencePainter::kReachPixels * view.metresPerPixel();
            m_fencePicture.invalidatePlane(
                m_fences->planeBoundsOf(item.fence, view).adjusted(-reach, -reach, reach, reach));
        };
        for (const std::size_t i : changed) {
            if (i < had)
                invalidate(m_scene->items[i]);
            invalidate(wanted(i));
        }
        for (std::size_t i = outlined.size(); i < had; ++i)
            invalidate(m_scene->items[i]);
    }
    auto scene = m_scene ? std::make_shared<Scene>(*m_scene) : std::make_shared<Scene>();
    scene->items.resize(outlined.size());
    for (const std::size_t i : changed)
        scene->items[i] = wanted(i);
    scene->places = contents.places;
    m_scene = std::move(scene);
    constexpr int often = 300;
    if (fewer || ++m_updates % often == 0)
        m_fences->keepOnly(outlined);
}

void MapPainter::paintScene(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    // Keep-outs over keep-ins: where they meet, the prohibition is read first.
    const auto seenItems = [](const Scene& scene, const std::optional<geometry::Box>& lonLat) {
        std::vector<std::size_t> numbers;
        visitSeen(scene.places, lonLat, [&](std::size_t number) {
            if (number < scene.items.size() && scene.items[number].fence)
                numbers.push_back(number);
            return true;
        });
        const auto isKeepOut = [&](std::size_t number) {
            return scene.items[number].fence->fence->kind == model::FenceKind::KeepOut;
        };
        std::sort(numbers.begin(), numbers.end(),
                  [&](std::size_t a, std::size_t b) { return isKeepOut(a) != isKeepOut(b) ? isKeepOut(b) : a < b; });
        std::vector<FencePainter::Item> items;
        for (const std::size_t number : numbers)
            items.push_back(scene.items[number]);
        return items;
    };
    const auto withReach = [](const QRectF& seen) {
        constexpr double reach = FencePainter::kReachPixels;
        return seen.adjusted(-reach, -reach, reach, reach);
    };
    DeferredLayer::Contents layer;
    layer.here = [&, scene = m_scene](QPainter& into, const ViewTransform& frame, const QRectF& seen) {
        const auto lonLat = lonLatAround(planeOf(withReach(seen), frame), earthOf(frame));
        m_fences->paint(into, frame, seenItems(*scene, lonLat), seen);
    };
    layer.elsewhere = [&, scene = m_scene, fences = m_fences]() -> DeferredLayer::Render {
        return [=, definition = view.plane().definition()](QPainter& into, const ViewTransform& frame,
                                                           const QRectF& seen) {
            // A plane is not for two threads at once: this one has its own.
            const geodesy::MapPlane plane{definition};
            const Projection project = [&](std::span<const model::Position> places) {
                std::vector<QPointF> points;
                try {
                    for (const geodesy::PlanePoint& point : plane.toPlane(places))
                        points.emplace_back(point.x, point.y);
                } catch (const Fault&) {
                    points.clear(); // it cannot be shown in this plane
                }
                return points;
            };
            const ToEarth toEarth = [&](const std::vector<QPointF>& points) {
                std::vector<geodesy::PlanePoint> given;
                for (const QPointF& point : points)
                    given.push_back({point.x(), point.y()});
                try {
                    return plane.toEarth(given);
                } catch (const Fault&) {
                    return std::vector<model::Position>{};
                }
            };
            const auto lonLat = lonLatAround(planeOf(withReach(seen), frame), toEarth);
            fences->paint(into, frame, project, seenItems(*scene, lonLat), seen);
        };
    };
    layer.cost = [&](const QRectF& seen) {
        double sum = 0.0;
        visitSeen(m_scene->places, lonLatAround(planeOf(withReach(seen), view), earthOf(view)),
                  [&](std::size_t number) {
                      if (number < m_scene->items.size() && m_scene->items[number].fence)
                          sum += m_fences->costOf(m_scene->items[number].fence, view, seen.size());
                      return sum <= DeferredLayer::kAffordable;
                  });
        return sum;
    };
    m_fencePicture.paint(painter, view, layer, contents.inMotion);
}

void MapPainter::paintFences(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    updateScene(view, contents);
    paintScene(painter, view, contents);
    std::vector<FencePainter::Item> live;
    if (m_selected.size() <= kFewSelected)
        for (const std::size_t i : m_selected)
            live.push_back({contents.outlined[i], m_known[i].active ? FenceLook::Selected : FenceLook::SelectedQuiet});
    for (const Outlined& fence : contents.previewed)
        live.push_back({fence, FenceLook::Draft});
    if (contents.draft)
        live.push_back({contents.draft, FenceLook::Draft});
    m_fences->paint(painter, view, live, QRectF{QPointF{}, view.size()});

    // What is shown before it is taken: dashes and dots on a broad white line, which no fence has, and words.
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(Qt::NoBrush);
    const QPen casing{Qt::white, 6.0, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin};
    QPen dashes{ink(), 2.6, Qt::CustomDashLine, Qt::FlatCap};
    dashes.setDashPattern({5.0, 1.6, 1.0, 1.6});
    const QRectF sheet{QPointF{}, view.size()};
    for (const Outlined& fence : contents.previewed) {
        QRectF box;
        for (const model::Polygon& part : fence->surface.parts) {
            QPolygonF ring;
            for (const QPointF& point : view.planeOf(part.shell.corners))
                ring << view.toWidget(point);
            const QPolygonF seen = clippedRing(ring, sheet.adjusted(-20, -20, 20, 20));
            painter.setPen(casing);
            painter.drawPolygon(seen);
            painter.setPen(dashes);
            painter.drawPolygon(seen);
            box = box.united(seen.boundingRect().intersected(sheet));
        }
        if (box.isEmpty())
            continue;
        const QString words = tr("as it would be");
        const LabelStyle style{ink(), 13, true};
        const QSizeF size = m_text.sizeOf(words, style);
        // Above its top where there is room, and on the sheet in any case.
        const double left = sheet.left() + size.width() / 2 + 8;
        const double right = std::max(left, sheet.right() - size.width() / 2 - 8);
        m_text.write(painter,
                     {std::clamp(box.center().x(), left, right),
                      std::max(box.top() - size.height(), sheet.top() + size.height())},
                     words, style);
    }
}

void MapPainter::paintSites(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    const auto paintArea = [&](const model::LineString& places, bool closed) {
        QPolygonF shape;
        for (const QPointF& point : view.planeOf(places))
            shape << view.toWidget(point);
        for (const QPen& pen : {QPen{casing(220), 4.0}, QPen{mapColour(model::FenceKind::KeepOut), 1.6}}) {
            painter.setPen(pen);
            painter.setBrush(Qt::NoBrush);
            closed ? painter.drawPolygon(shape) : painter.drawPolyline(shape);
        }
    };
    const auto paintOne = [&](const model::Site& site, bool selected) {
        if (const auto* place = std::get_if<model::Position>(&site.geometry)) {
            if (const auto at = view.widgetOf(*place))
                paintSite(painter, *at, mapColour(model::FenceKind::KeepOut), selected);
        } else if (const auto* line = std::get_if<model::LineString>(&site.geometry)) {
            paintArea(*line, false);
        } else {
            paintArea(std::get<model::Polygon>(site.geometry).shell.corners, true);
        }
    };
    for (const model::Site& site : contents.set.sites)
        paintOne(site, contents.selection.contains(site.id));
    for (const model::Site& site : contents.tool.draftSites)
        paintOne(site, true);
    const double metresPerPixel = view.groundMetresPerPixel();
    const auto paintOneHome = [&](const model::Home& home, bool selected) {
        if (const auto at = view.widgetOf(home.place)) {
            paintLandingRing(painter, *at, home.landingRadius.length.inMetres() / metresPerPixel);
            paintHome(painter, *at, home.kind, selected);
        }
    };
    for (const model::Home& home : contents.set.homes)
        paintOneHome(home, contents.selection.contains(home.id));
    if (contents.tool.home)
        paintOneHome(*contents.tool.home, true);
    updateMarks(view, contents);
    paintMarks(painter);
}

void MapPainter::updateMarks(const ViewTransform& view, const MapContents& contents) {
    if (m_marks.audit != contents.audit || m_marks.planeNumber != view.planeNumber()) {
        m_marks = {contents.audit, view.planeNumber(), {}, {}};
        std::vector<model::Position> places;
        if (contents.audit)
            for (const audit::Finding& finding : contents.audit->findings)
                if (finding.place) {
                    m_marks.places.emplace_back(QPointF{}, finding.severity);
                    places.push_back(*finding.place);
                }
        const std::vector<QPointF> points = view.planeOf(places);
        constexpr double nowhere = 1e18;
        for (std::size_t i = 0; i < places.size(); ++i)
            // All of them or none: where one is nowhere, each by itself.
            m_marks.places[i].first =
                points.empty() ? view.planeOf(places[i]).value_or(QPointF{nowhere, nowhere}) : points[i];
        std::stable_sort(m_marks.places.begin(), m_marks.places.end(),
                         [](const auto& a, const auto& b) { return a.second < b.second; });
    }
    // The gravest first, and no other within its square.
    constexpr double square = 12.0;
    m_marks.shown.clear();
    const QRectF seen = QRectF{QPointF{}, view.size()}.adjusted(-square, -square, square, square);
    const bool all = m_marks.places.size() < kFewMarks;
    const int columns = int(seen.width() / square) + 1;
    std::vector<bool> taken(all ? 0 : std::size_t(columns) * std::size_t(seen.height() / square + 1.0), false);
    const auto isFree = [&](const QPointF& at) {
        if (all)
            return true;
        const std::size_t cell = std::size_t((at.y() - seen.top()) / square) * std::size_t(columns) +
                                 std::size_t((at.x() - seen.left()) / square);
        const bool free = !taken[cell];
        taken[cell] = true;
        return free;
    };
    for (auto mark = m_marks.places.rbegin(); mark != m_marks.places.rend(); ++mark) {
        const QPointF at = view.toWidget(mark->first);
        if (at.x() > seen.left() && at.x() < seen.right() && at.y() > seen.top() && at.y() < seen.bottom() &&
            isFree(at))
            m_marks.shown.emplace_back(at, mark->second);
    }
    std::reverse(m_marks.shown.begin(), m_marks.shown.end());
}

void MapPainter::paintMarks(QPainter& painter) {
    for (const auto& [at, severity] : m_marks.shown) {
        constexpr std::string_view names[] = {"note", "doubt", "error"};
        stamp(painter, at, names[std::size_t(severity)], {},
              [severity = severity](QPainter& into, const QPointF& where) { paintFinding(into, where, severity); });
    }
}

void MapPainter::stamp(QPainter& painter, const QPointF& at, std::string_view name, const QColor& colour,
                       const std::function<void(QPainter&, const QPointF&)>& paint) {
    const qreal ratio = painter.device()->devicePixelRatioF();
    constexpr double half = kFindingRadiusPixels + 4.0; // none is larger
    QImage& image = m_stamps[{name, colour.rgba(), ratio}];
    if (image.isNull()) {
        image = QImage{(QSizeF{2 * half, 2 * half} * ratio).toSize(), QImage::Format_ARGB32_Premultiplied};
        image.setDevicePixelRatio(ratio);
        image.fill(Qt::transparent);
        QPainter into{&image};
        into.setRenderHint(QPainter::Antialiasing);
        paint(into, {half, half});
    }
    painter.drawImage(QPointF{std::round((at.x() - half) * ratio), std::round((at.y() - half) * ratio)} / ratio, image);
}

void MapPainter::paintHandles(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    if (contents.tool.editable) {
        const auto& fence = contents.set.fences.findPointer(*contents.tool.editable);
        if (fence && (m_editable.fence != fence || m_editable.planeNumber != view.planeNumber())) {
            Editable former = std::exchange(m_editable, {fence, view.planeNumber(), {}, {}});
            std::vector<EditableLine> linesBefore;
            if (former.fence && former.fence->id == fence->id && former.planeNumber == view.planeNumber())
                linesBefore = editableLines(former.fence->shape);
            const Projection project = [&](std::span<const model::Position> places) { return view.planeOf(places); };
            for (const EditableLine& line : editableLines(fence->shape)) {
                const std::size_t l = m_editable.lines.size();
                if (l < linesBefore.size() && linesBefore.size() == former.lines.size())
                    m_editable.lines.emplace_back(*line.corners, line.closed, project, &former.lines[l],
                                                  *linesBefore[l].corners);
                else
                    m_editable.lines.emplace_back(*line.corners, line.closed, project);
                m_editable.closed.push_back(line.closed);
            }
        }
        if (fence) {
            paintCorners(painter, view, *fence, contents.tool.activeCorner);
            if (contents.tool.activeEdge)
                paintChosenEdge(painter, view, *fence, *contents.tool.activeEdge);
        }
    }
    QColor edge = ink();
    if (contents.tool.kind)
        edge = mapColour(*contents.tool.kind);
    else if (const auto* id = contents.selection.only<model::FenceId>())
        if (const model::Fence* fence = contents.set.fences.find(*id))
            edge = mapColour(fence->kind);
    for (const model::Position& handle : contents.tool.handles)
        if (const auto at = view.widgetOf(handle))
            paintHandle(painter, *at, edge, false);
    if (contents.tool.dial)
        paintDial(painter, view, *contents.tool.dial);
}

void MapPainter::paintCorners(QPainter& painter, const ViewTransform& view, const model::Fence& fence,
                              const std::optional<Corner>& active) {
    const QColor edge = mapColour(fence.kind);
    const QRectF seen = QRectF{QPointF{}, view.size()}.adjusted(-8, -8, 8, 8);
    const QRectF plane = planeOf(seen, view);
    const auto maySee = [&](const PlaneRuns::Run& run) {
        return run.box.left() <= plane.right() && run.box.right() >= plane.left() && run.box.top() <= plane.bottom() &&
               run.box.bottom() >= plane.top();
    };
    std::size_t visible = 0;
    for (const PlaneRuns& line : m_editable.lines)
        for (const auto& run : line.runs())
            if (maySee(*run))
                visible += std::size_t(std::count_if(run->points.begin(), run->points.end(),
                                                     [&](const QPointF& point) { return plane.contains(point); }));
    const bool many = visible > kManyHandles;
    constexpr double shortest = kMidpointEdgeTolerances * 6.0; // pixels, as the tool has it
    constexpr std::size_t few = 60;
    const auto put = [&](const QPointF& at, std::string_view name, const auto& paint) {
        if (visible > few)
            stamp(painter, at, name, edge, paint);
        else
            paint(painter, at);
    };
    // Of many, one in a square of the screen: more would lie on one another.
    constexpr double kSquarePixels = 4.0;
    const int columns = int(seen.width() / kSquarePixels) + 1;
    painter.setRenderHint(QPainter::Antialiasing, !many); // the small squares of many need none
    std::vector<bool> taken(many ? std::size_t(columns) * std::size_t(seen.height() / kSquarePixels + 1) : 0, false);
    for (std::size_t l = 0; l < m_editable.lines.size(); ++l) {
        const PlaneRuns& line = m_editable.lines[l];
        for (std::size_t r = 0; r < line.runs().size(); ++r) {
            const PlaneRuns::Run& run = *line.runs()[r];
            if (!maySee(run))
                continue;
            const std::size_t first = r * PlaneRuns::kRunLength;
            for (std::size_t i = first; !many && i < first + run.points.size(); ++i) {
                if (i + 1 == line.size() && !m_editable.closed[l])
                    break;
                const QPointF from = view.toWidget(line[i]), to = view.toWidget(line[(i + 1) % line.size()]);
                if (const QPointF middle = (from + to) / 2.0;
                    seen.contains(middle) && distanceBetween(from, to) > shortest)
                    put(middle, "midpoint",
                        [&](QPainter& into, const QPointF& where) { paintMidpoint(into, where, edge); });
            }
            for (std::size_t i = 0; i < run.points.size(); ++i) {
                const QPointF at = view.toWidget(run.points[i]);
                if (!seen.contains(at))
                    continue;
                if (!many) {
                    const bool chosen = active == Corner{fence.id, l, first + i};
                    put(at, chosen ? "chosen" : "handle",
                        [&](QPainter& into, const QPointF& where) { paintHandle(into, where, edge, chosen); });
                    continue;
                }
                const std::size_t cell = std::size_t((at.y() - seen.top()) / kSquarePixels) * std::size_t(columns) +
                                         std::size_t((at.x() - seen.left()) / kSquarePixels);
                if (!taken[cell])
                    painter.fillRect(square(at, 2.0), edge);
                taken[cell] = true;
            }
        }
    }
    painter.setRenderHint(QPainter::Antialiasing);
}

void MapPainter::paintToolLine(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    const ToolPreview& tool = contents.tool;
    if (tool.swept.size() > 1) {
        QPolygonF ring;
        for (const QPointF& point : view.planeOf(tool.swept))
            ring << view.toWidget(point);
        QColor tint = ink();
        tint.setAlpha(28);
        painter.setBrush(tint);
        painter.setPen(QPen{casing(225), 3.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
        painter.drawPolygon(ring);
        QPen dots{ink(), 1.4, Qt::CustomDashLine, Qt::FlatCap};
        dots.setDashPattern({3.0, 3.0});
        painter.setBrush(Qt::NoBrush);
        painter.setPen(dots);
        painter.drawPolygon(ring);
    }
    QPolygonF line;
    for (const QPointF& point : view.planeOf(tool.line))
        line << view.toWidget(point);
    if (line.size() < 2)
        return;
    const QRectF seen{QPointF{}, view.size()};
    const QColor colour = tool.kind ? mapColour(*tool.kind) : ink();
    painter.setBrush(Qt::NoBrush);
    if (tool.closed && tool.kind && line.size() >= 3) {
        if (*tool.kind == model::FenceKind::KeepOut) {
            QColor tint = colour;
            tint.setAlpha(42);
            painter.setPen(Qt::NoPen);
            painter.setBrush(tint);
            painter.drawPolygon(line);
            painter.setBrush(Qt::NoBrush);
        }
        const auto comb =
            combOf(line, *tool.kind == model::FenceKind::KeepOut ? CombSide::Inside : CombSide::Outside, seen);
        painter.setPen(QPen{casing(130), 3.2, Qt::SolidLine, Qt::SquareCap});
        painter.drawLines(comb.data(), int(comb.size()));
        painter.setPen(QPen{colour, 1.5, Qt::SolidLine, Qt::FlatCap});
        painter.drawLines(comb.data(), int(comb.size()));
    }
    // What is set, solid; what follows the pointer, dashed.
    QPolygonF set = line, open;
    if (tool.follows) {
        set.removeLast();
        open << set.last() << line.last();
        if (tool.closed)
            open << line.first();
    }
    QPen dashes{colour, 2.2, Qt::CustomDashLine, Qt::FlatCap};
    dashes.setDashPattern({4.0, 2.5});
    for (const QPolygonF* part : {&set, &open}) {
        if (part->size() < 2)
            continue;
        painter.setPen(QPen{casing(225), 5.0, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
        painter.drawPolyline(*part);
        painter.setPen(part == &open ? dashes : QPen{colour, 2.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
        painter.drawPolyline(*part);
    }
}

void MapPainter::paintNames(QPainter& painter, const ViewTransform& view, const MapContents& contents,
                            LabelLayout& layout) {
    const QRectF seen{QPointF{}, view.size()};
    std::vector<QPointF> siteMarks;
    for (const model::Home& home : contents.set.homes)
        if (const auto at = view.widgetOf(home.place))
            layout.block(square(*at, kHomeRadiusPixels));
    for (const model::Site& site : contents.set.sites)
        if (const auto* place = std::get_if<model::Position>(&site.geometry))
            if (const auto at = view.widgetOf(*place))
                layout.block(square(*at, kSiteRadiusPixels));
    for (const auto& [at, severity] : m_marks.shown)
        layout.block(square(at, kFindingRadiusPixels + kFindingRoomPixels));
    std::vector<std::size_t> numbers;
    visitSeen(contents.places, lonLatAround(planeOf(seen.adjusted(-20, -20, 20, 20), view), earthOf(view)),
              [&](std::size_t number) {
                  if (number < contents.outlined.size())
                      numbers.push_back(number);
                  return true;
              });
    m_labelPlaces.begin();

    // A name across another fence's boundary reads as that one's: avoided, where there are not too many to look at.
    constexpr std::size_t lookedAt = 60;
    const bool looks = numbers.size() <= lookedAt;
    const std::vector<std::size_t> nearby = looks ? numbers : std::vector<std::size_t>{};
    constexpr double newNamesNanoseconds = 0.5e6;
    QElapsedTimer sinceNewName;
    bool namesAreLeft = false;
    const auto mayTakeTime = [&] {
        if (!sinceNewName.isValid())
            sinceNewName.start();
        if (double(sinceNewName.nsecsElapsed()) < newNamesNanoseconds)
            return true;
        namesAreLeft = true;
        return false;
    };
    const auto write = [&](const QString& text, const LabelStyle& style, const session::OutlinedFence* own,
                           const auto& centresFor) {
        if (text.isEmpty())
            return;
        // Of many new names some are measured and drawn now, and the rest in the frames that follow. One that finds no
        // place is never drawn: it must not be waited for.
        if (!m_text.knowsSize(text, style) && !mayTakeTime())
            return;
        const QSizeF size = m_text.sizeOf(text, style);
        const std::vector<QPointF> centres = centresFor(size);
        const auto crossesAnother = [&](const QRectF& wanted) {
            return looks && std::any_of(nearby.begin(), nearby.end(), [&](std::size_t number) {
                       const Outlined& fence = contents.outlined[number];
                       return fence.get() != own && m_fences->boundaryCrosses(fence, view, wanted);
                   });
        };
        if (const auto centre = layout.place(size, centres, crossesAnother))
            if (m_text.knows(text, style, painter.device()->devicePixelRatioF()) || mayTakeTime())
                m_text.write(painter, *centre, text, style);
    };
    // Too small for a name, comb and casing included; the chosen one has it all the same.
    constexpr double smallest = 40.0;
    const double smallestDegrees =
        0.5 * (smallest - 2.0 * FencePainter::kReachPixels) * view.metresPerPixel() / 111'000.0;
    std::erase_if(numbers, [&](std::size_t number) {
        // Most of very many are specks, and told from their boxes alone.
        const geometry::Box& box = contents.places.box(number);
        if (!isSelected(number) && std::max(box.maxX - box.minX, box.maxY - box.minY) < smallestDegrees)
            return true;
        const QRectF bounds = m_fences->boundsOf(contents.outlined[number], view);
        return contents.outlined[number]->surface.empty() || !bounds.intersects(seen) ||
               (!isSelected(number) && std::max(bounds.width(), bounds.height()) < smallest);
    });
    const auto writeFence = [&](std::size_t number) {
        const Outlined& fence = contents.outlined[number];
        const QRectF bounds = m_fences->boundsOf(fence, view);
        const bool selected = isSelected(number);
        const LabelStyle style{mapInk(fence->fence->kind), selected ? 14 : 13, m_known[number].active};
        write(nameOf(*fence->fence, contents.units), style, fence.get(), [&](const QSizeF& size) {
            std::vector<QPointF> centres;
            const double middle = bounds.center().x();
            const QPointF below{middle, bounds.bottom() + size.height() / 2.0},
                above{middle, bounds.top() - size.height() / 2.0};
            const std::optional<model::Position> place = m_labelPlaces.find(fence);
            const std::optional<QPointF> within = place ? view.widgetOf(*place) : std::nullopt;
            // The bounds hold comb and casing: a name may lie over those, but not much beyond.
            const bool fits = size.width() < bounds.width() && size.height() < bounds.height() - 40.0;
            const bool centred = distanceOf(fence->fence->shape).has_value(); // its site stands in the middle
            const auto around = [&](std::initializer_list<double> ups) {
                for (const double x : {0.0, -0.2, 0.2})
                    for (const double up : ups)
                        if (std::abs(up) < bounds.height() / 2.0 - 30.0)
                            centres.push_back(*within + QPointF{x * bounds.width(), up});
            };
            if (within && fits && !centred)
                around({0.0, -40.0, 40.0, -90.0, 90.0});
            centres.insert(centres.end(), {below, above});
            if (within && fits && centred)
                around({24.0, -24.0, 60.0, -60.0});
            // Of a fence larger than the view, the middle of what is seen.
            centres.push_back(bounds.intersected(seen).center());
            return centres;
        });
    };

    std::sort(numbers.begin(), numbers.end(), [&](std::size_t a, std::size_t b) {
        const auto rank = [&](std::size_t number) {
            return isSelected(number) ? 0 : contents.outlined[number]->fence->kind == model::FenceKind::KeepOut ? 1 : 2;
        };
        if (rank(a) != rank(b))
            return rank(a) < rank(b);
        const Area areaA = contents.outlined[a]->area, areaB = contents.outlined[b]->area;
        return areaA != areaB ? areaA > areaB : a < b;
    });
    // The largest have names; a screen has no room for more.
    constexpr std::size_t mostNames = 600;
    numbers.resize(std::min(numbers.size(), mostNames));
    for (const auto& [place, words] : contents.tool.labels)
        if (const auto at = view.widgetOf(place))
            write(words, {ink(), 13, true}, nullptr, [&](const QSizeF& size) {
                return std::vector{*at - QPointF{0, size.height()}, *at + QPointF{0, size.height()}, *at};
            });
    for (const model::Home& home : contents.set.homes)
        if (const auto at = view.widgetOf(home.place); at && seen.contains(*at))
            write(QString::fromStdString(home.name), {ink(), 13, true}, nullptr,
                  [&](const QSizeF& size) { return besideSymbol(*at, kHomeRadiusPixels, size); });
    for (const std::size_t number : numbers)
        writeFence(number);
    m_labelPlaces.end();
    if (m_told.number != contents.outlinesNumber) {
        m_told = {contents.outlinesNumber, {}, {}};
        for (const Outlined& fence : contents.outlined)
            if (!contents.set.sites.empty() && !fence->surface.empty()) {
                m_told.names.insert(fence->fence->name);
                if (fence->site)
                    m_told.sites.insert(fence->site->id.value);
            }
    }
    for (const model::Site& site : contents.set.sites) {
        // A setback carries its site's name already, and so does a fence that was named for it.
        const bool told = m_told.sites.contains(site.id.value) || m_told.names.contains(site.name);
        const auto* place = std::get_if<model::Position>(&site.geometry);
        if (!place || (told && !contents.selection.contains(site.id)))
            continue;
        if (const auto at = view.widgetOf(*place); at && seen.contains(*at))
            write(QString::fromStdString(site.name), {ink(), 12, contents.selection.contains(site.id)}, nullptr,
                  [&](const QSizeF& size) { return besideSymbol(*at, kSiteRadiusPixels, size); });
    }
    const QColor quiet{0x2B, 0x34, 0x3E};
    const TileQuality quality = contents.inMotion ? TileQuality::Fast : TileQuality::Fine;
    for (const ReferenceLayer::Label& label : references().labels(view, quality))
        if (seen.contains(label.centre)) {
            const LabelStyle style{quiet, 11, false};
            if (!m_text.knowsSize(label.text, style) && !mayTakeTime())
                continue;
            const QSizeF size = m_text.sizeOf(label.text, style);
            if (size.width() + 8.0 < label.room.width() && size.height() + 8.0 < label.room.height())
                write(label.text, style, nullptr, [&](const QSizeF&) { return std::vector{label.centre}; });
        }
    if (namesAreLeft)
        QTimer::singleShot(0, this, &MapPainter::arrived);
}

void MapPainter::paintAtPointer(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    if (!contents.pointer)
        return;
    if (contents.snap)
        paintSnap(painter, view, *contents.snap);
    QStringList lines;
    if (!contents.tool.readout.isEmpty())
        lines << contents.tool.readout.split('\n');
    if (contents.snap)
        lines << contents.snap->reason;
    if (lines.isEmpty())
        return;
    QFont font = m_font;
    font.setPixelSize(12);
    QFont bold = font;
    bold.setBold(true);
    const double lineHeight = QFontMetricsF{bold}.height() + 1.0;
    double width = 0.0;
    for (qsizetype i = 0; i < lines.size(); ++i)
        width = std::max(width, QFontMetricsF{i == 0 ? bold : font}.horizontalAdvance(lines[i]));
    QRectF plate{contents.pointer->x() + 18.0, contents.pointer->y() + 16.0, width + 18.0,
                 lineHeight * double(lines.size()) + 8.0};
    if (plate.right() > view.size().width() - 4.0)
        plate.moveRight(contents.pointer->x() - 14.0);
    if (plate.bottom() > view.size().height() - 4.0)
        plate.moveBottom(contents.pointer->y() - 12.0);
    paintPlate(painter, plate);
    painter.setPen(ink());
    for (qsizetype i = 0; i < lines.size(); ++i) {
        painter.setFont(i == 0 ? bold : font);
        painter.drawText(
            QRectF{plate.left() + 9.0, plate.top() + 4.0 + lineHeight * double(i), width + 2.0, lineHeight},
            Qt::AlignVCenter, lines[i]);
    }
}

} // namespace fencewright::desktop
