#pragma once

#include "model/polygon.h"

namespace fencewright::geometry::detail {

/// A side of a line, as one goes along it.
enum class Hand { Left, Right };

/// The places that lie on that side of the line within `metres` of it, as seen from the nearest place of some stretch
/// (see grown() in geometry/offset.h). Side: grows, by up to 0.002 `metres` + 5 mm; on the line's other side, by no
/// more than leastBeside(metres).
/// @pre  the line's places are usable, and at least two of them differ.
/// @throws Fault  as grown().
[[nodiscard]] model::MultiPolygon sweptBeside(const model::LineString& line, Hand hand, double metres);

/// Metres: how far a sweep may reach over the line, at most.
[[nodiscard]] double leastBeside(double metres);

} // namespace fencewright::geometry::detail
