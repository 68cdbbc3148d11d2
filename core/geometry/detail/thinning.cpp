#include "geometry/detail/thinning.h"

#include "geometry/detail/orientation.h"
#include "geometry/detail/repeated_corners.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <optional>
#include <queue>
#include <utility>
#include <vector>

namespace fencewright::geometry::detail {
namespace {

using model::Position;

/// Metres in a degree of latitude, and of longitude at the equator: nowhere more on the WGS 84 ellipsoid.
constexpr double kMostMetresPerDegree = 111'695.0;

/// Rings run so that the surface lies to the left (Grow) or to the right (Shrink): boundaries may move to the right
/// only.
struct Corner {
    Position at;
    std::uint32_t before = 0, after = 0;
    std::uint32_t ring = 0;
    std::uint32_t version = 0; ///< changes with the corner or one of its neighbours
    double deviation = 0.0;    ///< of the edge to the next corner from the boundary it stands for
    bool alive = true;
};

struct RingState {
    std::size_t part = 0;
    bool hole = false;
    std::size_t count = 0;
    std::uint32_t any = 0; ///< a corner that is alive
    bool alive = true;
};

enum class Step : std::uint8_t { LeaveOut, Replace, DropRing };

struct Candidate {
    double deviation = 0.0;
    Step step = Step::LeaveOut;
    std::uint32_t corner = 0; ///< the one left out; the first of the replaced edge; or the ring
    std::uint32_t version = 0;
    bool operator<(const Candidate& other) const { return deviation > other.deviation; } // cheapest on top
};

double signedArea(const std::vector<Position>& ring) {
    double sum = 0.0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i)
        sum += (ring[i].lon - ring[0].lon) * (ring[i + 1].lat - ring[0].lat) -
               (ring[i].lat - ring[0].lat) * (ring[i + 1].lon - ring[0].lon);
    return sum;
}

using Triangle = std::array<Position, 3>;

bool rangesMeet(double a, double b, double c, double d) {
    return std::min(a, b) <= std::max(c, d) && std::min(c, d) <= std::max(a, b);
}

bool inClosedTriangle(const Triangle& t, const Position& p) {
    const auto [west, east] = std::minmax({t[0].lon, t[1].lon, t[2].lon});
    const auto [south, north] = std::minmax({t[0].lat, t[1].lat, t[2].lat});
    if (p.lon < west || p.lon > east || p.lat < south || p.lat > north)
        return false;
    const int a = orientation(t[0], t[1], p), b = orientation(t[1], t[2], p), c = orientation(t[2], t[0], p);
    return (a >= 0 && b >= 0 && c >= 0) || (a <= 0 && b <= 0 && c <= 0);
}

bool meet(const Position& a, const Position& b, const Position& c, const Position& d) {
    return rangesMeet(a.lon, b.lon, c.lon, d.lon) && rangesMeet(a.lat, b.lat, c.lat, d.lat) &&
           orientation(a, b, c) * orientation(a, b, d) <= 0 && orientation(c, d, a) * orientation(c, d, b) <= 0;
}

/// Edges in square cells, so that those near a triangle are found. Edges are added and never taken out: those that are
/// gone are told by the version of their corner.
class EdgeGrid {
public:
    struct Entry {
        std::uint32_t corner;
        std::uint32_t next;
    };

    EdgeGrid(double west, double south, double east, double north, std::size_t edges)
        : m_west{west}, m_south{south}, m_side{static_cast<std::size_t>(
                                            std::clamp(std::sqrt(static_cast<double>(edges)), 1.0, 1024.0))},
          m_width{std::max(east - west, 1e-300) / static_cast<double>(m_side)}, m_height{std::max(north - south,
                                                                                                  1e-300) /
                                                                                         static_cast<double>(m_side)},
          m_cells(m_side * m_side) {}

    void add(const Position& a, const Position& b, Entry entry) {
        visit(std::min(a.lon, b.lon), std::min(a.lat, b.lat), std::max(a.lon, b.lon), std::max(a.lat, b.lat),
              [&](std::vector<Entry>& cell) { cell.push_back(entry); });
    }
    template <class Visit> void near(const Triangle& t, Visit&& each) {
        const auto [west, east] = std::minmax({t[0].lon, t[1].lon, t[2].lon});
        const auto [south, north] = std::minmax({t[0].lat, t[1].lat, t[2].lat});
        visit(west, south, east, north,
              [&](std::vector<Entry>& cell) { std::for_each(cell.begin(), cell.end(), each); });
    }

private:
    std::size_t index(double value, double origin, double size) const {
        return static_cast<std::size_t>(std::clamp((value - origin) / size, 0.0, static_cast<double>(m_side - 1)));
    }
    template <class Use> void visit(double west, double south, double east, double north, Use&& use) {
        const std::size_t right = index(east, m_west, m_width), top = index(north, m_south, m_height);
        for (std::size_t y = index(south, m_south, m_height); y <= top; ++y)
            for (std::size_t x = index(west, m_west, m_width); x <= right; ++x)
                use(m_cells[y * m_side + x]);
    }

    double m_west, m_south;
    std::size_t m_side;
    double m_width, m_height;
    std::vector<std::vector<Entry>> m_cells;
};

class Thinner {
public:
    Thinner(const model::MultiPolygon& surface, const Thinning& thinning, Side side)
        : m_thinning{thinning}, m_side{side}, m_grid{boxed(surface)} {
        m_partCount = surface.parts.size();
        for (std::size_t part = 0; part < surface.parts.size(); ++part) {
            addRing(surface.parts[part].shell.corners, part, false);
            for (const auto& hole : surface.parts[part].holes)
                addRing(hole.corners, part, true);
        }
    }

    model::MultiPolygon run() {
        // A step that another ring stood in the way of may be free later: hence rounds, until one changes nothing.
        bool changed = true;
        while (changed && m_count > m_thinning.corners) {
            changed = false;
            m_queue = {};
            for (std::uint32_t i = 0; i < m_corners.size(); ++i)
                if (m_corners[i].alive)
                    offer(i);
            if (m_thinning.mayDropRings)
                for (std::uint32_t i = 0; i < m_rings.size(); ++i)
                    offerRing(i);
            while (!m_queue.empty() && m_count > m_thinning.corners) {
                const auto candidate = m_queue.top();
                m_queue.pop();
                if (candidate.deviation > m_thinning.largestDeviation)
                    break;
                changed = take(candidate) || changed;
            }
        }
        return result();
    }

private:
    EdgeGrid boxed(const model::MultiPolygon& surface) {
        double west = HUGE_VAL, south = HUGE_VAL, east = -HUGE_VAL, north = -HUGE_VAL;
        std::size_t edges = 0;
        for (const auto& part : surface.parts) {
            for (const auto& corner : part.shell.corners) {
                west = std::min(west, corner.lon);
                east = std::max(east, corner.lon);
                south = std::min(south, corner.lat);
                north = std::max(north, corner.lat);
            }
            edges += part.shell.corners.size();
            for (const auto& hole : part.holes)
                edges += hole.corners.size();
        }
        const double widest = south * north <= 0.0
                                  ? 1.0
                                  : std::cos(std::min(std::abs(south), std::abs(north)) * std::numbers::pi / 180.0);
        m_metresPerLon = kMostMetresPerDegree * widest;
        return {west, south, east, north, edges};
    }

    void addRing(std::vector<Position> corners, std::size_t part, bool hole) {
        const bool counterClockwise = signedArea(corners) > 0.0;
        if (counterClockwise != ((m_side == Side::Grow) != hole))
            std::reverse(corners.begin(), corners.end());
        dropRepeats(corners);
        const auto first = static_cast<std::uint32_t>(m_corners.size());
        const auto size = static_cast<std::uint32_t>(corners.size());
        const auto ring = static_cast<std::uint32_t>(m_rings.size());
        for (std::uint32_t i = 0; i < size; ++i)
            m_corners.push_back({corners[i], first + (i + size - 1) % size, first + (i + 1) % size, ring});
        m_rings.push_back({part, hole, size, first});
        m_count += size;
        for (std::uint32_t i = first; i < first + size; ++i)
            m_grid.add(m_corners[i].at, at(m_corners[i].after), {i, m_corners[i].after});
    }

    const Position& at(std::uint32_t corner) const { return m_corners[corner].at; }

    double toSegment(const Position& p, const Position& a, const Position& b) const {
        const double px = (p.lon - a.lon) * m_metresPerLon, py = (p.lat - a.lat) * kMostMetresPerDegree;
        const double bx = (b.lon - a.lon) * m_metresPerLon, by = (b.lat - a.lat) * kMostMetresPerDegree;
        const double square = bx * bx + by * by;
        const double t = square > 0.0 ? std::clamp((px * bx + py * by) / square, 0.0, 1.0) : 0.0;
        return std::hypot(px - t * bx, py - t * by);
    }

    // The steps at a corner, as far as they are open to it.
    void offer(std::uint32_t b) {
        const auto& corner = m_corners[b];
        const auto& before = m_corners[corner.before];
        if (m_rings[corner.ring].count <= 3)
            return;
        const int turn = orientation(before.at, corner.at, at(corner.after));
        if (turn <= 0) {
            const double height = toSegment(corner.at, before.at, at(corner.after));
            m_queue.push({std::max(before.deviation, corner.deviation) + height, Step::LeaveOut, b, corner.version});
        } else if (const auto place = meeting(b)) {
            const double height = toSegment(*place, corner.at, at(corner.after));
            const double deviation =
                std::max({before.deviation, corner.deviation + height, m_corners[corner.after].deviation});
            m_queue.push({deviation, Step::Replace, b, corner.version});
        }
    }

    /// Half the narrower side of the ring's box: no place in it is farther from the ring.
    void offerRing(std::uint32_t ring) {
        const auto& state = m_rings[ring];
        if (!state.alive || state.hole != (m_side == Side::Grow))
            return;
        double west = HUGE_VAL, south = HUGE_VAL, east = -HUGE_VAL, north = -HUGE_VAL, paid = 0.0;
        std::uint32_t i = state.any;
        do {
            west = std::min(west, at(i).lon);
            east = std::max(east, at(i).lon);
            south = std::min(south, at(i).lat);
            north = std::max(north, at(i).lat);
            paid = std::max(paid, m_corners[i].deviation);
            i = m_corners[i].after;
        } while (i != state.any);
        const double half = std::min((east - west) * m_metresPerLon, (north - south) * kMostMetresPerDegree) / 2.0;
        m_queue.push({paid + half, Step::DropRing, ring, 0});
    }

    /// Where the neighbours of the edge from b meet, a little outward, so that the edge lies inside for certain.
    std::optional<Position> meeting(std::uint32_t b) const {
        const std::uint32_t c = m_corners[b].after;
        const Position &from = at(m_corners[b].before), &first = at(b), &second = at(c), &to = at(m_corners[c].after);
        if (orientation(from, first, second) <= 0 || orientation(first, second, to) <= 0)
            return std::nullopt;
        const double ux = first.lon - from.lon, uy = first.lat - from.lat;
        const double vx = second.lon - to.lon, vy = second.lat - to.lat;
        const double cross = ux * vy - uy * vx; // of two directions that run towards each other, if it is negative
        if (!(cross < 0.0))
            return std::nullopt;
        const double s = ((second.lon - first.lon) * vy - (second.lat - first.lat) * vx) / cross;
        const Position exact{first.lon + s * ux, first.lat + s * uy};
        const Position middle{(first.lon + second.lon) / 2.0, (first.lat + second.lat) / 2.0};
        const double outX = exact.lon - middle.lon, outY = exact.lat - middle.lat;
        const double size = std::hypot(outX, outY);
        if (!std::isfinite(size) || size == 0.0)
            return std::nullopt;
        for (double nudge = 1e-14; nudge < 1e-9; nudge *= 8.0) {
            const Position place{exact.lon + nudge * outX / size, exact.lat + nudge * outY / size};
            if (orientation(from, place, first) >= 0 && orientation(place, to, second) >= 0)
                return std::abs(place.lat) < 90.0 ? std::optional{place} : std::nullopt;
        }
        return std::nullopt;
    }

    /// Whether the triangle, its sides included, is free of other edges. Edges between corners of `own` belong to the
    /// step; a corner that lies where a `fixed` one lies is a touch that was there before.
    bool isFree(const Triangle& triangle, std::initializer_list<std::uint32_t> own,
                std::initializer_list<Position> fixed) {
        bool free = true;
        const auto isOwn = [&](std::uint32_t corner) { return std::find(own.begin(), own.end(), corner) != own.end(); };
        const auto isFixed = [&](const Position& p) { return std::find(fixed.begin(), fixed.end(), p) != fixed.end(); };
        m_grid.near(triangle, [&](EdgeGrid::Entry entry) {
            const auto& a = m_corners[entry.corner];
            if (!free || !a.alive || a.after != entry.next)
                return;
            const auto& b = m_corners[entry.next];
            const bool ownA = isOwn(entry.corner), ownB = isOwn(entry.next);
            if (!ownA && !isFixed(a.at) && inClosedTriangle(triangle, a.at))
                free = false;
            else if (!ownB && !isFixed(b.at) && inClosedTriangle(triangle, b.at))
                free = false;
            else if (!ownA && !ownB && !isFixed(a.at) && !isFixed(b.at) &&
                     (meet(a.at, b.at, triangle[0], triangle[1]) || meet(a.at, b.at, triangle[1], triangle[2])))
                free = false;
        });
        return free;
    }

    void changed(std::uint32_t corner) {
        ++m_corners[corner].version;
        offer(corner);
    }

    bool take(const Candidate& candidate) {
        if (candidate.step == Step::DropRing)
            return dropRing(candidate);
        const auto& corner = m_corners[candidate.corner];
        if (!corner.alive || corner.version != candidate.version || m_rings[corner.ring].count <= 3)
            return false;
        return candidate.step == Step::LeaveOut ? leaveOut(candidate.corner, candidate.deviation)
                                                : replace(candidate.corner);
    }

    bool leaveOut(std::uint32_t b, double deviation) {
        const std::uint32_t a = m_corners[b].before, c = m_corners[b].after;
        if (!isFree({at(a), at(b), at(c)}, {a, b, c}, {at(a), at(c)}))
            return false;
        m_corners[b].alive = false;
        m_corners[a].after = c;
        m_corners[c].before = a;
        m_corners[a].deviation = deviation;
        settle(a, c, 1);
        return true;
    }

    bool replace(std::uint32_t b) {
        const auto place = meeting(b);
        const std::uint32_t c = m_corners[b].after, a = m_corners[b].before, d = m_corners[c].after;
        if (!place || !isFree({at(b), *place, at(c)}, {a, b, c, d}, {}) ||
            !isFree({at(a), *place, at(b)}, {a, b, c, d}, {at(a)}) ||
            !isFree({at(c), *place, at(d)}, {a, b, c, d}, {at(d)}))
            return false;
        const double height = toSegment(*place, at(b), at(c));
        const double middle = m_corners[b].deviation + height;
        m_corners[a].deviation = std::max(m_corners[a].deviation, middle);
        m_corners[b].deviation = std::max(m_corners[c].deviation, middle);
        m_corners[b].at = *place;
        m_corners[b].after = d;
        m_corners[d].before = b;
        m_corners[c].alive = false;
        settle(a, b, 1);
        settle(b, d, 0);
        return true;
    }

    /// The edge from a to b is new.
    void settle(std::uint32_t a, std::uint32_t b, std::size_t gone) {
        auto& ring = m_rings[m_corners[a].ring];
        ring.count -= gone;
        m_count -= gone;
        ring.any = a;
        m_grid.add(at(a), at(b), {a, b});
        changed(m_corners[a].before);
        changed(a);
        changed(b);
        changed(m_corners[b].after);
    }

    bool dropRing(const Candidate& candidate) {
        auto& ring = m_rings[candidate.corner];
        if (!ring.alive || (!ring.hole && m_partCount <= 1))
            return false;
        if (!ring.hole)
            --m_partCount;
        const std::size_t part = ring.part;
        const bool whole = !ring.hole;
        for (auto& other : m_rings) {
            if (!other.alive || (&other != &ring && !(whole && other.part == part)))
                continue;
            other.alive = false;
            m_count -= other.count;
            std::uint32_t i = other.any;
            do {
                m_corners[i].alive = false;
                i = m_corners[i].after;
            } while (i != other.any);
        }
        return true;
    }

    model::MultiPolygon result() const {
        model::MultiPolygon surface;
        for (const auto& state : m_rings) {
            if (!state.alive)
                continue;
            model::Ring ring;
            std::uint32_t i = state.any;
            do {
                ring.corners.push_back(at(i));
                i = m_corners[i].after;
            } while (i != state.any);
            if ((signedArea(ring.corners) > 0.0) == state.hole)
                std::reverse(ring.corners.begin(), ring.corners.end());
            if (!state.hole)
                surface.parts.push_back({std::move(ring), {}});
            else
                surface.parts.back().holes.push_back(std::move(ring));
        }
        return surface;
    }

    Thinning m_thinning;
    Side m_side;
    double m_metresPerLon = kMostMetresPerDegree;
    EdgeGrid m_grid;
    std::vector<Corner> m_corners;
    std::vector<RingState> m_rings;
    std::priority_queue<Candidate> m_queue;
    std::size_t m_count = 0;
    std::size_t m_partCount = 0;
};

} // namespace

model::MultiPolygon thinned(const model::MultiPolygon& surface, const Thinning& thinning, Side side) {
    return surface.empty() ? surface : Thinner{surface, thinning, side}.run();
}

} // namespace fencewright::geometry::detail
