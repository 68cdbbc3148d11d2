#pragma once

#include <QString>

#include "model/position.h"
#include "units/angle.h"
#include "units/measure_notation.h"

#include <optional>
#include <string_view>

namespace fencewright::desktop {

/// One leg of a traverse: how far, and in which direction.
struct Leg {
    StatedLength length;
    std::optional<Angle> bearing; ///< none: where the pointer shows
};

/// Reads "120 m 45", "1/4 mi 274.5", "120 45" (the first in the person's unit), "120 ft"; and the courses of deeds,
/// "S 68°05'35\" W 472.68 ft" (see geometry/traverse.h).
/// @throws Fault  not a length, or the bearing is not in 0 to 360: shows an example.
Leg parseLeg(std::string_view text, units::System unitless);

/// Where the leg leads. @param towards  the direction where the leg has none.
model::Position endOf(const Leg& leg, const model::Position& from, const model::Position& towards);

/// `to`, moved onto the nearest bearing from `from` that is a multiple of 15 degrees.
model::Position onWholeBearing(const model::Position& from, const model::Position& to);

/// "123.4 m · 45.2°".
QString lengthAndBearing(const model::Position& from, const model::Position& to, units::System units);

} // namespace fencewright::desktop
