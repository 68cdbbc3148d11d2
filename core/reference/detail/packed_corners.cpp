#include "reference/detail/packed_corners.h"

namespace fencewright::reference::detail {

CornerBlock blockOf(const geometry::Box& box, std::uint64_t corners) {
    CornerBlock block;
    if (corners == 0)
        return block;
    // A box does not say of which sign its zero is.
    const auto lowest = [](double number) { return asWhole(number == 0.0 ? -0.0 : number); };
    const auto highest = [](double number) { return asWhole(number == 0.0 ? 0.0 : number); };
    const std::uint64_t lon = lowest(box.minX), lat = lowest(box.minY);
    const auto lonBits = static_cast<unsigned>(std::bit_width(highest(box.maxX) - lon));
    const auto latBits = static_cast<unsigned>(std::bit_width(highest(box.maxY) - lat));
    if (lonBits > kMostBits || latBits > kMostBits)
        block.place = 64U << 8 | 64U;
    else
        block = {lon, lat, std::uint64_t{lonBits << 8 | latBits}};
    return block;
}

void pack(const CornerBlock& block, std::span<const model::Position> corners, char* to) {
    static_assert(sizeof(model::Position) == 2 * sizeof(double));
    if (corners.empty())
        return;
    if (block.isRaw()) {
        std::memcpy(to, corners.data(), corners.size_bytes());
        return;
    }
    const unsigned lonBits = block.lonBits(), latBits = block.latBits();
    std::uint64_t waiting = 0;
    unsigned waitingBits = 0; // fewer than eight before each number
    const auto put = [&](std::uint64_t number, unsigned bits) {
        waiting |= number << waitingBits;
        waitingBits += bits;
        std::memcpy(to, &waiting, sizeof waiting);
        to += waitingBits / 8;
        waiting >>= waitingBits / 8 * 8;
        waitingBits %= 8;
    };
    for (const model::Position& corner : corners) {
        put(asWhole(corner.lon) - block.lon, lonBits);
        put(asWhole(corner.lat) - block.lat, latBits);
    }
}

} // namespace fencewright::reference::detail
