#include "desktop/canvas/clear_area_line.h"

#include "desktop/canvas/boundary_raster.h"
#include "desktop/canvas/plane_line.h"
#include "desktop/palette.h"
#include "fault.h"
#include "geodesy/map_plane.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <tuple>

namespace fencewright::desktop {
namespace {

constexpr double kSpacingPixels = 6.5;
constexpr double kDotPixels = 2.4;
constexpr double kCasingPixels = 4.4;
constexpr double kThinningPixels = 0.3;

int coarsenessOf(const ViewTransform& view) { return int(std::floor(std::log2(view.metresPerPixel()))); }

QRectF onWidget(const QRectF& plane, const ViewTransform& view) {
    return QRectF{view.toWidget(plane.topLeft()), view.toWidget(plane.bottomRight())}.normalized().adjusted(
        -kCasingPixels, -kCasingPixels, kCasingPixels, kCasingPixels);
}

/// Evenly spread along the ring, from its first point on: so that they stand still while the view moves.
template <class Dot> void eachDot(const std::vector<QPointF>& ring, const Dot& dot) {
    const auto edge = [&](std::size_t i) {
        const QPointF to = ring[(i + 1) % ring.size()] - ring[i];
        return std::hypot(to.x(), to.y());
    };
    double whole = 0.0;
    for (std::size_t i = 0; i < ring.size(); ++i)
        whole += edge(i);
    const double spacing = whole / std::max(3.0, std::round(whole / kSpacingPixels));
    double next = 0.0; // along the edge
    for (std::size_t i = 0; i < ring.size() && spacing > 0.0; ++i) {
        const double length = edge(i);
        for (; next < length; next += spacing)
            dot(ring[i] + (ring[(i + 1) % ring.size()] - ring[i]) * (next / length));
        next -= length;
    }
}

} // namespace

ClearAreaLine::ClearAreaLine(QObject* parent) : QObject{parent} {
    connect(&m_picture, &DeferredLayer::arrived, this, &ClearAreaLine::arrived);
}

std::shared_ptr<const ClearAreaLine::Thinned::Line> ClearAreaLine::Thinned::find(const Ring& ring,
                                                                                 const ViewTransform& view) const {
    const std::lock_guard lock{m_mutex};
    const auto at = m_lines.find(&ring);
    const bool fits = at != m_lines.end() && at->second.second->planeNumber == view.planeNumber() &&
                      at->second.second->coarseness == coarsenessOf(view);
    return fits ? at->second.second : nullptr;
}

std::shared_ptr<const ClearAreaLine::Thinned::Line> ClearAreaLine::Thinned::get(const std::shared_ptr<const Ring>& ring,
                                                                                const ViewTransform& view,
                                                                                const Projection& project) {
    if (auto known = find(*ring, view))
        return known;
    auto line = std::make_shared<Line>();
    line->planeNumber = view.planeNumber();
    line->coarseness = coarsenessOf(view);
    if (const std::vector<QPointF> points = project(ring->corners); !points.empty()) {
        line->points = decimated(points, kThinningPixels * std::exp2(line->coarseness), true);
        line->box = boundsOf(line->points);
    }
    const std::lock_guard lock{m_mutex};
    m_lines[ring.get()] = {ring, line};
    return line;
}

void ClearAreaLine::Thinned::keepOnly(const Rings& rings) {
    std::set<const Ring*> wanted;
    for (const auto& ring : rings)
        wanted.insert(ring.get());
    const std::lock_guard lock{m_mutex};
    std::erase_if(m_lines, [&](const auto& entry) { return !wanted.contains(entry.first); });
}

/// The rings of another result: those that were there before are shared, the others are to be painted.
void ClearAreaLine::take(const std::shared_ptr<const audit::AuditResult>& audit, const ViewTransform& view) {
    if (audit == m_audit)
        return;
    m_audit = audit;
    const auto keyOf = [](const model::LineString& corners) {
        return std::tuple{corners.front().lon, corners.front().lat, corners.size()};
    };
    std::map<std::tuple<double, double, std::size_t>, std::shared_ptr<const Ring>> before;
    for (const auto& ring : *m_rings)
        before.emplace(keyOf(ring->corners), ring);
    const auto repaint = [&](const Ring& ring) {
        // Of the box in longitude and latitude: its outline, for its edges bulge in the plane.
        std::vector<model::Position> places;
        constexpr int steps = 4;
        for (int i = 0; i <= steps; ++i) {
            const double x = std::lerp(ring.box.minX, ring.box.maxX, double(i) / steps);
            const double y = std::lerp(ring.box.minY, ring.box.maxY, double(i) / steps);
            places.insert(places.end(),
                          {{x, ring.box.minY}, {x, ring.box.maxY}, {ring.box.minX, y}, {ring.box.maxX, y}});
        }
        const std::vector<QPointF> points = view.planeOf(places);
        if (points.empty())
            return m_picture.invalidate();
        const QRectF plane = boundsOf(points);
        const double room = kCasingPixels * view.metresPerPixel() + 0.01 * std::max(plane.width(), plane.height());
        m_picture.invalidatePlane(plane.adjusted(-room, -room, room, room));
    };
    auto rings = std::make_shared<Rings>();
    const auto add = [&](const model::Ring& ring) {
        if (ring.corners.empty())
            return;
        if (const auto known = before.find(keyOf(ring.corners));
            known != before.end() && known->second->corners == ring.corners) {
            rings->push_back(known->second);
            before.erase(known);
            return;
        }
        rings->push_back(std::make_shared<const Ring>(Ring{ring.corners, geometry::boxOf(ring.corners)}));
        repaint(*rings->back());
    };
    if (audit && audit->clearArea)
        for (const model::Polygon& part : audit->clearArea->parts) {
            add(part.shell);
            std::for_each(part.holes.begin(), part.holes.end(), add);
        }
    for (const auto& [key, gone] : before)
        repaint(*gone);
    m_rings = std::move(rings);
    m_thinned->keepOnly(*m_rings);
}

void ClearAreaLine::paintRings(QPainter& painter, const ViewTransform& view, const Projection& project,
                               const Rings& rings, Thinned& thinned, const QRectF& seen) {
    BoundaryRaster raster{seen, painter.device()->devicePixelRatioF()};
    for (const auto& ring : rings) {
        const auto line = thinned.get(ring, view, project);
        if (line->points.size() < 3 || !onWidget(line->box, view).intersects(seen))
            continue;
        std::vector<QPointF> points;
        points.reserve(line->points.size());
        for (const QPointF& point : line->points)
            points.push_back(view.toWidget(point));
        eachDot(points,
                [&](const QPointF& at) { raster.add(BoundaryRaster::Field::Line, at, at, kCasingPixels / 2.0); });
    }
    QColor casing = QColor::fromRgba(kMapCasing);
    casing.setAlpha(200);
    const std::array coats{BoundaryRaster::Coat{BoundaryRaster::Field::Line, kCasingPixels, casing},
                           BoundaryRaster::Coat{BoundaryRaster::Field::Line, kDotPixels, QColor::fromRgba(kMapKeepIn)}};
    raster.paint(painter, coats);
}

/// In microseconds, for DeferredLayer.
double ClearAreaLine::costOf(const Ring& ring, const ViewTransform& view, const QRectF& seen) const {
    constexpr double aFreshCorner = 0.6, aPoint = 0.03, aDot = 0.6;
    const auto line = m_thinned->find(ring, view);
    if (!line)
        return aFreshCorner * double(ring.corners.size());
    const QRectF box = onWidget(line->box, view);
    if (!box.intersects(seen))
        return 0.1;
    const QRectF part = box.intersected(seen);
    const double dots = 4.0 * (part.width() + part.height()) / kSpacingPixels;
    return aPoint * double(line->points.size()) + aDot * dots;
}

void ClearAreaLine::paint(QPainter& painter, const ViewTransform& view,
                          const std::shared_ptr<const audit::AuditResult>& audit, bool inMotion) {
    take(audit, view);
    if (m_rings->empty())
        return m_picture.invalidate(); // a picture of nothing takes its time, too
    DeferredLayer::Contents layer;
    layer.here = [this, rings = m_rings](QPainter& into, const ViewTransform& frame, const QRectF& seen) {
        const Projection project = [&](std::span<const model::Position> places) { return frame.planeOf(places); };
        paintRings(into, frame, project, *rings, *m_thinned, seen);
    };
    layer.elsewhere = [&, rings = m_rings, thinned = m_thinned]() -> DeferredLayer::Render {
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
            paintRings(into, frame, project, *rings, *thinned, seen);
        };
    };
    layer.cost = [&](const QRectF& seen) {
        double sum = 0.0;
        for (const auto& ring : *m_rings)
            sum += costOf(*ring, view, seen);
        return sum;
    };
    m_picture.paint(painter, view, layer, inMotion);
}

} // namespace fencewright::desktop
