#include "geometry/boundary_net.h"

#include "geodesy/edge_meaning.h"
#include "geodesy/edge_places.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <queue>
#include <tuple>
#include <utility>

namespace fencewright::geometry {
namespace {

using model::Position;

constexpr double kChangeMetres = 0.01;
constexpr double kSameMetres = 1e-6;
constexpr double kMetresPerDegree = 110'000.0; // of latitude at least
constexpr double kSameDirectionDegrees = 0.5;

std::array<Position, 2> edgeOf(const BoundaryLine& line, std::size_t edge) {
    return {line.corners[edge], line.corners[edge + 1 < line.corners.size() ? edge + 1 : 0]};
}

/// The begin of an edge for its end where there is a next one.
BoundaryPlace ordered(const BoundaryLine& line, BoundaryPlace at) {
    if (at.along < 1.0 || (!line.closed && at.edge + 1 == line.edges()))
        return at;
    return {at.line, (at.edge + 1) % line.edges(), 0.0};
}

bool isCorner(const BoundaryPlace& at) { return at.along <= 0.0 || at.along >= 1.0; }

double metresBetween(const Position& a, const Position& b) {
    const std::array<Position, 2> point{a, a};
    const BoundaryLine only[]{{point, false}};
    return nearestOn(only, b)->distance.inMetres();
}

/// The direction from one place to another, in degrees of a plane: to be compared alone.
double directionOf(const Position& from, const Position& to) {
    const double shortening = std::cos(from.lat * std::numbers::pi / 180.0);
    return std::atan2((to.lon - from.lon) * shortening, to.lat - from.lat) * 180.0 / std::numbers::pi;
}

} // namespace

BoundaryNet::BoundaryNet(std::vector<BoundaryLine> lines) : m_lines{std::move(lines)} {
    std::erase_if(m_lines, [](const BoundaryLine& line) { return line.edges() == 0; });
    for (const BoundaryLine& line : m_lines)
        m_measured.emplace_back(line);
    findTouches();
}

void BoundaryNet::touchAt(const BoundaryPlace& one, const BoundaryPlace& other) {
    m_touches.push_back({ordered(m_lines[one.line], one), ordered(m_lines[other.line], other)});
}

/// Whether the corner lies on the edge, and touches it there.
bool BoundaryNet::meet(const BoundaryPlace& corner, std::size_t line, std::size_t edge) {
    const auto ends = edgeOf(m_lines[line], edge);
    const Position place = placeOn(m_lines[corner.line], corner);
    // A corner that lies with a corner belongs to that one, whatever is nearer of its edges.
    for (const std::size_t end : {0U, 1U})
        if (metresBetween(ends[end], place) <= kStandsOn.inMetres()) {
            touchAt(corner, {line, edge, double(end)});
            return true;
        }
    const BoundaryLine only[]{{ends, false}};
    const auto found = nearestOn(only, place);
    if (!found || found->distance > kStandsOn)
        return false;
    touchAt(corner, {line, edge, found->at.along});
    return true;
}

void BoundaryNet::findTouches() {
    struct Edge {
        std::size_t line, edge;
        double turn; ///< added, it comes to the turn of the first line
    };
    std::vector<Edge> edges;
    std::vector<Box> boxes;
    for (std::size_t line = 0; line < m_lines.size(); ++line) {
        const double first = m_lines[line].corners.front().lon;
        const double turn = geodesy::longitudeNear(first, m_lines.front().corners.front().lon) - first;
        for (std::size_t edge = 0; edge < m_lines[line].edges(); ++edge) {
            const auto ends = edgeOf(m_lines[line], edge);
            Box box = boxOf(ends);
            const double lat = std::max(std::abs(box.minY), std::abs(box.maxY));
            const double high = kStandsOn.inMetres() / kMetresPerDegree;
            const double wide = high / std::max(1e-3, std::cos(std::min(lat, 89.9) * std::numbers::pi / 180.0));
            edges.push_back({line, edge, turn});
            boxes.push_back({box.minX + turn - wide, box.minY - high, box.maxX + turn + wide, box.maxY + high});
        }
    }
    const SpatialIndex index{boxes};
    for (std::size_t i = 0; i < edges.size(); ++i)
        index.visitMeeting(boxes[i], [&](std::size_t j) {
            const Edge &one = edges[i], &other = edges[j];
            if (j <= i || one.line == other.line)
                return true;
            const auto corners = [this](const Edge& of) {
                std::vector<BoundaryPlace> all{{of.line, of.edge, 0.0}};
                if (!m_lines[of.line].closed && of.edge + 1 == m_lines[of.line].edges())
                    all.push_back({of.line, of.edge, 1.0});
                return all;
            };
            bool touch = false;
            for (const BoundaryPlace& corner : corners(one))
                touch = meet(corner, other.line, other.edge) || touch;
            for (const BoundaryPlace& corner : corners(other))
                touch = meet(corner, one.line, one.edge) || touch;
            if (touch)
                return true;
            auto a = edgeOf(m_lines[one.line], one.edge), b = edgeOf(m_lines[other.line], other.edge);
            for (Position& end : b)
                end.lon += other.turn - one.turn;
            const auto place = geodesy::crossingOf(a[0], a[1], b[0], b[1]);
            if (!place)
                return true;
            const auto along = [&](const std::array<Position, 2>& ends) {
                const BoundaryLine only[]{{ends, false}};
                return nearestOn(only, *place)->at.along;
            };
            // At the end of an edge the next one has said it.
            const BoundaryPlace onOne{one.line, one.edge, along(a)}, onOther{other.line, other.edge, along(b)};
            if (!isCorner(onOne) && !isCorner(onOther))
                touchAt(onOne, onOther);
            return true;
        });
}

std::vector<BoundaryPlace> BoundaryNet::standsOn(const Position& place) const {
    std::vector<BoundaryPlace> found;
    for (std::size_t line = 0; line < m_lines.size(); ++line) {
        const auto nearest = nearestOn(std::span{&m_lines[line], 1}, place);
        if (nearest && nearest->distance <= kStandsOn)
            found.push_back({line, nearest->at.edge, nearest->at.along});
    }
    return found;
}

namespace {

/// A place that a way may go through: on a line, at so many metres from its begin.
struct Node {
    BoundaryPlace at;
    double metres = 0.0;
};
struct Hop {
    std::size_t to = 0;
    double metres = 0.0;
    std::optional<Sense> sense; ///< none: a change of line
};

/// The places of a net as they are needed for one question.
class Search {
public:
    explicit Search(const BoundaryNet& net) : m_net{net}, m_ofLine(net.lines().size()) {}

    std::size_t add(const BoundaryPlace& at) {
        m_nodes.push_back({at, m_net.measured(at.line).between({at.line, 0, 0.0}, at, Sense::Forward).inMetres()});
        m_ofLine[at.line].push_back(m_nodes.size() - 1);
        return m_nodes.size() - 1;
    }
    void join(std::size_t a, std::size_t b) { m_changes.emplace_back(a, b); }
    void link() {
        m_hops.assign(m_nodes.size(), {});
        for (const auto& [a, b] : m_changes) {
            m_hops[a].push_back({b, kChangeMetres, {}});
            m_hops[b].push_back({a, kChangeMetres, {}});
        }
        for (std::size_t line = 0; line < m_ofLine.size(); ++line) {
            auto& nodes = m_ofLine[line];
            std::sort(nodes.begin(), nodes.end(), [&](std::size_t a, std::size_t b) {
                const auto key = [&](std::size_t n) { return std::tuple{m_nodes[n].at.edge, m_nodes[n].at.along, n}; };
                return key(a) < key(b);
            });
            const bool closed = m_net.lines()[line].closed;
            for (std::size_t i = 0; i + (closed ? 0 : 1) < nodes.size() && nodes.size() > 1; ++i)
                lay(nodes[i], nodes[(i + 1) % nodes.size()]);
        }
    }

    struct Found {
        std::vector<std::size_t> nodes;
        std::vector<std::optional<Sense>> senses; ///< of the hop to each node but the first
        double metres = 0.0;
    };
    /// By the method of Dijkstra, "A note on two problems in connexion with graphs", 1959.
    std::optional<Found> shortest(std::span<const std::size_t> from, const std::vector<bool>& to,
                                  const std::function<bool(std::size_t, const Hop&)>& mayBegin) const {
        constexpr double never = std::numeric_limits<double>::infinity();
        constexpr auto none = std::size_t(-1);
        std::vector<double> least(m_nodes.size(), never);
        std::vector<std::size_t> before(m_nodes.size(), none);
        std::vector<std::optional<Sense>> sense(m_nodes.size());
        std::vector<bool> isBegin(m_nodes.size(), false);
        using Waiting = std::pair<double, std::size_t>;
        std::priority_queue<Waiting, std::vector<Waiting>, std::greater<>> waiting;
        for (const std::size_t node : from) {
            isBegin[node] = true;
            least[node] = 0.0;
            waiting.emplace(0.0, node);
        }
        while (!waiting.empty()) {
            const auto [metres, node] = waiting.top();
            waiting.pop();
            if (metres > least[node])
                continue;
            if (to[node])
                return found(node, before, sense, metres);
            for (const Hop& hop : m_hops[node]) {
                const double there = metres + hop.metres;
                if (there >= least[hop.to] || (isBegin[node] && !mayBegin(node, hop)))
                    continue;
                least[hop.to] = there;
                before[hop.to] = node;
                sense[hop.to] = hop.sense;
                waiting.emplace(there, hop.to);
            }
        }
        return std::nullopt;
    }
    const Node& node(std::size_t number) const { return m_nodes[number]; }
    std::size_t size() const { return m_nodes.size(); }

private:
    void lay(std::size_t a, std::size_t b) {
        const std::size_t line = m_nodes[a].at.line;
        const double metres = m_net.measured(line).between(m_nodes[a].at, m_nodes[b].at, Sense::Forward).inMetres();
        m_hops[a].push_back({b, metres, Sense::Forward});
        m_hops[b].push_back({a, metres, Sense::Backward});
    }
    static std::optional<Found> found(std::size_t end, const std::vector<std::size_t>& before,
                                      const std::vector<std::optional<Sense>>& sense, double metres) {
        Found way{{end}, {}, metres};
        while (before[way.nodes.back()] != std::size_t(-1)) {
            way.senses.push_back(sense[way.nodes.back()]);
            way.nodes.push_back(before[way.nodes.back()]);
        }
        std::reverse(way.nodes.begin(), way.nodes.end());
        std::reverse(way.senses.begin(), way.senses.end());
        return way;
    }

    const BoundaryNet& m_net;
    std::vector<Node> m_nodes;
    std::vector<std::vector<std::size_t>> m_ofLine;
    std::vector<std::pair<std::size_t, std::size_t>> m_changes;
    std::vector<std::vector<Hop>> m_hops;
};

/// The next corner that one comes to from a place.
Position nextCorner(const BoundaryLine& line, const BoundaryPlace& at, Sense sense) {
    const std::size_t count = line.corners.size();
    if (sense == Sense::Forward)
        return line.corners[(at.edge + 1) % count];
    return line.corners[at.along > 0.0 ? at.edge : (at.edge + count - 1) % count];
}

} // namespace

std::optional<BoundaryNet::Way> BoundaryNet::way(std::span<const BoundaryPlace> from, std::span<const BoundaryPlace> to,
                                                 Round round) const {
    Search search{*this};
    std::vector<std::size_t> begins, ends;
    for (const BoundaryPlace& place : from)
        begins.push_back(search.add(ordered(m_lines[place.line], place)));
    for (const BoundaryPlace& place : to)
        ends.push_back(search.add(ordered(m_lines[place.line], place)));
    const std::size_t givenBegins = begins.size();
    for (const Touch& touch : m_touches) {
        const std::size_t one = search.add(touch.one), other = search.add(touch.other);
        search.join(one, other);
        // What lies where it begins is a begin, too: nothing goes over to it without setting out.
        for (const std::size_t node : {one, other})
            for (std::size_t i = 0; i < givenBegins; ++i)
                if (search.node(begins[i]).at == search.node(node).at)
                    begins.push_back(node);
    }
    search.link();
    std::vector<bool> isEnd(search.size(), false);
    for (const std::size_t end : ends)
        isEnd[end] = true;
    const auto direction = [&](std::size_t node, Sense sense) {
        const BoundaryPlace& at = search.node(node).at;
        return directionOf(placeOn(m_lines[at.line], at), nextCorner(m_lines[at.line], at, sense));
    };
    auto found = search.shortest(begins, isEnd, [](std::size_t, const Hop&) { return true; });
    if (found && round == Round::Other) {
        // Neighbours share their boundary: what sets out along the same edges is the same way.
        std::optional<double> taken;
        for (std::size_t i = 0; i < found->senses.size() && !taken; ++i)
            if (found->senses[i] && search.node(found->nodes[i]).metres != search.node(found->nodes[i + 1]).metres)
                taken = direction(found->nodes[i], *found->senses[i]);
        found = search.shortest(begins, isEnd, [&](std::size_t node, const Hop& hop) {
            return hop.sense && hop.metres > 0.0 &&
                   (!taken ||
                    std::abs(std::remainder(direction(node, *hop.sense) - *taken, 360.0)) > kSameDirectionDegrees);
        });
    }
    if (!found)
        return std::nullopt;
    Way way;
    double metres = 0.0;
    for (std::size_t i = 0; i < found->senses.size(); ++i) {
        const BoundaryPlace &a = search.node(found->nodes[i]).at, &b = search.node(found->nodes[i + 1]).at;
        if (!found->senses[i] || a == b)
            continue;
        const Sense sense = *found->senses[i];
        metres += m_measured[a.line].between(a, b, sense).inMetres();
        if (!way.stretches.empty() && way.stretches.back().to == a && way.stretches.back().sense == sense)
            way.stretches.back().to = b;
        else
            way.stretches.push_back({a, b, sense});
    }
    way.length = Length::metres(metres);
    return way;
}

model::LineString BoundaryNet::cornersOf(const Way& way) const {
    model::LineString corners;
    for (std::size_t i = 0; i < way.stretches.size(); ++i) {
        const Stretch& now = way.stretches[i];
        const BoundaryLine& line = m_lines[now.from.line];
        if (i > 0) {
            const Stretch& last = way.stretches[i - 1];
            const Position left = placeOn(m_lines[last.to.line], last.to), taken = placeOn(line, now.from);
            if (left == taken || metresBetween(left, taken) <= kSameMetres) {
                corners.push_back(isCorner(now.from) ? taken : left);
            } else {
                corners.push_back(left);
                corners.push_back(taken);
            }
        }
        const auto between = pathAlong(line, now.from, now.to, now.sense);
        corners.insert(corners.end(), between.begin(), between.end());
    }
    return corners;
}

std::optional<BoundaryNet::Way> BoundaryNet::cutOrDrawnTo(const Way& way, Length length) const {
    Way made;
    double left = length.inMetres();
    for (std::size_t i = 0; i < way.stretches.size(); ++i) {
        Stretch stretch = way.stretches[i];
        const MeasuredBoundary& line = m_measured[stretch.from.line];
        const double metres = line.between(stretch.from, stretch.to, stretch.sense).inMetres();
        if (left > metres && i + 1 < way.stretches.size()) {
            left -= metres;
            made.stretches.push_back(stretch);
            continue;
        }
        const auto end = line.after(stretch.from, Length::metres(left), stretch.sense);
        if (!end)
            return std::nullopt;
        stretch.to = *end;
        made.stretches.push_back(stretch);
        made.length = length;
        return made;
    }
    return std::nullopt;
}

} // namespace fencewright::geometry
