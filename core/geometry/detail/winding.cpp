#include "geometry/detail/winding.h"

#include "geometry/detail/contour.h"
#include "geometry/detail/orientation.h"
#include "geometry/detail/stretches.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <tuple>
#include <vector>

namespace fencewright::geometry::detail {
namespace {

using model::Position;
using Edge = Contour::Edge;

/// Edges tell how near is too near as if in degrees: so scaled, that is about ten nanometres, a thousand times
/// what a double rounds off in a frame. A power of two, which rounds nothing.
constexpr double kScale = 1.0 / 128;

/// Of edges that lie close together. Beyond it, an overlay that leaves out early what lies within is no dearer, and
/// bounded in memory.
constexpr std::size_t kMostPairs = 20'000'000;

struct Passage {
    std::size_t edge;
    double along;
    Position at;
    bool toLeft; ///< of the edge that it crosses, where the line winds round once more
};

class Line {
public:
    explicit Line(const PlaneRing& line) {
        std::vector<Box> boxes;
        for (std::size_t i = 0; i < line.size(); ++i) {
            const auto &from = line[i], &to = line[(i + 1) % line.size()];
            m_edges.push_back({{from.x * kScale, from.y * kScale}, {to.x * kScale, to.y * kScale}});
            boxes.push_back(boxAround(m_edges.back()));
        }
        m_index = SpatialIndex{boxes};
    }

    [[nodiscard]] const std::vector<Edge>& edges() const { return m_edges; }

    /// In the order of the line; nothing where it comes too near to itself.
    [[nodiscard]] std::optional<std::vector<Passage>> passages() const {
        std::vector<Passage> result;
        bool clash = false;
        std::size_t pairs = 0;
        for (std::size_t i = 0; i < m_edges.size() && !clash; ++i)
            m_index.visitMeeting(boxAround(m_edges[i]), [&](std::size_t j) {
                if (j <= i)
                    return true;
                clash = ++pairs > kMostPairs;
                if (clash)
                    return false;
                if (goesOn(i, j) || goesOn(j, i)) {
                    clash = goesOn(i, j) ? foldsBack(m_edges[i], m_edges[j]) : foldsBack(m_edges[j], m_edges[i]);
                    return !clash;
                }
                const auto crossing = crossingOf(m_edges[i], m_edges[j]);
                clash = crossing.clash || (crossing.at && somethingElseAt(*crossing.at, i, j));
                if (crossing.at && !clash) {
                    result.push_back(passage(i, j, *crossing.at));
                    result.push_back(passage(j, i, *crossing.at));
                }
                return !clash;
            });
        if (clash)
            return std::nullopt;
        std::sort(result.begin(), result.end(), [](const Passage& a, const Passage& b) {
            return a.edge != b.edge ? a.edge < b.edge : a.along < b.along;
        });
        return result;
    }

private:
    [[nodiscard]] bool goesOn(std::size_t edge, std::size_t next) const { return next == (edge + 1) % m_edges.size(); }
    static bool foldsBack(const Edge& edge, const Edge& next) {
        return isNear(edge, next.to) || isNear(next, edge.from);
    }
    [[nodiscard]] bool somethingElseAt(Position place, std::size_t i, std::size_t j) const {
        bool found = false;
        m_index.visitMeeting({place.lon, place.lat, place.lon, place.lat}, [&](std::size_t k) {
            found = k != i && k != j && isNear(m_edges[k], place);
            return !found;
        });
        return found;
    }
    [[nodiscard]] Passage passage(std::size_t edge, std::size_t other, Position at) const {
        const Edge &own = m_edges[edge], &crossed = m_edges[other];
        return {edge, std::hypot(at.lon - own.from.lon, at.lat - own.from.lat), at,
                orientation(crossed.from, crossed.to, own.to) > 0};
    }

    std::vector<Edge> m_edges;
    SpatialIndex m_index;
};

double areaBelow(const model::LineString& line) {
    double area = 0.0;
    for (std::size_t i = 1; i < line.size(); ++i)
        area += (line[i].lon - line[i - 1].lon) * (line[i].lat + line[i - 1].lat) / 2.0;
    return area;
}

} // namespace

std::optional<model::MultiPolygon> woundRound(const PlaneRing& given) {
    const Line line{given};
    const auto& edges = line.edges();
    const auto found = line.passages();
    if (!found || edges.size() < 3)
        return std::nullopt;
    const std::vector<Passage>& passages = *found;
    // How often the line winds round what is on its right, after each passage and before the first: of the corner
    // farthest west that is known, for nothing lies beyond it.
    std::vector<int> after;
    int round = 0;
    for (const Passage& passage : passages)
        after.push_back(round += passage.toLeft ? 1 : -1);
    if (round != 0)
        return std::nullopt;
    const auto westmost = static_cast<std::size_t>(std::min_element(edges.begin(), edges.end(),
                                                                    [](const Edge& a, const Edge& b) {
                                                                        return std::tie(a.from.lon, a.from.lat) <
                                                                               std::tie(b.from.lon, b.from.lat);
                                                                    }) -
                                                   edges.begin());
    const Edge& before = edges[(westmost + edges.size() - 1) % edges.size()];
    if (orientation(before.from, before.to, edges[westmost].to) <= 0)
        return std::nullopt; // it winds round to the right there
    const auto past = static_cast<std::size_t>(
        std::lower_bound(passages.begin(), passages.end(), westmost,
                         [](const Passage& passage, std::size_t edge) { return passage.edge < edge; }) -
        passages.begin());
    const int atWestmost = past == 0 ? 0 : after[past - 1];
    std::vector<Stretch> stretches;
    const auto add = [&](model::LineString corners, bool closed) {
        const double area = areaBelow(corners);
        stretches.push_back({std::move(corners), closed, area, false});
    };
    if (passages.empty()) {
        model::LineString corners;
        for (const Edge& edge : edges)
            corners.push_back(edge.from);
        add(std::move(corners), true);
    }
    for (std::size_t i = 0; i < passages.size(); ++i) {
        const int onRight = after[i] - atWestmost;
        if (onRight < 0)
            return std::nullopt;
        if (onRight > 0)
            continue;
        const Passage &from = passages[i], &to = passages[(i + 1) % passages.size()];
        std::size_t between = (to.edge + edges.size() - from.edge) % edges.size();
        if (between == 0 && i + 1 == passages.size())
            between = edges.size(); // it goes once round
        model::LineString corners{from.at};
        for (std::size_t k = 0; k < between; ++k)
            corners.push_back(edges[(from.edge + k) % edges.size()].to);
        corners.push_back(to.at);
        add(std::move(corners), false);
    }
    std::vector<const Stretch*> pointers;
    for (const Stretch& stretch : stretches)
        pointers.push_back(&stretch);
    auto result = joined(pointers);
    if (!result)
        return std::nullopt;
    for (auto& part : result->surface.parts) {
        const auto unscale = [](model::Ring& ring) {
            for (Position& corner : ring.corners)
                corner = {corner.lon / kScale, corner.lat / kScale};
        };
        unscale(part.shell);
        std::for_each(part.holes.begin(), part.holes.end(), unscale);
    }
    return std::move(result->surface);
}

} // namespace fencewright::geometry::detail
