#pragma once

#include "model/polygon.h"
#include "units/length.h"

#include <span>

namespace fencewright::geometry {

// Set operations on surfaces. Edges are straight in longitude and latitude, and so is the plane in which these work:
// nothing is projected. Surfaces whose longitudes lie a turn apart are brought together first. Input that is not valid
// is repaired first (see validity.h). Results are valid, without slivers under `kSliverWidth`, shells
// counter-clockwise. Side: `exact` to the rounding of crossing points to double (under 1e-8 m).
// @throws Fault  a coordinate is not finite, or the topology defeats the library: names the operation and a place.

/// Pieces thinner than this (about 1e-9 degrees) are rounding, not surface, and are left out of results.
inline constexpr double kSliverWidthDegrees = 1e-11;

[[nodiscard]] model::MultiPolygon united(std::span<const model::MultiPolygon> surfaces);
[[nodiscard]] model::MultiPolygon difference(const model::MultiPolygon& surface, const model::MultiPolygon& removed);
[[nodiscard]] model::MultiPolygon intersection(const model::MultiPolygon& a, const model::MultiPolygon& b);

struct ClosedUnion {
    model::MultiPolygon surface;
    model::MultiPolygon closedGaps; ///< what the closing added; show it: it is part of what is approved
};
/// The union with gaps up to `closing` wide closed, in true ground distance. Zero closes nothing. What is added reaches
/// at most `closing` / 2 beyond the surfaces, and joins corners that lie up to `closing` apart; no slivers are left.
/// Side: the added gap pieces are built inside the exact morphological closing (`shrinks`).
[[nodiscard]] ClosedUnion unitedClosing(std::span<const model::MultiPolygon> surfaces, Length closing);

/// Cut at the antimeridian, each part with longitudes in [-180, 180].
[[nodiscard]] model::MultiPolygon cutAtAntimeridian(const model::MultiPolygon& surface);

} // namespace fencewright::geometry
