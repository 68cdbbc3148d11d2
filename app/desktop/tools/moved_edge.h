#pragma once

#include "desktop/tools/corner.h"
#include "units/length.h"
#include "units/measure_notation.h"

#include <QString>

#include <string_view>
#include <utility>

namespace fencewright::desktop {

/// An edge moved parallel to itself, in the metric plane around its middle: both ends by the same way square to it.
/// Positive is outward, out of the ring; of an open line, to the right of its direction.
/// Error: the two ways are as long as stated to LocalFrame::scaleError() of half the edge's length and the way.
struct MovedEdge {
    model::Position a, b;
};
MovedEdge movedEdge(const model::Fence& fence, const EdgeEnds& edge, Length outward);
/// How far the edge has to be moved to run through the place, as it runs on in the plane.
Length outwardTo(const model::Fence& fence, const EdgeEnds& edge, const model::Position& place);

/// "12.0 m outward".
QString outwardWords(Length outward, bool closed, units::System units);
/// Reads "12 m", "12 m inward", "-12 m"; without a word or sign, to the side of `towards`.
/// @throws Fault  not a length.
Length parseOutward(std::string_view text, units::System unitless, Length towards);

} // namespace fencewright::desktop
