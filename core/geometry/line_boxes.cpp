#include "geometry/line_boxes.h"

namespace fencewright::geometry {

LineBoxes::LineBoxes(std::span<const model::Position> corners, bool closed) {
    if (corners.empty())
        return;
    m_edges = closed || corners.size() == 1 ? corners.size() : corners.size() - 1;
    m_runs.resize((m_edges + kRunLength - 1) / kRunLength);
    for (std::size_t run = 0; run < m_runs.size(); ++run) {
        Box& box = m_runs[run];
        const std::size_t end = std::min((run + 1) * kRunLength, m_edges);
        for (std::size_t i = run * kRunLength; i <= end; ++i) {
            const model::Position& corner = corners[i % corners.size()];
            box.add(corner.lon, corner.lat);
        }
        m_box.add(box);
    }
}

} // namespace fencewright::geometry
