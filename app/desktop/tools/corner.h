#pragma once

#include "model/fence.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace fencewright::desktop {

/// A corner of a shape as drawn. Line 0 is the shell of a polygon or the line of a corridor; 1 the first hole.
struct Corner {
    model::FenceId fence;
    std::size_t line = 0;
    std::size_t index = 0;

    bool operator==(const Corner&) const = default;
};

/// An edge of a shape as drawn, by the corner that it leads from.
struct Edge {
    Corner from;

    bool operator==(const Edge&) const = default;
};

/// A line of a shape whose corners can be moved.
struct EditableLine {
    const model::LineString* corners = nullptr;
    bool closed = true;

    std::size_t edges() const { return closed ? corners->size() : corners->size() - 1; }
    const model::Position& edgeEnd(std::size_t edge) const { return (*corners)[(edge + 1) % corners->size()]; }
};

/// The two ends of an edge; none where the fence has no such edge any more.
struct EdgeEnds {
    Corner from, to;
    model::Position a, b;
    bool closed = true; ///< of a ring
};
std::optional<EdgeEnds> endsOf(const model::Fence& fence, const Edge& edge);

/// Those of a drawn polygon or a corridor; other shapes have none. The pointers hold as long as the shape.
std::vector<EditableLine> editableLines(const model::Shape& shape);

/// The fence with that corner elsewhere.
model::Fence withCornerMoved(model::Fence fence, const Corner& corner, const model::Position& place);
/// The fence with another corner before the given one, which may be one past the last.
model::Fence withCornerInserted(model::Fence fence, const Corner& before, const model::Position& place);
/// The fence without the corner; a hole of three goes as a whole.
/// @throws Fault  too few corners would remain.
model::Fence withoutCorner(model::Fence fence, const Corner& corner);

/// Edges shorter than so many hit tolerances offer no midpoint: it would lie among the corners.
inline constexpr double kMidpointEdgeTolerances = 7.0;

} // namespace fencewright::desktop
