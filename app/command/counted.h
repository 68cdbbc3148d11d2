#pragma once

#include <cstddef>
#include <string>

namespace fencewright::command {

/// "1 site", "2 sites".
[[nodiscard]] inline std::string counted(std::size_t count, const std::string& one) {
    return std::to_string(count) + " " + one + (count == 1 ? "" : "s");
}

} // namespace fencewright::command
