#pragma once

#include "desktop/canvas/reference_layer.h"
#include "desktop/tools/running_along.h"
#include "geometry/changing_index.h"
#include "session/outline_cache.h"

#include <memory>
#include <vector>

namespace fencewright::desktop {

/// The lines of fences as drawn, their outlines, and the lines of visible reference layers, that pass within reach of a
/// place: fences first, the uppermost of each first. Their corners are shared with the fences and their outlines, and
/// copied out of the layers. Of an outline the corners are those that it has, the safe side of its own fence out: what
/// takes them over meets that fence without gap and overlap.
/// @param places  the boxes of `outlined`, by place in it.
std::vector<NearBoundary> boundariesAt(const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined,
                                       const geometry::ChangingIndex& places,
                                       const std::vector<ReferenceSource>& references, const model::Position& place,
                                       Length reach);

} // namespace fencewright::desktop
