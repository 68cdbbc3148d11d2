#pragma once

#include "airspace/activity.h"
#include "airspace/operating_area.h"

#include <vector>

namespace fencewright::airspace::detail {

/// A fence and what it encloses.
struct ActiveOutline {
    const model::Fence* fence;
    const model::MultiPolygon* outline;
};
/// The fences that count at a moment, in the order of the set. Those without an outline do not.
struct ActiveOutlines {
    std::vector<ActiveOutline> permitted; ///< keep-ins
    std::vector<ActiveOutline> forbidden; ///< keep-outs
};

/// A fence is active as a whole. Where the ground or the geoid decides, a keep-out counts if it does anywhere, a
/// keep-in only if it does everywhere.
[[nodiscard]] ActiveOutlines activeOutlines(const model::FenceSet& set, const Outlines& outlines, const Moment& moment,
                                            const geodesy::GroundHeight& ground);

} // namespace fencewright::airspace::detail
