#pragma once

#include "reference/detail/packed_corners.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// How a layer file is laid out. It is a cache of one machine: numbers are in its own byte order, and a file of another
// order or version is made anew.
//
//   FileHead | key | geometry | attributes | checksummed to here
//   geometry: GeometryHead | about | nodes | first line of each feature | first corner of each line | kind of each line
//   |
//         file number of each feature | corner blocks | packed corners | lowest, highest z
//   attributes: AttributeHead | bytes of each column | about | columns
//
// The geometry comes first: a layer can be drawn while its attributes are still being read. Features are in Hilbert
// order, and so are the boxes of the lowest level of nodes: no list of items is needed. Column zero is the file's own
// identity of each feature. Sections begin at multiples of eight.
namespace fencewright::reference::detail {

inline constexpr std::array<char, 8> kMagic{'F', 'W', 'L', 'A', 'Y', 'E', 'R', '\n'};
inline constexpr std::uint32_t kOrderMark = 0x01020304;
inline constexpr std::uint32_t kVersion = 3;
inline constexpr std::size_t kNodeSize = 16;

struct FileHead {
    std::array<char, 8> magic = kMagic;
    std::uint32_t orderMark = kOrderMark;
    std::uint32_t version = kVersion;
    std::uint64_t keyBytes = 0;
    std::uint64_t bodyBytes = 0;
    std::uint64_t checksum = 0; ///< of key and body, both as long as they lie in the file
    std::uint64_t headChecksum = 0;
};

struct GeometryHead {
    std::uint64_t features = 0;
    std::uint64_t lines = 0;
    std::uint64_t corners = 0;
    std::uint64_t cornerBytes = 0; ///< of the packed corners
    std::uint64_t aboutBytes = 0;
    std::uint64_t hasHeights = 0;
    double originX = 0.0; ///< of the nodes' boxes
    double originY = 0.0;
};

struct AttributeHead {
    std::uint64_t columns = 0;
    std::uint64_t aboutBytes = 0;
};

/// A box of the index, from the origin of the layer; rounded outwards.
struct NodeBox {
    float minX, minY, maxX, maxY;
};

[[nodiscard]] constexpr std::uint64_t padded(std::uint64_t bytes) { return (bytes + 7) & ~std::uint64_t{7}; }

/// Where each level of nodes ends, the features' own boxes first, the root last.
[[nodiscard]] inline std::vector<std::size_t> levelEnds(std::size_t features) {
    std::vector<std::size_t> ends;
    std::size_t size = features, end = 0;
    while (true) {
        end += size;
        ends.push_back(end);
        if (size <= 1)
            return ends;
        size = (size + kNodeSize - 1) / kNodeSize;
    }
}

/// How many bytes the geometry takes that begins so; nothing where no file could hold them.
[[nodiscard]] inline std::optional<std::uint64_t> geometryBytes(const GeometryHead& head) {
    constexpr std::uint64_t most = 0xFFFFFFFFU;
    if (head.features > most || head.lines > most || head.aboutBytes > most || head.cornerBytes > most * 32)
        return std::nullopt;
    return sizeof head + padded(head.aboutBytes) + padded(levelEnds(head.features).back() * sizeof(NodeBox)) +
           padded((head.features + 1) * 4) + padded((head.lines + 1) * 4) + padded(head.lines) +
           padded(head.features * 4) + (head.features + kBlockFeatures - 1) / kBlockFeatures * sizeof(CornerBlock) +
           padded(head.cornerBytes) + (head.hasHeights ? 2 * head.features * sizeof(double) : 0);
}

/// Tells a damaged file from a whole one: every change within one word of eight bytes is found for certain. No
/// protection against a person who wants to deceive.
class Checksum {
public:
    void add(std::string_view bytes) {
        m_total += bytes.size();
        if (m_waiting > 0) {
            const std::size_t taken = std::min(bytes.size(), m_block.size() - m_waiting);
            std::memcpy(m_block.data() + m_waiting, bytes.data(), taken);
            m_waiting += taken;
            bytes.remove_prefix(taken);
            if (m_waiting < m_block.size())
                return;
            mix(m_block.data());
            m_waiting = 0;
        }
        for (; bytes.size() >= m_block.size(); bytes.remove_prefix(m_block.size()))
            mix(bytes.data());
        if (!bytes.empty())
            std::memcpy(m_block.data(), bytes.data(), bytes.size());
        m_waiting = bytes.size();
    }
    [[nodiscard]] std::uint64_t result() const {
        Checksum rest = *this;
        std::memset(rest.m_block.data() + m_waiting, 0, m_block.size() - m_waiting);
        rest.mix(rest.m_block.data());
        std::uint64_t all = m_total;
        for (const std::uint64_t lane : rest.m_lanes)
            all = step(all, lane);
        return all;
    }

private:
    // One to one in `lane` for each word, and in `word` for each lane.
    static std::uint64_t step(std::uint64_t lane, std::uint64_t word) {
        lane = (lane ^ word) * 0x9E3779B97F4A7C15U;
        return (lane << 29) | (lane >> 35);
    }
    void mix(const char* block) {
        for (std::size_t i = 0; i < m_lanes.size(); ++i) {
            std::uint64_t word = 0;
            std::memcpy(&word, block + 8 * i, 8);
            m_lanes[i] = step(m_lanes[i], word);
        }
    }

    std::array<std::uint64_t, 4> m_lanes{1, 2, 3, 4};
    std::array<char, 32> m_block{};
    std::size_t m_waiting = 0;
    std::uint64_t m_total = 0;
};

[[nodiscard]] inline std::uint64_t checksumOf(FileHead head) {
    head.headChecksum = 0;
    Checksum sum;
    sum.add({reinterpret_cast<const char*>(&head), sizeof head});
    return sum.result();
}

} // namespace fencewright::reference::detail
