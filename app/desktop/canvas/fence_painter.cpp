#include "desktop/canvas/fence_painter.h"

#include "desktop/canvas/boundary_raster.h"
#include "desktop/canvas/comb.h"
#include "desktop/canvas/plane_line.h"
#include "desktop/palette.h"

#include <QPainterPath>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <unordered_set>
#include <utility>

namespace fencewright::desktop {
namespace {

constexpr double kDecimationPixels = 0.4; // a fifth of a pixel to either side is not seen

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

/// Dashed: the outline is still being computed.
FenceLook unsettled(FenceLook look) {
    return look == FenceLook::Active || look == FenceLook::Quiet ? FenceLook::Quiet : FenceLook::SelectedQuiet;
}

QPolygonF toWidget(const std::vector<QPointF>& plane, const ViewTransform& view) {
    QPolygonF points;
    points.reserve(qsizetype(plane.size()));
    for (const QPointF& point : plane)
        points.append(view.toWidget(point));
    return points;
}

/// Dashes along a ring from its first point, so that they do not crawl as it is cut off at the rim of the picture.
void addDashes(BoundaryRaster& raster, const QPolygonF& ring, double width, const QRectF& seen) {
    const double period = 8.5 * width, dash = 5.0 * width;
    const double begin = width / 2.0, end = dash - width / 2.0; // the round ends lie where blunt ones would
    double passed = 0.0;                                        // since a dash was begun
    for (qsizetype i = 0; i < ring.size(); ++i) {
        const QPointF from = ring[i], along = ring[(i + 1) % ring.size()] - from;
        const double length = std::hypot(along.x(), along.y());
        // Of a long edge, which may lead far out of the picture, what is in sight.
        double near = 0.0, far = length;
        constexpr double isLong = 200.0;
        if (length > isLong) {
            const auto pieces = clippedLine(QPolygonF{} << from << from + along, seen);
            near = pieces.empty() ? length : std::hypot((pieces[0][0] - from).x(), (pieces[0][0] - from).y());
            far = pieces.empty() ? 0.0 : std::hypot((pieces[0][1] - from).x(), (pieces[0][1] - from).y());
        }
        if (near < far && raster.mayReach(from, from + along, width / 2.0))
            for (double at = std::floor((near + passed) / period) * period - passed; at < far; at += period)
                if (const double a = std::max(at + begin, 0.0), b = std::min(at + end, length); a <= b)
                    raster.add(BoundaryRaster::Field::Ticks, from + along * (a / length), from + along * (b / length),
                               width / 2.0);
        passed = std::fmod(passed + length, period);
    }
}

} // namespace

QColor mapColour(model::FenceKind kind) {
    return QColor::fromRgba(kind == model::FenceKind::KeepIn ? kMapKeepIn : kMapKeepOut);
}

QColor mapInk(model::FenceKind kind) { return mapColour(kind).darker(125); }

void FencePainter::makeParts(Kept& made, const Projection& project, const Kept* former) {
    const auto& parts = made.fence->surface.parts;
    const auto* formerParts = former ? &former->fence->surface.parts : nullptr;
    for (std::size_t p = 0; p < parts.size(); ++p) {
        const model::Polygon* before = formerParts && p < formerParts->size() ? &(*formerParts)[p] : nullptr;
        const auto* runsBefore = before && p < former->parts.size() ? &former->parts[p] : nullptr;
        std::vector<PlaneRing> rings;
        for (std::size_t r = 0; r <= parts[p].holes.size(); ++r) {
            const model::Ring& ring = r == 0 ? parts[p].shell : parts[p].holes[r - 1];
            const model::Ring* ringBefore = !before                     ? nullptr
                                            : r == 0                    ? &before->shell
                                            : r <= before->holes.size() ? &before->holes[r - 1]
                                                                        : nullptr;
            if (ringBefore && r < runsBefore->size())
                rings.push_back({{ring.corners, true, project, &(*runsBefore)[r].line, ringBefore->corners}, r > 0});
            else
                rings.push_back({{ring.corners, true, project}, r > 0});
        }
        made.parts.push_back(std::move(rings));
    }
}

void FencePainter::makeCoarse(Kept& made, const Kept* former) {
    const double pixel = std::exp2(made.coarseness);
    for (std::size_t p = 0; p < made.parts.size(); ++p) {
        std::vector<CoarseRing> rings;
        for (std::size_t r = 0; r < made.parts[p].size(); ++r) {
            const PlaneRing& ring = made.parts[p][r];
            const auto& runs = ring.line.runs();
            // Runs that are shared with the former state are thinned already.
            const bool known = former && former->coarseness == made.coarseness && p < former->coarse.size() &&
                               r < former->coarse[p].size() && former->coarse[p][r].runs.size() == runs.size() &&
                               former->parts[p][r].line.runs().size() == runs.size();
            CoarseRing coarse{{}, ring.hole};
            for (std::size_t i = 0; i < runs.size(); ++i) {
                if (known && former->parts[p][r].line.runs()[i] == runs[i]) {
                    coarse.runs.push_back(former->coarse[p][r].runs[i]);
                    continue;
                }
                auto run = std::make_shared<CoarseRun>();
                run->box = runs[i]->box;
                if (runs.size() == 1) {
                    run->points = decimated(runs[i]->points, kDecimationPixels * pixel, true);
                } else {
                    // With the begin of the next, so that runs join where they are cut.
                    std::vector<QPointF> line = runs[i]->points;
                    line.push_back(runs[(i + 1) % runs.size()]->points.front());
                    run->points = decimated(line, kDecimationPixels * pixel, false);
                    run->points.pop_back();
                }
                coarse.runs.push_back(std::move(run));
            }
            rings.push_back(std::move(coarse));
        }
        made.coarse.push_back(std::move(rings));
    }
}

std::shared_ptr<const FencePainter::Kept> FencePainter::kept(const Outlined& fence, const ViewTransform& view,
                                                             const Projection& project) {
    const int coarseness = int(std::floor(std::log2(view.metresPerPixel())));
    std::shared_ptr<const Kept> own, former;
    {
        const std::lock_guard lock{m_mutex};
        if (const auto at = m_kept.find(fence.get()); at != m_kept.end())
            own = at->second;
        else if (const auto states = m_states.find(fence->fence->id.value); states != m_states.end())
            former = m_kept.at(states->second.back());
    }
    if (own && own->planeNumber == view.planeNumber() && own->coarseness == coarseness)
        return own;
    auto made = std::make_shared<Kept>();
    made->fence = fence;
    made->planeNumber = view.planeNumber();
    made->coarseness = coarseness;
    if (own && own->planeNumber == made->planeNumber)
        made->parts = own->parts;
    else
        makeParts(*made, project, former && former->planeNumber == made->planeNumber ? former.get() : nullptr);
    makeCoarse(*made, former && former->planeNumber == made->planeNumber ? former.get() : nullptr);
    const std::lock_guard lock{m_mutex};
    auto& states = m_states[fence->fence->id.value];
    std::erase(states, fence.get());
    states.push_back(fence.get());
    m_kept[fence.get()] = made;
    // As it is, as it was a moment ago in a picture that is being painted, and as a repair would leave it.
    constexpr std::size_t mostStates = 3;
    if (states.size() > mostStates) {
        m_kept.erase(states.front());
        states.erase(states.begin());
    }
    return made;
}

QRectF FencePainter::planeBoundsOf(const Outlined& fence, const ViewTransform& view) {
    Bounds& bounds = m_bounds[fence.get()];
    if (!bounds.fence || bounds.planeNumber != view.planeNumber()) {
        bounds = {fence, view.planeNumber(), {}};
        geometry::Box box;
        for (const geometry::LineBoxes& ring : fence->rings)
            box.add(ring.box());
        if (!box.empty()) {
            // The outline of the box, for its edges bulge in the plane.
            std::vector<model::Position> places;
            constexpr int steps = 4;
            for (int i = 0; i <= steps; ++i) {
                const double x = std::lerp(box.minX, box.maxX, double(i) / steps);
                const double y = std::lerp(box.minY, box.maxY, double(i) / steps);
                places.insert(places.end(), {{x, box.minY}, {x, box.maxY}, {box.minX, y}, {box.maxX, y}});
            }
            if (const std::vector<QPointF> points = view.planeOf(places); !points.empty()) {
                bounds.plane = desktop::boundsOf(points);
                // Between the places it bulges by a sixteenth of what it bulges in between the ends.
                const double room = 0.01 * std::max(bounds.plane.width(), bounds.plane.height());
                if (std::max(box.maxX - box.minX, box.maxY - box.minY) > 0.05)
                    bounds.plane.adjust(-room, -room, room, room);
            } else if (const auto exact = kept(fence, view, [&](auto given) { return view.planeOf(given); });
                       !exact->parts.empty()) {
                for (const auto& rings : exact->parts)
                    bounds.plane = bounds.plane.united(rings.front().line.box());
            }
        }
    }
    return bounds.plane;
}

QRectF FencePainter::boundsOf(const Outlined& fence, const ViewTransform& view) {
    const QRectF plane = planeBoundsOf(fence, view);
    if (fence->surface.empty())
        return {};
    return QRectF{view.toWidget(plane.topLeft()), view.toWidget(plane.bottomRight())}.normalized().adjusted(
        -kReachPixels, -kReachPixels, kReachPixels, kReachPixels);
}

double FencePainter::costOf(const Outlined& fence, const ViewTransform& view, const QSizeF& painted) {
    constexpr double anyFence = 40.0, aPixel = 0.35, aCorner = 0.4; // measured, in microseconds
    const QRectF bounds = boundsOf(fence, view);
    double corners = 0.0;
    for (const model::Polygon& part : fence->surface.parts) {
        corners += double(part.shell.corners.size());
        for (const model::Ring& hole : part.holes)
            corners += double(hole.corners.size());
    }
    const int coarseness = int(std::floor(std::log2(view.metresPerPixel())));
    bool known = false;
    {
        const std::lock_guard lock{m_mutex};
        const auto at = m_kept.find(fence.get());
        known =
            at != m_kept.end() && at->second->planeNumber == view.planeNumber() && at->second->coarseness == coarseness;
    }
    const double seen = std::min(bounds.width(), painted.width()) + std::min(bounds.height(), painted.height());
    return anyFence + aPixel * std::min(2.0 * seen, 3.0 * corners + 200.0) +
           aCorner * (known ? 0.2 * std::min(corners, (bounds.width() + bounds.height())) : corners);
}

std::vector<std::vector<FencePainter::ScreenRing>> FencePainter::onScreen(const Kept& kept, const ViewTransform& view,
                                                                          const QRectF& seen) {
    std::vector<std::vector<ScreenRing>> parts;
    const QRectF room = seen.adjusted(-kReachPixels, -kReachPixels, kReachPixels, kReachPixels);
    for (std::size_t p = 0; p < kept.coarse.size(); ++p) {
        std::vector<ScreenRing> screen;
        for (std::size_t r = 0; r < kept.coarse[p].size(); ++r) {
            const CoarseRing& ring = kept.coarse[p][r];
            QPolygonF coarse;
            for (const auto& run : ring.runs)
                for (const QPointF& point : run->points)
                    coarse.append(view.toWidget(point));
            const QPolygonF clipped = clippedRing(coarse, room);
            if (clipped.isEmpty() && !ring.hole)
                break;
            // Comb and dashes stand where they would on the whole line, however it is thinned.
            QPolygonF whole;
            whole.reserve(qsizetype(kept.parts[p][r].line.size()));
            for (const auto& run : kept.parts[p][r].line.runs())
                for (const QPointF& point : run->points)
                    whole.append(view.toWidget(point));
            screen.push_back({whole, clipped, ring.hole});
        }
        if (!screen.empty())
            parts.push_back(std::move(screen));
    }
    return parts;
}

void FencePainter::paint(QPainter& painter, const ViewTransform& view, const std::vector<Item>& items,
                         const QRectF& seen) {
    paint(
        painter, view, [&](std::span<const model::Position> places) { return view.planeOf(places); }, items, seen);
}

void FencePainter::paint(QPainter& painter, const ViewTransform& view, const Projection& project,
                         const std::vector<Item>& items, const QRectF& seen) {
    struct Visible {
        const Item* item;
        std::vector<std::vector<ScreenRing>> parts;
    };
    std::vector<Visible> visible;
    for (const Item& item : items)
        if (auto parts = onScreen(*kept(item.fence, view, project), view, seen); !parts.empty())
            visible.push_back({&item, std::move(parts)});

    if (visible.empty())
        return;
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
    BoundaryRaster raster{seen, painter.device()->devicePixelRatioF()};
    for (const Visible& one : visible) {
        if (one.item->look != FenceLook::Active && one.item->look != FenceLook::Quiet)
            paintGaps(painter, view, project, *one.item->fence);
        for (const auto& rings : one.parts)
            for (const ScreenRing& ring : rings)
                paintBoundary(painter, raster, ring, one.item->fence->fence->kind,
                              one.item->fence->pending ? unsettled(one.item->look) : one.item->look, seen);
    }
}

/// Paints a closed line in widget pixels as the boundary of a fence of that kind.
void FencePainter::paintBoundary(QPainter& painter, BoundaryRaster& raster, const ScreenRing& ring,
                                 model::FenceKind kind, FenceLook look, const QRectF& seen) {
    const QPolygonF &whole = ring.whole, &clipped = ring.clipped;
    const LookMeasures measures = measuresOf(look);
    const QColor colour = mapColour(kind);
    for (qsizetype i = 0; i < clipped.size(); ++i)
        raster.add(BoundaryRaster::Field::Line, clipped[i], clipped[(i + 1) % clipped.size()], measures.casing / 2.0);
    if (look == FenceLook::Quiet || look == FenceLook::SelectedQuiet) {
        addDashes(raster, whole, measures.line,
                  seen.adjusted(-measures.line, -measures.line, measures.line, measures.line));
        const BoundaryRaster::Coat coats[] = {{BoundaryRaster::Field::Line, measures.casing, casingColour(190)},
                                              {BoundaryRaster::Field::Ticks, measures.line, colour}};
        raster.paint(painter, coats);
        return;
    }
    const CombSide side = (kind == model::FenceKind::KeepOut) != ring.hole ? CombSide::Inside : CombSide::Outside;
    constexpr double tickCasing = 1.8;
    for (const QLineF& tick : combOf(whole, side, seen)) {
        // The round end lies where a blunt one would.
        const QPointF end = tick.p1() + (tick.p2() - tick.p1()) * (1.0 - measures.tick / 2.0 / kCombTickPixels);
        raster.add(BoundaryRaster::Field::Ticks, tick.p1(), end, (measures.tick + tickCasing) / 2.0);
    }
    const BoundaryRaster::Coat coats[] = {{BoundaryRaster::Field::Line, measures.casing, casingColour(225)},
                                          {BoundaryRaster::Field::Ticks, measures.tick + tickCasing, casingColour(130)},
                                          {BoundaryRaster::Field::Ticks, measures.tick, colour},
                                          {BoundaryRaster::Field::Line, measures.line, colour}};
    raster.paint(painter, coats);
}

/// What a closing has added to a union of parcels is part of what is approved, so it is shown.
void FencePainter::paintGaps(QPainter& painter, const ViewTransform& view, const Projection& project,
                             const session::OutlinedFence& fence) {
    const QColor colour = mapColour(fence.fence->kind);
    for (const model::Polygon& gap : fence.closedGaps.parts) {
        const QPolygonF ring = toWidget(project(gap.shell.corners), view);
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
    const auto apart = [&](const QRectF& box) {
        return box.right() < plane.left() || box.left() > plane.right() || box.bottom() < plane.top() ||
               box.top() > plane.bottom();
    };
    const auto one = kept(fence, view, [&](std::span<const model::Position> places) { return view.planeOf(places); });
    for (const auto& rings : one->coarse)
        for (const CoarseRing& ring : rings)
            for (std::size_t r = 0; r < ring.runs.size(); ++r) {
                const CoarseRun& run = *ring.runs[r];
                if (apart(run.box))
                    continue;
                for (std::size_t i = 0; i < run.points.size(); ++i) {
                    const QPointF from = run.points[i];
                    const QPointF to = i + 1 < run.points.size()
                                           ? run.points[i + 1]
                                           : ring.runs[(r + 1) % ring.runs.size()]->points.front();
                    if (!apart(QRectF{from, to}.normalized()) && !clippedLine(QPolygonF{} << from << to, plane).empty())
                        return true;
                }
            }
    return false;
}

void FencePainter::keepOnly(const std::vector<Outlined>& fences) {
    std::unordered_set<const session::OutlinedFence*> alive;
    for (const Outlined& fence : fences)
        alive.insert(fence.get());
    std::erase_if(m_bounds, [&](const auto& entry) { return !alive.contains(entry.first); });
    const std::lock_guard lock{m_mutex};
    std::erase_if(m_kept, [&](const auto& entry) { return !alive.contains(entry.first); });
    for (auto entry = m_states.begin(); entry != m_states.end();) {
        std::erase_if(entry->second, [&](const auto* state) { return !m_kept.contains(state); });
        entry = entry->second.empty() ? m_states.erase(entry) : std::next(entry);
    }
}

} // namespace fencewright::desktop
