#pragma once

#include "units/angle.h"

#include <QString>

#include <optional>
#include <string_view>

namespace fencewright::desktop {

/// "30 right", "15.5° left": clockwise is positive. Nothing where it is no turn.
std::optional<Angle> parseTurn(std::string_view text);
/// "x 1.5", "1.5 x", "150 %". Nothing where it is no factor.
std::optional<double> parseFactor(std::string_view text);

/// "30.0° right".
QString turnedWords(Angle clockwise);
/// "× 1.500".
QString scaledWords(double factor);

} // namespace fencewright::desktop
