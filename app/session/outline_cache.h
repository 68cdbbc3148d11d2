#pragma once

#include <QObject>
#include <QPointer>

#include "geometry/changing_index.h"
#include "geometry/line_boxes.h"
#include "model/fence_set.h"
#include "session/background_jobs.h"
#include "units/area.h"

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

namespace fencewright::session {

/// A fence with what is computed from it. Never changes: another state of the fence is another object, so whoever draws
/// it can keep what it made of it by the pointer.
struct OutlinedFence {
    std::shared_ptr<const model::Fence> fence;
    std::shared_ptr<const model::Site> site; ///< the one a setback follows
    model::MultiPolygon surface;
    model::MultiPolygon closedGaps;
    Area area;
    std::string fault; ///< why there is no surface; empty where there is one
    /// The outline is being computed. Meanwhile `surface` is what stands in for it on the screen: a polygon as it is
    /// drawn, or of another shape the outline as it was last. Nothing may be computed from it.
    bool pending = false;
    double milliseconds = 0.0; ///< what it took to compute, or its predecessor

    /// For finding it: all of the surface and of the shape as drawn.
    geometry::Box box;
    /// Of each ring of the surface, in the order of its parts, shells before their holes.
    std::vector<geometry::LineBoxes> rings;
    /// Of each line of the shape, as forEachDrawnLine() tells them.
    std::vector<geometry::LineBoxes> lines;
};

/// Calls `visit(corners, boxes)` for each ring of the outline of a shape that is not drawn corner by corner: a circle,
/// a corridor, a setback, united parcels. None while it is being computed.
template <class Visit> void forEachOutlineRing(const OutlinedFence& one, Visit visit) {
    if (one.pending || std::holds_alternative<model::DrawnPolygon>(one.fence->shape))
        return;
    std::size_t number = 0;
    for (const model::Polygon& part : one.surface.parts) {
        visit(part.shell.corners, one.rings[number++]);
        for (const model::Ring& hole : part.holes)
            visit(hole.corners, one.rings[number++]);
    }
}

/// The fence with its outline, computed here and now.
std::shared_ptr<const OutlinedFence> outlinedFence(std::shared_ptr<const model::Fence> fence,
                                                   std::shared_ptr<const model::Site> site);

/// Keeps outlines as long as fence and site stay what they were: an edit of one fence computes one outline.
///
/// With background jobs, what takes long is computed there, and something stands in for it meanwhile (see
/// OutlinedFence::pending). This is for looking and pointing: what is delivered, saved or audited is computed from the
/// set, never from here.
class OutlineCache : public QObject {
    Q_OBJECT

public:
    /// @param jobs  null: everything is computed at once.
    explicit OutlineCache(BackgroundJobs* jobs = nullptr, QObject* parent = nullptr);

    /// One for each fence, in the order of the set.
    const std::vector<std::shared_ptr<const OutlinedFence>>& outlined(const model::FenceSet& set);
    /// The boxes of what outlined() answered last, by place in its list.
    const geometry::ChangingIndex& places() const { return m_places; }
    /// Another number, another list.
    std::uint64_t number() const { return m_number; }
    /// Whether nothing is pending.
    bool isSettled() const { return m_pending.empty(); }

signals:
    /// Outlines that were pending are there: outlined() answers another list.
    void settled();

private:
    struct Shape {
        std::shared_ptr<const model::Fence> fence;
        std::shared_ptr<const model::Site> site;

        bool operator==(const Shape&) const = default;
    };

    bool isUnchanged(const model::FenceSet& set) const;
    void put(std::vector<std::shared_ptr<const OutlinedFence>> now);
    void computePending();
    void take(const std::vector<std::shared_ptr<const OutlinedFence>>& arrived);

    BackgroundJobs* m_jobs;
    std::vector<std::shared_ptr<const OutlinedFence>> m_outlined;
    std::vector<const model::Fence*> m_fences;               ///< of m_outlined: compared at each call
    std::vector<std::shared_ptr<const model::Site>> m_sites; ///< all of the set's, as they were
    bool m_hasSetbacks = false;
    geometry::ChangingIndex m_places;
    std::uint64_t m_number = 0;
    std::vector<Shape> m_pending;
    QPointer<BackgroundJob> m_running;
};

} // namespace fencewright::session
