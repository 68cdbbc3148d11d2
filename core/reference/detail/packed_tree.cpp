#include "reference/detail/packed_tree.h"

#include "geometry/two_halves.h"

#include <algorithm>
#include <bit>
#include <limits>

namespace fencewright::reference::detail {
namespace {

constexpr float kNone = std::numeric_limits<float>::infinity();

// The next float down is the next whole number of its bits: down for positive ones, up for negative ones.
float below(double value) {
    const auto nearest = static_cast<float>(value);
    if (!(static_cast<double>(nearest) > value))
        return nearest;
    const auto bits = std::bit_cast<std::uint32_t>(nearest);
    if (nearest == 0.0F)
        return -std::numeric_limits<float>::denorm_min();
    return std::bit_cast<float>(nearest > 0.0F ? bits - 1 : bits + 1);
}
float above(double value) { return -below(-value); }

NodeBox merged(std::span<const NodeBox> boxes) {
    NodeBox all{kNone, kNone, -kNone, -kNone};
    for (const NodeBox& box : boxes)
        all = {std::min(all.minX, box.minX), std::min(all.minY, box.minY), std::max(all.maxX, box.maxX),
               std::max(all.maxY, box.maxY)};
    return all;
}

} // namespace

std::vector<NodeBox> nodesOf(std::span<const geometry::Box> boxes, std::span<const std::uint32_t> order, double originX,
                             double originY) {
    const std::vector<std::size_t> ends = levelEnds(boxes.size());
    std::vector<NodeBox> nodes(ends.back(), NodeBox{kNone, kNone, -kNone, -kNone});
    geometry::inTwoHalves(boxes.size(), [&](std::size_t first, std::size_t end) {
        for (std::size_t i = first; i < end; ++i)
            if (const geometry::Box& box = boxes[order[i]]; !box.empty())
                nodes[i] = {below(box.minX - originX), below(box.minY - originY), above(box.maxX - originX),
                            above(box.maxY - originY)};
    });
    std::size_t begin = 0;
    for (std::size_t level = 0; level + 1 < ends.size(); ++level) {
        std::size_t parent = ends[level];
        for (std::size_t first = begin; first < ends[level]; first += kNodeSize)
            nodes[parent++] = merged(std::span{nodes}.subspan(first, std::min(kNodeSize, ends[level] - first)));
        begin = ends[level];
    }
    return nodes;
}

} // namespace fencewright::reference::detail
