#pragma once

#include "model/polygon.h"
#include "model/position.h"

#include <cstddef>
#include <functional>
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
    explicit SpatialIndex(std::span<const Box> boxes);

    /// The boxes that meet the window, in ascending order.
    [[nodiscard]] std::vector<std::size_t> meeting(const Box& window) const;

private:
    std::vector<Box> m_nodes;
    std::vector<std::size_t> m_items;
    std::vector<std::size_t> m_levelEnds;
};

} // namespace fencewright::geometry
