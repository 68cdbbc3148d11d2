#pragma once

#include "geometry/detail/exact_surface.h"

#include <array>
#include <functional>

namespace fencewright::geometry::detail {

/// Whether there is a region, however small, whose places lie in the three surfaces as `sought` says: one yes or no for
/// each surface. Never sought may be what lies outside all of them. Places of boundaries alone do not count.
///
/// Exact for the given coordinates, also where boundaries cross in places that no double can write down.
[[nodiscard]] bool anyRegion(const std::array<const ExactSurface*, 3>& surfaces,
                             const std::function<bool(const std::array<bool, 3>&)>& sought);

} // namespace fencewright::geometry::detail
