#include "desktop/tools/sweep.h"

#include "desktop/canvas/near_plane.h"
#include "desktop/tools/new_thing.h"
#include "session/drawn_lines.h"

#include <QPolygonF>

#include <algorithm>

namespace fencewright::desktop {
namespace {

constexpr std::size_t kMostPlaces = 20'000;
constexpr double kStepTolerances = 0.25; // of the hit tolerance, which is six pixels

model::LineString alongMeridians(const model::Position& a, const model::Position& b) {
    return {a, {b.lon, a.lat}, b, {a.lon, b.lat}};
}

/// Asked for each place of very many things.
class Inside {
public:
    Inside(const model::LineString& outline) : m_plane{outline.front()} {
        for (const model::Position& place : outline)
            m_polygon << m_plane.toPlane(place);
        m_bounds = m_polygon.boundingRect();
    }
    bool has(const model::Position& place) const {
        const QPointF point = m_plane.toPlane(place);
        return m_bounds.contains(point) && m_polygon.containsPoint(point, Qt::OddEvenFill);
    }
    bool has(const model::LineString& line) const {
        return !line.empty() &&
               std::all_of(line.begin(), line.end(), [this](const model::Position& place) { return has(place); });
    }
    bool has(const model::SiteGeometry& geometry) const {
        if (const auto* place = std::get_if<model::Position>(&geometry))
            return has(*place);
        if (const auto* line = std::get_if<model::LineString>(&geometry))
            return has(*line);
        return has(std::get<model::Polygon>(geometry).shell.corners);
    }
    bool has(const session::OutlinedFence& fence) const {
        bool any = false, all = true;
        const auto look = [&](const model::LineString& line) {
            any = true;
            all = all && has(line);
        };
        for (const model::Polygon& part : fence.surface.parts)
            look(part.shell.corners);
        // Of a fence without an outline, what was drawn of it.
        if (!any)
            session::forEachDrawnLine(fence.fence->shape, [&](const model::LineString& line, bool) { look(line); });
        return any && all;
    }

private:
    NearPlane m_plane;
    QPolygonF m_polygon;
    QRectF m_bounds;
};

} // namespace

void Sweep::extend(const model::Position& place, Length tolerance, const ToolScene& scene) {
    if (m_form == Form::Box) {
        const model::Position to = continued(place, m_start);
        m_outline = scene.boxBetween ? scene.boxBetween(m_start, to) : alongMeridians(m_start, to);
        return;
    }
    const model::Position to = continued(place, m_outline.back());
    if (m_outline.size() < kMostPlaces &&
        distanceBetween(NearPlane{m_outline.back()}.toPlane(to), {}) >= kStepTolerances * tolerance.inMetres())
        m_outline.push_back(to);
}

std::vector<Thing> Sweep::within(const ToolScene& scene) const {
    std::vector<Thing> found;
    if (m_outline.size() < 3)
        return found;
    const Inside inside{m_outline};
    for (const auto& one : scene.outlined)
        if (inside.has(*one))
            found.emplace_back(one->fence->id);
    for (const model::Site& site : scene.set.sites)
        if (inside.has(site.geometry))
            found.emplace_back(site.id);
    for (const model::Home& home : scene.set.homes)
        if (inside.has(home.place))
            found.emplace_back(home.id);
    return found;
}

} // namespace fencewright::desktop
