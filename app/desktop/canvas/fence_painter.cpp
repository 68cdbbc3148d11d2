#include "desktop/canvas/fence_painter.h"

#include "desktop/canvas/comb.h"
#include "desktop/canvas/plane_line.h"
#include "desktop/palette.h"
#include "fault.h"
#include "geometry/containment.h"

#include <QPainterPath>

#include <algorithm>
#include <cmath>
#include <unordered_set>

namespace fencewright::desktop {
namespace {

constexpr double kReachPixels = 14.0; // comb, casing and a little more, beyond the outline
constexpr double kDecimationPixels = 0.6;
// A line as rough as a hedge is a band on the screen, however finely it is drawn: up to this far it may be smoothed
// until its corners lie some pixels apart.
constexpr double kRoughestPixels = 2.4;
constexpr double kPixelsACorner = 3.0;

struct LookMeasures {
    double line;
    double casing;
    double tick;
    int keepOutTint; ///< alpha of the inside
    int keepInTint;
};

LookMeasures measuresOf(FenceLook look) {
    switch (look) {
    case FenceLook::Quiet:
        return {1.6, 4.4, 0.0, 0, 0};
    case FenceLook::SelectedQuiet:
        return {2.8, 6.8, 0.0, 26, 0};
    case FenceLook::Selected:
        return {3.4, 7.4, 1.9, 58, 0};
    case FenceLook::Draft:
        return {2.4, 5.2, 1.5, 42, 36};
    case FenceLook::Active:
        break;
    }
    return {2.4, 5.2, 1.5, 42, 0};
}

QColor casingColour(int alpha) {
    QColor colour = QColor::fromRgba(kMapCasing);
    colour.setAlpha(alpha);
    return colour;
}

QPolygonF toWidget(const std::vector<QPointF>& plane, const ViewTransform& view) {
    QPolygonF points;
    points.reserve(qsizetype(plane.size()));
    for (const QPointF& point : plane)
        points.append(view.toWidget(point));
    return points;
}

} // namespace

QColor mapColour(model::FenceKind kind) {
    return QColor::fromRgba(kind == model::FenceKind::KeepIn ? kMapKeepIn : kMapKeepOut);
}

QColor mapInk(model::FenceKind kind) { return mapColour(kind).darker(125); }

void paintBoundary(QPainter& painter, const QPolygonF& whole, const QPolygonF& clipped, model::FenceKind kind,
                   FenceLook look, bool hole, const QRectF& seen) {
    const LookMeasures measures = measuresOf(look);
    const QColor colour = mapColour(kind);
    painter.setBrush(Qt::NoBrush);
    if (look == FenceLook::Quiet || look == FenceLook::SelectedQuiet) {
        painter.setPen(QPen{casingColour(190), measures.casing, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin});
        painter.drawPolygon(clipped);
        // Dashes begin at the ring's first point and would crawl as it is clipped: so from the whole ring, where it is
        // short enough to afford that.
        constexpr qsizetype affordable = 2000;
        QPen dashes{colour, measures.line, Qt::CustomDashLine, Qt::FlatCap, Qt::MiterJoin};
        dashes.setDashPattern({5.0, 3.5});
        painter.setPen(dashes);
        const bool vast = whole.boundingRect().width() > 8000 || whole.boundingRect().height() > 8000;
        painter.drawPolygon(whole.size() < affordable && !vast ? whole : clipped);
        return;
    }
    // Round joins are dear, and many corners are smooth without.
    constexpr qsizetype many = 100;
    const Qt::PenJoinStyle join = clipped.size() > many ? Qt::BevelJoin : Qt::RoundJoin;
    painter.setPen(QPen{casingColour(225), measures.casing, Qt::SolidLine, Qt::FlatCap, join});
    painter.drawPolygon(clipped);
    const CombSide side = (kind == model::FenceKind::KeepOut) != hole ? CombSide::Inside : CombSide::Outside;
    const std::vector<QLineF> comb = combOf(whole, side, seen);
    painter.setPen(QPen{casingColour(130), measures.tick + 1.8, Qt::SolidLine, Qt::SquareCap});
    painter.drawLines(comb.data(), int(comb.size()));
    painter.setPen(QPen{colour, measures.tick, Qt::SolidLine, Qt::FlatCap});
    painter.drawLines(comb.data(), int(comb.size()));
    painter.setPen(QPen{colour, measures.line, Qt::SolidLine, Qt::FlatCap, join});
    painter.drawPolygon(clipped);
}

FencePainter::Kept& FencePainter::kept(const Outlined& fence, const ViewTransform& view) {
    Kept& one = m_kept[fence.get()];
    if (!one.fence || one.planeNumber != view.planeNumber()) {
        one = Kept{};
        one.fence = fence;
        one.planeNumber = view.planeNumber();
        for (const model::Polygon& part : fence->surface.parts) {
            std::vector<PlaneRing> rings;
            rings.push_back({view.planeOf(part.shell.corners), false});
            for (const model::Ring& hole : part.holes)
                rings.push_back({view.planeOf(hole.corners), true});
            one.bounds = one.bounds.united(desktop::boundsOf(rings.front().points));
            one.parts.push_back(std::move(rings));
        }
    }
    const int coarseness = int(std::floor(std::log2(view.metresPerPixel())));
    if (one.coarse.empty() || one.coarseness != coarseness) {
        one.coarseness = coarseness;
        one.coarse = one.parts;
        const double pixel = std::exp2(coarseness);
        for (auto& rings : one.coarse)
            for (PlaneRing& ring : rings) {
                const QRectF box = desktop::boundsOf(ring.points);
                const double enough = 2.0 * (box.width() + box.height()) / pixel / kPixelsACorner + 64.0;
                std::vector<QPointF> fewer = decimated(ring.points, kDecimationPixels * pixel, true);
                for (double tolerance = 2.0 * kDecimationPixels;
                     double(fewer.size()) > enough && tolerance <= kRoughestPixels; tolerance *= 2.0)
                    fewer = decimated(ring.points, tolerance * pixel, true);
                ring.points = std::move(fewer);
            }
    }
    return one;
}

QRectF FencePainter::boundsOf(const Outlined& fence, const ViewTransform& view) {
    const Kept& one = kept(fence, view);
    if (one.parts.empty())
        return {};
    return QRectF{view.toWidget(one.bounds.topLeft()), view.toWidget(one.bounds.bottomRight())}.normalized().adjusted(
        -kReachPixels, -kReachPixels, kReachPixels, kReachPixels);
}

std::optional<QPointF> FencePainter::labelPlace(const Outlined& fence, const ViewTransform& view) {
    Kept& one = kept(fence, view);
    if (!std::exchange(one.labelSought, true)) {
        try {
            if (const auto place = geometry::labelPlace(fence->surface))
                one.label = view.planeOf(*place);
        } catch (const Fault&) {
            // No place for a name on an outline that cannot be computed with; the audit speaks of it.
        }
    }
    return one.label ? std::optional{view.toWidget(*one.label)} : std::nullopt;
}

std::vector<std::vector<FencePainter::ScreenRing>>
FencePainter::onScreen(const Outlined& fence, const ViewTransform& view, const QRectF& seen) {
    std::vector<std::vector<ScreenRing>> parts;
    const QRectF room = seen.adjusted(-kReachPixels, -kReachPixels, kReachPixels, kReachPixels);
    for (const auto& rings : kept(fence, view).coarse) {
        std::vector<ScreenRing> screen;
        for (const PlaneRing& ring : rings) {
            const QPolygonF whole = toWidget(ring.points, view);
            const QPolygonF clipped = clippedRing(whole, room);
            if (clipped.isEmpty() && !ring.hole)
                break;
            screen.push_back({whole, clipped, ring.hole});
        }
        if (!screen.empty())
            parts.push_back(std::move(screen));
    }
    return parts;
}

void FencePainter::paint(QPainter& painter, const ViewTransform& view, const std::vector<Item>& items,
                         const QRectF& seen) {
    struct Visible {
        const Item* item;
        std::vector<std::vector<ScreenRing>> parts;
    };
    std::vector<Visible> visible;
    for (const Item& item : items)
        if (boundsOf(item.fence, view).intersects(seen))
            visible.push_back({&item, onScreen(item.fence, view, seen)});

    // Tints without smooth edges: the boundary over them is smooth, and they cost half.
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.setPen(Qt::NoPen);
    for (const Visible& one : visible) {
        const model::FenceKind kind = one.item->fence->fence->kind;
        const LookMeasures measures = measuresOf(one.item->look);
        QColor tint = mapColour(kind);
        tint.setAlpha(kind == model::FenceKind::KeepOut ? measures.keepOutTint : measures.keepInTint);
        if (tint.alpha() == 0)
            continue;
        painter.setBrush(tint);
        for (const auto& rings : one.parts) {
            if (rings.size() == 1) {
                painter.drawPolygon(rings.front().clipped);
                continue;
            }
            QPainterPath path;
            path.setFillRule(Qt::OddEvenFill);
            for (const ScreenRing& ring : rings)
                path.addPolygon(ring.clipped);
            painter.drawPath(path);
        }
    }
    painter.setRenderHint(QPainter::Antialiasing);
    for (const Visible& one : visible) {
        if (one.item->look != FenceLook::Active && one.item->look != FenceLook::Quiet)
            paintGaps(painter, view, *one.item->fence);
        for (const auto& rings : one.parts)
            for (const ScreenRing& ring : rings)
                paintBoundary(painter, ring.whole, ring.clipped, one.item->fence->fence->kind, one.item->look,
                              ring.hole, seen);
    }
}

/// What a closing has added to a union of parcels is part of what is approved, so it is shown.
void FencePainter::paintGaps(QPainter& painter, const ViewTransform& view, const session::OutlinedFence& fence) {
    const QColor colour = mapColour(fence.fence->kind);
    for (const model::Polygon& gap : fence.closedGaps.parts) {
        const QPolygonF ring = toWidget(view.planeOf(gap.shell.corners), view);
        painter.setPen(QPen{colour, 1.0});
        painter.setBrush(casingColour(120));
        painter.drawPolygon(ring);
        painter.setBrush(QBrush{colour, Qt::BDiagPattern});
        painter.drawPolygon(ring);
    }
}

bool FencePainter::boundaryCrosses(const Outlined& fence, const ViewTransform& view, const QRectF& widget) {
    if (!boundsOf(fence, view).intersects(widget))
        return false;
    const QRectF plane = QRectF{view.toPlane(widget.bottomLeft()), view.toPlane(widget.topRight())}.normalized();
    for (const auto& rings : kept(fence, view).coarse)
        for (const PlaneRing& ring : rings)
            for (std::size_t i = 0; i < ring.points.size(); ++i) {
                const QPointF &from = ring.points[i], &to = ring.points[(i + 1) % ring.points.size()];
                if (std::max(from.x(), to.x()) < plane.left() || std::min(from.x(), to.x()) > plane.right() ||
                    std::max(from.y(), to.y()) < plane.top() || std::min(from.y(), to.y()) > plane.bottom())
                    continue;
                if (!clippedLine(QPolygonF{} << from << to, plane).empty())
                    return true;
            }
    return false;
}

void FencePainter::keepOnly(const std::vector<Outlined>& fences) {
    std::unordered_set<const session::OutlinedFence*> alive;
    for (const Outlined& fence : fences)
        alive.insert(fence.get());
    std::erase_if(m_kept, [&](const auto& entry) { return !alive.contains(entry.first); });
}

} // namespace fencewright::desktop
