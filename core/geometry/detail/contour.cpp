#include "geometry/detail/contour.h"

#include "geometry/detail/orientation.h"
#include "geometry/detail/repeated_corners.h"
#include "geometry/detail/separation.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>
#include <utility>

namespace fencewright::geometry::detail {
namespace {

using model::Position;
using Edge = Contour::Edge;

bool isBefore(Position a, Position b) { return std::tie(a.lon, a.lat) < std::tie(b.lon, b.lat); }

std::tuple<double, double, double, double> order(const Edge& edge) {
    return {edge.from.lon, edge.from.lat, edge.to.lon, edge.to.lat};
}

/// The place moves along an edge by what rounding does to the determinant over the sine of the angle: a tenth of
/// kSeparationDegrees at most, where the sine is over this much times the longest length.
constexpr double kLeastSineByLength = 10.0 * 8.0 * std::numeric_limits<double>::epsilon() / kSeparationDegrees;

/// Where edges that cross do so; nothing where rounding might put it elsewhere along them.
std::optional<Position> placeOfCrossing(const Edge& one, const Edge& other) {
    // In one order, whoever asks: both boundaries are to turn at the very same place.
    const auto& [a, b] = order(one) < order(other) ? std::tie(one, other) : std::tie(other, one);
    const double ax = a.to.lon - a.from.lon, ay = a.to.lat - a.from.lat;
    const double bx = b.to.lon - b.from.lon, by = b.to.lat - b.from.lat;
    const double fx = b.from.lon - a.from.lon, fy = b.from.lat - a.from.lat;
    const double determinant = ax * by - ay * bx;
    const double longest = std::max({std::hypot(ax, ay), std::hypot(bx, by), std::hypot(fx, fy)});
    if (!(std::abs(determinant) > kLeastSineByLength * longest * longest * longest))
        return std::nullopt;
    const double share = (fx * by - fy * bx) / determinant;
    return Position{a.from.lon + share * ax, a.from.lat + share * ay};
}

} // namespace

Box boxAround(const Edge& edge) {
    return {std::min(edge.from.lon, edge.to.lon) - kSeparationDegrees,
            std::min(edge.from.lat, edge.to.lat) - kSeparationDegrees,
            std::max(edge.from.lon, edge.to.lon) + kSeparationDegrees,
            std::max(edge.from.lat, edge.to.lat) + kSeparationDegrees};
}

bool isNear(const Edge& edge, Position place) {
    const double dx = edge.to.lon - edge.from.lon, dy = edge.to.lat - edge.from.lat;
    const double along = (place.lon - edge.from.lon) * dx + (place.lat - edge.from.lat) * dy;
    const double share = std::clamp(along / (dx * dx + dy * dy), 0.0, 1.0);
    // Not by a comparison that would be false for what is no number.
    return !(std::hypot(place.lon - edge.from.lon - share * dx, place.lat - edge.from.lat - share * dy) >=
             kSeparationDegrees);
}

EdgeCrossing crossingOf(const Edge& one, const Edge& other) {
    if (isNear(one, other.from) || isNear(one, other.to) || isNear(other, one.from) || isNear(other, one.to))
        return {true, {}};
    if (orientation(one.from, one.to, other.from) * orientation(one.from, one.to, other.to) >= 0 ||
        orientation(other.from, other.to, one.from) * orientation(other.from, other.to, one.to) >= 0)
        return {};
    const auto at = placeOfCrossing(one, other);
    return {!at, at};
}

double reachAlong(const Edge& edge) {
    // The determinant is the sine times both lengths, neither of which is more than the longest.
    const double leastSine = kLeastSineByLength * std::hypot(edge.to.lon - edge.from.lon, edge.to.lat - edge.from.lat);
    return 2.0 * kSeparationDegrees + kSeparationDegrees / std::min(leastSine, 1.0);
}

Contour::Contour(const model::MultiPolygon& surface, std::uint64_t id) : m_id{id} {
    for (const auto& part : surface.parts) {
        addRing(part.shell, false);
        for (const auto& hole : part.holes)
            addRing(hole, true);
    }
    divideWhereRingsTouch();
    std::vector<Position> corners;
    corners.reserve(m_edges.size());
    for (const Edge& edge : m_edges)
        corners.push_back(edge.from);
    std::sort(corners.begin(), corners.end(), isBefore);
    for (auto at = corners.begin(); (at = std::adjacent_find(at, corners.end())) != corners.end(); ++at)
        m_touches.push_back(*at);
}

void Contour::divideWhereRingsTouch() {
    if (ringCount() < 2)
        return;                                           // a ring of a valid surface does not touch itself
    std::vector<std::pair<std::size_t, Position>> places; // by edge
    for (const Edge& edge : m_edges) {
        const Position corner = edge.from;
        index().visitMeeting({corner.lon, corner.lat, corner.lon, corner.lat}, [&](std::size_t i) {
            const auto& [from, to] = m_edges[i];
            if (from != corner && to != corner && onEdge(from, to, corner))
                places.emplace_back(i, corner);
            return true;
        });
    }
    if (places.empty())
        return;
    const auto along = [this](const std::pair<std::size_t, Position>& place) {
        const Position from = m_edges[place.first].from;
        return std::hypot(place.second.lon - from.lon, place.second.lat - from.lat);
    };
    std::sort(places.begin(), places.end(), [&](const auto& a, const auto& b) {
        return a.first != b.first ? a.first < b.first : along(a) < along(b);
    });
    places.erase(std::unique(places.begin(), places.end()), places.end());
    std::vector<Edge> divided;
    std::vector<std::size_t> ends;
    auto next = places.begin();
    for (std::size_t i = 0; i < m_edges.size(); ++i) {
        Position from = m_edges[i].from;
        for (; next != places.end() && next->first == i; ++next)
            divided.push_back({std::exchange(from, next->second), next->second});
        divided.push_back({from, m_edges[i].to});
        if (i + 1 == m_ringEnds[ends.size()])
            ends.push_back(divided.size());
    }
    m_edges = std::move(divided);
    m_ringEnds = std::move(ends);
    m_index.reset();
}

bool Contour::touchesItselfAt(Position place) const {
    return !m_touches.empty() && std::binary_search(m_touches.begin(), m_touches.end(), place, isBefore);
}

void Contour::addRing(const model::Ring& ring, bool hole) {
    auto corners = ring.corners;
    dropRepeats(corners);
    if (corners.size() < 3)
        return;
    if (isCounterClockwise(corners) == hole)
        std::reverse(corners.begin(), corners.end());
    for (std::size_t i = 0; i < corners.size(); ++i) {
        m_edges.push_back({corners[i], corners[(i + 1) % corners.size()]});
        m_box.add(corners[i].lon, corners[i].lat);
    }
    m_ringEnds.push_back(m_edges.size());
}

bool Contour::holds(Position place) const {
    if (!m_box.meets({place.lon, place.lat, place.lon, place.lat}))
        return false;
    bool inside = false;
    index().visitMeeting({place.lon, place.lat, 1e300, place.lat}, [&](std::size_t number) {
        const auto& [from, to] = m_edges[number];
        // The ray to the east crosses the edge where the place lies on its western side.
        if ((from.lat > place.lat) != (to.lat > place.lat) &&
            orientation(from, to, place) == (to.lat > from.lat ? 1 : -1))
            inside = !inside;
        return true;
    });
    return inside;
}

const SpatialIndex& Contour::index() const {
    m_indexUsed = true;
    if (!m_index) {
        std::vector<Box> boxes;
        boxes.reserve(m_edges.size());
        for (const Edge& edge : m_edges)
            boxes.push_back(boxAround(edge));
        m_index.emplace(boxes);
    }
    return *m_index;
}

void Contour::dropIndexUnlessUsed() const {
    if (!std::exchange(m_indexUsed, false))
        m_index.reset();
}

bool Meeting::overlap() const {
    const auto any = [](const std::vector<bool>& in) { return std::find(in.begin(), in.end(), true) != in.end(); };
    return !crossings.empty() || any(firstIn) || any(secondIn);
}

Meeting meetingOf(const Contour& first, const Contour& second) {
    Meeting meeting;
    const bool fewerInFirst = first.edges().size() <= second.edges().size();
    const Contour &fewer = fewerInFirst ? first : second, &more = fewerInFirst ? second : first;
    for (std::size_t i = 0; i < fewer.edges().size(); ++i) {
        const Edge& a = fewer.edges()[i];
        const Box around = boxAround(a);
        if (!around.meets(more.box()))
            continue;
        more.index().visitMeeting(around, [&](std::size_t j) {
            const auto [clash, at] = crossingOf(a, more.edges()[j]);
            meeting.clash = clash;
            if (!at)
                return !clash;
            const auto [one, other] = fewerInFirst ? std::pair{i, j} : std::pair{j, i};
            meeting.crossings.push_back({static_cast<std::uint32_t>(one), static_cast<std::uint32_t>(other), *at});
            return true;
        });
        if (meeting.clash) {
            meeting.crossings.clear();
            return meeting;
        }
    }
    const auto beginsIn = [](const Contour& rings, const Contour& in) {
        std::vector<bool> result;
        for (std::size_t ring = 0; ring < rings.ringCount(); ++ring)
            result.push_back(in.holds(rings.ring(ring).front().from));
        return result;
    };
    meeting.firstIn = beginsIn(first, second);
    meeting.secondIn = beginsIn(second, first);
    return meeting;
}

} // namespace fencewright::geometry::detail
