#include "fault.h"
#include "geometry/detail/orientation.h"
#include "geometry/detail/repeated_corners.h"
#include "geometry/detail/soundness.h"
#include "geometry/spatial_index.h"
#include "geometry/validity.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <map>
#include <numeric>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

namespace fencewright::geometry {
namespace {

using detail::between;
using detail::compareDirections;
using detail::onEdge;
using detail::orientation;
using model::Position;

constexpr std::size_t kMostPairs = 100'000'000;

struct Before {
    bool operator()(Position a, Position b) const { return std::tie(a.lon, a.lat) < std::tie(b.lon, b.lat); }
};

/// How much one wants to know.
enum class Extent { AllFaults, WhetherAny };

/// Collects faults, at most so many of a ring.
class Report {
public:
    Report(std::size_t rings, std::size_t limit, Extent extent) : m_counts(rings), m_limit{limit}, m_extent{extent} {}
    void operator()(FaultKind kind, Position place, std::size_t ring) {
        if (m_counts[ring] < m_limit) {
            ++m_counts[ring];
            m_faults.push_back({kind, place, ring});
        }
    }
    [[nodiscard]] bool full(std::size_t ring) const { return m_counts[ring] >= m_limit; }
    [[nodiscard]] bool full() const {
        if (m_extent == Extent::WhetherAny)
            return !m_faults.empty();
        return std::all_of(m_counts.begin(), m_counts.end(), [&](std::size_t count) { return count >= m_limit; });
    }
    [[nodiscard]] std::vector<RingFault> take() {
        std::stable_sort(m_faults.begin(), m_faults.end(),
                         [](const RingFault& a, const RingFault& b) { return a.ring < b.ring; });
        return std::move(m_faults);
    }

private:
    std::vector<RingFault> m_faults;
    std::vector<std::size_t> m_counts;
    std::size_t m_limit;
    Extent m_extent;
};

/// Whether `tip` is where a line runs out and straight back.
bool turnsBack(Position before, Position tip, Position after) {
    if (orientation(before, tip, after) != 0)
        return false;
    // On one line: `tip` is an end just where it does not lie between the others.
    return !between(before, after, tip);
}

/// Reports what is wrong with a ring by itself, corner by corner, and returns the corners without repeats and spikes:
/// what is left is looked at for crossings. Empty where nothing is left to look at.
std::vector<Position> examined(const model::Ring& ring, std::size_t number, Report& report) {
    bool finite = true;
    for (const auto& corner : ring.corners)
        if (!std::isfinite(corner.lon) || !std::isfinite(corner.lat)) {
            report(FaultKind::NotFinite, corner, number);
            finite = false;
        }
    if (!finite)
        return {};

    std::vector<Position> corners;
    for (std::size_t i = 0; i < ring.corners.size(); ++i) {
        if (!corners.empty() && corners.back() == ring.corners[i])
            report(FaultKind::RepeatedCorner, ring.corners[i], number);
        else
            corners.push_back(ring.corners[i]);
    }
    while (corners.size() > 1 && corners.back() == corners.front()) {
        report(FaultKind::RepeatedCorner, corners.back(), number);
        corners.pop_back();
    }
    if (ring.closureAssumed && !corners.empty())
        report(FaultKind::ClosureAssumed, corners.back(), number);
    auto distinct = corners;
    std::sort(distinct.begin(), distinct.end(), Before{});
    distinct.erase(std::unique(distinct.begin(), distinct.end()), distinct.end());
    if (distinct.size() < 3) {
        report(FaultKind::TooFewCorners, corners.empty() ? Position{} : corners.front(), number);
        return {};
    }

    // A spike of several corners is one spike: taking its tip off may leave another tip.
    std::vector<Position> kept;
    std::optional<Position> lastTip;
    const auto takeTip = [&](Position tip) {
        if (!lastTip)
            report(FaultKind::Spike, tip, number);
        lastTip = tip;
    };
    for (const auto& corner : corners) {
        lastTip.reset();
        kept.push_back(corner);
        for (;;) {
            const auto size = kept.size();
            if (size >= 2 && kept[size - 1] == kept[size - 2]) {
                kept.pop_back();
            } else if (size >= 3 && turnsBack(kept[size - 3], kept[size - 2], kept[size - 1])) {
                takeTip(kept[size - 2]);
                kept.erase(kept.end() - 2);
            } else {
                break;
            }
        }
    }
    // The same over the joint of the end to the beginning.
    std::size_t begin = 0;
    lastTip.reset();
    for (bool changed = true; changed && kept.size() - begin >= 3;) {
        changed = false;
        const auto last = kept.size() - 1;
        if (kept[last] == kept[begin]) {
            kept.pop_back();
            changed = true;
        } else if (turnsBack(kept[last - 1], kept[last], kept[begin])) {
            takeTip(kept[last]);
            kept.pop_back();
            changed = true;
        } else if (turnsBack(kept[last], kept[begin], kept[begin + 1])) {
            takeTip(kept[begin]);
            ++begin;
            changed = true;
        }
    }
    kept.erase(kept.begin(), kept.begin() + static_cast<std::ptrdiff_t>(begin));
    return kept.size() < 3 ? std::vector<Position>{} : kept;
}

/// The crossings and touchings among all rings of one polygon, or of several that are to lie apart.
class Sweep {
public:
    /// @param shellOf  for each ring the number of its shell; that of a shell is its own.
    Sweep(const std::vector<std::vector<Position>>& rings, const std::vector<std::size_t>& shellOf, Report& report)
        : m_rings{rings}, m_shellOf{shellOf}, m_report{report} {
        std::vector<Box> boxes;
        for (std::size_t ring = 0; ring < rings.size(); ++ring)
            for (std::size_t i = 0; i < rings[ring].size(); ++i) {
                m_edges.push_back({ring, i});
                Box& box = boxes.emplace_back();
                box.add(from(m_edges.back()).lon, from(m_edges.back()).lat);
                box.add(to(m_edges.back()).lon, to(m_edges.back()).lat);
            }
        m_index = SpatialIndex{boxes};
        examinePairs(boxes);
        examineNesting();
        examinePieces();
    }

private:
    struct Edge {
        std::size_t ring, corner;
    };
    struct Touch {
        Position place;
        std::size_t ringA, ringB;
    };

    [[nodiscard]] Position from(Edge edge) const { return m_rings[edge.ring][edge.corner]; }
    [[nodiscard]] Position to(Edge edge) const {
        const auto& ring = m_rings[edge.ring];
        return ring[edge.corner + 1 == ring.size() ? 0 : edge.corner + 1];
    }
    [[nodiscard]] Position previous(Edge edge) const {
        const auto& ring = m_rings[edge.ring];
        return ring[edge.corner == 0 ? ring.size() - 1 : edge.corner - 1];
    }
    [[nodiscard]] bool neighbours(Edge a, Edge b) const {
        const auto size = m_rings[a.ring].size();
        return a.ring == b.ring && ((a.corner + 1) % size == b.corner || (b.corner + 1) % size == a.corner);
    }

    void crossing(Edge a, Edge b, Position place) {
        const auto ring = std::max(a.ring, b.ring);
        if (a.ring == b.ring)
            m_report(FaultKind::SelfCrossing, place, ring);
        else
            m_report(m_shellOf[ring] == std::min(a.ring, b.ring) ? FaultKind::HoleOutside : FaultKind::HolesNested,
                     place, ring);
        m_crossings.emplace(std::min(a.ring, b.ring), ring);
    }

    void examinePairs(const std::vector<Box>& boxes) {
        std::size_t pairs = 0;
        for (std::size_t i = 0; i < m_edges.size() && !m_report.full(); ++i) {
            if (pairs >= kMostPairs) {
                m_report(FaultKind::TooIntricate, from(m_edges[i]), m_edges[i].ring);
                return;
            }
            m_index.visitMeeting(boxes[i], [&](std::size_t j) {
                if (j <= i)
                    return true;
                examinePair(m_edges[i], m_edges[j]);
                return ++pairs < kMostPairs && !m_report.full();
            });
        }
    }

    void examinePair(Edge a, Edge b) {
        const auto aFrom = from(a), aTo = to(a), bFrom = from(b), bTo = to(b);
        const int sideFrom = orientation(aFrom, aTo, bFrom), sideTo = orientation(aFrom, aTo, bTo);
        if (sideFrom * sideTo > 0)
            return;
        const int otherFrom = orientation(bFrom, bTo, aFrom), otherTo = orientation(bFrom, bTo, aTo);
        if (otherFrom * otherTo > 0)
            return;
        if (sideFrom * sideTo < 0 && otherFrom * otherTo < 0) {
            crossing(a, b, crossingPlace(aFrom, aTo, bFrom, bTo));
            return;
        }
        if (sideFrom == 0 && sideTo == 0) {
            // On one line: what they share begins at the greater of the lesser ends.
            const auto first = std::max(std::min(aFrom, aTo, Before{}), std::min(bFrom, bTo, Before{}), Before{});
            const auto last = std::min(std::max(aFrom, aTo, Before{}), std::max(bFrom, bTo, Before{}), Before{});
            if (Before{}(last, first))
                return;
            if (Before{}(first, last)) {
                if (!neighbours(a, b))
                    crossing(a, b, first);
                return;
            }
        }
        // Each time a ring passes through a place, one of its edges begins there or runs through it: that one answers.
        for (const auto place : {aFrom, bFrom}) {
            if (place == aTo || place == bTo || !onEdge(aFrom, aTo, place) || !onEdge(bFrom, bTo, place))
                continue;
            touch(a, b, place);
            return;
        }
    }

    void touch(Edge a, Edge b, Position place) {
        const auto armBefore = [&](Edge edge) { return from(edge) == place ? previous(edge) : from(edge); };
        struct Arm {
            Position towards;
            bool ofA;
        };
        std::array<Arm, 4> arms{{{armBefore(a), true}, {to(a), true}, {armBefore(b), false}, {to(b), false}}};
        std::sort(arms.begin(), arms.end(),
                  [&](const Arm& x, const Arm& y) { return compareDirections(place, x.towards, y.towards) < 0; });
        const bool alternate = arms[0].ofA != arms[1].ofA && arms[1].ofA != arms[2].ofA && arms[2].ofA != arms[3].ofA;
        bool sameDirection = false;
        for (std::size_t i = 0; i < 4; ++i)
            sameDirection |= compareDirections(place, arms[i].towards, arms[(i + 1) % 4].towards) == 0;
        if (sameDirection)
            return; // they run along one another, and are reported as that
        if (alternate)
            crossing(a, b, place);
        else if (a.ring == b.ring)
            m_report(FaultKind::SelfTouching, place, a.ring);
        else
            m_touches.push_back({place, a.ring, b.ring});
    }

    static Position crossingPlace(Position a, Position b, Position c, Position d) {
        const double abx = b.lon - a.lon, aby = b.lat - a.lat, cdx = d.lon - c.lon, cdy = d.lat - c.lat;
        const double determinant = abx * cdy - aby * cdx;
        const double share = determinant == 0.0
                                 ? 0.5
                                 : std::clamp(((c.lon - a.lon) * cdy - (c.lat - a.lat) * cdx) / determinant, 0.0, 1.0);
        return {a.lon + share * abx, a.lat + share * aby};
    }

    enum class Location { Inside, Boundary, Outside };
    [[nodiscard]] Location locate(Position place, std::size_t ring) const {
        bool inside = false, boundary = false;
        m_index.visitMeeting({place.lon, place.lat, 1e300, place.lat}, [&](std::size_t number) {
            const auto edge = m_edges[number];
            if (edge.ring != ring)
                return true;
            const auto begin = from(edge), end = to(edge);
            boundary = boundary || onEdge(begin, end, place);
            if ((begin.lat > place.lat) != (end.lat > place.lat) &&
                orientation(begin, end, place) == (end.lat > begin.lat ? 1 : -1))
                inside = !inside;
            return !boundary;
        });
        return boundary ? Location::Boundary : inside ? Location::Inside : Location::Outside;
    }
    /// Of a ring that does not cross the other: on which side of it.
    [[nodiscard]] Location locateRing(std::size_t ring, std::size_t other) const {
        const auto& corners = m_rings[ring];
        for (const auto& corner : corners)
            if (const auto location = locate(corner, other); location != Location::Boundary)
                return location;
        for (std::size_t i = 0; i < corners.size(); ++i) {
            const auto& next = corners[(i + 1) % corners.size()];
            const Position middle{(corners[i].lon + next.lon) / 2.0, (corners[i].lat + next.lat) / 2.0};
            if (const auto location = locate(middle, other); location != Location::Boundary)
                return location;
        }
        return Location::Boundary;
    }
    [[nodiscard]] bool cross(std::size_t a, std::size_t b) const {
        return m_crossings.contains({std::min(a, b), std::max(a, b)});
    }

    /// Rings that do not cross may still lie where they may not.
    void examineNesting() {
        std::vector<Box> boxes;
        for (const auto& ring : m_rings)
            boxes.push_back(boxOf(ring));
        const SpatialIndex index{boxes};
        for (std::size_t ring = 0; ring < m_rings.size() && !m_report.full(); ++ring) {
            if (m_rings[ring].empty() || m_report.full(ring))
                continue;
            const auto shell = m_shellOf[ring];
            if (shell != ring && !m_rings[shell].empty() && !cross(shell, ring) &&
                locateRing(ring, shell) == Location::Outside)
                m_report(FaultKind::HoleOutside, m_rings[ring].front(), ring);
            for (const auto other : index.meeting(boxes[ring])) {
                if (other == ring || other == shell || cross(ring, other))
                    continue;
                if (shell != ring && m_shellOf[other] == shell) {
                    if (locateRing(ring, other) == Location::Inside)
                        m_report(FaultKind::HolesNested, m_rings[ring].front(), ring);
                } else if (shell == ring && m_shellOf[other] == other) {
                    if (locateRing(ring, other) == Location::Inside && !inAHole(ring, other))
                        m_report(FaultKind::HolesNested, m_rings[ring].front(), ring);
                }
            }
        }
    }
    [[nodiscard]] bool inAHole(std::size_t ring, std::size_t shell) const {
        for (auto hole = shell + 1; hole < m_rings.size() && m_shellOf[hole] == shell; ++hole)
            if (!m_rings[hole].empty() && locateRing(ring, hole) != Location::Outside)
                return true;
        return false;
    }

    /// The inside falls into pieces where one can walk from ring to ring over their touching places and come back.
    void examinePieces() {
        std::vector<std::size_t> group(m_rings.size());
        std::iota(group.begin(), group.end(), std::size_t{0});
        const auto rootOf = [&](std::size_t node) {
            while (group[node] != node)
                node = group[node] = group[group[node]];
            return node;
        };
        std::map<Position, std::vector<std::size_t>, Before> touching;
        for (const auto& touch : m_touches)
            if (m_shellOf[touch.ringA] == m_shellOf[touch.ringB] && !cross(touch.ringA, touch.ringB)) {
                touching[touch.place].push_back(touch.ringA);
                touching[touch.place].push_back(touch.ringB);
            }
        for (auto& [place, rings] : touching) {
            std::sort(rings.begin(), rings.end());
            rings.erase(std::unique(rings.begin(), rings.end()), rings.end());
            const auto node = group.size();
            group.push_back(node);
            for (const auto ring : rings) {
                const auto a = rootOf(node), b = rootOf(ring);
                if (a == b)
                    m_report(FaultKind::InteriorInPieces, place, ring);
                group[a] = b;
            }
        }
    }

    const std::vector<std::vector<Position>>& m_rings;
    const std::vector<std::size_t>& m_shellOf;
    Report& m_report;
    std::vector<Edge> m_edges;
    SpatialIndex m_index;
    std::vector<Touch> m_touches;
    std::set<std::pair<std::size_t, std::size_t>> m_crossings; ///< pairs of rings, the lesser first
};

} // namespace

std::vector<RingFault> faults(const model::Polygon& polygon, std::size_t limit) {
    Report report{1 + polygon.holes.size(), limit, Extent::AllFaults};
    std::vector<std::vector<Position>> rings;
    rings.push_back(examined(polygon.shell, 0, report));
    for (const auto& hole : polygon.holes)
        rings.push_back(examined(hole, rings.size(), report));
    const std::vector<std::size_t> shellOf(rings.size(), 0);
    Sweep{rings, shellOf, report};
    return report.take();
}

namespace detail {
namespace {

model::Ring bare(const model::Ring& ring) {
    model::Ring result{ring.corners, false};
    auto& corners = result.corners;
    dropRepeats(corners);
    return result;
}

} // namespace

Soundness soundness(const model::MultiPolygon& surface) {
    std::vector<model::Ring> given;
    std::vector<std::size_t> shellOf;
    for (const auto& part : surface.parts) {
        const auto shell = given.size();
        given.push_back(bare(part.shell));
        for (const auto& hole : part.holes)
            given.push_back(bare(hole));
        shellOf.resize(given.size(), shell);
    }
    Report report{given.size(), 1, Extent::WhetherAny};
    std::vector<std::vector<Position>> rings;
    for (const auto& ring : given) {
        rings.push_back(examined(ring, rings.size(), report));
        if (report.full())
            return Soundness::Unsound;
    }
    Sweep{rings, shellOf, report};
    const auto found = report.take();
    if (found.empty())
        return Soundness::Sound;
    return found.front().kind == FaultKind::TooIntricate ? Soundness::TooIntricate : Soundness::Unsound;
}

bool requireExamined(const model::MultiPolygon& surface, const std::string& operation) {
    const auto result = soundness(surface);
    if (result == Soundness::TooIntricate)
        throw Fault{
            phrase("core",
                   "The surface has too many corners close together to be examined: the %1 was not begun.")(operation),
            "", phrase("core", "Simplify the surface first.")};
    return result == Soundness::Sound;
}

} // namespace detail
} // namespace fencewright::geometry
