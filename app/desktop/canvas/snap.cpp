#include "desktop/canvas/snap.h"

#include "desktop/canvas/hit.h"
#include "desktop/canvas/near_plane.h"
#include "session/drawn_lines.h"

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
    /// What of a line lies within the window.
    template <class Name>
    void line(std::span<const model::Position> corners, bool closed, const geometry::LineBoxes& boxes,
              const geometry::Box& window, Name name) {
        boxes.visitMeeting(window, [&](std::size_t first, std::size_t end) {
            // A run with the corner that it leads to; the last of a ring leads to its first.
            if (end < corners.size()) {
                line(corners.subspan(first, end - first + 1), false, name);
                return;
            }
            line(corners.subspan(first), false, name);
            if (closed) {
                const model::Position closing[] = {corners.back(), corners.front()};
                line(closing, false, name);
            }
        });
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

} // namespace

std::optional<Snap> Snapper::snap(const model::Position& pointer, Length tolerance, const model::FenceSet& set,
                                  const std::vector<ReferenceSource>& references,
                                  const std::optional<model::FenceId>& except) const {
    Nearest nearest{pointer, tolerance};
    if (m_fences)
        visitNear(*m_places, pointer, tolerance, [&](std::size_t number) {
            if (number >= m_fences->size() || (*m_fences)[number]->fence->id == except)
                return;
            const session::OutlinedFence& outlined = *(*m_fences)[number];
            const model::Fence& fence = *outlined.fence;
            const auto name = [&] { return QString::fromStdString(fence.name); };
            std::size_t line = 0;
            session::forEachDrawnLine(fence.shape, [&](const model::LineString& corners, bool closed) {
                const geometry::LineBoxes& boxes = outlined.lines[line++];
                if (!boxes.box().empty())
                    nearest.line(corners, closed, boxes, windowAround(pointer, tolerance, boxes.box()), name);
            });
            if (const auto* circle = std::get_if<model::Circle>(&fence.shape))
                nearest.corner(circle->centre, [&] { return Words::tr("centre of %1").arg(name()); });
        });
    const geometry::Box around = windowAround(pointer, tolerance, {pointer.lon, pointer.lat, pointer.lon, pointer.lat});
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
