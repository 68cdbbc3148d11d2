#pragma once

#include "airspace/activity.h"
#include "geometry/kept_difference.h"
#include "model/fence_set.h"
#include "model/polygon.h"

#include <cstdint>
#include <functional>
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

/// The same for a set that changes little from one question to the next, with the areas of the parts: what nothing has
/// changed around is not computed again. To the last bit what operatingArea() answers.
class KeptOperatingArea {
public:
    /// Tells one state of a fence's outline from every other: the number is another once the outline is.
    using OutlineNumber = std::function<std::uint64_t(const model::FenceId&)>;

    /// @throws Fault      as geometry::united() and difference(); what was worked out until then is kept.
    /// @throws Cancelled  likewise.
    [[nodiscard]] geometry::KeptDifference::Result area(const model::FenceSet& set, const Outlines& outlines,
                                                        const OutlineNumber& number, const Moment& moment,
                                                        const geodesy::GroundHeight& ground,
                                                        const Progress& progress = {});

private:
    geometry::KeptDifference m_difference;
};

} // namespace fencewright::airspace
