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
    ClosureAssumed,   ///< the source left the ring open
    TooIntricate      ///< so many edges lie close together that the search for crossings was given up
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
/// Cost: O(n log n + k), a million corners in a second or two; k is the number of pairs of edges whose boxes meet.
/// After 1e8 of them the search ends with TooIntricate (some four seconds).
[[nodiscard]] std::vector<RingFault> faults(const model::Polygon& polygon, std::size_t limit = 20);

/// Whether overlay can take it as it is: no faults but repeated corners or assumed closures.
/// Side: `exact`.
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
/// Both to the rounding of overlay (1e-12 degrees); pieces under kSliverWidthDegrees are left out.
/// @throws Fault  a coordinate is not finite, or the rings are too intricate to examine.
[[nodiscard]] Repaired repaired(const model::Polygon& polygon, Side side);

} // namespace fencewright::geometry
