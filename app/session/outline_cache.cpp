#include "session/outline_cache.h"

#include "airspace/outline.h"
#include "fault.h"
#include "geodesy/geodesic.h"

#include <unordered_map>

namespace fencewright::session {
namespace {

std::shared_ptr<const OutlinedFence> computed(std::shared_ptr<const model::Fence> fence,
                                              std::shared_ptr<const model::Site> site, const model::FenceSet& set) {
    auto result = std::make_shared<OutlinedFence>();
    result->fence = std::move(fence);
    result->site = std::move(site);
    try {
        result->surface = airspace::outline(*result->fence, set.sites);
        result->closedGaps = airspace::closedGaps(*result->fence);
        result->area = geodesy::measure(result->surface).area;
    } catch (const Fault& fault) {
        result->surface = {};
        result->fault = fault.what();
    }
    return result;
}

} // namespace

const std::vector<std::shared_ptr<const OutlinedFence>>& OutlineCache::outlined(const model::FenceSet& set) {
    std::unordered_map<const model::Fence*, std::shared_ptr<const OutlinedFence>> known;
    for (auto& one : m_outlined)
        known.emplace(one->fence.get(), std::move(one));
    m_outlined.clear();
    m_outlined.reserve(set.fences.size());
    for (std::size_t i = 0; i < set.fences.size(); ++i) {
        const auto& fence = set.fences.pointer(i);
        const auto* setback = std::get_if<model::Setback>(&fence->shape);
        auto site = setback ? set.sites.findPointer(setback->site) : nullptr;
        const auto found = known.find(fence.get());
        if (found != known.end() && found->second->site == site)
            m_outlined.push_back(found->second);
        else
            m_outlined.push_back(computed(fence, std::move(site), set));
    }
    return m_outlined;
}

} // namespace fencewright::session
