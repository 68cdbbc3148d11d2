#include "reference/detail/packed_corners.h"

#include <algorithm>
#include <limits>

namespace fencewright::reference::detail {

CornerBlock pack(std::span<const model::Position> corners, std::string& bytes) {
    static_assert(sizeof(model::Position) == 2 * sizeof(double));
    CornerBlock block;
    const std::uint64_t begin = bytes.size();
    constexpr std::uint64_t most = std::numeric_limits<std::uint64_t>::max();
    std::uint64_t lowLon = most, highLon = 0, lowLat = most, highLat = 0;
    for (const model::Position& corner : corners) {
        const std::uint64_t lon = asWhole(corner.lon), lat = asWhole(corner.lat);
        lowLon = std::min(lowLon, lon);
        highLon = std::max(highLon, lon);
        lowLat = std::min(lowLat, lat);
        highLat = std::max(highLat, lat);
    }
    const auto lonBits = corners.empty() ? 0U : static_cast<unsigned>(std::bit_width(highLon - lowLon));
    const auto latBits = corners.empty() ? 0U : static_cast<unsigned>(std::bit_width(highLat - lowLat));
    if (lonBits > kMostBits || latBits > kMostBits) {
        block.place = begin << 16 | 64U << 8 | 64U;
        bytes.append(reinterpret_cast<const char*>(corners.data()), corners.size_bytes());
        return block;
    }
    block = {corners.empty() ? 0 : lowLon, corners.empty() ? 0 : lowLat, begin << 16 | lonBits << 8 | latBits};
    bytes.resize(begin + block.bytes(corners.size()) + sizeof(std::uint64_t));
    char* at = bytes.data() + begin;
    std::uint64_t waiting = 0;
    unsigned waitingBits = 0; // fewer than eight before each number
    const auto put = [&](std::uint64_t number, unsigned bits) {
        waiting |= number << waitingBits;
        waitingBits += bits;
        std::memcpy(at, &waiting, sizeof waiting);
        at += waitingBits / 8;
        waiting >>= waitingBits / 8 * 8;
        waitingBits %= 8;
    };
    for (const model::Position& corner : corners) {
        put(asWhole(corner.lon) - lowLon, lonBits);
        put(asWhole(corner.lat) - lowLat, latBits);
    }
    bytes.resize(begin + block.bytes(corners.size()));
    return block;
}

} // namespace fencewright::reference::detail
