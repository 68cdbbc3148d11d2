#include "geometry/changing_index.h"

#include <algorithm>

namespace fencewright::geometry {

ChangingIndex::ChangingIndex(std::vector<Box> boxes) : m_boxes{std::move(boxes)} { pack(); }

void ChangingIndex::set(std::size_t number, const Box& box) {
    if (number >= m_boxes.size()) {
        m_boxes.resize(number + 1);
        m_isChanged.resize(number + 1, false);
    }
    if (m_boxes[number] == box)
        return;
    m_boxes[number] = box;
    if (m_isChanged[number])
        return;
    m_isChanged[number] = true;
    m_changed.push_back(number);
    if (m_changed.size() > std::max(kLongestList, m_boxes.size() / 16))
        pack();
}

void ChangingIndex::pack() {
    m_packed = SpatialIndex{m_boxes};
    m_changed.clear();
    m_isChanged.assign(m_boxes.size(), false);
}

std::vector<std::size_t> ChangingIndex::meeting(const Box& window) const {
    std::vector<std::size_t> found;
    visitMeeting(window, [&](std::size_t number) {
        found.push_back(number);
        return true;
    });
    std::sort(found.begin(), found.end());
    return found;
}

} // namespace fencewright::geometry
