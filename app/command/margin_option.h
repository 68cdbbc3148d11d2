#pragma once

#include "model/margin.h"

#include <string>

namespace fencewright::command {

/// Reads "error 3 m; speed 15 m/s; reaction 1 s; deceleration 4 m/s2; allowance 2 m; basis Manual, edition 3". The
/// allowance may be left out; without a unit a figure is metric.
/// @throws UsageFault  a part is missing, is given twice, is not known, or cannot be read; or it never stops.
[[nodiscard]] model::Margin parseMargin(const std::string& text);

} // namespace fencewright::command
