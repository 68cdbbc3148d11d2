#pragma once

#include "wording.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace fencewright::units {

/// A number with `decimals` digits after the point, independent of the locale; no "-0".
[[nodiscard]] std::string fixed(double value, int decimals);

/// The shortest text that reads back as exactly the same double.
[[nodiscard]] std::string shortest(double value);

/// Reads a whole text as one finite decimal number with a point, independent of the locale; nothing where it is not
/// one.
[[nodiscard]] std::optional<double> parseNumber(std::string_view text);

/// Reads a whole text as one finite decimal number as people type it: commas before groups of three vanish, a lone one
/// before other digits, or behind a zero, is a decimal comma. "1,320" is a thousand and more to one person and one and
/// a bit to another, and neither is guessed.
/// @returns the number, or why it cannot be read.
[[nodiscard]] std::variant<double, Wording> readTypedNumber(std::string_view text);

/// Without the white space at its ends, as of ASCII; the locale has no say.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// With its ASCII letters small, and every other byte as it is: a locale of single bytes would spoil "m/s²".
[[nodiscard]] std::string lowered(std::string_view text);

} // namespace fencewright::units
