#pragma once

#include "model/polygon.h"

namespace fencewright::geometry::detail {

/// Whether overlay in free floating point is safe on these polygons: no corner and no crossing of two edges lies nearer
/// than kSeparationDegrees to a third edge without being a corner of it. Rounding, some 1e-14 degrees at each step of
/// an overlay, then cannot move anything across anything, and the topology that the library works out is the true one.
[[nodiscard]] bool wellSeparated(const model::MultiPolygon& polygons);

inline constexpr double kSeparationDegrees = 1e-10;

} // namespace fencewright::geometry::detail
