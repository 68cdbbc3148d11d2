#pragma once

#include <QString>

#include "desktop/canvas/reference_layer.h"
#include "desktop/canvas/snap_kind.h"
#include "desktop/tools/tool.h"
#include "geometry/changing_index.h"
#include "model/fence_set.h"
#include "session/outline_cache.h"

#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace fencewright::desktop {

/// A place that the pointer was drawn to, and why.
struct Snap {
    model::Position place;
    QString reason; ///< "corner of Parcel 17"
    SnapKind kind = SnapKind::Corner;
    /// Thin lines that show what a direction is taken from.
    std::vector<std::pair<model::Position, model::Position>> guides;
};

/// What is drawn to, and from where.
struct SnapBy {
    SnapKinds kinds = SnapKinds::all();
    LineSoFar line;
};

/// Draws a place to what is there: corners and edges of fences as drawn, of their outlines and of reference layers,
/// their crossings and midpoints, sites and homes; and to directions of the line being drawn: square to its last leg or
/// to the edge it stands on, in line with them, parallel to an edge nearby, at a right angle onto an edge.
///
/// Of several: a corner before a crossing, before a midpoint, before a direction's place on an edge, before an edge,
/// before a corner of an outline that nobody has drawn (of a circle, a corridor, a setback), before an edge of it,
/// before a direction alone; of one rank the nearest to the pointer. A corner's place is the corner, to the last bit.
class Snapper {
public:
    /// The fences to snap to, with the boxes of each, by place in the list; both stay where they are and may change.
    void setFences(const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined,
                   const geometry::ChangingIndex& places) {
        m_fences = &outlined;
        m_places = &places;
    }

    /// @param except  what is not snapped to.
    std::optional<Snap> snap(const model::Position& pointer, Length tolerance, const model::FenceSet& set,
                             const std::vector<ReferenceSource>& references, const Selection& except,
                             const SnapBy& by = {}) const;

private:
    class Surroundings;

    const std::vector<std::shared_ptr<const session::OutlinedFence>>* m_fences = nullptr;
    const geometry::ChangingIndex* m_places = nullptr;
};

} // namespace fencewright::desktop
