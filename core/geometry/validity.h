#pragma once

#include "geometry/side.h"
#include "model/polygon.h"
#include "units/area.h"
#include "units/length.h"

#include <string>
#include <vector>

namespace fencewright::geometry {

enum class FaultKind {
    TooFewCorners,    ///< under three different corners
    NotFinite,        ///< a coordinate is not a number
    RepeatedCorner,   ///< two neighbouring corners are the same
    SelfCrossing,     ///< the ring crosses or runs along itself
    SelfTouching,     ///< the ring touches itself in a corner
    Spike,            ///< the ring runs out and back along the same line
    HoleOutside,      ///< a hole is not inside the shell, or crosses it
    HolesNested,      ///< holes overlap or lie in one another
    InteriorInPieces, ///< holes and shell cut the inside into pieces
    ClosureAssumed    ///< the source left the ring open
};

/// What is wrong with a polygon, and where. Ring 0 is the shell, 1 the first hole.
struct RingFault {
    FaultKind kind;
    model::Position place;
    std::size_t ring = 0;
};

/// All faults, in the order of the rings. Validity as in OGC 06-103r4 (ISO 19125-1) 6.1.11, planar in lon/lat; repeated
/// corners, spikes and assumed closures are reported besides. At most `limit` faults per ring. Exact for the given
/// coordinates; the place of a crossing is rounded.
/// Cost: O(n log n + k); a million corners take a second or two. After 2e8 pairs of edges whose boxes meet (a hostile
/// ring) the search ends with what it has found.
[[nodiscard]] std::vector<RingFault> faults(const model::Polygon& polygon, std::size_t limit = 20);

/// Whether overlay can take it as it is: no faults but repeated corners or assumed closures.
[[nodiscard]] bool isValid(const model::Polygon& polygon);

struct Repaired {
    model::MultiPolygon surface;
    Area added;   ///< area that was not enclosed before (even-odd reading)
    Area removed; ///< area that was
};
/// A valid surface with the same corners where possible.
///
/// Programs read a bad ring by the even-odd rule, by its winding (non-zero), or by its outermost line alone; and a hole
/// outside its shell as nothing or as surface.
/// Side Grow: every place that any of these readings encloses (crossed lobes, places wound round twice or not at all,
/// holes outside and holes in holes: kept closed). Side Shrink: only places enclosed under every one of them.
/// Both to the rounding of crossing points (under 1e-8 m); pieces under kSliverWidthDegrees are left out.
[[nodiscard]] Repaired repaired(const model::Polygon& polygon, Side side);

} // namespace fencewright::geometry
