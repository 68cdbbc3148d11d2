#include "desktop/canvas/hit.h"

#include "desktop/canvas/near_plane.h"

#include <limits>

namespace fencewright::desktop {
namespace {

/// One walk along a closed line: whether it runs around the place, and how near it comes.
struct RingWalk {
    bool around = false;
    double nearest = std::numeric_limits<double>::infinity();

    void along(const NearPlane& plane, const model::LineString& corners) {
        if (corners.empty())
            return;
        QPointF from = plane.toPlane(corners.back());
        for (const model::Position& corner : corners) {
            const QPointF to = plane.toPlane(corner);
            nearest = std::min(nearest, distanceBetween(nearestOnSegment({}, from, to), {}));
            if ((from.y() > 0.0) != (to.y() > 0.0) &&
                from.x() + (to.x() - from.x()) * (-from.y() / (to.y() - from.y())) > 0.0)
                around = !around;
            from = to;
        }
    }
};

bool isHit(const NearPlane& plane, const model::Polygon& polygon, double tolerance) {
    RingWalk walk;
    walk.along(plane, polygon.shell.corners);
    for (const model::Ring& hole : polygon.holes)
        walk.along(plane, hole.corners);
    return walk.around || walk.nearest <= tolerance;
}

} // namespace

bool isHit(const model::MultiPolygon& surface, const model::Position& place, Length tolerance) {
    const NearPlane plane{place};
    for (const model::Polygon& part : surface.parts)
        if (isHit(plane, part, tolerance.inMetres()))
            return true;
    return false;
}

bool isHit(const model::SiteGeometry& geometry, const model::Position& place, Length tolerance) {
    const NearPlane plane{place};
    if (const auto* point = std::get_if<model::Position>(&geometry))
        return distanceBetween(plane.toPlane(*point), {}) <= tolerance.inMetres();
    if (const auto* polygon = std::get_if<model::Polygon>(&geometry))
        return isHit(plane, *polygon, tolerance.inMetres());
    const auto& line = std::get<model::LineString>(geometry);
    for (std::size_t i = 1; i < line.size(); ++i)
        if (distanceBetween(nearestOnSegment({}, plane.toPlane(line[i - 1]), plane.toPlane(line[i])), {}) <=
            tolerance.inMetres())
            return true;
    return false;
}

Selection thingAt(const model::FenceSet& set,
                  const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined,
                  const model::Position& place, Length tolerance) {
    for (std::size_t i = set.homes.size(); i-- > 0;)
        if (isHit(model::SiteGeometry{set.homes[i].place}, place, tolerance))
            return set.homes[i].id;
    for (std::size_t i = set.sites.size(); i-- > 0;)
        if (isHit(set.sites[i].geometry, place, tolerance))
            return set.sites[i].id;
    const session::OutlinedFence* smallest = nullptr;
    for (const auto& one : outlined)
        if ((!smallest || one->area <= smallest->area) && isHit(one->surface, place, tolerance))
            smallest = one.get();
    return smallest ? Selection{smallest->fence->id} : Selection{};
}

} // namespace fencewright::desktop
