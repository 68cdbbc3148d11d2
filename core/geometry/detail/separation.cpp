#include "geometry/detail/separation.h"

#include "geometry/detail/orientation.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace fencewright::geometry::detail {
namespace {

using model::Position;

struct Edge {
    Position from, to;
};

constexpr std::size_t kMostPairs = 2'000'000; // beyond it the grid is no dearer than the search

bool near(const Edge& edge, Position place) {
    const double dx = edge.to.lon - edge.from.lon, dy = edge.to.lat - edge.from.lat, square = dx * dx + dy * dy;
    const double along = (place.lon - edge.from.lon) * dx + (place.lat - edge.from.lat) * dy;
    const double share = std::clamp(along / square, 0.0, 1.0);
    return std::hypot(place.lon - edge.from.lon - share * dx, place.lat - edge.from.lat - share * dy) <
           kSeparationDegrees;
}

bool isCornerOf(const Edge& edge, Position place) { return edge.from == place || edge.to == place; }

bool clashes(const Edge& edge, Position corner) { return !isCornerOf(edge, corner) && near(edge, corner); }

class Search {
public:
    explicit Search(const model::MultiPolygon& polygons) {
        for (const auto& part : polygons.parts) {
            add(part.shell);
            for (const auto& hole : part.holes)
                add(hole);
        }
        m_boxes.reserve(m_edges.size());
        for (const auto& edge : m_edges)
            m_boxes.push_back({std::min(edge.from.lon, edge.to.lon) - kSeparationDegrees,
                               std::min(edge.from.lat, edge.to.lat) - kSeparationDegrees,
                               std::max(edge.from.lon, edge.to.lon) + kSeparationDegrees,
                               std::max(edge.from.lat, edge.to.lat) + kSeparationDegrees});
        m_index = SpatialIndex{m_boxes};
    }

    [[nodiscard]] bool finds() {
        std::size_t pairs = 0;
        bool found = false;
        for (std::size_t i = 0; i < m_edges.size() && !found; ++i)
            m_index.visitMeeting(m_boxes[i], [&](std::size_t j) {
                if (j > i)
                    found = ++pairs > kMostPairs || clash(i, j);
                return !found;
            });
        return found;
    }

private:
    void add(const model::Ring& ring) {
        for (std::size_t i = 0; i < ring.corners.size(); ++i)
            if (const auto& from = ring.corners[i], &to = ring.corners[(i + 1) % ring.corners.size()]; from != to)
                m_edges.push_back({from, to});
    }

    [[nodiscard]] bool clash(std::size_t i, std::size_t j) const {
        const auto &a = m_edges[i], &b = m_edges[j];
        const int bFrom = orientation(a.from, a.to, b.from), bTo = orientation(a.from, a.to, b.to);
        const int aFrom = orientation(b.from, b.to, a.from), aTo = orientation(b.from, b.to, a.to);
        if (clashes(a, b.from) || clashes(a, b.to) || clashes(b, a.from) || clashes(b, a.to))
            return true;
        return bFrom * bTo < 0 && aFrom * aTo < 0 && thirdAt(crossing(a, b), i, j);
    }
    static Position crossing(const Edge& a, const Edge& b) {
        const double ax = a.to.lon - a.from.lon, ay = a.to.lat - a.from.lat;
        const double bx = b.to.lon - b.from.lon, by = b.to.lat - b.from.lat;
        const double determinant = ax * by - ay * bx;
        const double share = ((b.from.lon - a.from.lon) * by - (b.from.lat - a.from.lat) * bx) / determinant;
        return {a.from.lon + share * ax, a.from.lat + share * ay};
    }
    [[nodiscard]] bool thirdAt(Position place, std::size_t i, std::size_t j) const {
        if (!std::isfinite(place.lon) || !std::isfinite(place.lat))
            return true;
        bool found = false;
        m_index.visitMeeting({place.lon, place.lat, place.lon, place.lat}, [&](std::size_t k) {
            found = k != i && k != j && near(m_edges[k], place);
            return !found;
        });
        return found;
    }

    std::vector<Edge> m_edges;
    std::vector<Box> m_boxes;
    SpatialIndex m_index;
};

} // namespace

bool wellSeparated(const model::MultiPolygon& polygons) { return !Search{polygons}.finds(); }

} // namespace fencewright::geometry::detail
