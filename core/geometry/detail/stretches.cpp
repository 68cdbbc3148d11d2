#include "geometry/detail/stretches.h"

#include "geodesy/geodesic.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/orientation.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <unordered_map>
#include <utility>

namespace fencewright::geometry::detail {
namespace {

using model::Position;
using Edge = Contour::Edge;

/// A crossing as one of the two contours comes to it.
struct Passage {
    std::uint32_t edge;
    double along; ///< from the begin of the edge, in degrees
    std::uint32_t neighbour;
    std::uint32_t edgeOfNeighbour;
    Position at;
    bool enters; ///< the neighbour's inside
};

std::vector<Passage> passagesOf(const Contour& contour, std::span<const Neighbour> neighbours) {
    std::vector<Passage> passages;
    for (std::size_t i = 0; i < neighbours.size(); ++i) {
        const Neighbour& neighbour = neighbours[i];
        for (const Crossing& crossing : neighbour.meeting->crossings) {
            const auto [own, others] = neighbour.isFirst ? std::pair{crossing.edgeOfSecond, crossing.edgeOfFirst}
                                                         : std::pair{crossing.edgeOfFirst, crossing.edgeOfSecond};
            const Edge& edge = contour.edges()[own];
            const Edge& other = neighbour.contour->edges()[others];
            passages.push_back({own, std::hypot(crossing.at.lon - edge.from.lon, crossing.at.lat - edge.from.lat),
                                static_cast<std::uint32_t>(i), others, crossing.at,
                                orientation(other.from, other.to, edge.to) > 0});
        }
    }
    std::sort(passages.begin(), passages.end(), [](const Passage& a, const Passage& b) {
        return a.edge != b.edge ? a.edge < b.edge : a.along < b.along;
    });
    return passages;
}

/// Whether another edge of the contour itself comes near to the edge, but for the corners where it goes on.
bool comesNearItself(const Contour& contour, std::size_t number) {
    const Edge& edge = contour.edges()[number];
    bool found = false;
    contour.index().visitMeeting(boxAround(edge), [&](std::size_t i) {
        const Edge& other = contour.edges()[i];
        const auto near = [&](Position corner) {
            return corner != edge.from && corner != edge.to && isNear(edge, corner);
        };
        const auto nearOther = [&](Position corner) {
            return corner != other.from && corner != other.to && isNear(other, corner);
        };
        found = i != number && (near(other.from) || near(other.to) || nearOther(edge.from) || nearOther(edge.to));
        return !found;
    });
    return found;
}

/// The neighbours at whose crossings something else is near.
///
/// What comes near to a crossing crosses the same edge (else a corner would be near an edge: a clash of its own), and
/// at no lesser an angle than crossingOf() allows: so it does within reachAlong() of it, and only there is looked.
std::vector<std::uint64_t> clashesAt(const std::vector<Passage>& passages, const Contour& contour,
                                     std::span<const Neighbour> neighbours) {
    std::vector<std::uint64_t> clashing;
    const auto id = [&](const Passage& passage) { return neighbours[passage.neighbour].contour->id(); };
    for (std::size_t begin = 0, end = 0; begin < passages.size(); begin = end) {
        const std::size_t number = passages[begin].edge;
        while (end < passages.size() && passages[end].edge == number)
            ++end;
        const bool nearItself = comesNearItself(contour, number);
        const double reach = reachAlong(contour.edges()[number]);
        for (std::size_t i = begin; i < end; ++i) {
            if (nearItself)
                clashing.push_back(id(passages[i]));
            const auto look = [&](const Passage& other) {
                if (isNear(neighbours[other.neighbour].contour->edges()[other.edgeOfNeighbour], passages[i].at)) {
                    clashing.push_back(id(passages[i]));
                    clashing.push_back(id(other));
                }
            };
            for (std::size_t k = i; k > begin && passages[i].along - passages[k - 1].along <= reach; --k)
                look(passages[k - 1]);
            for (std::size_t k = i + 1; k < end && passages[k].along - passages[i].along <= reach; ++k)
                look(passages[k]);
        }
    }
    return clashing;
}

/// By how much of each kind a place is covered, along a ring.
class Cover {
public:
    Cover(bool removed, std::span<const Neighbour> neighbours, std::size_t ring)
        : m_removed{removed}, m_neighbours{neighbours} {
        for (const Neighbour& neighbour : neighbours) {
            const Meeting& meeting = *neighbour.meeting;
            m_in.push_back(neighbour.isFirst ? meeting.secondIn[ring] : meeting.firstIn[ring]);
            if (m_in.back())
                ++count(neighbour);
        }
        m_atBegin = m_in;
    }
    /// @return  whether that can be.
    bool pass(const Passage& passage) {
        if (m_in[passage.neighbour] == passage.enters)
            return false;
        m_in[passage.neighbour] = passage.enters;
        passage.enters ? ++count(m_neighbours[passage.neighbour]) : --count(m_neighbours[passage.neighbour]);
        return true;
    }
    /// Whether all is as where the ring begins, which it has to be where it ends.
    [[nodiscard]] bool isAsAtBegin() const { return m_in == m_atBegin; }
    /// Whether the ring bounds the result there.
    [[nodiscard]] bool bounds() const { return m_byRemoved == 0 && (m_removed ? m_byGiven > 0 : m_byGiven == 0); }

private:
    std::size_t& count(const Neighbour& neighbour) { return neighbour.removed ? m_byRemoved : m_byGiven; }

    bool m_removed;
    std::span<const Neighbour> m_neighbours;
    std::vector<bool> m_in, m_atBegin;
    std::size_t m_byGiven = 0, m_byRemoved = 0;
};

double areaBelowRing(const model::LineString& corners) {
    return geodesy::areaToEquator(corners) + geodesy::areaToEquator(std::array{corners.back(), corners.front()});
}

Stretch stretchOf(const Contour& contour, model::LineString corners, bool closed, bool removed) {
    if (removed)
        std::reverse(corners.begin(), corners.end());
    Stretch stretch{std::move(corners), closed, 0.0};
    stretch.touches = std::any_of(stretch.corners.begin(), stretch.corners.end(),
                                  [&](const Position& corner) { return contour.touchesItselfAt(corner); });
    stretch.areaBelow = closed ? areaBelowRing(stretch.corners) : geodesy::areaToEquator(stretch.corners);
    return stretch;
}

struct PlaceHash {
    std::size_t operator()(const Position& place) const {
        // Adding zero makes one of the two zeros, which are equal.
        const auto bits = [](double value) { return std::bit_cast<std::uint64_t>(value + 0.0); };
        return static_cast<std::size_t>((bits(place.lon) * 0x9E3779B97F4A7C15U) ^ bits(place.lat));
    }
};

/// A ring that touches itself, as rings that do not.
std::vector<model::LineString> apart(const model::LineString& ring) {
    std::vector<model::LineString> result;
    model::LineString line;
    std::unordered_map<Position, std::size_t, PlaceHash> passed; // where in the line
    for (const Position& corner : ring) {
        if (const auto found = passed.find(corner); found != passed.end()) {
            const auto begin = line.begin() + static_cast<std::ptrdiff_t>(found->second);
            for (auto at = begin + 1; at != line.end(); ++at)
                passed.erase(*at);
            result.emplace_back(begin, line.end());
            line.erase(begin + 1, line.end());
            continue;
        }
        passed.emplace(corner, line.size());
        line.push_back(corner);
    }
    result.push_back(std::move(line));
    return result;
}

/// Rings that touch themselves and one another, with the inside on their left, so that none of them goes past an inside
/// that another one bounds as well: where they touch, each goes on along the inside that it came along. So holes that
/// touch a shell twice part it.
std::vector<model::LineString> rewoven(const std::vector<model::LineString>& rings) {
    struct Visit {
        Position at, before, after;
        std::size_t next;
    };
    std::vector<Visit> visits;
    std::unordered_map<Position, std::vector<std::size_t>, PlaceHash> places;
    for (const model::LineString& ring : rings) {
        const std::size_t begin = visits.size(), count = ring.size();
        for (std::size_t i = 0; i < count; ++i) {
            places[ring[i]].push_back(begin + i);
            visits.push_back({ring[i], ring[(i + count - 1) % count], ring[(i + 1) % count], begin + (i + 1) % count});
        }
    }
    for (const auto& [place, all] : places) {
        if (all.size() < 2)
            continue;
        std::vector<std::size_t> leaving = all; // counter-clockwise from due east
        const auto compare = [&, centre = place](Position a, Position b) { return compareDirections(centre, a, b); };
        std::sort(leaving.begin(), leaving.end(),
                  [&](std::size_t a, std::size_t b) { return compare(visits[a].after, visits[b].after) < 0; });
        std::vector<std::pair<std::size_t, std::size_t>> goOn;
        for (const std::size_t visit : all) {
            // The inside lies clockwise of where it came from.
            auto beyond = std::find_if(leaving.begin(), leaving.end(), [&](std::size_t other) {
                return compare(visits[other].after, visits[visit].before) >= 0;
            });
            const std::size_t onAlong = beyond == leaving.begin() ? leaving.back() : *std::prev(beyond);
            goOn.emplace_back(visit, visits[onAlong].next);
        }
        for (const auto& [visit, next] : goOn)
            visits[visit].next = next;
    }
    std::vector<model::LineString> result;
    std::vector<bool> taken(visits.size(), false);
    for (std::size_t i = 0; i < visits.size(); ++i) {
        model::LineString walk;
        for (std::size_t at = i; !taken[at]; at = visits[at].next) {
            taken[at] = true;
            walk.push_back(visits[at].at);
        }
        if (!walk.empty())
            result.push_back(std::move(walk));
    }
    return result;
}

struct TracedRing {
    model::LineString corners;
    double area; ///< square metres: positive, whichever way it runs
    Box box;
};

ExactSurface::Location locationIn(const model::LineString& corners, Position place) {
    bool inside = false;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const Position &from = corners[i], &to = corners[i + 1 < corners.size() ? i + 1 : 0];
        if (std::max(from.lon, to.lon) < place.lon || std::max(from.lat, to.lat) < place.lat ||
            std::min(from.lat, to.lat) > place.lat)
            continue;
        const int side = orientation(from, to, place);
        if (side == 0 && between(from, to, place))
            return ExactSurface::Location::Boundary;
        if ((from.lat > place.lat) != (to.lat > place.lat) && side == (to.lat > from.lat ? 1 : -1))
            inside = !inside;
    }
    return inside ? ExactSurface::Location::Inside : ExactSurface::Location::Outside;
}

/// Whether a shell goes round a hole. They may touch in single corners.
class Around {
public:
    Around(const TracedRing& shell, std::size_t questions) : m_shell{shell} {
        constexpr std::size_t manyEdges = 1'000'000;
        if (questions * shell.corners.size() > manyEdges)
            m_indexed.emplace(model::MultiPolygon{{{{shell.corners, false}, {}}}});
    }
    [[nodiscard]] bool operator()(const TracedRing& hole) const {
        for (const Position& corner : hole.corners) {
            const auto location = m_indexed ? m_indexed->locate(corner) : locationIn(m_shell.corners, corner);
            if (location != ExactSurface::Location::Boundary)
                return location == ExactSurface::Location::Inside;
        }
        return false;
    }

private:
    const TracedRing& m_shell;
    std::optional<ExactSurface> m_indexed;
};

/// For each hole the shell that it lies in: of those around it the smallest.
std::optional<std::vector<std::size_t>> shellsAround(const std::vector<TracedRing>& shells,
                                                     const std::vector<TracedRing>& holes) {
    std::vector<Box> boxes;
    for (const TracedRing& hole : holes)
        boxes.push_back(hole.box);
    const SpatialIndex index{boxes};
    std::vector<std::size_t> around(holes.size(), shells.size());
    for (std::size_t i = 0; i < shells.size(); ++i) {
        const auto candidates = index.meeting(shells[i].box);
        if (candidates.empty())
            continue;
        const Around goesRound{shells[i], candidates.size()};
        for (const std::size_t hole : candidates)
            if ((around[hole] == shells.size() || shells[i].area < shells[around[hole]].area) && goesRound(holes[hole]))
                around[hole] = i;
    }
    if (std::find(around.begin(), around.end(), shells.size()) != around.end())
        return std::nullopt;
    return around;
}

} // namespace

Stretches stretchesOf(const Contour& contour, bool removed, std::span<const Neighbour> neighbours) {
    const auto passages = passagesOf(contour, neighbours);
    Stretches result{{}, clashesAt(passages, contour, neighbours)};
    if (!result.clashing.empty())
        return result;
    auto at = passages.begin();
    for (std::size_t number = 0; number < contour.ringCount(); ++number) {
        const auto ring = contour.ring(number);
        const std::size_t begin = contour.ringBegin(number);
        const auto first = at;
        while (at != passages.end() && at->edge < begin + ring.size())
            ++at;
        const std::span<const Passage> of{first, at};
        Cover cover{removed, neighbours, number};
        const bool boundsAtBegin = cover.bounds();
        std::vector<bool> boundsAfter;
        for (const Passage& passage : of) {
            if (!cover.pass(passage)) {
                result.clashing.push_back(neighbours[passage.neighbour].contour->id());
                return result;
            }
            boundsAfter.push_back(cover.bounds());
        }
        if (!cover.isAsAtBegin()) {
            for (const Neighbour& neighbour : neighbours)
                result.clashing.push_back(neighbour.contour->id());
            return result;
        }
        const auto boundsBefore = [&](std::size_t i) { return i == 0 ? boundsAtBegin : boundsAfter[i - 1]; };
        std::vector<std::size_t> turns; // where it begins to bound the result, or ends to
        for (std::size_t i = 0; i < of.size(); ++i)
            if (boundsBefore(i) != boundsAfter[i])
                turns.push_back(i);
        if (turns.empty()) {
            if (!boundsAtBegin)
                continue;
            model::LineString corners;
            for (const Edge& edge : ring)
                corners.push_back(edge.from);
            result.all.push_back(stretchOf(contour, std::move(corners), true, removed));
            continue;
        }
        for (std::size_t i = 0; i < turns.size(); ++i) {
            if (!boundsAfter[turns[i]])
                continue;
            const Passage &from = of[turns[i]], &to = of[turns[(i + 1) % turns.size()]];
            std::size_t between = (to.edge + ring.size() - from.edge) % ring.size();
            if (between == 0 && i + 1 == turns.size())
                between = ring.size(); // it goes once round
            model::LineString corners{from.at};
            for (std::size_t k = 0; k < between; ++k)
                corners.push_back(ring[(from.edge - begin + k) % ring.size()].to);
            corners.push_back(to.at);
            result.all.push_back(stretchOf(contour, std::move(corners), false, removed));
        }
    }
    return result;
}

std::optional<Joined> joined(std::span<const Stretch* const> stretches) {
    std::unordered_map<Position, std::size_t, PlaceHash> begins;
    for (std::size_t i = 0; i < stretches.size(); ++i)
        if (!stretches[i]->closed && !begins.emplace(stretches[i]->corners.front(), i).second)
            return std::nullopt;
    std::vector<TracedRing> shells, holes;
    const auto add = [&](model::LineString ring, double area) {
        const Box box = boxOf(ring);
        const bool shell = isCounterClockwise(ring);
        model::Ring whole{std::move(ring), false};
        if (!shell || !isSliver(whole))
            (shell ? shells : holes).push_back({std::move(whole.corners), std::abs(area), box});
    };
    std::vector<model::LineString> touching;
    std::vector<bool> taken(stretches.size(), false);
    for (std::size_t i = 0; i < stretches.size(); ++i) {
        if (taken[i])
            continue;
        model::LineString corners;
        double below = 0.0;
        bool touches = false;
        for (std::size_t next = i; !taken[next];) {
            taken[next] = true;
            const Stretch& one = *stretches[next];
            corners.insert(corners.end(), one.corners.begin(), one.corners.end() - (one.closed ? 0 : 1));
            below += one.areaBelow;
            touches = touches || one.touches;
            if (one.closed)
                break;
            const auto found = begins.find(one.corners.back());
            if (found == begins.end() || (taken[found->second] && found->second != i))
                return std::nullopt;
            next = found->second;
        }
        if (touches)
            touching.push_back(std::move(corners));
        else
            add(std::move(corners), below);
    }
    for (const model::LineString& walk : rewoven(touching))
        for (model::LineString& ring : apart(walk)) {
            const double area = areaBelowRing(ring);
            add(std::move(ring), area);
        }
    const auto around = shellsAround(shells, holes);
    if (!around)
        return std::nullopt;
    Joined result;
    for (TracedRing& shell : shells) {
        result.surface.parts.push_back({{std::move(shell.corners), false}, {}});
        result.areas.push_back(Area::squareMetres(shell.area));
    }
    for (std::size_t i = 0; i < holes.size(); ++i) {
        const std::size_t in = (*around)[i];
        result.surface.parts[in].holes.push_back({std::move(holes[i].corners), false});
        result.areas[in] = std::max(result.areas[in] - Area::squareMetres(holes[i].area), Area{});
    }
    return result;
}

} // namespace fencewright::geometry::detail
