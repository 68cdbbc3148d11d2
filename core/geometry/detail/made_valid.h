#pragma once

#include "geometry/side.h"
#include "model/polygon.h"

namespace fencewright::geometry::detail {

/// The surface with its parts on one turn of longitude, and valid: as it is where it is valid already; else with parts
/// that are not repaired to that side, and parts united that overlap or share edges.
[[nodiscard]] model::MultiPolygon madeValid(const model::MultiPolygon& surface, Side side);

} // namespace fencewright::geometry::detail
