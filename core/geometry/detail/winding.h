#pragma once

#include "geometry/detail/minkowski.h"
#include "model/polygon.h"

#include <optional>

namespace fencewright::geometry::detail {

/// The places that a closed line in the plane winds round, which it may do to the left only, as a convolution does.
/// Nothing where the line comes so near to itself that rounding could change the order of its crossings, or winds round
/// anything to the right: then only an overlay on a grid can be trusted with it.
/// Side: `exact` but for the rounding of crossing points.
[[nodiscard]] std::optional<model::MultiPolygon> woundRound(const PlaneRing& line);

} // namespace fencewright::geometry::detail
