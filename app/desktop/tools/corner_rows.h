#pragma once

#include "desktop/tools/corner.h"

#include <span>

namespace fencewright::desktop {

/// So many corners of one line of a fence, one after another.
struct CornerRun {
    std::size_t line = 0;
    std::size_t first = 0;
    std::size_t count = 0;
};

/// The fence without these corners, which are its own. Holes that keep fewer than three go as a whole.
/// @throws Fault  the outline of a polygon would keep fewer than three, or the line of a corridor fewer than two.
model::Fence withoutCorners(model::Fence fence, std::span<const Corner> corners);

/// The fence with other corners in place of the run; of a whole ring a last corner that repeats the first is left out.
/// Longitudes are made to run on from the corner before, or of a whole line from the corner that began it.
/// @throws Fault  the line would keep too few corners, or is not there any more.
model::Fence withRunReplaced(model::Fence fence, const CornerRun& run, model::LineString places);

} // namespace fencewright::desktop
