#include "desktop/canvas/snap.h"

#include "desktop/canvas/near_plane.h"
#include "desktop/tools/corner.h"

#include <QCoreApplication>

#include <algorithm>

namespace fencewright::desktop {
namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Snapper)
};

/// The nearest corner and the nearest edge so far.
class Nearest {
public:
    Nearest(const model::Position& pointer, Length tolerance)
        : m_plane{pointer}, m_corner{tolerance.inMetres()}, m_edge{tolerance.inMetres()} {}

    template <class Name> void corner(const model::Position& place, Name name) {
        const double d = distanceBetween(m_plane.toPlane(place), {});
        if (d < m_corner || (d == m_corner && !m_cornerSnap)) {
            m_corner = d;
            m_cornerSnap = Snap{place, name()};
        }
    }
    template <class Name> void line(std::span<const model::Position> corners, bool closed, Name name) {
        if (corners.empty())
            return;
        QPointF from = m_plane.toPlane(closed ? corners.back() : corners.front());
        for (const model::Position& place : corners) {
            corner(place, [&] { return Words::tr("corner of %1").arg(name()); });
            const QPointF to = m_plane.toPlane(place);
            const QPointF foot = nearestOnSegment({}, from, to);
            if (const double d = distanceBetween(foot, {}); d < m_edge) {
                m_edge = d;
                m_edgeSnap = Snap{m_plane.toEarth(foot), Words::tr("edge of %1").arg(name())};
            }
            from = to;
        }
    }

    std::optional<Snap> result() const { return m_cornerSnap ? m_cornerSnap : m_edgeSnap; }

private:
    NearPlane m_plane;
    double m_corner;
    double m_edge;
    std::optional<Snap> m_cornerSnap;
    std::optional<Snap> m_edgeSnap;
};

/// All lines of a shape that a person has drawn or picked.
template <class Line> void forEachLine(const model::Shape& shape, Line line) {
    for (const EditableLine& one : editableLines(shape))
        line(*one.corners, one.closed);
    if (const auto* parcels = std::get_if<model::ParcelUnion>(&shape))
        for (const model::Parcel& parcel : parcels->parcels)
            for (const model::Polygon& part : parcel.surface.parts) {
                line(part.shell.corners, true);
                for (const model::Ring& hole : part.holes)
                    line(hole.corners, true);
            }
}

geometry::Box boxAround(const model::Position& place, Length tolerance) {
    const NearPlane plane{place};
    const double d = tolerance.inMetres();
    const model::Position low = plane.toEarth({-d, -d}), high = plane.toEarth({d, d});
    return {low.lon, low.lat, high.lon, high.lat};
}

} // namespace

geometry::Box Snapper::boxOf(const model::Fence& fence) {
    geometry::Box box;
    const auto add = [&](const model::Position& place) {
        box.minX = std::min(box.minX, place.lon);
        box.maxX = std::max(box.maxX, place.lon);
        box.minY = std::min(box.minY, place.lat);
        box.maxY = std::max(box.maxY, place.lat);
    };
    forEachLine(fence.shape, [&](const model::LineString& corners, bool) {
        for (const model::Position& corner : corners)
            add(corner);
    });
    if (const auto* circle = std::get_if<model::Circle>(&fence.shape))
        add(circle->centre);
    return box;
}

void Snapper::setFences(const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined) {
    if (m_fences == outlined)
        return;
    m_fences = outlined;
    std::vector<geometry::Box> boxes;
    boxes.reserve(outlined.size());
    for (const auto& one : outlined)
        boxes.push_back(boxOf(*one->fence));
    m_index = geometry::SpatialIndex{boxes};
}

std::optional<Snap> Snapper::snap(const model::Position& pointer, Length tolerance, const model::FenceSet& set,
                                  const std::vector<ReferenceSource>& references,
                                  const std::optional<model::FenceId>& except) const {
    Nearest nearest{pointer, tolerance};
    const geometry::Box around = boxAround(pointer, tolerance);
    for (const double turn : {0.0, -360.0, 360.0}) {
        const geometry::Box turned{around.minX + turn, around.minY, around.maxX + turn, around.maxY};
        for (const std::size_t i : m_index.meeting(turned)) {
            const model::Fence& fence = *m_fences[i]->fence;
            if (fence.id == except)
                continue;
            const auto name = [&] { return QString::fromStdString(fence.name); };
            forEachLine(fence.shape,
                        [&](const model::LineString& corners, bool closed) { nearest.line(corners, closed, name); });
            if (const auto* circle = std::get_if<model::Circle>(&fence.shape))
                nearest.corner(circle->centre, [&] { return Words::tr("centre of %1").arg(name()); });
        }
    }
    for (const ReferenceSource& source : references)
        for (const std::size_t feature : source.layer->meeting(around)) {
            const auto name = [&] { return nameOf(source, feature); };
            source.layer->visitLines(feature, [&](const reference::Layer::Line& line) {
                if (line.corners.size() == 1)
                    nearest.corner(line.corners.front(), name);
                else
                    nearest.line(line.corners, line.closed, name);
            });
        }
    for (const model::Site& site : set.sites)
        if (const auto* place = std::get_if<model::Position>(&site.geometry))
            nearest.corner(*place, [&] { return QString::fromStdString(site.name); });
    for (const model::Home& home : set.homes)
        nearest.corner(home.place, [&] { return QString::fromStdString(home.name); });
    return nearest.result();
}

} // namespace fencewright::desktop
