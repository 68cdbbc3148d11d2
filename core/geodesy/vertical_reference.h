#pragma once

#include "model/height_band.h"
#include "model/position.h"
#include "units/length.h"

#include <functional>
#include <optional>

namespace fencewright::geodesy {

/// Height of the ground above the WGS 84 ellipsoid at a place; nothing where it is not known. Whoever has an elevation
/// model makes one; those who need ground heights are handed it.
using GroundHeight = std::function<std::optional<Length>(model::Position)>;

/// Height of the EGM96 geoid above the WGS 84 ellipsoid: add it to a height above mean sea level to get one above the
/// ellipsoid.
/// Error: as the 15-minute grid of EGM96, about 1 m at worst, read bilinearly.
/// @throws Fault  the grid (Debian package proj-data) is not installed.
[[nodiscard]] Length geoidSeparation(model::Position position);

/// The limit as a height above the ellipsoid at a place. Nothing where it is above ground and the ground is not known.
[[nodiscard]] std::optional<Length> aboveEllipsoid(const model::HeightLimit& limit, model::Position position,
                                                   const GroundHeight& ground);
/// The limit as a height above mean sea level at a place; nothing likewise.
[[nodiscard]] std::optional<Length> aboveMeanSeaLevel(const model::HeightLimit& limit, model::Position position,
                                                      const GroundHeight& ground);

} // namespace fencewright::geodesy
