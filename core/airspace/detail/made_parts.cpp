#include "airspace/detail/made_parts.h"

#include "geodesy/geodesic.h"

#include <algorithm>
#include <utility>

namespace fencewright::airspace::detail {
namespace {

void addFurther(SetSteps& steps, const model::Fence& first, const std::vector<model::Polygon>& parts,
                std::vector<model::FenceId>& ids) {
    for (std::size_t i = 1; i < parts.size(); ++i) {
        model::Fence further = first;
        further.id = model::freshId<model::Fence>();
        further.name = freeName(steps.state().fences, first.name);
        further.shape = model::DrawnPolygon{parts[i]};
        const auto id = further.id;
        steps.addBehind(ids.back(), std::move(further));
        ids.push_back(id);
    }
}

} // namespace

std::vector<model::Polygon> partsOf(const model::MultiPolygon& surface) {
    std::vector<std::pair<Area, const model::Polygon*>> order;
    for (const auto& part : surface.parts)
        order.emplace_back(geodesy::measure(part).area, &part);
    std::stable_sort(order.begin(), order.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    std::vector<model::Polygon> parts;
    for (const auto& [area, part] : order)
        parts.push_back(*part);
    return parts;
}

std::vector<model::FenceId> becomes(SetSteps& steps, const model::Fence& fence,
                                    const std::vector<model::Polygon>& parts) {
    model::Fence first = fence;
    first.shape = model::DrawnPolygon{parts.front()};
    std::vector<model::FenceId> ids{fence.id};
    steps.replace(first);
    addFurther(steps, first, parts, ids);
    return ids;
}

std::vector<model::FenceId> added(SetSteps& steps, model::Fence fence, const std::vector<model::Polygon>& parts) {
    fence.shape = model::DrawnPolygon{parts.front()};
    std::vector<model::FenceId> ids{fence.id};
    steps.add(fence);
    addFurther(steps, fence, parts, ids);
    return ids;
}

} // namespace fencewright::airspace::detail
