#pragma once

#include <cstdint>
#include <vector>

namespace fencewright::bench {

/// Red, green and blue, eight bits each, rows from the top.
struct Picture {
    int side = 0;
    std::vector<std::uint8_t> pixels; ///< side * side * 3
};

/// Invented farmland: fields with furrows, tracks, woods, grain. Its right edge continues at its left, its lower at its
/// upper, so that it tiles without a seam.
[[nodiscard]] Picture farmland(int side);

/// Half as fine: the mean of four pixels each.
[[nodiscard]] Picture halved(const Picture& picture);
/// So many times as wide and high, by repetition.
[[nodiscard]] Picture repeated(const Picture& picture, int times);

} // namespace fencewright::bench
