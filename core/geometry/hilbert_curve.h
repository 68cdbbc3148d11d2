#pragma once

#include <cstdint>

namespace fencewright::geometry {

/// Place along the Hilbert curve of order 16: neighbours on it are neighbours in the plane.
/// @param x,y  below 65,536.
/// Source: the iterative conversion of Warren, "Hacker's Delight" (2nd ed. 2012), chapter 16, in its loop form.
[[nodiscard]] constexpr std::uint32_t hilbertPlace(std::uint32_t x, std::uint32_t y) {
    constexpr std::uint32_t side = 1u << 16;
    std::uint32_t place = 0;
    // Without branches: which way they go is anybody's guess, and a wrong one costs more than all that is reckoned
    // here.
    for (std::uint32_t s = side / 2; s > 0; s /= 2) {
        const std::uint32_t right = (x & s) ? 1u : 0u;
        const std::uint32_t upper = (y & s) ? 1u : 0u;
        place += s * s * ((3u * right) ^ upper);
        const std::uint32_t mirrored = (0u - (right & (upper ^ 1u))) & (side - 1);
        x ^= mirrored;
        y ^= mirrored;
        const std::uint32_t swapped = (x ^ y) & (upper - 1u);
        x ^= swapped;
        y ^= swapped;
    }
    return place;
}

} // namespace fencewright::geometry
