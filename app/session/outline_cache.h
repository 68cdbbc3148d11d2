#pragma once

#include "model/fence_set.h"
#include "units/area.h"

#include <memory>
#include <string>
#include <vector>

namespace fencewright::session {

/// A fence with what is computed from it. Never changes: another state of the fence is another object, so whoever draws
/// it can keep what it made of it by the pointer.
struct OutlinedFence {
    std::shared_ptr<const model::Fence> fence;
    std::shared_ptr<const model::Site> site; ///< the one a setback follows
    model::MultiPolygon surface;
    model::MultiPolygon closedGaps;
    Area area;
    std::string fault; ///< why there is no surface; empty where there is one
};

/// Keeps outlines as long as fence and site stay what they were: an edit of one fence computes one outline.
class OutlineCache {
public:
    /// One for each fence, in the order of the set.
    const std::vector<std::shared_ptr<const OutlinedFence>>& outlined(const model::FenceSet& set);

private:
    std::vector<std::shared_ptr<const OutlinedFence>> m_outlined;
};

} // namespace fencewright::session
