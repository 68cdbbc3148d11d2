#include "desktop/canvas/hit.h"

#include "desktop/canvas/near_plane.h"

#include <algorithm>
#include <cmath>
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
        along(plane, corners, 0, corners.size());
    }
    /// Only those of its edges that matter to what is within the window.
    void along(const NearPlane& plane, const model::LineString& corners, const geometry::LineBoxes& boxes,
               geometry::Box window) {
        // And all that lies to the east, for a ray in that direction tells inside from outside.
        window.maxX = std::numeric_limits<double>::infinity();
        boxes.visitMeeting(window, [&](std::size_t first, std::size_t end) { along(plane, corners, first, end); });
    }

private:
    void along(const NearPlane& plane, const model::LineString& corners, std::size_t first, std::size_t end) {
        QPointF from = plane.toPlane(corners[first]);
        for (std::size_t i = first; i < end; ++i) {
            const QPointF to = plane.toPlane(corners[(i + 1) % corners.size()]);
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

geometry::Box windowAround(const model::Position& place, Length tolerance, const geometry::Box& toward) {
    constexpr double far = std::numeric_limits<double>::infinity();
    if (toward.maxX - toward.minX >= 180.0)
        return {-far, -far, far, far};
    const NearPlane plane{place};
    constexpr double roundingMetres = 1e-3;
    const double reach = tolerance.inMetres() + roundingMetres;
    const model::Position low = plane.toEarth({-reach, -reach}), high = plane.toEarth({reach, reach});
    const double turn = 360.0 * std::round(((toward.minX + toward.maxX) / 2.0 - place.lon) / 360.0);
    return {low.lon + turn, low.lat, high.lon + turn, high.lat};
}

namespace {

/// Whether `takes(walk)` of a part of the surface.
template <class Takes>
bool anyPart(const session::OutlinedFence& fence, const model::Position& place, Length tolerance, Takes takes) {
    const NearPlane plane{place};
    std::size_t ring = 0;
    for (const model::Polygon& part : fence.surface.parts) {
        RingWalk walk;
        const auto along = [&](const model::Ring& one) {
            const geometry::LineBoxes& boxes = fence.rings[ring++];
            if (!boxes.box().empty())
                walk.along(plane, one.corners, boxes, windowAround(place, tolerance, boxes.box()));
        };
        along(part.shell);
        std::for_each(part.holes.begin(), part.holes.end(), along);
        if (takes(walk))
            return true;
    }
    return false;
}

} // namespace

bool isHit(const session::OutlinedFence& fence, const model::Position& place, Length tolerance) {
    return anyPart(fence, place, tolerance,
                   [&](const RingWalk& walk) { return walk.around || walk.nearest <= tolerance.inMetres(); });
}

bool isOnBoundary(const session::OutlinedFence& fence, const model::Position& place, Length tolerance) {
    return anyPart(fence, place, tolerance, [&](const RingWalk& walk) { return walk.nearest <= tolerance.inMetres(); });
}

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
                  const model::Position& place, Length tolerance, const geometry::ChangingIndex* places) {
    for (std::size_t i = set.homes.size(); i-- > 0;)
        if (isHit(model::SiteGeometry{set.homes[i].place}, place, tolerance))
            return set.homes[i].id;
    for (std::size_t i = set.sites.size(); i-- > 0;)
        if (isHit(set.sites[i].geometry, place, tolerance))
            return set.sites[i].id;
    const session::OutlinedFence* smallest = nullptr;
    const auto look = [&](const session::OutlinedFence& one) {
        if ((!smallest || one.area <= smallest->area) && isHit(one, place, tolerance))
            smallest = &one;
    };
    if (places)
        visitNear(*places, place, tolerance, [&](std::size_t number) {
            if (number < outlined.size())
                look(*outlined[number]);
        });
    else
        for (const auto& one : outlined)
            look(*one);
    return smallest ? Selection{smallest->fence->id} : Selection{};
}

} // namespace fencewright::desktop
