#include "model/date.h"

#include <charconv>

namespace fencewright::model {
namespace {

std::string padded(int value, std::size_t width) {
    std::string digits = std::to_string(value);
    if (digits.size() < width)
        digits.insert(0, width - digits.size(), '0');
    return digits;
}

std::optional<int> wholeNumber(std::string_view text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || text.starts_with('-'))
        return std::nullopt;
    return value;
}

} // namespace

std::string isoYearDay(YearDay day) {
    return padded(static_cast<int>(static_cast<unsigned>(day.month())), 2) + "-" +
           padded(static_cast<int>(static_cast<unsigned>(day.day())), 2);
}

std::string isoDate(Date date) {
    return padded(static_cast<int>(date.year()), 4) + "-" + isoYearDay(date.month() / date.day());
}

std::optional<YearDay> parseIsoYearDay(std::string_view text) {
    if (text.size() != 5 || text[2] != '-')
        return std::nullopt;
    const auto month = wholeNumber(text.substr(0, 2));
    const auto day = wholeNumber(text.substr(3, 2));
    if (!month || !day)
        return std::nullopt;
    const YearDay result = std::chrono::month(static_cast<unsigned>(*month)) / *day;
    return result.ok() ? std::optional{result} : std::nullopt;
}

std::optional<Date> parseIsoDate(std::string_view text) {
    if (text.size() != 10 || text[4] != '-')
        return std::nullopt;
    const auto year = wholeNumber(text.substr(0, 4));
    const auto day = parseIsoYearDay(text.substr(5));
    if (!year || !day)
        return std::nullopt;
    const Date result = std::chrono::year(*year) / day->month() / day->day();
    return result.ok() ? std::optional{result} : std::nullopt;
}

} // namespace fencewright::model
