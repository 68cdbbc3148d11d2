#pragma once

#include "geometry/spatial_index.h"

#include <cstdint>
#include <span>
#include <vector>

namespace fencewright::geometry {

/// The numbers of the boxes in the order of their middles along the Hilbert curve; empty boxes first, equals in the
/// order given. Many are sorted on two threads.
[[nodiscard]] std::vector<std::uint32_t> hilbertOrder(std::span<const Box> boxes);

} // namespace fencewright::geometry
