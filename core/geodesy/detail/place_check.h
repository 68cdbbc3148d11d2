#pragma once

#include "model/position.h"

// Private to the module.
namespace fencewright::geodesy {

/// @throws Fault  a coordinate is not finite, or the latitude is beyond 90: says which.
void requirePlace(model::Position position);

} // namespace fencewright::geodesy
