#pragma once

#include <QImage>
#include <QRectF>

#include "geodesy/map_plane.h"
#include "progress.h"
#include "reference/layer.h"

#include <memory>

namespace fencewright::desktop {

/// How lines are drawn, from few features in sight to many.
enum class LineStyle {
    Cased, ///< white hairlines on a dark casing
    Fine,  ///< white hairlines
    Dense  ///< lines of a pixel; what is smaller than a pixel becomes a shade
};

/// A square piece of a reference layer's picture.
struct ReferenceTile {
    static constexpr int kPixels = 512;

    std::shared_ptr<const reference::Layer> layer;
    geodesy::MapPlane::Definition plane;
    double metresPerPixel = 1.0; ///< of the device
    double left = 0.0;           ///< metres in the plane
    double top = 0.0;
    LineStyle style = LineStyle::Fine;
    double pixelRatio = 1.0;
};

/// Draws the tile; a null image where nothing is in it. Safe on any thread, with a plane of that thread.
/// @throws Cancelled
[[nodiscard]] QImage drawn(const ReferenceTile& tile, const geodesy::MapPlane& plane, const Progress& progress);

} // namespace fencewright::desktop
