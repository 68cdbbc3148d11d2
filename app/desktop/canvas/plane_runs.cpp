#include "desktop/canvas/plane_runs.h"

#include <algorithm>

namespace fencewright::desktop {

void extend(QRectF& box, const QPointF& point, bool first) {
    if (first) {
        box = QRectF{point, QSizeF{}};
        return;
    }
    box.setLeft(std::min(box.left(), point.x()));
    box.setRight(std::max(box.right(), point.x()));
    box.setTop(std::min(box.top(), point.y()));
    box.setBottom(std::max(box.bottom(), point.y()));
}

PlaneRuns::PlaneRuns(std::span<const model::Position> corners, bool closed, const Projection& project,
                     const PlaneRuns* before, std::span<const model::Position> formerCorners) {
    const std::size_t count = (corners.size() + kRunLength - 1) / kRunLength;
    m_runs.resize(count);
    m_size = corners.size();
    const bool comparable = before && before->m_size == m_size && formerCorners.size() == corners.size();
    // Where a run's way ends: the first corner of the next, or of the line.
    const auto endOf = [&](std::size_t run) {
        const std::size_t next = (run + 1) * kRunLength;
        return next < corners.size() ? next : closed ? 0 : corners.size() - 1;
    };
    std::size_t fresh = count;
    for (std::size_t run = 0; run < count; ++run) {
        const std::size_t begin = run * kRunLength, end = std::min(begin + kRunLength, corners.size());
        if (comparable && corners[endOf(run)] == formerCorners[endOf(run)] &&
            std::equal(corners.begin() + std::ptrdiff_t(begin), corners.begin() + std::ptrdiff_t(end),
                       formerCorners.begin() + std::ptrdiff_t(begin)))
            m_runs[run] = before->m_runs[run];
        else if (fresh == count)
            fresh = run;
    }
    if (fresh == count)
        return;
    // All at once where all are fresh, else run by run.
    std::vector<QPointF> all;
    const bool every = std::none_of(m_runs.begin(), m_runs.end(), [](const auto& run) { return run != nullptr; });
    if (every && (all = project(corners)).empty()) {
        m_runs.clear();
        m_size = 0;
        return;
    }
    for (std::size_t run = fresh; run < count; ++run) {
        if (m_runs[run])
            continue;
        const std::size_t begin = run * kRunLength, end = std::min(begin + kRunLength, corners.size());
        auto made = std::make_shared<Run>();
        QPointF last;
        if (every) {
            made->points.assign(all.begin() + std::ptrdiff_t(begin), all.begin() + std::ptrdiff_t(end));
            last = all[endOf(run)];
        } else {
            std::vector<model::Position> places{corners.begin() + std::ptrdiff_t(begin),
                                                corners.begin() + std::ptrdiff_t(end)};
            places.push_back(corners[endOf(run)]);
            made->points = project(places);
            if (made->points.empty()) {
                m_runs.clear();
                m_size = 0;
                return;
            }
            last = made->points.back();
            made->points.pop_back();
        }
        extend(made->box, last, true);
        for (const QPointF& point : made->points)
            extend(made->box, point, false);
        m_runs[run] = std::move(made);
    }
}

QRectF PlaneRuns::box() const {
    QRectF all;
    for (const auto& run : m_runs) {
        extend(all, run->box.topLeft(), &run == &m_runs.front());
        extend(all, run->box.bottomRight(), false);
    }
    return all;
}

} // namespace fencewright::desktop
