#pragma once

#include "model/date.h"

#include <optional>

namespace fencewright::model {

/// The same days of every year, both ends included. May run over the turn of the year (15 October to 31 July).
struct Season {
    YearDay from = std::chrono::January / 1;
    YearDay to = std::chrono::December / 31;

    bool operator==(const Season&) const = default;
};

/// When a fence applies: on days between two dates (both included; either may be open) and in the season, if any.
/// Without any of them: always.
struct ActivePeriod {
    std::optional<Date> from;
    std::optional<Date> until;
    std::optional<Season> season;

    bool operator==(const ActivePeriod&) const = default;
};

} // namespace fencewright::model
