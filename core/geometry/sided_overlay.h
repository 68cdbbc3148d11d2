#pragma once

#include "geometry/side.h"
#include "model/polygon.h"

#include <span>

namespace fencewright::geometry {

// Set operations whose rounding errs to one side only: for what a person approves by making it. As those of overlay.h,
// but the corners of what is given stay the very same numbers, and where edges cross the new corner is set to the side
// wanted.
// Side Grow: the result contains the exact union, difference or intersection. Shrink: it lies in it. Tested exactly
// before it is returned (no tolerance, no crossing point is rounded for the test); but for this: surfaces that are
// drawn along one another meet with gaps and overlaps of rounding, and these are not kept. A place may be on the wrong
// side only where it lies within kSeamDegrees of both boundaries: a closed seam between united surfaces, a lost sliver
// of a difference or an intersection.
// Input that is not valid is repaired first, to the side that serves the result.
// @throws Fault  as overlay.h; and where the side cannot be kept.

/// About three micrometres.
inline constexpr double kSeamDegrees = 3e-11;

[[nodiscard]] model::MultiPolygon united(std::span<const model::MultiPolygon> surfaces, Side side);
[[nodiscard]] model::MultiPolygon difference(const model::MultiPolygon& surface, const model::MultiPolygon& removed,
                                             Side side);
[[nodiscard]] model::MultiPolygon intersection(const model::MultiPolygon& a, const model::MultiPolygon& b, Side side);

} // namespace fencewright::geometry
