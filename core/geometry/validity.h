#pragma once

#include "geometry/side.h"
#include "model/polygon.h"
#include "units/area.h"
#include "units/length.h"

#include <string>
#include <vector>

namespace fencewright::geometry {

enum class FaultKind {
    TooFewCorners,      ///< under three different corners
    NotFinite,          ///< a coordinate is not a number
    RepeatedCorner,     ///< two neighbouring corners are the same
    SelfCrossing,       ///< the ring crosses or runs along itself
    SelfTouching,       ///< the ring touches itself in a corner
    Spike,              ///< the ring runs out and back along the same line
    HoleOutside,        ///< a hole is not inside the shell, or crosses it
    HolesNested,        ///< holes overlap or lie in one another
    InteriorInPieces,   ///< holes and shell cut the inside into pieces
    ClosureAssumed      ///< the source left the ring open
};

/// What is wrong with a polygon, and where. Ring 0 is the shell, 1 the first hole.
struct RingFault {
    FaultKind kind;
    model::Position place;
    std::size_t ring = 0;
};

/// All faults, in the order of the rings. Validity as in OGC 06-103r4 (ISO 19125-1) 6.1.11, planar in lon/lat; repeated
/// corners, spikes and assumed closures are reported besides. At most `limit` faults per ring.
[[nodiscard]] std::vector<RingFault> faults(const model::Polygon& polygon, std::size_t limit = 20);

/// Whether overlay can take it as it is: no faults but repeated corners or assumed closures.
[[nodiscard]] bool isValid(const model::Polygon& polygon);

struct Repaired {
    model::MultiPolygon surface;
    Area added;   ///< area that was not enclosed before (even-odd reading)
    Area removed; ///< area that was
};
/// A valid surface with the same corners where possible.
/// Side Grow: every place that any reading of the rings encloses (crossed lobes, holes outside: kept closed).
/// Side Shrink: only places enclosed under every reading.
[[nodiscard]] Repaired repaired(const model::Polygon& polygon, Side side);

} // namespace fencewright::geometry
