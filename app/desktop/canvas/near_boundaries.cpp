#include "desktop/canvas/near_boundaries.h"

#include "desktop/canvas/hit.h"
#include "desktop/canvas/near_plane.h"
#include "session/drawn_lines.h"

#include <algorithm>

namespace fencewright::desktop {
namespace {

/// Whether the edge passes the origin of the plane within reach.
bool passes(const NearPlane& plane, const model::Position& from, const model::Position& to, Length reach) {
    return distanceBetween(nearestOnSegment({}, plane.toPlane(from), plane.toPlane(to)), {}) <= reach.inMetres();
}

bool passesNear(const NearPlane& plane, const model::LineString& corners, const geometry::LineBoxes& boxes,
                const model::Position& place, Length reach) {
    bool near = false;
    if (!boxes.box().empty())
        boxes.visitMeeting(windowAround(place, reach, boxes.box()), [&](std::size_t first, std::size_t end) {
            for (std::size_t edge = first; edge < end && !near; ++edge)
                near = passes(plane, corners[edge], corners[edge + 1 < corners.size() ? edge + 1 : 0], reach);
        });
    return near;
}

} // namespace

std::vector<NearBoundary> boundariesAt(const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined,
                                       const geometry::ChangingIndex& places,
                                       const std::vector<ReferenceSource>& references, const model::Position& place,
                                       Length reach) {
    const NearPlane plane{place};
    std::vector<NearBoundary> found;
    visitNear(places, place, reach, [&](std::size_t fenceNumber) {
        if (fenceNumber >= outlined.size())
            return;
        const auto& one = outlined[fenceNumber];
        const model::Fence& fence = *one->fence;
        const auto take = [&](const auto& owner, const model::LineString& corners, bool closed,
                              const geometry::LineBoxes& boxes) {
            if (corners.size() < 2 || !passesNear(plane, corners, boxes, place, reach))
                return false;
            found.push_back({{owner, &corners}, closed, QString::fromStdString(fence.name), fence.id});
            return true;
        };
        bool takenAsAWhole = false;
        session::forEachOutlineRing(*one, [&](const model::LineString& corners, const geometry::LineBoxes& boxes) {
            takenAsAWhole = take(one, corners, true, boxes) || takenAsAWhole;
        });
        // Of parcels that are united, their own rings count where the outline is not.
        if (takenAsAWhole && std::holds_alternative<model::ParcelUnion>(fence.shape))
            return;
        std::size_t number = 0;
        session::forEachDrawnLine(fence.shape, [&](const model::LineString& corners, bool closed) {
            take(one->fence, corners, closed, one->lines[number++]);
        });
    });
    std::reverse(found.begin(), found.end()); // the last of the fences lies on top
    const geometry::Box window = windowAround(place, reach, {place.lon, place.lat, place.lon, place.lat});
    for (auto source = references.rbegin(); source != references.rend(); ++source)
        for (const std::size_t feature : source->layer->meeting(window))
            source->layer->visitLines(feature, [&](const reference::Layer::Line& line) {
                const auto& corners = line.corners;
                bool near = false;
                for (std::size_t i = 1; i < corners.size() && !near; ++i)
                    near = passes(plane, corners[i - 1], corners[i], reach);
                if (line.closed && corners.size() > 1 && !near)
                    near = passes(plane, corners.back(), corners.front(), reach);
                if (near)
                    found.push_back({std::make_shared<const model::LineString>(corners.begin(), corners.end()),
                                     line.closed,
                                     nameOf(*source, feature),
                                     {}});
            });
    return found;
}

} // namespace fencewright::desktop
