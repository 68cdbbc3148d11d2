#pragma once

#include "desktop/tools/tool.h"

#include <utility>
#include <vector>

namespace fencewright::desktop {

/// Corners that are edited as one: of neighbours that share a boundary, where the person wants them to stay together.

/// The corner, and after it those of other drawn polygons and corridors that lie where it lies, to within 1 cm; it
/// alone where `scene.sharesCorners` is off.
std::vector<Corner> cornersTogether(const ToolScene& scene, const Corner& corner);
/// Before which corners one is to be inserted, so that it comes into the edge, and into the edges of neighbours whose
/// both ends lie where its ends lie: the given one first.
std::vector<Corner> insertionsTogether(const ToolScene& scene, const Corner& before);

/// Where each of some corners comes to lie.
using CornerPlaces = std::vector<std::pair<Corner, model::Position>>;

// The edits, of one step. `set` is where the corners were found.
// @throws Fault  a corner is not there any more, or too few would be left.
model::Edit cornersMoved(const model::FenceSet& set, const CornerPlaces& places, Wording title);
model::Edit cornersInserted(const model::FenceSet& set, std::vector<Corner> before, const model::Position& place,
                            Wording title);
model::Edit cornersRemoved(const model::FenceSet& set, std::vector<Corner> corners, Wording title);

} // namespace fencewright::desktop
