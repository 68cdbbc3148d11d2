#include "raster/warp.h"

#include "fault.h"
#include "raster/detail/parts.h"
#include "raster/detail/resampling.h"

namespace fencewright::raster {

PaintedPixels warpedForPainting(const Dataset& dataset, const geodesy::MapPlane& plane, const FrameWindow& window,
                                int width, int height, const Progress& progress) {
    using geodesy::PlanePoint;
    detail::checkPictureSize(width, height);
    const Dataset::Parts& parts = *dataset.m_parts;
    if (!parts.description.georeferenced)
        throw Fault{phrase("core", "The raster does not say where on the earth it lies."), parts.description.path,
                    parts.description.crs.empty() ? phrase("core", "Give its coordinate reference system.")
                                                  : phrase("core", "Put a world file beside it.")};
    if (!(window.maxX > window.minX && window.maxY > window.minY))
        throw Fault{phrase("core", "The part of the map to draw is empty."), parts.description.path,
                    phrase("core", "Give a part with a width and a height.")};

    const auto toRaster = [&](const std::vector<PlanePoint>& points) {
        std::vector<PlanePoint> inPlane;
        inPlane.reserve(points.size());
        for (const PlanePoint& point : points)
            inPlane.push_back({window.minX + point.x * (window.maxX - window.minX) / width,
                               window.maxY - point.y * (window.maxY - window.minY) / height});
        return parts.toPixels(plane.toEarth(inPlane));
    };
    return detail::resampled(*parts.pixels, toRaster, width, height, progress);
}

RgbaImage warped(const Dataset& dataset, const geodesy::MapPlane& plane, const FrameWindow& window, int width,
                 int height, const Progress& progress) {
    return detail::asImage(warpedForPainting(dataset, plane, window, width, height, progress));
}

} // namespace fencewright::raster
