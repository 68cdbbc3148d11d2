#include "geometry/spatial_index.h"

#include "geometry/hilbert_curve.h"

#include <algorithm>
#include <cstdint>
#include <numeric>

namespace fencewright::geometry {
namespace {

std::uint32_t cell(double value, double from, double to) {
    if (!(to > from))
        return 0;
    const double share = (value - from) / (to - from);
    return static_cast<std::uint32_t>(std::clamp(share, 0.0, 1.0) * 65535.0);
}

} // namespace

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

SpatialIndex::SpatialIndex(std::span<const Box> boxes) {
    Box all;
    for (const auto& box : boxes)
        if (!box.empty())
            all.add(box);
    std::vector<std::uint32_t> places(boxes.size());
    for (std::size_t i = 0; i < boxes.size(); ++i)
        places[i] = hilbertPlace(cell(boxes[i].minX / 2 + boxes[i].maxX / 2, all.minX, all.maxX),
                                 cell(boxes[i].minY / 2 + boxes[i].maxY / 2, all.minY, all.maxY));
    m_items.resize(boxes.size());
    std::iota(m_items.begin(), m_items.end(), std::size_t{0});
    std::stable_sort(m_items.begin(), m_items.end(),
                     [&](std::size_t a, std::size_t b) { return places[a] < places[b]; });

    m_nodes.reserve(boxes.size() + boxes.size() / (kNodeSize - 1) + 8);
    for (const auto item : m_items)
        m_nodes.push_back(boxes[item]);
    std::size_t begin = 0;
    m_levelEnds.push_back(m_nodes.size());
    while (m_nodes.size() - begin > 1) {
        const std::size_t end = m_nodes.size();
        for (std::size_t first = begin; first < end; first += kNodeSize) {
            Box parent;
            for (std::size_t i = first; i < std::min(first + kNodeSize, end); ++i)
                if (!m_nodes[i].empty())
                    parent.add(m_nodes[i]);
            m_nodes.push_back(parent);
        }
        begin = end;
        m_levelEnds.push_back(m_nodes.size());
    }
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
