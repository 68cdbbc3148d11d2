#pragma once

#include "model/fence_set.h"

#include <random>

namespace fencewright::test {

/// What the random sets are for: what a document must keep, or what the earth allows.
enum class Numbers {
    Sensible, ///< places on the earth, sizes of fences
    Extreme   ///< any double that is a number: tiny, huge, infinite, minus zero
};

/// A set of up to `most` things of each kind that covers every shape, band, period and basis, names in many scripts,
/// and links from setbacks to sites, some of them to sites that are not there.
[[nodiscard]] model::FenceSet randomSet(std::mt19937_64& random, Numbers numbers, int most);

} // namespace fencewright::test
