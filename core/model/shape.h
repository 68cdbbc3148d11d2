#pragma once

#include "model/id.h"
#include "model/polygon.h"
#include "model/position.h"
#include "units/stated_length.h"

#include <string>
#include <variant>
#include <vector>

namespace fencewright::model {

/// Corners as drawn; its outline is the polygon itself.
struct DrawnPolygon {
    Polygon polygon;

    bool operator==(const DrawnPolygon&) const = default;
};

/// All places within `radius` of `centre` along the ground.
struct Circle {
    Position centre;
    StatedLength radius;

    bool operator==(const Circle&) const = default;
};

/// All places within `left` of the line on its left as one goes along it, and within `right` on its right, along the
/// ground. One of them may be zero. Where they are equal the ends are round; see geometry/offset.h for the ends
/// and bends of others.
struct Corridor {
    LineString line;
    StatedLength left;
    StatedLength right;

    bool operator==(const Corridor&) const = default;
};

/// All places within `distance` plus the site's position error of the site. Follows the site.
struct Setback {
    SiteId site;
    StatedLength distance;

    bool operator==(const Setback&) const = default;
};

/// A parcel as it was picked: a copy, so that a later change of the land record does not move an approved fence.
struct Parcel {
    std::string number; ///< of the land record; may be empty
    MultiPolygon surface;

    bool operator==(const Parcel&) const = default;
};

/// The parcels taken together. Gaps and overlaps between them up to `closing` wide are closed; zero: none are.
struct ParcelUnion {
    std::vector<Parcel> parcels;
    StatedLength closing;

    bool operator==(const ParcelUnion&) const = default;
};

/// A fence's shape as drawn. What it encloses is computed from it by airspace::outline.
using Shape = std::variant<DrawnPolygon, Circle, Corridor, Setback, ParcelUnion>;

} // namespace fencewright::model
