#pragma once

#include "geometry/detail/contour.h"
#include "model/polygon.h"
#include "model/position.h"
#include "units/area.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

// The union of some surfaces less the union of others, by the stretches of their boundaries that bound it. A stretch
// rests on its own contour and those that overlap it alone, so that a contour that changes leaves all others as they
// were. Nothing is decided by a computed place: which edges cross, and what begins in what, comes from exact
// predicates, and where rounding could change the order of crossings, the contours clash and are refused.

namespace fencewright::geometry::detail {

/// What bounds the result, which lies on the left: a ring, or a line from where another boundary crosses to where
/// another one does.
struct Stretch {
    model::LineString corners;
    bool closed = false;
    double areaBelow = 0.0; ///< as geodesy::areaToEquator(); in a plane, to its x axis
    bool touches = false;   ///< passes a corner where the contour touches itself
};

/// A contour that overlaps another one.
struct Neighbour {
    const Contour* contour;
    bool removed;
    const Meeting* meeting; ///< of the two; no clash
    bool isFirst;           ///< in the meeting
};

struct Stretches {
    std::vector<Stretch> all; ///< in the order of the contour's edges
    /// Of neighbours with which it clashes, for there something else comes as near to a crossing as rounding reaches.
    std::vector<std::uint64_t> clashing;
};
/// @param removed  whether the contour is taken off.
[[nodiscard]] Stretches stretchesOf(const Contour& contour, bool removed, std::span<const Neighbour> neighbours);

struct Joined {
    model::MultiPolygon surface; ///< shells counter-clockwise, holes clockwise
    std::vector<Area> areas;     ///< of its parts
};
/// The surface that they bound. Nothing where they do not join up, which rings from stretchesOf() of all contours do.
[[nodiscard]] std::optional<Joined> joined(std::span<const Stretch* const> stretches);

} // namespace fencewright::geometry::detail
