#pragma once

#include <cstdint>
#include <string>

namespace fencewright::store {

/// Which program wrote something, in a way that no later program with the same number is taken for it.
struct RunningProgram {
    std::string machine;
    std::string boot; ///< a new one each time the machine starts
    std::int64_t number = 0;
    std::int64_t started = 0; ///< ticks since the machine started

    [[nodiscard]] static RunningProgram thisOne();
    /// One on another machine, over a shared folder, may run for all that can be seen from here.
    [[nodiscard]] bool mayBeRunning() const;
};

} // namespace fencewright::store
