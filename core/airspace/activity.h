#pragma once

#include "geodesy/vertical_reference.h"
#include "model/active_period.h"
#include "model/date.h"
#include "model/fence.h"
#include "model/height_band.h"

#include <optional>

namespace fencewright::airspace {

/// The day and the height that a question is about. No height: at any height.
struct Moment {
    model::Date date;
    std::optional<model::HeightLimit> height;

    bool operator==(const Moment&) const = default;
};

/// Whether the season holds on that day, both ends included, over the turn of the year where `from` is after `to`.
/// A season that ends on 29 February holds on 28 February of a common year as its last day.
[[nodiscard]] bool inSeason(const model::Season& season, model::Date date);
/// Whether the period holds on that day.
[[nodiscard]] bool inPeriod(const model::ActivePeriod& period, model::Date date);

/// Whether the band and the height meet. Heights with different references are compared above the ellipsoid at `place`;
/// where the ground is needed and not known, the answer is the safe one: a keep-out meets, a keep-in does not. Without
/// a height: a keep-out meets always; a keep-in always too (its band is then no reason to forbid or permit).
[[nodiscard]] bool meetsHeight(const model::Fence& fence, const std::optional<model::HeightLimit>& height,
                               model::Position place, const geodesy::GroundHeight& ground);

/// Enabled, in its period, and meeting the height.
[[nodiscard]] bool isActive(const model::Fence& fence, const Moment& moment, model::Position place,
                            const geodesy::GroundHeight& ground);

/// The first day after `date` on which the period begins or ceases to hold; nothing if within two years it does not.
[[nodiscard]] std::optional<model::Date> nextChange(const model::ActivePeriod& period, model::Date date);

} // namespace fencewright::airspace
