#pragma once

#include "units/area.h"
#include "units/length.h"
#include "units/stated_length.h"

#include <string>
#include <string_view>

namespace fencewright::units {

/// Which units a person reads.
enum class System { Metric, Us };

/// Reads a length: a number and a unit, "402.336 m", "1,320.5 ft", "1/4 mi", "1 1/2 nmi", "0,5 km", "20 ch", "100
/// ftUS".
///
/// Units: m, km, ft (also ' and feet), ftUS, yd, ch, mi, nmi (also NM), each also written out. A number without a unit
/// takes `unitless`. Fractions are exact: 1/3 mi is 536.448 m. Commas group
/// thousands where a decimal point or another group follows; a single comma is a decimal comma, but for "1,320", which
/// can be either and is refused.
/// @throws Fault  not a length, not finite, or a fraction over zero: says which part and shows an example.
[[nodiscard]] StatedLength parseLength(std::string_view text, System unitless);

/// Metric: "402.3 m", "1.21 km" from 1000 m up. Us: "656 ft", "1.25 mi" from 1 mi up.
/// Side: `exact` to the digits shown; for reading only, never for computing.
[[nodiscard]] std::string formatLength(Length length, System system);

/// Like formatLength, but short lengths keep millimetres: "402.336 m", "1320.000 ft". For fields a person edits.
[[nodiscard]] std::string formatLengthExact(Length length, System system);

/// Metric: "0.6 m²", "61.4 ha", "12.31 km²". Us: "6.5 ft²", "125.7 ac", "3.93 mi²".
[[nodiscard]] std::string formatArea(Area area, System system);

} // namespace fencewright::units
