#pragma once

#include "geometry/side.h"
#include "model/fence_set.h"
#include "model/polygon.h"

namespace fencewright::airspace {

/// The side to which a fence's approximations err: keep-outs grow, keep-ins shrink.
[[nodiscard]] geometry::Side safeSide(model::FenceKind kind);

/// The surface that a fence encloses, the safe side out.
///
/// A drawn polygon is taken as it is where it is valid, else repaired to the safe side. Circles, corridors and setbacks
/// are offsets (see geometry/offset.h): at most 0.1 % plus 2 mm off the true distance, to the safe side only. A setback
/// reaches its distance plus the site's position error; of a keep-in, its distance less the error. A setback whose site
/// is gone, and any shape without extent, gives an empty surface: the audit reports it.
/// Side: `grows` for keep-outs, `shrinks` for keep-ins.
/// @throws Fault  coordinates that cannot be computed with (not finite, beyond 89 degrees): names the fence.
[[nodiscard]] model::MultiPolygon outline(const model::Fence& fence, const model::Roster<model::Site>& sites);

/// The gaps that a union of parcels closes, for showing; empty for other shapes.
[[nodiscard]] model::MultiPolygon closedGaps(const model::Fence& fence);

} // namespace fencewright::airspace
