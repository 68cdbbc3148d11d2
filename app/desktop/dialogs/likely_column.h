#pragma once

#include <string>
#include <vector>

namespace fencewright::desktop {

// Where a list of columns is offered after a first entry "none": which one is likely meant.

[[nodiscard]] int likelyName(const std::vector<std::string>& fields);
[[nodiscard]] int likelyNumber(const std::vector<std::string>& fields);
/// Of a reference layer: its number, or else its name.
[[nodiscard]] int likelyLabel(const std::vector<std::string>& fields);

} // namespace fencewright::desktop
