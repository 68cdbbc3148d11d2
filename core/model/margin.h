#pragma once

#include "units/acceleration.h"
#include "units/length.h"
#include "units/speed.h"
#include "units/stated_length.h"

#include <chrono>
#include <string>

namespace fencewright::model {

/// Why an aircraft has to turn back before a boundary, and not at it. One for the whole set: the worst of its flights.
struct Margin {
    StatedLength positionError;               ///< how far it may be from where it takes itself to be
    StatedSpeed speed;                        ///< the greatest over the ground, with the wind behind it
    std::chrono::duration<double> reaction{}; ///< from where it should have turned back until it brakes
    StatedAcceleration deceleration;          ///< the least with which it brakes
    StatedLength allowance;                   ///< for gusts, overshoot and whatever else is taken off
    std::string basis;                        ///< where the figures come from

    bool operator==(const Margin&) const = default;
};

/// What each figure of a margin comes to on the ground.
struct MarginDistances {
    Length positionError;
    Length reaction;
    Length braking;
    Length allowance;
    Length total;

    bool operator==(const MarginDistances&) const = default;
};

/// Position error + speed · reaction + speed² / (2 · deceleration) + allowance.
/// Side: `grows`: each operation is rounded up, and exact where it comes out even; at most 1e-15 of the result.
/// Source: motion under uniform deceleration, v² = 2 a d.
/// @throws Fault  a figure is negative or not finite, or there is a speed and nothing that brakes.
[[nodiscard]] MarginDistances distances(const Margin& margin);

} // namespace fencewright::model
