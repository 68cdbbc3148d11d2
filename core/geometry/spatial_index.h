#pragma once

#include "model/polygon.h"
#include "model/position.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

namespace fencewright::geometry {

/// A box in longitude and latitude (or in any plane), boundaries included. Empty while min > max.
struct Box {
    double minX = 1e300, minY = 1e300, maxX = -1e300, maxY = -1e300;

    [[nodiscard]] bool empty() const { return minX > maxX || minY > maxY; }
    [[nodiscard]] bool meets(const Box& other) const {
        return minX <= other.maxX && other.minX <= maxX && minY <= other.maxY && other.minY <= maxY;
    }
    void add(double x, double y);
    void add(const Box& other);
    bool operator==(const Box&) const = default;
};

[[nodiscard]] Box boxOf(const model::Polygon& polygon);
[[nodiscard]] Box boxOf(const model::MultiPolygon& surface);
[[nodiscard]] Box boxOf(std::span<const model::Position> places);

/// A static index of boxes: a packed R-tree in Hilbert order. Answers by number in the order given.
/// Source: Kamel and Faloutsos, "Hilbert R-tree", VLDB 1994 (packing by Hilbert order).
class SpatialIndex {
public:
    SpatialIndex() = default;
    /// Many are sorted on two threads. @throws std::length_error  more than 4,294,967,295.
    explicit SpatialIndex(std::span<const Box> boxes);

    /// The boxes that meet the window, in ascending order.
    [[nodiscard]] std::vector<std::size_t> meeting(const Box& window) const;
    /// Calls `visit(number)` for each of them, in no particular order, until one call returns false. Allocates nothing.
    template <class Visit> void visitMeeting(const Box& window, Visit&& visit) const;

private:
    static constexpr std::size_t kNodeSize = 16;

    struct Node {
        double minX, minY, maxX, maxY; ///< unlike a box's, not set before they are known

        [[nodiscard]] bool empty() const { return minX > maxX || minY > maxY; }
        [[nodiscard]] bool meets(const Box& box) const {
            return minX <= box.maxX && box.minX <= maxX && minY <= box.maxY && box.minY <= maxY;
        }
    };
    [[nodiscard]] static Node parentOf(std::span<const Node> nodes);

    std::shared_ptr<const Node[]> m_nodes; ///< never changed: copies of the index share them
    std::vector<std::uint32_t> m_items;
    std::vector<std::size_t> m_levelEnds; ///< the boxes themselves are the first level, the root is the last
};

template <class Visit> void SpatialIndex::visitMeeting(const Box& window, Visit&& visit) const {
    if (m_items.empty() || window.empty())
        return;
    struct Step {
        std::size_t level, node; // the node is counted from the begin of its level
    };
    // Sixteen levels of sixteen hold 2^64 boxes; of each level at most the rest of one node waits.
    std::array<Step, 17 * kNodeSize> steps;
    std::size_t waiting = 0;
    steps[waiting++] = {m_levelEnds.size() - 1, 0};
    while (waiting > 0) {
        const auto [level, node] = steps[--waiting];
        const std::size_t begin = level == 0 ? 0 : m_levelEnds[level - 1];
        if (!m_nodes[begin + node].meets(window) || m_nodes[begin + node].empty())
            continue;
        if (level == 0) {
            if (!visit(std::size_t{m_items[node]}))
                return;
            continue;
        }
        const std::size_t below = level == 1 ? 0 : m_levelEnds[level - 2];
        const std::size_t last = std::min((node + 1) * kNodeSize, begin - below);
        for (std::size_t i = node * kNodeSize; i < last; ++i)
            steps[waiting++] = {level - 1, i};
    }
}

} // namespace fencewright::geometry
