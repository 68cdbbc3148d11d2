#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace fencewright::model {

/// A day of the calendar where the operation takes place.
using Date = std::chrono::year_month_day;

/// A day of every year, such as 1 April. 29 February exists; in a common year it stands for no day.
using YearDay = std::chrono::month_day;

/// "2026-05-14" (ISO 8601).
[[nodiscard]] std::string isoDate(Date date);
/// Reads "2026-05-14"; nothing where it is not a date that exists.
[[nodiscard]] std::optional<Date> parseIsoDate(std::string_view text);
/// "04-01": month and day.
[[nodiscard]] std::string isoYearDay(YearDay day);
/// Reads "04-01"; nothing where no year has that day, such as 31 September.
[[nodiscard]] std::optional<YearDay> parseIsoYearDay(std::string_view text);

} // namespace fencewright::model
