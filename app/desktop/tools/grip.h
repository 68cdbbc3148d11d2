#pragma once

#include "desktop/tools/tool.h"
#include "geometry/line_boxes.h"

#include <memory>
#include <variant>
#include <vector>

namespace fencewright::desktop {

/// Between two corners: dragged or clicked, it becomes one.
struct Midpoint {
    Corner before; ///< the new corner would stand before this one
    model::Position place;
};
/// The rim of a circle.
struct Rim {
    model::FenceId fence;
};
/// Things as a whole.
struct Whole {
    std::vector<model::Thing> things;
    /// Of these, the one under the pointer.
    model::Thing under;
    /// Only at its middle: the place itself is taken to the pointer, and not moved by as much as the pointer.
    bool byItsPlace = false;
};

/// What lies under the pointer and can be taken hold of.
using Grip = std::variant<std::monostate, Corner, Midpoint, Edge, Rim, Whole>;

/// Finds what can be taken hold of.
class GripFinder {
public:
    /// @param chosen  an edge that was chosen: it goes before its midpoint.
    Grip at(const ToolEvent& event, const ToolScene& scene, const std::optional<Edge>& chosen);
    /// The edge of the selected fence that lies there.
    std::optional<Edge> edgeAt(const ToolEvent& event, const ToolScene& scene);

private:
    const std::vector<geometry::LineBoxes>& lineBoxes(const std::shared_ptr<const model::Fence>& fence);
    Grip onLines(const model::Fence& fence, const ToolEvent& event, const ToolScene& scene,
                 const std::optional<Edge>& chosen);

    /// Of the lines of the fence whose corners were looked for last.
    std::shared_ptr<const model::Fence> m_boxed;
    std::vector<geometry::LineBoxes> m_boxes;
};

/// The selected things, or the site or home, that can be held there as a whole.
Grip wholeAt(const ToolEvent& event, const ToolScene& scene);

/// The one fence that is selected; null: none, or several things.
const model::Fence* selectedFence(const ToolScene& scene);

} // namespace fencewright::desktop
