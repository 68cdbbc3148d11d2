#pragma once

#include "model/position.h"

#include <algorithm>
#include <vector>

namespace fencewright::geometry::detail {

/// Takes out of a ring the corners that repeat the one before, the last before the first.
inline void dropRepeats(std::vector<model::Position>& corners) {
    corners.erase(std::unique(corners.begin(), corners.end()), corners.end());
    while (corners.size() > 1 && corners.front() == corners.back())
        corners.pop_back();
}

} // namespace fencewright::geometry::detail
