#pragma once

#include "geometry/spatial_index.h"
#include "model/fence_set.h"

namespace fencewright::bench {

/// Places of the bench's county near its middle, in a square of so many kilometres.
[[nodiscard]] geometry::Box countyBox(double kilometres);

/// Overlapping keep-outs with a keep-in around them all, of so many corners each, spread over the box; each about so
/// large a part of the box's width.
[[nodiscard]] model::FenceSet fences(int count, int cornersEach, const geometry::Box& box, double partOfWidth);

} // namespace fencewright::bench
