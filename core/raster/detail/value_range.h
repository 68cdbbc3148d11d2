#pragma once

#include <vector>

namespace fencewright::raster::detail {

/// How the values of a band are spread.
struct ValueRange {
    double darkest = 0, lightest = 1;
    double low = 0, high = 1; ///< the 2nd and the 98th percentile; `high` is the larger
};
/// @param values  of any order; without those that stand for nothing. Nothing at all: 0 to 1.
[[nodiscard]] ValueRange rangeOf(std::vector<float> values);

} // namespace fencewright::raster::detail
