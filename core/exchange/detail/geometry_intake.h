#pragma once

#include "geodesy/local_frame.h"
#include "wording.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace fencewright::exchange::detail {

/// A ring or line in the coordinates of the file.
struct SourceLine {
    std::vector<geodesy::PlanePoint> corners; ///< of a ring: without the repeated last one
    bool leftOpen = false;                    ///< a ring whose last corner is not its first
};

/// A point, a line, or a surface (shell, then holes), in the coordinates of the file.
struct SourcePart {
    enum class Kind { Point, Line, Surface };
    Kind kind = Kind::Point;
    std::vector<SourceLine> lines;
};

/// A geometry taken apart, and what was seen on the way.
struct SourceGeometry {
    std::vector<SourcePart> parts;
    std::optional<double> lowestZ;
    std::optional<double> highestZ;
    std::size_t corners = 0;
    std::size_t openRings = 0;
    bool curved = false;          ///< arcs were replaced by chords
    std::vector<Wording> leftOut; ///< parts that were not taken, and why
};

/// What of the source's habits matters to its geometry.
struct IntakeRules {
    bool swapAxes = false;    ///< the data have the authority's order, northing or latitude first
    double chordBound = 0.01; ///< how far a chord may part from its arc, in units of the coordinates
    bool closedLinesAreSurfaces = false;
    std::size_t cornerLimit = 0;
};

/// @param geometry  an OGRGeometryH; stays the caller's.
/// Side: exact, but for arcs: their chords part from them by at most `chordBound`, to either side.
/// @throws Fault  more corners than the limit.
[[nodiscard]] SourceGeometry takeGeometry(void* geometry, const IntakeRules& rules);

} // namespace fencewright::exchange::detail
