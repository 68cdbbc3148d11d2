#pragma once

#include "airspace/activity.h"
#include "model/fence_set.h"
#include "model/polygon.h"

#include <map>

namespace fencewright::airspace {

/// The outline of every fence of a set, computed once.
using Outlines = std::map<model::FenceId, model::MultiPolygon>;
[[nodiscard]] Outlines outlines(const model::FenceSet& set);

/// Where the aircraft may be at that moment: the union of the active keep-ins less the active keep-outs.
/// No active keep-in: empty, for nothing is permitted.
/// Side: `shrinks`: keep-ins are inscribed, keep-outs circumscribed.
[[nodiscard]] model::MultiPolygon operatingArea(const model::FenceSet& set, const Outlines& outlines,
                                                const Moment& moment, const geodesy::GroundHeight& ground);

} // namespace fencewright::airspace
