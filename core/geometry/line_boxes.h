#pragma once

#include "geometry/spatial_index.h"

#include <algorithm>
#include <cstddef>
#include <span>
#include <vector>

namespace fencewright::geometry {

/// The boxes of runs of a line's edges: finds the edges near a place without looking at all of a million.
class LineBoxes {
public:
    LineBoxes() = default;
    LineBoxes(std::span<const model::Position> corners, bool closed);

    /// Of the whole line.
    [[nodiscard]] const Box& box() const { return m_box; }
    /// Calls `visit(first, end)` for the runs of edges whose box meets the window, in their order. Edge i leads from
    /// corner i to the next; of a closed line the last leads back to the first. A line of one corner has one edge, from
    /// the corner to itself.
    template <class Visit> void visitMeeting(const Box& window, Visit&& visit) const {
        if (!m_box.meets(window))
            return;
        for (std::size_t run = 0; run < m_runs.size(); ++run)
            if (m_runs[run].meets(window))
                visit(run * kRunLength, std::min((run + 1) * kRunLength, m_edges));
    }

private:
    static constexpr std::size_t kRunLength = 64;

    std::size_t m_edges = 0;
    std::vector<Box> m_runs;
    Box m_box;
};

} // namespace fencewright::geometry
