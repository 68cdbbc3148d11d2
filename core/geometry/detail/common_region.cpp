#include "geometry/detail/common_region.h"

#include "geometry/detail/exact_number.h"
#include "geometry/detail/orientation.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <tuple>
#include <vector>

namespace fencewright::geometry::detail {
namespace {

using Location = ExactSurface::Location;
using Sought = std::function<bool(const std::array<bool, 3>&)>;
using Surfaces = std::array<const ExactSurface*, 3>;

/// Where two edges cross, as a fraction along the first that is never divided out.
class ExactCrossing {
public:
    /// @pre  the edges cross: each has the ends of the other on its two sides.
    ExactCrossing(const ExactSurface::Edge& a, const ExactSurface::Edge& b)
        : m_from{a.from}, m_acrossX{difference(a.to.lon, a.from.lon)}, m_acrossY{difference(a.to.lat, a.from.lat)},
          m_whole{cross(m_acrossX, m_acrossY, difference(b.to.lon, b.from.lon), difference(b.to.lat, b.from.lat))},
          m_share{cross(difference(b.from.lon, a.from.lon), difference(b.from.lat, a.from.lat),
                        difference(b.to.lon, b.from.lon), difference(b.to.lat, b.from.lat))} {}

    /// Negative where the crossing lies south of that latitude.
    [[nodiscard]] int fromLatitude(double lat) const { return beyond(m_from.lat, m_acrossY, lat); }
    [[nodiscard]] int fromLongitude(double lon) const { return beyond(m_from.lon, m_acrossX, lon); }
    /// As orientation(a, b, this).
    [[nodiscard]] int sideOf(const model::Position& a, const model::Position& b) const {
        const auto alongX = difference(b.lon, a.lon), alongY = difference(b.lat, a.lat);
        const auto atFrom = cross(alongX, alongY, difference(m_from.lon, a.lon), difference(m_from.lat, a.lat));
        return (atFrom * m_whole + m_share * cross(alongX, alongY, m_acrossX, m_acrossY)).sign() * m_whole.sign();
    }
    /// Whether it is just there.
    [[nodiscard]] bool isAt(const model::Position& place) const {
        return fromLatitude(place.lat) == 0 && fromLongitude(place.lon) == 0;
    }
    [[nodiscard]] bool isOn(const ExactSurface::Edge& edge) const {
        return sideOf(edge.from, edge.to) == 0 && fromLatitude(edge.from.lat) * fromLatitude(edge.to.lat) <= 0 &&
               fromLongitude(edge.from.lon) * fromLongitude(edge.to.lon) <= 0;
    }

private:
    static ExactNumber difference(double a, double b) { return ExactNumber{a} - ExactNumber{b}; }
    static ExactNumber cross(const ExactNumber& ax, const ExactNumber& ay, const ExactNumber& bx,
                             const ExactNumber& by) {
        return ax * by - ay * bx;
    }
    [[nodiscard]] int beyond(double from, const ExactNumber& across, double value) const {
        return (difference(from, value) * m_whole + m_share * across).sign() * m_whole.sign();
    }

    model::Position m_from;
    ExactNumber m_acrossX, m_acrossY;
    ExactNumber m_whole, m_share;
};

Box boxOfEdge(const ExactSurface::Edge& edge) {
    Box box;
    box.add(edge.from.lon, edge.from.lat);
    box.add(edge.to.lon, edge.to.lat);
    return box;
}

/// As ExactSurface::locate(), for a place in the box of both edges that cross there.
Location locate(const ExactSurface& surface, const ExactCrossing& crossing, const Box& reach) {
    bool inside = false;
    for (const auto number : surface.index().meeting({reach.minX, reach.minY, 1e300, reach.maxY})) {
        const auto& edge = surface.edges()[number];
        if (crossing.isOn(edge))
            return Location::Boundary;
        if ((crossing.fromLatitude(edge.from.lat) < 0) == (crossing.fromLatitude(edge.to.lat) < 0))
            continue;
        if (crossing.sideOf(edge.from, edge.to) == (edge.to.lat > edge.from.lat ? 1 : -1))
            inside = !inside;
    }
    return inside ? Location::Inside : Location::Outside;
}

/// A direction in which a boundary leaves a place.
template <class Direction> struct Step {
    Direction direction;
    std::size_t surface;
    bool insideAfter; ///< what lies counter-clockwise of it
};

/// Whether one of the sectors around a place is as sought.
/// @param in  of surfaces without a boundary there: whether they have the place.
/// @param order  of directions, counter-clockwise: negative, zero or positive.
template <class Direction, class Order>
bool anySector(std::vector<Step<Direction>> round, std::array<bool, 3> in, const Sought& sought, const Order& order) {
    std::sort(round.begin(), round.end(),
              [&](const auto& a, const auto& b) { return order(a.direction, b.direction) < 0; });
    // What lies before the first direction is what lies after the last.
    for (const auto& step : round)
        in[step.surface] = step.insideAfter;
    for (std::size_t i = 0; i < round.size(); ++i) {
        in[round[i].surface] = round[i].insideAfter;
        const bool sectorFollows = i + 1 == round.size() || order(round[i].direction, round[i + 1].direction) != 0;
        if (sectorFollows && sought(in))
            return true;
    }
    return false;
}

bool anySectorAt(const model::Position& place, const Surfaces& surfaces, const Sought& sought) {
    std::vector<Step<model::Position>> round;
    std::array<bool, 3> in{};
    for (std::size_t i = 0; i < surfaces.size(); ++i) {
        const auto rays = surfaces[i]->raysFrom(place);
        in[i] = rays.empty() && surfaces[i]->locate(place) == Location::Inside;
        for (const auto& ray : rays)
            round.push_back({ray.towards, i, ray.insideAfter});
    }
    return anySector(std::move(round), in, sought, [&](const model::Position& a, const model::Position& b) {
        return compareDirections(place, a, b);
    });
}

struct Vector {
    ExactNumber x, y;
};

int compareVectors(const Vector& a, const Vector& b) {
    const auto half = [](const Vector& v) { return v.y.sign() > 0 || (v.y.sign() == 0 && v.x.sign() > 0) ? 0 : 1; };
    const int halves = half(a) - half(b);
    return halves != 0 ? halves : (a.y * b.x - a.x * b.y).sign();
}

/// Where edges of two surfaces cross, neither in a corner of its own.
bool anySectorAt(const ExactSurface::Edge& a, std::size_t first, const ExactSurface::Edge& b, std::size_t second,
                 const Surfaces& surfaces, const Sought& sought) {
    const ExactCrossing crossing{a, b};
    const Box boxA = boxOfEdge(a), boxB = boxOfEdge(b);
    const Box reach{std::max(boxA.minX, boxB.minX), std::max(boxA.minY, boxB.minY), std::min(boxA.maxX, boxB.maxX),
                    std::min(boxA.maxY, boxB.maxY)};
    std::vector<Step<Vector>> round;
    const auto add = [&](const ExactSurface::Edge& edge, std::size_t surface) {
        const ExactNumber x = ExactNumber{edge.to.lon} - edge.from.lon, y = ExactNumber{edge.to.lat} - edge.from.lat;
        round.push_back({{x, y}, surface, edge.insideOnLeft});
        round.push_back({{ExactNumber{0.0} - x, ExactNumber{0.0} - y}, surface, !edge.insideOnLeft});
    };
    add(a, first);
    add(b, second);
    const std::size_t third = 3 - first - second;
    std::array<bool, 3> in{};
    switch (locate(*surfaces[third], crossing, reach)) {
    case Location::Inside:
        in[third] = true;
        break;
    case Location::Outside:
        break;
    case Location::Boundary:
        for (const auto number : surfaces[third]->index().meeting(reach)) {
            const auto& edge = surfaces[third]->edges()[number];
            if (crossing.isAt(edge.from) || crossing.isAt(edge.to))
                return false; // a corner, which is looked at as such
            if (crossing.isOn(edge))
                add(edge, third);
        }
    }
    return anySector(std::move(round), in, sought, compareVectors);
}

bool anyAtCrossings(std::size_t first, std::size_t second, const Surfaces& surfaces, const Sought& sought) {
    const auto &a = *surfaces[first], &b = *surfaces[second];
    for (const auto& edge : a.edges())
        for (const auto number : b.index().meeting(boxOfEdge(edge))) {
            const auto& other = b.edges()[number];
            if (orientation(edge.from, edge.to, other.from) * orientation(edge.from, edge.to, other.to) < 0 &&
                orientation(other.from, other.to, edge.from) * orientation(other.from, other.to, edge.to) < 0 &&
                anySectorAt(edge, first, other, second, surfaces, sought))
                return true;
        }
    return false;
}

} // namespace

// A region is bounded by edges, and so has an outermost place, where the boundary turns: a corner of one of the
// surfaces, or a place where edges of two cross. Looking around those is enough.
bool anyRegion(const Surfaces& surfaces, const Sought& sought) {
    std::vector<model::Position> corners;
    for (const auto* surface : surfaces)
        for (const auto& edge : surface->edges())
            corners.push_back(edge.from);
    const auto less = [](const model::Position& a, const model::Position& b) {
        return std::tie(a.lon, a.lat) < std::tie(b.lon, b.lat);
    };
    std::sort(corners.begin(), corners.end(), less);
    corners.erase(std::unique(corners.begin(), corners.end()), corners.end());
    return std::any_of(corners.begin(), corners.end(),
                       [&](const model::Position& place) { return anySectorAt(place, surfaces, sought); }) ||
           anyAtCrossings(0, 1, surfaces, sought) || anyAtCrossings(0, 2, surfaces, sought) ||
           anyAtCrossings(1, 2, surfaces, sought);
}

} // namespace fencewright::geometry::detail
