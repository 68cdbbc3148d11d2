#include "desktop/tools/conformed_edges.h"

#include "desktop/canvas/near_plane.h"
#include "desktop/tools/new_thing.h"
#include "desktop/tools/shared_corners.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace fencewright::desktop {
namespace {

/// The edges that lead to a corner and from it.
std::vector<Edge> edgesAt(const model::FenceSet& set, const Corner& corner) {
    std::vector<Edge> edges;
    const model::Fence* fence = set.fences.find(corner.fence);
    const auto lines = fence ? editableLines(fence->shape) : std::vector<EditableLine>{};
    if (corner.line >= lines.size() || corner.index >= lines[corner.line].corners->size())
        return edges;
    const EditableLine& line = lines[corner.line];
    Corner former = corner;
    former.index = (corner.index + line.corners->size() - 1) % line.corners->size();
    if (line.closed || corner.index > 0)
        edges.push_back({former});
    if (corner.index < line.edges())
        edges.push_back({corner});
    return edges;
}

const model::Position* placeBefore(const model::FenceSet& set, const Corner& before) {
    Corner from = before;
    --from.index;
    const model::Fence* fence = set.fences.find(from.fence);
    const auto lines = fence ? editableLines(fence->shape) : std::vector<EditableLine>{};
    return from.line < lines.size() && from.index < lines[from.line].corners->size()
               ? &(*lines[from.line].corners)[from.index]
               : nullptr;
}

} // namespace

std::vector<CornersInserted> missingAlong(const ToolScene& scene, std::span<const Corner> moved,
                                          const Selection& moving) {
    std::vector<CornersInserted> insertions;
    const auto isDone = [&](const Corner& before) {
        return std::any_of(insertions.begin(), insertions.end(),
                           [&](const CornersInserted& one) { return one.before == before; });
    };
    const BoundariesAt others = [&](const model::Position& place, Length reach) {
        std::vector<NearBoundary> found =
            scene.boundariesAt ? scene.boundariesAt(place, reach) : std::vector<NearBoundary>{};
        std::erase_if(found, [&](const NearBoundary& one) { return !one.fence.empty() && moving.contains(one.fence); });
        return found;
    };
    for (const Corner& corner : moved)
        for (const Edge& edge : edgesAt(scene.set, corner)) {
            Corner before = edge.from;
            ++before.index;
            const auto ends = endsOf(*scene.set.fences.find(corner.fence), edge);
            if (!ends || isDone(before))
                continue;
            const auto between = cornersAlong(ends->a, standingAt(ends->a, others), ends->b, others);
            if (!between || between->empty())
                continue;
            const NearPlane plane{ends->a};
            for (const Corner& one : insertionsTogether(scene, before)) {
                const model::Position* from = placeBefore(scene.set, one);
                if (!from || isDone(one))
                    continue;
                CornersInserted insertion{one, *between};
                // A neighbour may go along the edge the other way.
                if (distanceBetween(plane.toPlane(*from), {}) >
                    distanceBetween(plane.toPlane(*from), plane.toPlane(ends->b)))
                    std::reverse(insertion.places.begin(), insertion.places.end());
                insertions.push_back(std::move(insertion));
            }
        }
    return insertions;
}

model::Edit withCornersInserted(const model::FenceSet& set, std::vector<CornersInserted> insertions) {
    // From the back, so that the numbers of the earlier ones still hold.
    std::stable_sort(insertions.begin(), insertions.end(), [](const CornersInserted& a, const CornersInserted& b) {
        return std::tie(a.before.fence, b.before.line, b.before.index) <
               std::tie(b.before.fence, a.before.line, a.before.index);
    });
    model::Edit all;
    for (auto next = insertions.begin(); next != insertions.end();) {
        const model::FenceId id = next->before.fence;
        model::Fence fence = *set.fences.find(id);
        for (; next != insertions.end() && next->before.fence == id; ++next) {
            const model::Position* beside = placeBefore(set, next->before);
            for (auto place = next->places.rbegin(); place != next->places.rend(); ++place)
                fence =
                    withCornerInserted(std::move(fence), next->before, beside ? continued(*place, *beside) : *place);
        }
        all.changes.push_back(model::replaceFence(set, std::move(fence), {}).changes.front());
    }
    return all;
}

Corner shiftedBy(const std::vector<CornersInserted>& insertions, Corner corner) {
    std::size_t by = 0;
    for (const CornersInserted& one : insertions)
        if (one.before.fence == corner.fence && one.before.line == corner.line && one.before.index <= corner.index)
            by += one.places.size();
    corner.index += by;
    return corner;
}

} // namespace fencewright::desktop
