#pragma once

#include "geometry/spatial_index.h"
#include "model/position.h"

#include <bit>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <span>

// Corners in fewer bits, without loss. Read as whole numbers in ascending order, the doubles of neighbouring places lie
// close together: in each block of features they are kept as differences to the lowest, in as many bits as the
// largest needs. A parcel's corner takes ten bytes instead of sixteen.
namespace fencewright::reference::detail {

static_assert(std::endian::native == std::endian::little, "bits are read and written as little-endian words");

inline constexpr std::size_t kBlockFeatures = 16;
inline constexpr unsigned kMostBits = 56; ///< of one number; what needs more is kept in 64
/// So many bytes follow the last block: numbers are read in words of eight bytes.
inline constexpr std::size_t kSpareBytes = 8;

struct CornerBlock {
    std::uint64_t lon = 0, lat = 0; ///< the lowest, as whole numbers
    std::uint64_t place = 0;        ///< of its first byte, above 16 bits that say how many bits the numbers have

    [[nodiscard]] std::uint64_t begin() const { return place >> 16; }
    [[nodiscard]] unsigned lonBits() const { return static_cast<unsigned>(place >> 8) & 0xFFU; }
    [[nodiscard]] unsigned latBits() const { return static_cast<unsigned>(place) & 0xFFU; }
    [[nodiscard]] bool isRaw() const { return lonBits() == 64; }
    void beginAt(std::uint64_t byte) { place = byte << 16 | (place & 0xFFFFU); }
    [[nodiscard]] std::uint64_t bytes(std::uint64_t corners) const {
        return (corners * (lonBits() + latBits()) + 7) / 8;
    }
};

/// One to one, and in the order of the numbers.
[[nodiscard]] constexpr std::uint64_t asWhole(double number) {
    const auto bits = std::bit_cast<std::uint64_t>(number);
    constexpr std::uint64_t sign = std::uint64_t{1} << 63;
    return bits & sign ? ~bits : bits | sign;
}
[[nodiscard]] constexpr double asNumber(std::uint64_t whole) {
    constexpr std::uint64_t sign = std::uint64_t{1} << 63;
    return std::bit_cast<double>(whole & sign ? whole & ~sign : ~whole);
}
[[nodiscard]] constexpr std::uint64_t maskOf(unsigned bits) {
    return bits >= 64 ? ~std::uint64_t{0} : (std::uint64_t{1} << bits) - 1;
}

/// How so many corners within a box are kept; its begin is not yet known.
[[nodiscard]] CornerBlock blockOf(const geometry::Box& box, std::uint64_t corners);
/// Writes the corners of a block, all of them in the box that the block was made of.
/// Side: exact, bit for bit.
/// @param to  room for block.bytes() and kSpareBytes after them, which may be written to as well.
void pack(const CornerBlock& block, std::span<const model::Position> corners, char* to);

/// @param packed  the begin of all blocks.
/// @param first  counted from the begin of the block.
inline void unpack(const CornerBlock& block, const char* packed, std::uint64_t first, std::span<model::Position> to) {
    const char* at = packed + block.begin();
    if (block.isRaw()) {
        for (std::size_t i = 0; i < to.size(); ++i)
            std::memcpy(&to[i], at + (first + i) * sizeof(model::Position), sizeof(model::Position));
        return;
    }
    const unsigned lonBits = block.lonBits(), latBits = block.latBits();
    const std::uint64_t lonMask = maskOf(lonBits), latMask = maskOf(latBits);
    std::uint64_t bit = first * (lonBits + latBits);
    const auto next = [&](unsigned bits, std::uint64_t mask) {
        std::uint64_t word = 0;
        std::memcpy(&word, at + bit / 8, sizeof word);
        word = (word >> (bit % 8)) & mask;
        bit += bits;
        return word;
    };
    for (model::Position& corner : to) {
        corner.lon = asNumber(block.lon + next(lonBits, lonMask));
        corner.lat = asNumber(block.lat + next(latBits, latMask));
    }
}

} // namespace fencewright::reference::detail
