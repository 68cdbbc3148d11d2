#pragma once

#include "units/angle.h"

#include <optional>
#include <string>
#include <string_view>

namespace fencewright::geodesy {

/// How a direction is written.
enum class BearingNotation {
    Azimuth, ///< 248°05′35″: clockwise from north
    Quadrant ///< S 68°05′35″ W: from north or south, up to 90° to the east or west
};

/// The direction as text, seconds with so many decimals (0 to 4); rounded, and never "60″".
[[nodiscard]] std::string formatBearing(Angle azimuth, BearingNotation notation, int secondDecimals = 0);

/// Reads a direction: "S 68°05'35\" W", "S68-05-35W", "N 45 55 20 E", "N 45.5 E", "due north", "248°05'35\"",
/// "248-05-35", "248.0931".
/// @return  the azimuth, in [0, 360).
/// @throws Fault  not a direction; a quadrant bearing over 90°, minutes or seconds of 60 or more: says which part and
/// shows the accepted forms.
[[nodiscard]] Angle parseBearing(std::string_view text);

/// Where the direction at the beginning of the text ends, and what it is; nothing where there is none.
struct LeadingBearing {
    Angle azimuth;
    std::size_t length = 0; ///< characters
};
/// @throws Fault  as parseBearing, where the text begins like a direction.
[[nodiscard]] std::optional<LeadingBearing> leadingBearing(std::string_view text);

/// Reads an angle without a direction: "30°15'20\"", "30-15-20", "30.25".
/// @throws Fault  as parseBearing.
[[nodiscard]] Angle parseAngle(std::string_view text);

} // namespace fencewright::geodesy
