#include "geometry/detail/exact_surface.h"

#include "geometry/detail/orientation.h"
#include "geometry/detail/repeated_corners.h"

#include <algorithm>
#include <set>
#include <tuple>

namespace fencewright::geometry::detail {
namespace {

Box boxOfEdge(model::Position a, model::Position b) {
    Box box;
    box.add(a.lon, a.lat);
    box.add(b.lon, b.lat);
    return box;
}

bool lexicographicallyLess(model::Position a, model::Position b) {
    return std::tie(a.lon, a.lat) < std::tie(b.lon, b.lat);
}

} // namespace

bool isCounterClockwise(const std::vector<model::Position>& corners) {
    // The corner farthest west (and south) is convex, so the turn there is the winding of the ring.
    const auto least = static_cast<std::size_t>(
        std::min_element(corners.begin(), corners.end(), lexicographicallyLess) - corners.begin());
    const auto count = corners.size();
    return orientation(corners[(least + count - 1) % count], corners[least], corners[(least + 1) % count]) > 0;
}

ExactSurface::ExactSurface(const model::MultiPolygon& surface) {
    for (const auto& part : surface.parts) {
        addRing(part.shell, false);
        for (const auto& hole : part.holes)
            addRing(hole, true);
    }
    makeIndex();
}

ExactSurface ExactSurface::joined(const std::vector<model::Polygon>& pieces) {
    ExactSurface all;
    for (const auto& piece : pieces) {
        all.addRing(piece.shell, false);
        for (const auto& hole : piece.holes)
            all.addRing(hole, true);
    }
    // Every edge with its inside on the left, so that one that two pieces share is there in both directions.
    const auto key = [](model::Position a, model::Position b) { return std::tuple{a.lon, a.lat, b.lon, b.lat}; };
    std::multiset<std::tuple<double, double, double, double>> directed;
    for (auto& edge : all.m_edges) {
        if (!edge.insideOnLeft)
            edge = {edge.to, edge.from, true};
        directed.insert(key(edge.from, edge.to));
    }
    std::erase_if(all.m_edges, [&](const Edge& edge) { return directed.contains(key(edge.to, edge.from)); });
    all.m_ringBegins.clear();
    all.makeIndex();
    return all;
}

void ExactSurface::makeIndex() {
    std::vector<Box> boxes;
    boxes.reserve(m_edges.size());
    for (const auto& edge : m_edges) {
        boxes.push_back(boxOfEdge(edge.from, edge.to));
        m_box.add(boxes.back());
    }
    m_index = SpatialIndex{boxes};
}

void ExactSurface::addRing(const model::Ring& ring, bool hole) {
    auto corners = ring.corners;
    dropRepeats(corners);
    if (corners.size() < 3)
        return;
    const bool insideOnLeft = isCounterClockwise(corners) != hole;
    m_ringBegins.push_back(m_edges.size());
    for (std::size_t i = 0; i < corners.size(); ++i)
        m_edges.push_back({corners[i], corners[(i + 1) % corners.size()], insideOnLeft});
}

ExactSurface::Location ExactSurface::locate(model::Position place) const {
    bool inside = false;
    for (const auto number : m_index.meeting({place.lon, place.lat, 1e300, place.lat})) {
        const auto& [from, to, insideOnLeft] = m_edges[number];
        if (onEdge(from, to, place))
            return Location::Boundary;
        if ((from.lat > place.lat) == (to.lat > place.lat))
            continue;
        // The ray to the east crosses the edge where the place lies on its western side.
        if (orientation(from, to, place) == (to.lat > from.lat ? 1 : -1))
            inside = !inside;
    }
    return inside ? Location::Inside : Location::Outside;
}

std::vector<ExactSurface::Ray> ExactSurface::raysFrom(model::Position place) const {
    std::vector<Ray> rays;
    for (const auto number : m_index.meeting({place.lon, place.lat, place.lon, place.lat})) {
        const auto& edge = m_edges[number];
        if (!onEdge(edge.from, edge.to, place))
            continue;
        if (place != edge.to)
            rays.push_back({edge.to, edge.insideOnLeft});
        if (place != edge.from)
            rays.push_back({edge.from, !edge.insideOnLeft});
    }
    return rays;
}

bool ExactSurface::coversAround(model::Position place, const ExactSurface& inner) const {
    struct Step {
        Ray ray;
        bool ofInner;
    };
    std::vector<Step> round;
    for (const auto& ray : raysFrom(place))
        round.push_back({ray, false});
    for (const auto& ray : inner.raysFrom(place))
        round.push_back({ray, true});
    const auto order = [&](const Step& a, const Step& b) {
        return compareDirections(place, a.ray.towards, b.ray.towards);
    };
    std::sort(round.begin(), round.end(), [&](const Step& a, const Step& b) { return order(a, b) < 0; });
    // What lies before the first direction is what lies after the last.
    bool inOuter = false, inInner = false;
    for (const auto& step : round)
        (step.ofInner ? inInner : inOuter) = step.ray.insideAfter;
    for (std::size_t i = 0; i < round.size(); ++i) {
        (round[i].ofInner ? inInner : inOuter) = round[i].ray.insideAfter;
        const bool sectorFollows = i + 1 == round.size() || order(round[i], round[i + 1]) != 0;
        if (sectorFollows && inInner && !inOuter)
            return false;
    }
    return true;
}

bool ExactSurface::covers(const ExactSurface& inner) const {
    if (inner.m_edges.empty())
        return true;
    if (m_edges.empty() || inner.m_box.minX < m_box.minX || inner.m_box.maxX > m_box.maxX ||
        inner.m_box.minY < m_box.minY || inner.m_box.maxY > m_box.maxY)
        return false;
    // The inside of `inner` can only leave this surface across the boundary, which happens where edges cross, where
    // boundaries meet in a corner, or, if boundaries do not meet at all, with a whole ring.
    std::vector<model::Position> meetings;
    for (const auto& edge : inner.m_edges) {
        for (const auto number : m_index.meeting(boxOfEdge(edge.from, edge.to))) {
            const auto& own = m_edges[number];
            const int ownFrom = orientation(edge.from, edge.to, own.from);
            const int ownTo = orientation(edge.from, edge.to, own.to);
            if (ownFrom * ownTo > 0)
                continue;
            const int from = orientation(own.from, own.to, edge.from);
            const int to = orientation(own.from, own.to, edge.to);
            if (from * to > 0)
                continue;
            if (ownFrom * ownTo < 0 && from * to < 0)
                return false;
            if (ownFrom == 0 && between(edge.from, edge.to, own.from))
                meetings.push_back(own.from);
            if (ownTo == 0 && between(edge.from, edge.to, own.to))
                meetings.push_back(own.to);
            if (from == 0 && between(own.from, own.to, edge.from))
                meetings.push_back(edge.from);
            if (to == 0 && between(own.from, own.to, edge.to))
                meetings.push_back(edge.to);
        }
    }
    std::sort(meetings.begin(), meetings.end(), lexicographicallyLess);
    meetings.erase(std::unique(meetings.begin(), meetings.end()), meetings.end());
    for (const auto& place : meetings)
        if (!coversAround(place, inner))
            return false;
    for (const auto begin : inner.m_ringBegins)
        if (locate(inner.m_edges[begin].from) == Location::Outside)
            return false;
    return std::none_of(m_ringBegins.begin(), m_ringBegins.end(),
                        [&](std::size_t begin) { return inner.locate(m_edges[begin].from) == Location::Inside; });
}

bool ExactSurface::boundariesMeet(const ExactSurface& other) const {
    if (!m_box.meets(other.m_box))
        return false;
    bool found = false;
    for (std::size_t i = 0; i < other.m_edges.size() && !found; ++i) {
        const auto& edge = other.m_edges[i];
        m_index.visitMeeting(boxOfEdge(edge.from, edge.to), [&](std::size_t number) {
            const auto& own = m_edges[number];
            // With boxes that meet, edges share a place just where neither lies wholly on one side of the other.
            found = orientation(edge.from, edge.to, own.from) * orientation(edge.from, edge.to, own.to) <= 0 &&
                    orientation(own.from, own.to, edge.from) * orientation(own.from, own.to, edge.to) <= 0;
            return !found;
        });
    }
    return found;
}

bool ExactSurface::meets(const ExactSurface& other) const {
    if (m_edges.empty() || other.m_edges.empty() || !m_box.meets(other.m_box))
        return false;
    if (boundariesMeet(other))
        return true;
    const auto anyInside = [](const ExactSurface& surface, const ExactSurface& rings) {
        return std::any_of(rings.m_ringBegins.begin(), rings.m_ringBegins.end(), [&](std::size_t begin) {
            return surface.locate(rings.m_edges[begin].from) != Location::Outside;
        });
    };
    return anyInside(*this, other) || anyInside(other, *this);
}

} // namespace fencewright::geometry::detail
