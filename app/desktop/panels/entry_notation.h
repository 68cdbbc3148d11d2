#pragma once

#include <QString>

#include "model/active_period.h"
#include "model/height_band.h"
#include "units/measure_notation.h"

#include <optional>

namespace fencewright::desktop {

// How values stand in the fields of the forms, and how what a person types is read. Empty text is no value.

/// "14 May 2026".
[[nodiscard]] QString dateWords(model::Date date);
/// "2026-05-14".
[[nodiscard]] QString dateText(const std::optional<model::Date>& date);
/// Reads "2026-05-14" and "14 May 2026".
/// @throws Fault  no such day.
[[nodiscard]] std::optional<model::Date> dateFrom(const QString& text);

/// "1 Apr – 31 Aug"; empty: the whole year.
[[nodiscard]] QString seasonText(const std::optional<model::Season>& season);
/// Reads "1 Apr – 31 Aug", "April 1 to August 31", "04-01 to 08-31".
/// @throws Fault  not two days of the year.
[[nodiscard]] std::optional<model::Season> seasonFrom(const QString& text);

/// As it was written; where it was drawn, to the millimetre.
[[nodiscard]] QString lengthText(const StatedLength& length, units::System system);
/// The same in the other units: "402.336 m" beside "1/4 mi".
[[nodiscard]] QString lengthAside(const StatedLength& length, units::System system);
enum class LengthRange { Positive, NotNegative, Any };
/// @throws Fault  not a length, or out of the range.
[[nodiscard]] StatedLength lengthFrom(const QString& text, units::System system, LengthRange range);

/// "0–120 m", "from 60 m", "all heights".
[[nodiscard]] QString bandText(const model::HeightBand& band);

} // namespace fencewright::desktop
