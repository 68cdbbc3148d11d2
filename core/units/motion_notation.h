#pragma once

#include "units/acceleration.h"
#include "units/measure_notation.h"
#include "units/speed.h"

#include <chrono>
#include <string>
#include <string_view>

namespace fencewright::units {

using Seconds = std::chrono::duration<double>;

// A number and a unit, as a person types them: "15 m/s", "54 km/h", "0,5 s". A single comma is a decimal one, but for
// "1,320", which may be a thousand and more, and is refused.
// @throws Fault  no number, not finite, negative, or a unit that is not known: says which, and shows an example.

/// Units: m/s, km/h, kn (kt, knots), mph, ft/s. Without a unit: m/s, or mph for `Us`.
[[nodiscard]] StatedSpeed parseSpeed(std::string_view text, System unitless);
/// Units: m/s² (m/s2, m/s^2), ft/s² (ft/s2, ft/s^2), g (standard gravity). Without a unit: m/s², or ft/s² for `Us`.
[[nodiscard]] StatedAcceleration parseAcceleration(std::string_view text, System unitless);
/// Units: s, ms, min. Without a unit: seconds.
[[nodiscard]] Seconds parseSeconds(std::string_view text);

// For fields: the shortest text that says it; it reads back as the same, in US units but for the rounding of a double.
[[nodiscard]] std::string formatSpeed(Speed speed, System system);
[[nodiscard]] std::string formatAcceleration(Acceleration acceleration, System system);
[[nodiscard]] std::string formatSeconds(Seconds seconds);

} // namespace fencewright::units
