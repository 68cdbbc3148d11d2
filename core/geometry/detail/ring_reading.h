#pragma once

#include "geometry/detail/geos_context.h"
#include "model/polygon.h"

namespace fencewright::geometry::detail {

/// What a ring that may cross itself encloses. odd lies in filled.
struct RingReading {
    Geometry odd;    ///< places that the line goes round an odd number of times
    Geometry filled; ///< all places that cannot be left without crossing the line
};
[[nodiscard]] RingReading readingOf(GeosContext& context, const model::Ring& ring);

/// All rings of the polygon taken together by the even-odd rule.
[[nodiscard]] Geometry evenOddReading(GeosContext& context, const model::Polygon& polygon);

} // namespace fencewright::geometry::detail
