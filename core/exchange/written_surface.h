#pragma once

#include "geometry/side.h"
#include "model/polygon.h"
#include "model/position.h"
#include "units/area.h"
#include "units/length.h"

#include <cstddef>
#include <vector>

namespace fencewright::exchange {

/// How far the lon/lat edges of a delivered surface may part from geodesics, which other systems draw.
inline constexpr Length kLargestParting = Length::metres(0.1);

/// A surface as it goes into a file.
struct WrittenSurface {
    model::MultiPolygon surface;  ///< longitudes in [-180, 180], cut at the antimeridian, exact in its decimals
    Area cost;                    ///< area added (Grow) or lost (Shrink)
    std::size_t cornersAdded = 0; ///< on long edges
    bool longEdgesLeft = false;   ///< there was no room for those corners: the budget, or a narrow place
    bool overBudget = false;      ///< the antimeridian or the rounding took more corners than allowed
};

/// @param decimals  of a degree, 4 to 12.
/// @param budget    of corners; 0: none.
/// Side: Grow: contains the given surface; Shrink: lies in it, by contains().
/// @throws Fault  it cannot be done with so few decimals or corners.
[[nodiscard]] WrittenSurface writtenSurface(const model::MultiPolygon& surface, geometry::Side side, int decimals,
                                            std::size_t budget);

/// The line with coordinates rounded to the decimals, cut at the antimeridian, longitudes in [-180, 180].
[[nodiscard]] std::vector<model::LineString> writtenLines(const model::LineString& line, int decimals);

/// The place with the longitude in [-180, 180].
[[nodiscard]] model::Position writtenPlace(model::Position place);

} // namespace fencewright::exchange
