#pragma once

#include "geometry/spatial_index.h"

#include <cstddef>
#include <utility>
#include <vector>

namespace fencewright::geometry {

/// An index of boxes that come, move and go, each under a number of the caller's. A packed tree of most of them and a
/// short list of those that have changed since; once the list is long, the tree is packed anew.
/// Cost: a change a constant on average, a question that of the packed tree and the list (see kLongestList).
class ChangingIndex {
public:
    ChangingIndex() = default;
    /// The boxes under the numbers 0, 1, ...
    explicit ChangingIndex(std::vector<Box> boxes);

    /// The box of that number from now on; an empty one is found by no window. Numbers should be dense.
    void set(std::size_t number, const Box& box);
    void remove(std::size_t number) { set(number, Box{}); }

    /// One more than the greatest number that was ever set.
    [[nodiscard]] std::size_t size() const { return m_boxes.size(); }
    [[nodiscard]] const Box& box(std::size_t number) const { return m_boxes[number]; }

    /// The numbers of the boxes that meet the window, in ascending order.
    [[nodiscard]] std::vector<std::size_t> meeting(const Box& window) const;
    /// Calls `visit(number)` for each of them, in no particular order, until one call returns false. Allocates nothing.
    template <class Visit> void visitMeeting(const Box& window, Visit&& visit) const;

private:
    static constexpr std::size_t kLongestList = 64; // or one in sixteen of all boxes

    void pack();

    std::vector<Box> m_boxes;
    SpatialIndex m_packed;
    std::vector<std::size_t> m_changed; ///< since the packing
    std::vector<bool> m_isChanged;
};

template <class Visit> void ChangingIndex::visitMeeting(const Box& window, Visit&& visit) const {
    if (window.empty())
        return;
    bool on = true;
    m_packed.visitMeeting(window, [&](std::size_t number) {
        if (!m_isChanged[number])
            on = visit(number);
        return on;
    });
    for (std::size_t i = 0; on && i < m_changed.size(); ++i)
        if (const Box& box = m_boxes[m_changed[i]]; !box.empty() && box.meets(window))
            on = visit(m_changed[i]);
}

} // namespace fencewright::geometry
