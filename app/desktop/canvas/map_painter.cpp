#include "desktop/canvas/map_painter.h"

#include "desktop/canvas/comb.h"
#include "desktop/canvas/map_furniture.h"
#include "desktop/canvas/near_plane.h"
#include "desktop/canvas/plane_line.h"
#include "desktop/canvas/symbol.h"
#include "desktop/palette.h"

#include <QFontMetricsF>

#include <algorithm>
#include <cmath>
#include <set>

namespace fencewright::desktop {
namespace {

constexpr double kFindingRoomPixels = 4.0;
constexpr std::size_t kManyHandles = 1'500;

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

bool isSelected(const session::OutlinedFence& fence, const MapContents& contents) {
    return contents.selection == Selection{fence.fence->id};
}

FenceLook lookOf(const session::OutlinedFence& fence, const MapContents& contents) {
    const bool active = isActive(fence, contents);
    if (isSelected(fence, contents))
        return active ? FenceLook::Selected : FenceLook::SelectedQuiet;
    return active ? FenceLook::Active : FenceLook::Quiet;
}

/// The distance that makes the shape, for its name: "402.3 m".
std::optional<Length> distanceOf(const model::Shape& shape) {
    if (const auto* circle = std::get_if<model::Circle>(&shape))
        return circle->radius.length;
    if (const auto* setback = std::get_if<model::Setback>(&shape))
        return setback->distance.length;
    return std::nullopt;
}

QString nameOf(const model::Fence& fence, units::System units) {
    QString name = QString::fromStdString(fence.name);
    if (const auto distance = distanceOf(fence.shape))
        name += ", " + QString::fromStdString(units::formatLength(*distance, units));
    return name;
}

} // namespace

MapPainter::MapPainter(const QFont& font, QObject* parent) : QObject{parent}, m_font{font}, m_text{font} {}

void MapPainter::paint(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    const QRectF widget{QPointF{}, view.size()};
    paintMap(painter, view, contents);
    paintToolLine(painter, view, contents);
    paintSites(painter, view, contents);
    paintHandles(painter, view, contents);

    LabelLayout layout{widget};
    layout.block(paintNorthArrow(painter, widget, view));
    layout.block(paintScaleBar(painter, widget, view.groundMetresPerPixel(), contents.units, m_font));
    paintNames(painter, view, contents, layout);
    paintAtPointer(painter, view, contents);
}

void MapPainter::paintMap(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    paintGround(painter, view, contents.dark, contents.notation, m_font);
    m_before.paint(painter, view);
    m_underlay.paint(painter, view, contents.inMotion ? TileQuality::Fast : TileQuality::Fine);
    if (m_underlay.tiles().isComplete())
        m_before.drop();
    paintFences(painter, view, contents);
    painter.setRenderHint(QPainter::Antialiasing);
}

void MapPainter::keepPicture(const ViewTransform& view, const MapContents& contents, double pixelRatio) {
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

void MapPainter::paintFences(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    std::vector<FencePainter::Item> items, live;
    std::vector<Outlined> alive;
    for (const Outlined& fence : contents.outlined) {
        const FenceLook look = lookOf(*fence, contents);
        // The selected one lies on top, and is the one that changes under the pointer.
        (isSelected(*fence, contents) ? live : items).push_back({fence, look});
        alive.push_back(fence);
    }
    // Keep-outs over keep-ins: where they meet, the prohibition is read first.
    std::stable_partition(items.begin(), items.end(), [](const FencePainter::Item& item) {
        return item.fence->fence->kind == model::FenceKind::KeepIn;
    });
    for (const Outlined& fence : contents.previewed) {
        live.push_back({fence, FenceLook::Draft});
        alive.push_back(fence);
    }
    if (contents.draft) {
        live.push_back({contents.draft, FenceLook::Draft});
        alive.push_back(contents.draft);
    }

    // What the picture shows and should not, and what it should and does not.
    const auto key = [](const FencePainter::Item& item) { return std::pair{item.fence.get(), item.look}; };
    std::set<std::pair<const session::OutlinedFence*, FenceLook>> had, wants;
    for (const FencePainter::Item& item : m_pictured)
        had.insert(key(item));
    for (const FencePainter::Item& item : items)
        wants.insert(key(item));
    if (had != wants) {
        for (const FencePainter::Item& item : m_pictured)
            if (!wants.contains(key(item)))
                m_fencePicture.invalidate(m_fences.boundsOf(item.fence, view));
        for (const FencePainter::Item& item : items)
            if (!had.contains(key(item)))
                m_fencePicture.invalidate(m_fences.boundsOf(item.fence, view));
        m_pictured = items;
    }
    m_fences.keepOnly(alive);

    constexpr double slow = 10.0;
    if (!(contents.inMotion && m_fencePicture.fullPaintMilliseconds() > slow &&
          m_fencePicture.paintStretched(painter, view)))
        m_fencePicture.paint(painter, view,
                             [&](QPainter& into, const QRectF& seen) { m_fences.paint(into, view, items, seen); });
    m_fences.paint(painter, view, live, QRectF{QPointF{}, view.size()});

    // A repair that is shown before it is taken: dark dashes on what would be.
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(Qt::NoBrush);
    QPen dashes{ink(), 1.6, Qt::CustomDashLine, Qt::FlatCap};
    dashes.setDashPattern({6.0, 4.0});
    painter.setPen(dashes);
    for (const Outlined& fence : contents.previewed)
        for (const model::Polygon& part : fence->surface.parts) {
            QPolygonF ring;
            for (const QPointF& point : view.planeOf(part.shell.corners))
                ring << view.toWidget(point);
            painter.drawPolygon(clippedRing(ring, QRectF{QPointF{}, view.size()}.adjusted(-20, -20, 20, 20)));
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
        paintOne(site, contents.selection == Selection{site.id});
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
        paintOneHome(home, contents.selection == Selection{home.id});
    if (contents.tool.home)
        paintOneHome(*contents.tool.home, true);
    // The gravest last, so that it lies on top.
    for (const audit::Severity severity : {audit::Severity::Note, audit::Severity::Doubt, audit::Severity::Error})
        for (const audit::Finding& finding : contents.findings)
            if (finding.place && finding.severity == severity)
                if (const auto at = view.widgetOf(*finding.place))
                    paintFinding(painter, *at, finding.severity);
}

void MapPainter::paintHandles(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    if (contents.tool.editable) {
        const auto& fence = contents.set.fences.findPointer(*contents.tool.editable);
        if (fence && (m_editable.fence != fence || m_editable.planeNumber != view.planeNumber())) {
            m_editable = {fence, view.planeNumber(), {}, {}};
            for (const EditableLine& line : editableLines(fence->shape)) {
                m_editable.lines.push_back(view.planeOf(*line.corners));
                m_editable.closed.push_back(line.closed);
            }
        }
        if (fence) {
            const QColor edge = mapColour(fence->kind);
            const QRectF seen = QRectF{QPointF{}, view.size()}.adjusted(-8, -8, 8, 8);
            std::size_t visible = 0;
            for (const auto& line : m_editable.lines)
                visible += std::size_t(std::count_if(line.begin(), line.end(), [&](const QPointF& point) {
                    return seen.contains(view.toWidget(point));
                }));
            const bool many = visible > kManyHandles;
            constexpr double shortest = kMidpointEdgeTolerances * 6.0; // pixels, as the tool has it
            for (std::size_t l = 0; l < m_editable.lines.size(); ++l) {
                const auto& line = m_editable.lines[l];
                for (std::size_t i = 0; !many && i + (m_editable.closed[l] ? 0 : 1) < line.size(); ++i) {
                    const QPointF from = view.toWidget(line[i]), to = view.toWidget(line[(i + 1) % line.size()]);
                    if (const QPointF middle = (from + to) / 2.0;
                        seen.contains(middle) && distanceBetween(from, to) > shortest)
                        paintMidpoint(painter, middle, edge);
                }
                for (std::size_t i = 0; i < line.size(); ++i) {
                    const QPointF at = view.toWidget(line[i]);
                    if (!seen.contains(at))
                        continue;
                    if (many)
                        painter.fillRect(square(at, 2.0), edge);
                    else
                        paintHandle(painter, at, edge,
                                    contents.tool.activeCorner == Corner{*contents.tool.editable, l, i});
                }
            }
        }
    }
    QColor edge = ink();
    if (contents.tool.kind)
        edge = mapColour(*contents.tool.kind);
    else if (const auto* id = std::get_if<model::FenceId>(&contents.selection))
        if (const model::Fence* fence = contents.set.fences.find(*id))
            edge = mapColour(fence->kind);
    for (const model::Position& handle : contents.tool.handles)
        if (const auto at = view.widgetOf(handle))
            paintHandle(painter, *at, edge, false);
}

void MapPainter::paintToolLine(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    const ToolPreview& tool = contents.tool;
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
    for (const audit::Finding& finding : contents.findings)
        if (finding.place)
            if (const auto at = view.widgetOf(*finding.place))
                layout.block(square(*at, kFindingRadiusPixels + kFindingRoomPixels));

    // A name across another fence's boundary reads as that one's: avoided, where there are not too many to look at.
    constexpr std::size_t lookedAt = 60;
    const bool looks = contents.outlined.size() <= lookedAt;
    const auto write = [&](const QString& text, const LabelStyle& style, const session::OutlinedFence* own,
                           const auto& centresFor) {
        if (text.isEmpty())
            return;
        const QSizeF size = m_text.sizeOf(text, style);
        const std::vector<QPointF> centres = centresFor(size);
        const auto crossesAnother = [&](const QRectF& wanted) {
            return looks && std::any_of(contents.outlined.begin(), contents.outlined.end(), [&](const Outlined& fence) {
                       return fence.get() != own && m_fences.boundaryCrosses(fence, view, wanted);
                   });
        };
        if (const auto centre = layout.place(size, centres, crossesAnother))
            m_text.write(painter, *centre, text, style);
    };
    const auto writeFence = [&](const Outlined& fence) {
        const QRectF bounds = m_fences.boundsOf(fence, view);
        constexpr double smallest = 40.0; // comb and casing included: less is a speck
        const bool selected = isSelected(*fence, contents);
        if (!bounds.intersects(seen) || (!selected && std::max(bounds.width(), bounds.height()) < smallest))
            return;
        const LabelStyle style{mapInk(fence->fence->kind), selected ? 14 : 13, isActive(*fence, contents)};
        write(nameOf(*fence->fence, contents.units), style, fence.get(), [&](const QSizeF& size) {
            std::vector<QPointF> centres;
            const double middle = bounds.center().x();
            const QPointF below{middle, bounds.bottom() + size.height() / 2.0},
                above{middle, bounds.top() - size.height() / 2.0};
            const std::optional<QPointF> within = m_fences.labelPlace(fence, view);
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

    std::vector<Outlined> order{contents.outlined.begin(), contents.outlined.end()};
    std::stable_sort(order.begin(), order.end(), [&](const Outlined& a, const Outlined& b) {
        const auto rank = [&](const Outlined& one) {
            return isSelected(*one, contents) ? 0 : one->fence->kind == model::FenceKind::KeepOut ? 1 : 2;
        };
        return rank(a) != rank(b) ? rank(a) < rank(b) : a->area > b->area;
    });
    for (const auto& [place, words] : contents.tool.labels)
        if (const auto at = view.widgetOf(place))
            write(words, {ink(), 13, true}, nullptr, [&](const QSizeF& size) {
                return std::vector{*at - QPointF{0, size.height()}, *at + QPointF{0, size.height()}, *at};
            });
    for (const model::Home& home : contents.set.homes)
        if (const auto at = view.widgetOf(home.place); at && seen.contains(*at))
            write(QString::fromStdString(home.name), {ink(), 13, true}, nullptr,
                  [&](const QSizeF& size) { return besideSymbol(*at, kHomeRadiusPixels, size); });
    for (const Outlined& fence : order)
        writeFence(fence);
    for (const model::Site& site : contents.set.sites) {
        // A setback carries its site's name already, and so does a fence that was named for it.
        const bool told = std::any_of(contents.outlined.begin(), contents.outlined.end(), [&](const Outlined& fence) {
            return !fence->surface.empty() &&
                   ((fence->site && fence->site->id == site.id) || fence->fence->name == site.name);
        });
        const auto* place = std::get_if<model::Position>(&site.geometry);
        if (!place || (told && contents.selection != Selection{site.id}))
            continue;
        if (const auto at = view.widgetOf(*place); at && seen.contains(*at))
            write(QString::fromStdString(site.name), {ink(), 12, contents.selection == Selection{site.id}}, nullptr,
                  [&](const QSizeF& size) { return besideSymbol(*at, kSiteRadiusPixels, size); });
    }
    const QColor quiet{0x2B, 0x34, 0x3E};
    for (const ReferenceLayer::Label& label : references().labels(view))
        if (seen.contains(label.centre)) {
            const LabelStyle style{quiet, 11, false};
            const QSizeF size = m_text.sizeOf(label.text, style);
            if (size.width() + 8.0 < label.room.width() && size.height() + 8.0 < label.room.height())
                write(label.text, style, nullptr, [&](const QSizeF&) { return std::vector{label.centre}; });
        }
}

void MapPainter::paintAtPointer(QPainter& painter, const ViewTransform& view, const MapContents& contents) {
    if (!contents.pointer)
        return;
    if (contents.snap)
        if (const auto at = view.widgetOf(contents.snap->place)) {
            painter.setBrush(Qt::NoBrush);
            painter.setPen(QPen{casing(235), 4.6});
            painter.drawEllipse(*at, 8.0, 8.0);
            painter.setPen(QPen{ink(), 1.8});
            painter.drawEllipse(*at, 8.0, 8.0);
        }
    QStringList lines;
    if (!contents.tool.readout.isEmpty())
        lines << contents.tool.readout;
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
