#pragma once

#include "model/polygon.h"
#include "units/length.h"

#include <span>

namespace fencewright::geometry {

// Set operations on surfaces. Edges are straight in longitude and latitude, and so is the plane in which these work:
// nothing is projected. Surfaces whose longitudes lie a turn apart are brought together first. Input that is not valid
// is read by the even-odd rule; a caller who knows the safe side repairs first (see validity.h). Results are valid,
// without slivers under `kSliverWidthDegrees`, shells counter-clockwise.
// Side: `exact` to rounding: crossing points are rounded to doubles. Where edges lie within 1e-10 degrees of one
// another without meeting in corners, all corners of the result, given ones too, are rounded to 1e-12 degrees (6e-8 m;
// decimal coordinates of up to twelve digits after the point stay as they are), so that an edge may lie that much off.
// Where the side matters to the last digit, prove it with contains() and mend it with geometry/simplify.h.
// @throws Fault  a coordinate is not finite, the surface is too intricate, or the topology defeats the library: names
// the operation and a place.

/// Pieces thinner than this (about a micrometre) are rounding, not surface, and are left out of results.
inline constexpr double kSliverWidthDegrees = 1e-11;

[[nodiscard]] model::MultiPolygon united(std::span<const model::MultiPolygon> surfaces);
[[nodiscard]] model::MultiPolygon difference(const model::MultiPolygon& surface, const model::MultiPolygon& removed);
[[nodiscard]] model::MultiPolygon intersection(const model::MultiPolygon& a, const model::MultiPolygon& b);

struct ClosedUnion {
    model::MultiPolygon surface;
    model::MultiPolygon closedGaps; ///< what the closing added; show it: it is part of what is approved
};
/// The union with the gaps between its polygons closed that are up to `closing` wide, in true ground distance. Zero
/// closes nothing. What is added is the morphological closing by a disc of radius `closing` / 2, as far as it closes
/// gaps: a piece is kept where at least two of the given polygons bound it, and it either lies between them (open at
/// both ends, or closed all round) or runs in between them as a narrowing wedge. The rounding of open corners is left
/// out, and so are narrow places of a single polygon, which are part of the land as it is. Side: the added pieces lie
/// in the exact closing (`shrinks`), by the error of grown() and eroded(): a gap wider than 0.998 `closing` - 4 mm may
/// stay.
/// @throws Fault  as grown().
[[nodiscard]] ClosedUnion unitedClosing(std::span<const model::MultiPolygon> surfaces, Length closing);

/// Cut at the antimeridian, each part with longitudes in [-180, 180].
[[nodiscard]] model::MultiPolygon cutAtAntimeridian(const model::MultiPolygon& surface);

} // namespace fencewright::geometry
