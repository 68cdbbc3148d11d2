#include "desktop/tools/shared_corners.h"

#include "desktop/canvas/hit.h"
#include "desktop/canvas/near_plane.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"

#include <algorithm>
#include <tuple>

namespace fencewright::desktop {
namespace {

constexpr Length kTogether = Length::metres(0.01);

const model::Fence& fenceIn(const model::FenceSet& set, const model::FenceId& id) {
    const model::Fence* fence = set.fences.find(id);
    if (!fence)
        throw Fault{phrase("core", "There is no such fence in the set."), id.value,
                    phrase("core", "It may have been deleted meanwhile.")};
    return *fence;
}

const model::Position* placeOf(const model::Fence& fence, const Corner& corner) {
    const std::vector<EditableLine> lines = editableLines(fence.shape);
    return corner.line < lines.size() && corner.index < lines[corner.line].corners->size()
               ? &(*lines[corner.line].corners)[corner.index]
               : nullptr;
}

/// Calls `visit(fence, line number, line, corner number)` for each corner of other fences that lies there.
template <class Visit>
void visitCornersAt(const ToolScene& scene, const model::Position& place, const model::FenceId& except, Visit visit) {
    const NearPlane plane{place};
    const auto look = [&](const session::OutlinedFence& outlined) {
        if (outlined.fence->id == except)
            return;
        const std::vector<EditableLine> lines = editableLines(outlined.fence->shape);
        for (std::size_t l = 0; l < lines.size(); ++l)
            for (std::size_t i = 0; i < lines[l].corners->size(); ++i)
                if (distanceBetween(plane.toPlane((*lines[l].corners)[i]), {}) <= kTogether.inMetres())
                    visit(*outlined.fence, l, lines[l], i);
    };
    if (scene.places)
        visitNear(*scene.places, place, kTogether, [&](std::size_t number) {
            if (number < scene.outlined.size())
                look(*scene.outlined[number]);
        });
    else
        for (const auto& one : scene.outlined)
            look(*one);
}

/// From the back, so that the numbers of the earlier ones still hold.
void sortFromTheBack(std::vector<Corner>& corners) {
    std::stable_sort(corners.begin(), corners.end(), [](const Corner& a, const Corner& b) {
        return std::tie(a.line, a.index) > std::tie(b.line, b.index);
    });
}

/// Gathers changed fences, each once, into one edit.
class Gathered {
public:
    explicit Gathered(const model::FenceSet& set) : m_set{set} {}

    model::Fence& fence(const model::FenceId& id) {
        const auto known =
            std::find_if(m_fences.begin(), m_fences.end(), [&](const model::Fence& one) { return one.id == id; });
        if (known != m_fences.end())
            return *known;
        m_fences.push_back(fenceIn(m_set, id));
        return m_fences.back();
    }
    model::Edit edit(Wording title) {
        model::Edit all;
        for (model::Fence& fence : m_fences)
            all.changes.push_back(model::replaceFence(m_set, std::move(fence), {}).changes.front());
        all.title = std::move(title);
        return all;
    }

private:
    const model::FenceSet& m_set;
    std::vector<model::Fence> m_fences;
};

} // namespace

std::vector<Corner> cornersTogether(const ToolScene& scene, const Corner& corner) {
    std::vector<Corner> together{corner};
    const model::Fence* fence = scene.set.fences.find(corner.fence);
    const model::Position* place = fence ? placeOf(*fence, corner) : nullptr;
    if (scene.sharesCorners && place)
        visitCornersAt(scene, *place, corner.fence,
                       [&](const model::Fence& other, std::size_t line, const EditableLine&, std::size_t index) {
                           together.push_back({other.id, line, index});
                       });
    return together;
}

std::vector<Corner> insertionsTogether(const ToolScene& scene, const Corner& before) {
    std::vector<Corner> together{before};
    const model::Fence* fence = scene.set.fences.find(before.fence);
    Corner from = before;
    --from.index; // a corner is inserted behind another one always
    const auto ends = fence && before.index > 0 ? endsOf(*fence, Edge{from}) : std::nullopt;
    if (!scene.sharesCorners || !ends)
        return together;
    const NearPlane plane{ends->b};
    const auto isOtherEnd = [&](const model::Position& place) {
        return distanceBetween(plane.toPlane(place), {}) <= kTogether.inMetres();
    };
    visitCornersAt(scene, ends->a, before.fence,
                   [&](const model::Fence& other, std::size_t line, const EditableLine& corners, std::size_t index) {
                       const std::size_t size = corners.corners->size();
                       if (index < corners.edges() && isOtherEnd(corners.edgeEnd(index)))
                           together.push_back({other.id, line, index + 1});
                       else if ((index > 0 || corners.closed) &&
                                isOtherEnd((*corners.corners)[(index + size - 1) % size]))
                           together.push_back({other.id, line, index == 0 ? size : index});
                   });
    return together;
}

model::Edit cornersMoved(const model::FenceSet& set, const CornerPlaces& places, Wording title) {
    Gathered gathered{set};
    for (const auto& [corner, place] : places) {
        model::Fence& fence = gathered.fence(corner.fence);
        const model::Position* was = placeOf(fence, corner);
        fence = withCornerMoved(fence, corner, was ? continued(place, *was) : place);
    }
    return gathered.edit(std::move(title));
}

model::Edit cornersInserted(const model::FenceSet& set, std::vector<Corner> before, const model::Position& place,
                            Wording title) {
    sortFromTheBack(before);
    Gathered gathered{set};
    for (const Corner& corner : before) {
        model::Fence& fence = gathered.fence(corner.fence);
        const Corner former{corner.fence, corner.line, corner.index - 1};
        const model::Position* beside = corner.index > 0 ? placeOf(fence, former) : nullptr;
        fence = withCornerInserted(fence, corner, beside ? continued(place, *beside) : place);
    }
    return gathered.edit(std::move(title));
}

model::Edit cornersRemoved(const model::FenceSet& set, std::vector<Corner> corners, Wording title) {
    sortFromTheBack(corners);
    Gathered gathered{set};
    for (const Corner& corner : corners) {
        model::Fence& fence = gathered.fence(corner.fence);
        fence = withoutCorner(fence, corner);
    }
    return gathered.edit(std::move(title));
}

} // namespace fencewright::desktop
