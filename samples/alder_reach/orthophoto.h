#pragma once

#include "alder_reach/scene.h"

#include <string>

namespace alder_reach {

/// Paints the scene from above, 0.25 m a pixel, and writes it as a tiled GeoTIFF with overviews.
/// @throws std::runtime_error  cannot be written.
void writeOrthophoto(const Scene& scene, const std::string& path);

} // namespace alder_reach
