#pragma once

#include "geometry/side.h"
#include "model/polygon.h"

namespace fencewright::geometry::detail {

/// The surface with its parts on one turn of longitude, each of them valid: as it is where it is valid already, else
/// repaired to that side. Parts may still overlap.
[[nodiscard]] model::MultiPolygon withValidParts(const model::MultiPolygon& surface, Side side);

/// Likewise, and with parts united that overlap or share edges: as set operations give it.
[[nodiscard]] model::MultiPolygon madeValid(const model::MultiPolygon& surface, Side side);

} // namespace fencewright::geometry::detail
