#include "units/number_notation.h"

#include <charconv>
#include <cmath>
#include <system_error>

namespace fencewright::units {

std::string fixed(double value, int decimals) {
    // A double has at most 309 digits before the point.
    char digits[400];
    const auto [end, error] = std::to_chars(digits, digits + sizeof digits, value, std::chars_format::fixed, decimals);
    if (error != std::errc{})
        return "?";
    std::string text{digits, end};
    if (text.starts_with('-') && text.find_first_of("123456789") == std::string::npos && std::isfinite(value))
        text.erase(0, 1);
    return text;
}

std::string shortest(double value) {
    char digits[400];
    const auto [end, error] = std::to_chars(digits, digits + sizeof digits, value);
    return error == std::errc{} ? std::string{digits, end} : std::string{"?"};
}

std::optional<double> parseNumber(std::string_view text) {
    if (text.starts_with('+'))
        text.remove_prefix(1);
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value))
        return std::nullopt;
    return value;
}

} // namespace fencewright::units
