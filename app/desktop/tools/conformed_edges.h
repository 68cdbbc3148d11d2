#pragma once

#include "desktop/tools/tool.h"

#include <span>
#include <vector>

namespace fencewright::desktop {

/// Corners that come into an edge, before one that is there.
struct CornersInserted {
    Corner before;
    model::LineString places;
};

/// What the edges at some corners lack to meet the boundaries on which these corners were put: the corners of
/// boundaries along which an edge runs now (see running_along.h). An edge that neighbours share with it gets the same
/// ones. Side: as geometry::conformedTo().
/// @param moved   as they stand in `scene.set`.
/// @param moving  whose boundaries do not count: they have come along.
std::vector<CornersInserted> missingAlong(const ToolScene& scene, std::span<const Corner> moved,
                                          const Selection& moving);

/// The fences with these corners, each once. @throws Fault  an edge is not there any more.
model::Edit withCornersInserted(const model::FenceSet& set, std::vector<CornersInserted> insertions);

/// Where a corner stands once they are inserted.
Corner shiftedBy(const std::vector<CornersInserted>& insertions, Corner corner);

} // namespace fencewright::desktop
