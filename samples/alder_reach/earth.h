#pragma once

#include "alder_reach/scene.h"
#include "geodesy/crs_transform.h"
#include "model/polygon.h"

namespace alder_reach {

/// From the scene to longitude and latitude.
class Earth {
public:
    [[nodiscard]] fencewright::model::LineString line(const Line& line) const;
    [[nodiscard]] fencewright::model::Position place(Point point) const;
    [[nodiscard]] fencewright::model::Ring ring(const Ring& ring) const;
    [[nodiscard]] fencewright::model::Polygon polygon(const Ring& shell, const std::vector<Ring>& holes = {}) const;

private:
    fencewright::geodesy::CrsTransform m_transform{kCrs};
};

} // namespace alder_reach
