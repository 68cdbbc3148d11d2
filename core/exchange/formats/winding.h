#pragma once

#include "model/polygon.h"

namespace fencewright::exchange {

enum class Winding { CounterClockwise, Clockwise };

/// The ring in the given winding, as seen from above with east to the right; starts with the same corner.
[[nodiscard]] model::Ring wound(model::Ring ring, Winding winding);

} // namespace fencewright::exchange
