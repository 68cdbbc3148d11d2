#pragma once

#include "model/id.h"
#include "model/polygon.h"
#include "model/position.h"
#include "units/stated_length.h"

#include <string>
#include <variant>

namespace fencewright::model {

using SiteGeometry = std::variant<Position, LineString, Polygon>;

/// A point, line or area that a fence protects or a flight visits.
struct Site {
    SiteId id;
    std::string name;
    std::string category; ///< free text: "osprey nest", "school", "chlorine store"
    SiteGeometry geometry = Position{};
    /// How far the true place may lie from the stated one. Setbacks grow by it.
    StatedLength positionError;
    std::string positionSource; ///< how the place was found: "hand-held GNSS"
    bool confidential = false;  ///< place and name stay out of what is handed out
    std::string notes;
    bool locked = false; ///< no edit changes or removes it (see lock.h)

    bool operator==(const Site&) const = default;
};

} // namespace fencewright::model
