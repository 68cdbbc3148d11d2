#pragma once

#include "units/stated_length.h"

#include <optional>

namespace fencewright::model {

/// What a height is measured from. Mean sea level is the EGM96 geoid.
enum class HeightReference { Ground, MeanSeaLevel, Ellipsoid };

/// A height with its reference and the words it was given in ("400 ft").
struct HeightLimit {
    StatedLength value;
    HeightReference reference = HeightReference::Ground;

    bool operator==(const HeightLimit&) const = default;
};

/// The heights at which a fence applies. No floor: from the ground up. No ceiling: without an upper end.
struct HeightBand {
    std::optional<HeightLimit> floor;
    std::optional<HeightLimit> ceiling;

    bool operator==(const HeightBand&) const = default;
};

} // namespace fencewright::model
