#pragma once

#include "model/position.h"
#include "units/measure_notation.h"

#include <optional>
#include <string_view>
#include <vector>

namespace fencewright::desktop {

/// How far something reaches to each side of a line, as one goes along it.
struct SideWidths {
    std::optional<StatedLength> left;
    std::optional<StatedLength> right;

    bool operator==(const SideWidths&) const = default;
};

/// Reads "15 m" (both sides), "10 m left 25 m right" in either order, in English or in the person's language and by the
/// first letters too, "25 m right" (one side alone), "10 m 25 m" or "10 25" (left, then right).
/// @throws Fault  no such lengths, a negative one, or a side twice.
[[nodiscard]] SideWidths parseSideWidths(std::string_view text, units::System unitless);

/// Where a place lies beside a line.
struct BesideLine {
    Length distance; ///< along the ground, to the nearest place of the line
    bool onRight = false;
};
/// Beyond an end, by the line's direction there; outside a bend, on its outer side.
/// Error: for a pointer: the nearest place is found in the plane around the place (see NearPlane).
/// @pre  the line has two places at least.
[[nodiscard]] BesideLine besideLine(const model::LineString& line, const model::Position& place);

} // namespace fencewright::desktop
