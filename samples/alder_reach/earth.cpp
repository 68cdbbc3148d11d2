#include "alder_reach/earth.h"

namespace alder_reach {

using namespace fencewright;

model::LineString Earth::line(const Line& line) const {
    std::vector<geodesy::PlanePoint> points;
    for (const Point point : line)
        points.push_back({kEasting + point.x, kNorthing + point.y});
    model::LineString positions;
    for (const auto& position : m_transform.toWgs84(points))
        positions.push_back(position.value());
    return positions;
}

model::Position Earth::place(Point point) const { return line({point}).front(); }

model::Ring Earth::ring(const Ring& ring) const { return {line(ring), false}; }

model::Polygon Earth::polygon(const Ring& shell, const std::vector<Ring>& holes) const {
    model::Polygon polygon{ring(shell), {}};
    for (const Ring& hole : holes)
        polygon.holes.push_back(ring(hole));
    return polygon;
}

} // namespace alder_reach
