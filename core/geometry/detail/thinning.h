#pragma once

#include "geometry/side.h"
#include "model/polygon.h"

#include <cstddef>

namespace fencewright::geometry::detail {

/// Takes corners out of a valid surface, the cheapest first, so that every step moves the boundary to one side only:
/// a corner that bends inward is left out, or an edge between two that bend outward is replaced by the point where its
/// neighbours meet (Grow; Shrink the other way round). No step makes rings cross or touch. The boundary is nowhere
/// farther from where it was than the largest deviation that was paid.
///
/// Source of the one-sided steps: common practice in polygon simplification; no published source was followed.
struct Thinning {
    double largestDeviation = 0.0; ///< metres; no step that costs more is taken
    std::size_t corners = 0;       ///< enough: stops there
    bool mayDropRings = false;     ///< Grow: fill holes; Shrink: drop parts, but for the last
};
[[nodiscard]] model::MultiPolygon thinned(const model::MultiPolygon& surface, const Thinning& thinning, Side side);

} // namespace fencewright::geometry::detail
