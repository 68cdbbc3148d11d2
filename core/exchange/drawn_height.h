#pragma once

#include "exchange/delivery_content.h"
#include "exchange/read_back.h"
#include "geodesy/vertical_reference.h"
#include "model/fence.h"
#include "model/polygon.h"

#include <optional>
#include <string>

namespace fencewright::exchange {

/// How a fence of this kind, band and surface is drawn in three dimensions. Without a ceiling: on the ground. A keep-in
/// with a floor is a lid without walls, since walls would reach down below its floor.
///
/// A ceiling above the ellipsoid becomes one above mean sea level (EGM96), one number for the whole surface.
/// @param surface  as it goes into the file.
/// Side: a keep-out is drawn at least as high as its ceiling everywhere in the surface, a keep-in at most.
struct DrawnBand {
    std::optional<DrawnHeight> height;
    Wording problem; ///< why a ceiling could not be drawn; empty: none
};
[[nodiscard]] DrawnBand drawnBand(const model::Fence& fence, const model::MultiPolygon& surface,
                                  const geodesy::GroundHeight& ground);

/// What in the drawing of a held fence would permit more than its approved band; empty: nothing. Asks at every corner.
[[nodiscard]] Wording drawingFault(const compare::HeldFence& approved, const compare::HeldFence& held,
                                   const HeldDrawing& drawing, const geodesy::GroundHeight& ground);

} // namespace fencewright::exchange
