#pragma once

#include "geometry/side.h"
#include "model/polygon.h"
#include "units/area.h"
#include "units/length.h"

#include <cstddef>

namespace fencewright::geometry {

/// A surface with fewer corners or digits, and what that cost.
struct Simplified {
    model::MultiPolygon surface;
    Area cost; ///< area added (Grow) or lost (Shrink)
};

/// Fewer corners: none where the boundary stays within `tolerance`. The result is valid.
/// Side: Grow: contains the input; Shrink: lies in it. Exactly: tested by contains() before it is returned.
[[nodiscard]] Simplified simplified(const model::MultiPolygon& surface, Length tolerance, Side side);

/// At most `corners` corners in all (holes included), with the least tolerance found that reaches it.
/// @throws Fault  under three per part cannot be reached: says how many are needed. Grow may fill holes and unite
/// parts; Shrink may drop parts.
[[nodiscard]] Simplified withinBudget(const model::MultiPolygon& surface, std::size_t corners, Side side);

/// All coordinates rounded to `decimals` decimals of a degree, the safe side out: a vertex moves only outward (Grow) or
/// inward (Shrink), by no more than two units of the last decimal (acute corners somewhat more).
/// The result is valid, exact in the given decimals (each coordinate is the double nearest to its decimal text), and
/// contains (lies in) the input by contains(). @param decimals  4 to 12.
/// @throws Fault  Shrink leaves nothing, or the side cannot be kept at so few decimals.
[[nodiscard]] Simplified rounded(const model::MultiPolygon& surface, int decimals, Side side);

[[nodiscard]] std::size_t cornerCount(const model::MultiPolygon& surface);

} // namespace fencewright::geometry
