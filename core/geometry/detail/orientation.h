#pragma once

#include "model/position.h"

#include <algorithm>

namespace fencewright::geometry::detail {

/// On which side of the line from `a` to `b` the place `c` lies: 1 left, -1 right, 0 on the line. Exact for all doubles
/// whose products do not underflow (differences over 1e-140 degrees).
/// Source: Shewchuk, "Adaptive Precision Floating-Point Arithmetic and Fast Robust Geometric Predicates", Discrete &
/// Computational Geometry 18 (1997) 305-363.
[[nodiscard]] int orientation(model::Position a, model::Position b, model::Position c);

/// Whether a place known to lie on the line through `a` and `b` lies between them, ends included.
[[nodiscard]] inline bool between(model::Position a, model::Position b, model::Position onLine) {
    return onLine.lon >= std::min(a.lon, b.lon) && onLine.lon <= std::max(a.lon, b.lon) &&
           onLine.lat >= std::min(a.lat, b.lat) && onLine.lat <= std::max(a.lat, b.lat);
}

/// Whether the place lies on the edge, ends included. Exact.
[[nodiscard]] inline bool onEdge(model::Position a, model::Position b, model::Position place) {
    return between(a, b, place) && orientation(a, b, place) == 0;
}

/// Orders directions as seen from `centre`, counter-clockwise from due east: negative, zero or positive. Exact.
[[nodiscard]] int compareDirections(model::Position centre, model::Position towardsA, model::Position towardsB);

} // namespace fencewright::geometry::detail
