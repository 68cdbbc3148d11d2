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

namespace {

/// Nothing: it cannot be told what a comma in it stands for.
std::optional<std::string> withoutCommas(std::string_view number) {
    std::string text{number};
    const auto comma = text.find(',');
    if (comma == std::string::npos)
        return text;
    const bool several = text.find(',', comma + 1) != std::string::npos;
    const auto point = text.find('.');
    const auto integerEnd = point == std::string::npos ? text.size() : point;
    bool groups = comma > 0 && comma <= 3;
    for (auto at = comma; at != std::string::npos && groups; at = text.find(',', at + 1)) {
        const auto next = text.find(',', at + 1);
        groups = (next == std::string::npos ? integerEnd : next) == at + 4;
    }
    if (groups && !several && point == std::string::npos && text[0] != '0')
        return std::nullopt;
    if (groups && (several || point != std::string::npos)) {
        std::erase(text, ',');
        return text;
    }
    if (!several && point == std::string::npos)
        text[comma] = '.';
    return text;
}

} // namespace

std::variant<double, Wording> readTypedNumber(std::string_view text) {
    const auto plain = withoutCommas(text);
    if (!plain)
        return phrase("core", "its comma can stand before thousands or before decimals. Leave it out, or type a "
                              "point before decimals.");
    if (const auto value = parseNumber(*plain))
        return *value;
    return phrase("core", "\"%1\" is not a number.")(std::string{text});
}

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kSpace = " \t\n\v\f\r";
    const std::size_t begin = text.find_first_not_of(kSpace);
    return begin == std::string_view::npos ? std::string_view{}
                                           : text.substr(begin, text.find_last_not_of(kSpace) - begin + 1);
}

std::string lowered(std::string_view text) {
    std::string result{text};
    for (char& c : result)
        if (c >= 'A' && c <= 'Z')
            c = static_cast<char>(c - 'A' + 'a');
    return result;
}

} // namespace fencewright::units
