#include "desktop/canvas/snap.h"

#include "desktop/canvas/hit.h"
#include "desktop/canvas/near_plane.h"
#include "geodesy/edge_places.h"
#include "geodesy/geodesic.h"
#include "geodesy/local_frame.h"
#include "geometry/boundary_path.h"
#include "session/drawn_lines.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

namespace fencewright::desktop {
namespace {

using model::Position;

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Snapper)
};

constexpr double kStandsOnMetres = geometry::kStandsOn.inMetres();
/// How far an edge may lie from the pointer for a parallel to be meant, in tolerances.
constexpr double kParallelReach = 8.0;
// Of very many edges under one pointer nobody means one in particular.
constexpr std::size_t kMostCrossed = 160;
constexpr std::size_t kMostParallel = 4000;

/// Whose a corner or an edge is.
struct Owner {
    const model::Fence* fence = nullptr;
    const ReferenceSource* source = nullptr;
    std::size_t feature = 0;
    bool outline = false; ///< of the fence, and no line that was drawn

    QString name() const {
        const QString own = fence ? QString::fromStdString(fence->name) : nameOf(*source, feature);
        return outline ? QCoreApplication::translate("Snapper", "%1 (outline)").arg(own) : own;
    }
    bool operator==(const Owner&) const = default;
};

struct NearEdge {
    Position from, to;
    Owner owner;
    double distance = 0.0; ///< from the pointer, metres
};

/// Lower goes first.
enum class Rank { Corner, Crossing, Midpoint, DirectionOnEdge, Edge, OutlineCorner, OutlineEdge, Direction };

/// A direction that the next leg may take.
struct Direction {
    Angle azimuth;
    bool bothWays = true;
    SnapKind kind = SnapKind::Square;
    QString words;
    std::optional<std::pair<Position, Position>> taken; ///< the edge it is taken from
};

/// The best so far.
class Best {
public:
    explicit Best(double tolerance) : m_tolerance{tolerance} {}

    /// Whether something of that rank at that distance would be taken.
    bool wants(Rank rank, double distance) const {
        return distance < m_tolerance && (!m_snap || std::tuple{rank, distance} < std::tuple{m_rank, m_distance});
    }
    void take(Rank rank, double distance, Snap snap) {
        m_rank = rank;
        m_distance = distance;
        m_snap = std::move(snap);
    }
    bool isBetterThan(Rank rank) const { return m_snap && m_rank < rank; }
    std::optional<Snap> result() const { return m_snap; }

private:
    double m_tolerance;
    Rank m_rank = Rank::Direction;
    double m_distance = std::numeric_limits<double>::infinity();
    std::optional<Snap> m_snap;
};

double angleBetween(Angle a, Angle b) { return std::abs(std::remainder(a.inDegrees() - b.inDegrees(), 360.0)); }

} // namespace

/// Corners and edges near a place.
class Snapper::Surroundings {
public:
    Surroundings(const Snapper& snapper, const std::vector<ReferenceSource>& references, const Selection& except)
        : m_snapper{snapper}, m_references{references}, m_except{except} {}

    /// Calls `edge(from, to, owner)` for the edges of which something lies within the tolerance of the place, and for
    /// others beside them; `corner(place, owner)` for all of their ends, some of them more than once, and
    /// `point(place, owner, isCentre)` for what is a single place.
    template <class Edge, class Corner, class Point>
    void visit(const Position& place, Length tolerance, Edge edge, Corner corner, Point point) const {
        const auto line = [&](std::span<const Position> corners, const Owner& owner) {
            if (!corners.empty())
                corner(corners.front(), owner);
            for (std::size_t i = 1; i < corners.size(); ++i) {
                corner(corners[i], owner);
                edge(corners[i - 1], corners[i], owner);
            }
        };
        if (m_snapper.m_fences)
            visitNear(*m_snapper.m_places, place, tolerance, [&](std::size_t number) {
                if (number < m_snapper.m_fences->size() && !m_except.contains((*m_snapper.m_fences)[number]->fence->id))
                    ofFence(*(*m_snapper.m_fences)[number], place, tolerance, line, edge, point);
            });
        const geometry::Box around = windowAround(place, tolerance, {place.lon, place.lat, place.lon, place.lat});
        for (const ReferenceSource& source : m_references)
            for (const std::size_t feature : source.layer->meeting(around)) {
                const Owner owner{nullptr, &source, feature, false};
                source.layer->visitLines(feature, [&](const reference::Layer::Line& one) {
                    if (one.corners.size() == 1) {
                        point(one.corners.front(), owner, false);
                        return;
                    }
                    line(one.corners, owner);
                    if (one.closed && !one.corners.empty())
                        edge(one.corners.back(), one.corners.front(), owner);
                });
            }
    }

private:
    template <class Line, class Edge, class Point>
    static void ofFence(const session::OutlinedFence& outlined, const Position& place, Length tolerance, Line& line,
                        Edge& edge, Point& point) {
        const auto visit = [&](const model::LineString& corners, bool closed, const geometry::LineBoxes& boxes,
                               const Owner& owner) {
            if (boxes.box().empty())
                return;
            boxes.visitMeeting(windowAround(place, tolerance, boxes.box()), [&](std::size_t first, std::size_t end) {
                // A run with the corner that it leads to; the last of a ring leads to its first.
                const std::span<const Position> all{corners};
                if (end < all.size()) {
                    line(all.subspan(first, end - first + 1), owner);
                    return;
                }
                line(all.subspan(first), owner);
                if (closed)
                    edge(all.back(), all.front(), owner);
            });
        };
        const Owner drawn{outlined.fence.get(), nullptr, 0, false};
        std::size_t number = 0;
        session::forEachDrawnLine(outlined.fence->shape, [&](const model::LineString& corners, bool closed) {
            visit(corners, closed, outlined.lines[number++], drawn);
        });
        session::forEachOutlineRing(outlined, [&](const model::LineString& corners, const geometry::LineBoxes& boxes) {
            visit(corners, true, boxes, {outlined.fence.get(), nullptr, 0, true});
        });
        if (const auto* circle = std::get_if<model::Circle>(&outlined.fence->shape))
            point(circle->centre, drawn, true);
    }

    const Snapper& m_snapper;
    const std::vector<ReferenceSource>& m_references;
    const Selection& m_except;
};

namespace {

/// The place on the way from `from` with that azimuth that is nearest to the pointer: how far along, and how far off.
struct OnWay {
    Position place;
    double along = 0.0;
    double off = 0.0;
};

OnWay nearestOnWay(const Position& from, Angle azimuth, const geodesy::Segment& toPointer) {
    const double angle = (toPointer.azimuthAtStart - azimuth).inRadians();
    const double length = toPointer.length.inMetres();
    OnWay way;
    way.along = length * std::cos(angle);
    way.off = std::abs(length * std::sin(angle));
    way.place = geodesy::direct(from, azimuth, Length::metres(way.along));
    return way;
}

/// What the next leg may be square to or in line with: the last leg, and the edges on which the line stands.
std::vector<Direction> directionsAt(const LineSoFar& line, const std::vector<NearEdge>& standsOn,
                                    const SnapKinds& kinds) {
    std::vector<Direction> all;
    const Position& from = line.last.back();
    const auto add = [&](Angle azimuth, bool bothWays, SnapKind kind, const QString& words,
                         std::optional<std::pair<Position, Position>> taken) {
        if (!kinds.has(kind))
            return;
        const bool known = std::any_of(all.begin(), all.end(), [&](const Direction& one) {
            const double between = angleBetween(one.azimuth, azimuth);
            constexpr double same = 1e-7; // degrees
            return between < same || ((one.bothWays || bothWays) && 180.0 - between < same);
        });
        if (!known)
            all.push_back({azimuth, bothWays, kind, words, std::move(taken)});
    };
    if (line.last.size() > 1) {
        const Angle back = geodesy::inverse(from, line.last.front()).azimuthAtStart;
        const std::pair leg{line.last.front(), from};
        add(back + Angle::degrees(90.0), true, SnapKind::Square, Words::tr("square to the last leg"), leg);
        add(back + Angle::degrees(180.0), false, SnapKind::InLine, Words::tr("in line with the last leg"), leg);
    }
    for (const NearEdge& edge : standsOn) {
        const Angle along = geodesy::azimuthAlong(edge.from, edge.to, from);
        const std::pair taken{edge.from, edge.to};
        add(along + Angle::degrees(90.0), true, SnapKind::Square,
            Words::tr("square to edge of %1").arg(edge.owner.name()), taken);
        add(along, true, SnapKind::InLine, Words::tr("in line with edge of %1").arg(edge.owner.name()), taken);
    }
    return all;
}

} // namespace

std::optional<Snap> Snapper::snap(const Position& pointer, Length tolerance, const model::FenceSet& set,
                                  const std::vector<ReferenceSource>& references, const Selection& except,
                                  const SnapBy& by) const {
    const SnapKinds& kinds = by.kinds;
    static const std::vector<ReferenceSource> none;
    const Surroundings around{*this, kinds.hasReferences() ? references : none, except};
    const bool held = by.line.held && !by.line.last.empty();
    // Of a held direction, the pointer's place on it is what is meant.
    Position wanted = pointer;
    if (held) {
        const Position& from = by.line.last.back();
        const OnWay way = nearestOnWay(from, *by.line.held, geodesy::inverse(from, pointer));
        if (way.along <= 0.0)
            return std::nullopt;
        wanted = way.place;
    }
    const NearPlane plane{wanted};
    const double reach = tolerance.inMetres();
    const auto distanceTo = [&](const Position& place) { return distanceBetween(plane.toPlane(place), {}); };
    Best best{reach};
    Best bestOfOutlines{reach}; // what nobody has drawn comes after what somebody has
    std::vector<NearEdge> edges;
    const auto corner = [&](const Position& place, const Owner& owner) {
        if (held || !kinds.has(SnapKind::Corner))
            return;
        const Rank rank = owner.outline ? Rank::OutlineCorner : Rank::Corner;
        Best& among = owner.outline ? bestOfOutlines : best;
        if (const double d = distanceTo(place); among.wants(rank, d))
            among.take(rank, d, {place, Words::tr("corner of %1").arg(owner.name()), SnapKind::Corner, {}});
    };
    const auto single = [&](const Position& place, const auto& words) {
        if (held || !kinds.has(SnapKind::Place))
            return;
        if (const double d = distanceTo(place); best.wants(Rank::Corner, d))
            best.take(Rank::Corner, d, {place, words(), SnapKind::Place, {}});
    };
    around.visit(
        wanted, tolerance,
        [&](const Position& from, const Position& to, const Owner& owner) {
            const QPointF foot = nearestOnSegment({}, plane.toPlane(from), plane.toPlane(to));
            if (const double d = distanceBetween(foot, {}); d < reach)
                edges.push_back({from, to, owner, d});
        },
        corner,
        [&](const Position& place, const Owner& owner, bool isCentre) {
            single(place, [&] { return isCentre ? Words::tr("centre of %1").arg(owner.name()) : owner.name(); });
        });
    for (const model::Site& site : set.sites)
        if (const auto* place = std::get_if<Position>(&site.geometry); place && !except.contains(site.id))
            single(*place, [&] { return QString::fromStdString(site.name); });
    for (const model::Home& home : set.homes)
        if (!except.contains(home.id))
            single(home.place, [&] { return QString::fromStdString(home.name); });
    if (best.result())
        return best.result();

    if (edges.size() > kMostCrossed) {
        std::nth_element(edges.begin(), edges.begin() + kMostCrossed, edges.end(),
                         [](const NearEdge& a, const NearEdge& b) { return a.distance < b.distance; });
        edges.resize(kMostCrossed);
    }
    if (!held && kinds.has(SnapKind::Crossing))
        for (std::size_t i = 0; i < edges.size(); ++i)
            for (std::size_t j = i + 1; j < edges.size(); ++j) {
                const NearEdge &one = edges[i], &other = edges[j];
                if (one.owner.outline && one.owner == other.owner)
                    continue; // they meet in a corner, and the corner says so
                const auto place = geodesy::crossingOf(one.from, one.to, other.from, other.to);
                if (!place)
                    continue;
                const double d = distanceTo(*place);
                if (!best.wants(Rank::Crossing, d))
                    continue;
                const QString words =
                    one.owner == other.owner
                        ? Words::tr("crossing in %1").arg(one.owner.name())
                        : Words::tr("crossing of %1 and %2").arg(one.owner.name(), other.owner.name());
                best.take(Rank::Crossing, d, {*place, words, SnapKind::Crossing, {}});
            }
    if (!held && kinds.has(SnapKind::Midpoint))
        for (const NearEdge& edge : edges) {
            if (edge.owner.outline)
                continue; // a chord of a circle has no middle that anybody means
            const Position middle{(edge.from.lon + edge.to.lon) / 2.0, (edge.from.lat + edge.to.lat) / 2.0};
            // Of an edge as short as the pointer's reach, its ends are meant.
            if (distanceBetween(plane.toPlane(edge.from), plane.toPlane(edge.to)) < 2.0 * reach)
                continue;
            if (const double d = distanceTo(middle); best.wants(Rank::Midpoint, d))
                best.take(Rank::Midpoint, d,
                          {middle, Words::tr("midpoint of %1").arg(edge.owner.name()), SnapKind::Midpoint, {}});
        }
    if (best.result())
        return best.result();

    const bool begun = !by.line.last.empty();
    std::vector<Direction> directions;
    std::optional<geodesy::Segment> toPointer;
    if (begun) {
        const Position& from = by.line.last.back();
        toPointer = geodesy::inverse(from, pointer);
        if (toPointer->length.inMetres() <= reach) {
            toPointer.reset(); // no direction can be told
        } else if (held) {
            directions.push_back({*by.line.held, false, SnapKind::Edge, {}, {}});
        } else {
            std::vector<NearEdge> standsOn;
            const NearPlane here{from};
            around.visit(
                from, Length::metres(kStandsOnMetres),
                [&](const Position& a, const Position& b, const Owner& owner) {
                    if (a != b &&
                        distanceBetween(nearestOnSegment({}, here.toPlane(a), here.toPlane(b)), {}) <= kStandsOnMetres)
                        standsOn.push_back({a, b, owner, 0.0});
                },
                [](const Position&, const Owner&) {}, [](const Position&, const Owner&, bool) {});
            directions = directionsAt(by.line, standsOn, kinds);
        }
    }
    if (toPointer) {
        const Position& from = by.line.last.back();
        for (const NearEdge& edge : edges) {
            if (edge.owner.outline && bestOfOutlines.result())
                continue; // in its corners alone it is met exactly
            for (const Direction& direction : directions) {
                const auto met = geodesy::meetingWith(edge.from, edge.to, from, direction.azimuth);
                if (!met)
                    continue;
                const double d = distanceTo(met->place);
                const geodesy::Segment way = geodesy::inverse(from, met->place);
                if (!best.wants(Rank::DirectionOnEdge, d) || way.length.inMetres() <= reach ||
                    (!direction.bothWays && angleBetween(way.azimuthAtStart, direction.azimuth) > 90.0))
                    continue;
                const QString on = Words::tr("edge of %1").arg(edge.owner.name());
                Snap snap{met->place, held ? on : Words::tr("%1, %2").arg(on, direction.words), direction.kind, {}};
                if (!held)
                    snap.guides = {{from, met->place}};
                if (direction.taken)
                    snap.guides.push_back(*direction.taken);
                best.take(Rank::DirectionOnEdge, d, std::move(snap));
            }
            if (held || !kinds.has(SnapKind::Square))
                continue;
            const auto foot = geodesy::footOn(edge.from, edge.to, from);
            if (!foot)
                continue;
            if (const double d = distanceTo(foot->place); best.wants(Rank::DirectionOnEdge, d))
                best.take(Rank::DirectionOnEdge, d,
                          {foot->place,
                           Words::tr("square onto edge of %1").arg(edge.owner.name()),
                           SnapKind::Square,
                           {{from, foot->place}, {edge.from, edge.to}}});
        }
    }
    if (held)
        return best.result();
    if (kinds.has(SnapKind::Edge))
        for (const NearEdge& edge : edges) {
            if (edge.owner.outline && bestOfOutlines.result())
                continue;
            const Rank rank = edge.owner.outline ? Rank::OutlineEdge : Rank::Edge;
            if (!best.wants(rank, edge.distance))
                continue;
            const QPointF foot = nearestOnSegment({}, plane.toPlane(edge.from), plane.toPlane(edge.to));
            best.take(rank, edge.distance,
                      {plane.toEarth(foot), Words::tr("edge of %1").arg(edge.owner.name()), SnapKind::Edge, {}});
        }
    if (!best.result() && bestOfOutlines.result())
        return bestOfOutlines.result();
    if (!toPointer || best.result())
        return best.result();

    const Position& from = by.line.last.back();
    const auto consider = [&](const Direction& direction) {
        const OnWay way = nearestOnWay(from, direction.azimuth, *toPointer);
        if ((!direction.bothWays && way.along < 0.0) || std::abs(way.along) <= reach ||
            !best.wants(Rank::Direction, way.off))
            return;
        Snap snap{way.place, direction.words, direction.kind, {{from, way.place}}};
        if (direction.taken)
            snap.guides.push_back(*direction.taken);
        best.take(Rank::Direction, way.off, std::move(snap));
    };
    std::for_each(directions.begin(), directions.end(), consider);
    if (!kinds.has(SnapKind::Parallel) || best.result())
        return best.result();
    // Of the edges nearby to which the next leg could be parallel, the nearest.
    const geodesy::LocalFrame frame{from};
    const geodesy::PlanePoint at = frame.toPlane(pointer);
    const double length = std::hypot(at.x, at.y), wide = kParallelReach * reach;
    std::size_t looked = 0;
    std::optional<NearEdge> nearest;
    around.visit(
        pointer, Length::metres(wide),
        [&](const Position& a, const Position& b, const Owner& owner) {
            if (looked >= kMostParallel || owner.outline)
                return;
            const QPointF pa = plane.toPlane(a), pb = plane.toPlane(b), way = pb - pa;
            const double edgeLength = std::hypot(way.x(), way.y());
            if (edgeLength < 2.0 * reach)
                return;
            const double d = distanceBetween(nearestOnSegment({}, pa, pb), {});
            if (d > wide || (nearest && nearest->distance <= d))
                return;
            ++looked;
            // In the plane of the pointer first, where it costs little: turned by the meridians it is hardly another.
            const double roughly = std::abs(way.x() * at.y - way.y() * at.x) / edgeLength;
            if (roughly > 2.0 * reach && roughly > 0.01 * length)
                return;
            const geodesy::PlanePoint fa = frame.toPlane(a), fb = frame.toPlane(b);
            const double x = fb.x - fa.x, y = fb.y - fa.y;
            if (std::abs(x * at.y - y * at.x) / std::hypot(x, y) < reach)
                nearest = NearEdge{a, b, owner, d};
        },
        [](const Position&, const Owner&) {}, [](const Position&, const Owner&, bool) {});
    if (nearest) {
        const geodesy::PlanePoint a = frame.toPlane(nearest->from), b = frame.toPlane(nearest->to);
        consider({Angle::radians(std::atan2(b.x - a.x, b.y - a.y)), true, SnapKind::Parallel,
                  Words::tr("parallel to edge of %1").arg(nearest->owner.name()),
                  std::pair{nearest->from, nearest->to}});
    }
    return best.result();
}

} // namespace fencewright::desktop
