#include "geometry/spatial_index.h"

#include "geometry/hilbert_order.h"
#include "geometry/two_halves.h"

#include <algorithm>

namespace fencewright::geometry {
void Box::add(double x, double y) {
    minX = std::min(minX, x);
    minY = std::min(minY, y);
    maxX = std::max(maxX, x);
    maxY = std::max(maxY, y);
}

void Box::add(const Box& other) {
    minX = std::min(minX, other.minX);
    minY = std::min(minY, other.minY);
    maxX = std::max(maxX, other.maxX);
    maxY = std::max(maxY, other.maxY);
}

Box boxOf(std::span<const model::Position> places) {
    Box box;
    for (const auto& place : places)
        box.add(place.lon, place.lat);
    return box;
}

Box boxOf(const model::Polygon& polygon) {
    Box box = boxOf(polygon.shell.corners);
    for (const auto& hole : polygon.holes)
        box.add(boxOf(hole.corners));
    return box;
}

Box boxOf(const model::MultiPolygon& surface) {
    Box box;
    for (const auto& part : surface.parts)
        box.add(boxOf(part));
    return box;
}

SpatialIndex::Node SpatialIndex::parentOf(std::span<const Node> nodes) {
    const Box none;
    Node all{none.minX, none.minY, none.maxX, none.maxY};
    for (const Node& node : nodes)
        if (!node.empty())
            all = {std::min(all.minX, node.minX), std::min(all.minY, node.minY), std::max(all.maxX, node.maxX),
                   std::max(all.maxY, node.maxY)};
    return all;
}

SpatialIndex::SpatialIndex(std::span<const Box> boxes) : m_items{hilbertOrder(boxes)} {
    std::size_t count = boxes.size(), width = boxes.size();
    m_levelEnds.push_back(count);
    while (width > 1) {
        width = (width + kNodeSize - 1) / kNodeSize;
        m_levelEnds.push_back(count += width);
    }
    const auto nodes = std::make_shared_for_overwrite<Node[]>(count);
    const std::span<const Node> all{nodes.get(), count};
    // The boxes and the level above them in one go, as long as they are near.
    const std::size_t families = (boxes.size() + kNodeSize - 1) / kNodeSize;
    inTwoHalves(families, [&](std::size_t begin, std::size_t end) {
        for (std::size_t family = begin; family < end; ++family) {
            const std::size_t last = std::min((family + 1) * kNodeSize, boxes.size());
            for (std::size_t i = family * kNodeSize; i < last; ++i) {
                const Box& box = boxes[m_items[i]];
                nodes[i] = {box.minX, box.minY, box.maxX, box.maxY};
            }
            if (boxes.size() > 1)
                nodes[boxes.size() + family] = parentOf(all.subspan(family * kNodeSize, last - family * kNodeSize));
        }
    });
    for (std::size_t level = 1; level + 1 < m_levelEnds.size(); ++level) {
        std::size_t parent = m_levelEnds[level];
        for (std::size_t first = m_levelEnds[level - 1]; first < m_levelEnds[level]; first += kNodeSize)
            nodes[parent++] = parentOf(all.subspan(first, std::min(kNodeSize, m_levelEnds[level] - first)));
    }
    m_nodes = nodes;
}

std::vector<std::size_t> SpatialIndex::meeting(const Box& window) const {
    std::vector<std::size_t> found;
    visitMeeting(window, [&](std::size_t number) {
        found.push_back(number);
        return true;
    });
    std::sort(found.begin(), found.end());
    return found;
}

} // namespace fencewright::geometry
