#pragma once

#include "model/position.h"

#include <vector>

namespace fencewright::model {

/// A closed line. The last corner is joined to the first; it does not repeat it.
struct Ring {
    std::vector<Position> corners;
    /// The source left the ring open, and the closing edge is our assumption: true until a person has looked at it.
    bool closureAssumed = false;

    bool operator==(const Ring&) const = default;
};

/// A surface: one shell and the holes in it. The winding is of no meaning; writers set it.
struct Polygon {
    Ring shell;
    std::vector<Ring> holes;

    bool operator==(const Polygon&) const = default;
};

/// Several surfaces taken together: the result of a computation, or a parcel of several parts. May be empty.
struct MultiPolygon {
    std::vector<Polygon> parts;

    [[nodiscard]] bool empty() const { return parts.empty(); }
    bool operator==(const MultiPolygon&) const = default;
};

} // namespace fencewright::model
