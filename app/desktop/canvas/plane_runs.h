#pragma once

#include <QPointF>
#include <QRectF>

#include "model/polygon.h"

#include <cstddef>
#include <functional>
#include <memory>
#include <span>
#include <vector>

namespace fencewright::desktop {

/// Brings places into the plane of a map: all of them, or none.
using Projection = std::function<std::vector<QPointF>(std::span<const model::Position>)>;

/// A line in the plane of a map, in runs of corners that are shared with the line it was before a corner was moved: so
/// that a step of a drag costs one run, however many corners there are.
class PlaneRuns {
public:
    static constexpr std::size_t kRunLength = 256;

    struct Run {
        std::vector<QPointF> points; ///< of the run's corners; the way leads on to the first of the next run
        QRectF box;                  ///< of the points and that one
    };

    PlaneRuns() = default;
    /// @param before,formerCorners  the line before the change and what it was made of; or none.
    PlaneRuns(std::span<const model::Position> corners, bool closed, const Projection& project,
              const PlaneRuns* before = nullptr, std::span<const model::Position> formerCorners = {});

    const std::vector<std::shared_ptr<const Run>>& runs() const { return m_runs; }
    std::size_t size() const { return m_size; }
    QPointF operator[](std::size_t corner) const { return m_runs[corner / kRunLength]->points[corner % kRunLength]; }
    QRectF box() const;

private:
    std::vector<std::shared_ptr<const Run>> m_runs;
    std::size_t m_size = 0;
};

/// The box with a point more; of nothing, an empty box at the first point.
void extend(QRectF& box, const QPointF& point, bool first);

} // namespace fencewright::desktop
