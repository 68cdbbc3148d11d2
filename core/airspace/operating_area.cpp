#include "airspace/operating_area.h"

#include "airspace/detail/active_outlines.h"
#include "airspace/outline.h"

#include <vector>

namespace fencewright::airspace {

Outlines outlines(const model::FenceSet& set) {
    Outlines result;
    for (const auto& fence : set.fences)
        result.emplace(fence.id, outline(fence, set.sites));
    return result;
}

model::MultiPolygon operatingArea(const model::FenceSet& set, const Outlines& outlines, const Moment& moment,
                                  const geodesy::GroundHeight& ground) {
    std::uint64_t last = 0;
    return KeptOperatingArea{}
        .area(
            set, outlines, [&](const model::FenceId&) { return ++last; }, moment, ground)
        .surface;
}

geometry::KeptDifference::Result KeptOperatingArea::area(const model::FenceSet& set, const Outlines& outlines,
                                                         const OutlineNumber& number, const Moment& moment,
                                                         const geodesy::GroundHeight& ground,
                                                         const Progress& progress) {
    const auto active = detail::activeOutlines(set, outlines, moment, ground);
    const auto numbered = [&](const std::vector<detail::ActiveOutline>& some) {
        std::vector<geometry::KeptDifference::Numbered> result;
        for (const auto& one : some)
            result.push_back({one.outline, number(one.fence->id)});
        return result;
    };
    return m_difference.difference(numbered(active.permitted), numbered(active.forbidden), progress);
}

} // namespace fencewright::airspace
