#pragma once

#include <QString>

#include "desktop/canvas/reference_layer.h"
#include "geometry/changing_index.h"
#include "model/fence_set.h"
#include "session/outline_cache.h"

#include <memory>
#include <optional>
#include <vector>

namespace fencewright::desktop {

/// A place that the pointer was drawn to, and why.
struct Snap {
    model::Position place;
    QString reason; ///< "corner of Parcel 17"
};

/// Draws a place to corners and edges of fences as drawn and of reference layers, to sites and homes. A corner goes
/// before an edge, however near the edge is.
class Snapper {
public:
    /// The fences to snap to, with the boxes of each, by place in the list; both stay where they are and may change.
    void setFences(const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined,
                   const geometry::ChangingIndex& places) {
        m_fences = &outlined;
        m_places = &places;
    }

    /// @param except  a fence that is not snapped to.
    std::optional<Snap> snap(const model::Position& pointer, Length tolerance, const model::FenceSet& set,
                             const std::vector<ReferenceSource>& references,
                             const std::optional<model::FenceId>& except) const;

private:
    const std::vector<std::shared_ptr<const session::OutlinedFence>>* m_fences = nullptr;
    const geometry::ChangingIndex* m_places = nullptr;
};

} // namespace fencewright::desktop
