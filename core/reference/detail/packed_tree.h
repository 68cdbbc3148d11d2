#pragma once

#include "geometry/spatial_index.h"
#include "reference/detail/layer_form.h"

#include <cstdint>
#include <span>
#include <vector>

namespace fencewright::reference::detail {

/// The packed R-tree over the boxes in that order, level by level (see levelEnds).
/// Side: the boxes grow, by less than a step of a float each.
[[nodiscard]] std::vector<NodeBox> nodesOf(std::span<const geometry::Box> boxes, std::span<const std::uint32_t> order,
                                           double originX, double originY);

} // namespace fencewright::reference::detail
