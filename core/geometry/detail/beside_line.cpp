#include "geometry/detail/beside_line.h"

#include "geodesy/local_frame.h"
#include "geometry/detail/edge_bounds.h"
#include "geometry/detail/offset_plan.h"
#include "geometry/detail/orientation.h"
#include "geometry/overlay.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <span>
#include <utility>
#include <vector>

// A rod square to the line, held to one side, sweeps what lies beside its edges; outside each bend a sector is added,
// and beyond each end a quarter of a disc. All these pieces are made larger by `Beside::over` along and across the
// line, which makes up for what parts the plane from the truth (see offset_plan.h) in directions:
//   tangents   are taken from a metre of each edge, and are out by half of what a metre bends;
//   geodesics  from a place to the line are bent in the plane;
//   edges      are bent, and cut into pieces that turn by no more than kMostTurn.
// Where pieces overlap, that costs nothing; at sharp bends, at ends, and over the line it costs `over`.

namespace fencewright::geometry::detail {
namespace {

using geodesy::LocalFrame;
using geodesy::PlanePoint;

constexpr double kMostTurn = 2e-4; ///< radians that a piece of an edge turns
constexpr double kTangentMetres = 1.0;
constexpr double kTangentError = 1e-5; ///< radians; 89.9 degrees of latitude bend a metre by half of this

PlanePoint operator+(PlanePoint a, PlanePoint b) { return {a.x + b.x, a.y + b.y}; }
PlanePoint operator*(double factor, PlanePoint a) { return {factor * a.x, factor * a.y}; }

/// A stretch of the line within one frame, with the places before and after it, where the line goes on.
struct Stretch {
    Path path;
    std::optional<model::Position> before;
    std::optional<model::Position> after;
};

/// An edge in the plane: places along it, and the direction of the line at each.
struct PlaneEdge {
    std::vector<PlanePoint> places;
    std::vector<PlanePoint> directions; ///< of length 1
};

/// The directions of an edge at some places of it, taken over a metre around each; beyond the ends, a short edge is
/// drawn on.
PlaneEdge planeEdge(const LocalFrame& frame, const model::Position& a, const model::Position& b, std::size_t pieces) {
    std::vector<model::Position> places;
    const double half = kTangentMetres / 2.0 / lengthAtMost(a, b);
    const auto at = [&](double t) { return model::Position{a.lon + t * (b.lon - a.lon), a.lat + t * (b.lat - a.lat)}; };
    for (std::size_t k = 0; k <= pieces; ++k) {
        const double t = static_cast<double>(k) / static_cast<double>(pieces);
        places.push_back(k == pieces ? b : at(t));
        places.push_back(at(t - half));
        places.push_back(at(t + half));
    }
    const auto points = frame.toPlane(places);
    PlaneEdge edge;
    for (std::size_t i = 0; i < points.size(); i += 3) {
        const double dx = points[i + 2].x - points[i + 1].x, dy = points[i + 2].y - points[i + 1].y;
        const double length = std::hypot(dx, dy);
        edge.places.push_back(points[i]);
        edge.directions.push_back({dx / length, dy / length});
    }
    return edge;
}

class Beside {
public:
    Beside(const LocalFrame& frame, const OffsetPlan& plan, Hand hand, double over)
        : m_frame{frame}, m_plan{plan}, m_turn{hand == Hand::Left ? 1.0 : -1.0}, m_over{over}, m_reach{
                                                                                                   plan.radius +
                                                                                                   plan.edgeParting} {}

    std::vector<PlaneRing> pieces(const Stretch& stretch) {
        const auto& corners = stretch.path.corners;
        std::vector<PlaneEdge> edges;
        for (std::size_t i = 0; i + 1 < corners.size(); ++i) {
            const double length = lengthAtMost(corners[i], corners[i + 1]);
            const auto byTurn = static_cast<std::size_t>(std::ceil(length * m_plan.curvature / kMostTurn));
            edges.push_back(planeEdge(m_frame, corners[i], corners[i + 1], std::max(m_plan.pieces(length), byTurn)));
            addBands(edges.back());
        }
        for (std::size_t i = 1; i + 1 < corners.size(); ++i)
            addBend(edges[i].places.front(), edges[i - 1].directions.back(), edges[i].directions.front(),
                    orientation(corners[i - 1], corners[i], corners[i + 1]));
        if (stretch.after) {
            const auto next = planeEdge(m_frame, corners.back(), *stretch.after, 1);
            addBend(next.places.front(), edges.back().directions.back(), next.directions.front(),
                    orientation(corners[corners.size() - 2], corners.back(), *stretch.after));
        } else {
            addEnd(edges.back().places.back(), edges.back().directions.back(), -1.0);
        }
        if (!stretch.before)
            addEnd(edges.front().places.front(), -1.0 * edges.front().directions.front(), 1.0);
        return std::move(m_pieces);
    }

private:
    [[nodiscard]] PlanePoint square(PlanePoint direction) const {
        return {-m_turn * direction.y, m_turn * direction.x};
    }

    void addBands(const PlaneEdge& edge) {
        // One band for the whole edge, where it is bent so little that the band cannot meet itself.
        constexpr double little = 0.5;
        const std::size_t pieces = edge.places.size() - 1;
        if (m_reach * m_plan.curvature < little && static_cast<double>(pieces) * kMostTurn < little)
            return addBand(edge, 0, pieces);
        for (std::size_t k = 0; k < pieces; ++k)
            addBand(edge, k, k + 1);
    }

    /// Beside the places of the edge from one to another.
    void addBand(const PlaneEdge& edge, std::size_t first, std::size_t last) {
        PlaneRing ring;
        const auto add = [&](std::size_t k, double out) {
            const double on = k == first ? -m_over : k == last ? m_over : 0.0;
            ring.push_back(edge.places[k] + on * edge.directions[k] + out * square(edge.directions[k]));
        };
        for (std::size_t k = first; k <= last; ++k)
            add(k, m_reach);
        for (std::size_t k = last + 1; k-- > first;)
            add(k, -m_over);
        // Rays beside a piece may cross: then its corners are not those of a simple ring, but their hull holds it.
        m_pieces.push_back(last == first + 1 ? convexHull(std::move(ring)) : std::move(ring));
    }

    /// The part of a disc from the direction `from` on, turned by `angle` (to the left, where positive).
    void addArc(PlaneRing& ring, PlanePoint centre, PlanePoint from, double angle) const {
        const double most = 2.0 * std::numbers::pi / static_cast<double>(m_plan.corners);
        const auto steps = static_cast<std::size_t>(std::max(1.0, std::ceil(std::abs(angle) / most)));
        const double step = angle / static_cast<double>(steps), radius = m_reach / std::cos(step / 2.0);
        for (std::size_t k = 0; k <= steps; ++k) {
            const double turned = step * static_cast<double>(k), c = std::cos(turned), s = std::sin(turned);
            ring.push_back(centre + radius * PlanePoint{c * from.x - s * from.y, s * from.x + c * from.y});
        }
    }

    static PlanePoint turned(PlanePoint direction, double angle) {
        const double c = std::cos(angle), s = std::sin(angle);
        return {c * direction.x - s * direction.y, s * direction.x + c * direction.y};
    }

    /// @param side  on which side of the edge before the edge after leaves: 1 left, -1 right, by exact arithmetic.
    void addBend(PlanePoint corner, PlanePoint before, PlanePoint after, int side) {
        const double cross = before.x * after.y - before.y * after.x, dot = before.x * after.x + before.y * after.y;
        double angle = std::atan2(cross, dot);
        if (side == 0 && dot > 0.0)
            return;
        if (side == 0) {
            // There and back: beyond the tip, either side is the outer one.
            angle = -m_turn * std::numbers::pi;
        } else if (side * m_turn > 0.0) {
            return; // it is the inner side
        } else if (angle * side < 0.0) {
            // The rounded angle is on the other side of straight ahead, or of straight back.
            angle = dot > 0.0 ? 0.0 : angle + side * 2.0 * std::numbers::pi;
        }
        const double more = angle < 0.0 || (angle == 0.0 && side < 0) ? -wider() : wider();
        PlaneRing ring{corner};
        addArc(ring, corner, turned(square(before), -more), angle + 2.0 * more);
        m_pieces.push_back(std::move(ring));
    }

    /// A quarter of a disc between the side and straight ahead.
    /// @param ahead  the direction in which one leaves the line.
    /// @param sense  -1 at the line's last place; 1 at its first, where one looks back.
    void addEnd(PlanePoint end, PlanePoint ahead, double sense) {
        // Seen along the line's own direction, at the first place the side is the same, but ahead is behind.
        const PlanePoint out = square(sense < 0.0 ? ahead : -1.0 * ahead);
        const double quarter = sense * m_turn * std::numbers::pi / 2.0;
        const double more = std::copysign(wider(), quarter);
        PlaneRing ring{end + -m_over * ahead};
        addArc(ring, end, turned(out, -more), quarter + 2.0 * more);
        ring.push_back(end + -m_over * out);
        m_pieces.push_back(std::move(ring));
    }

    [[nodiscard]] double wider() const { return 1.5 * m_over / m_reach; }

    const LocalFrame& m_frame;
    const OffsetPlan& m_plan;
    double m_turn; ///< from the line's direction to the side: 1 to the left
    double m_over; ///< metres
    double m_reach;
    std::vector<PlaneRing> m_pieces;
};

model::MultiPolygon inFrame(const Stretch& stretch, Hand hand, double metres) {
    const auto extent = extentOf(std::span{&stretch.path, 1});
    const auto plan = planFor(metres, Side::Grow, std::span{&stretch.path, 1}, extent, 0.0);
    const double reach = extent.radius + 1.01 * metres;
    // How much a geodesic of length `metres` may turn in the plane; see curvatureWithin().
    const double bent = 1.05 * metres * std::tan(reach / kLeastRadiusMetres) / kLeastRadiusMetres;
    const double over = 2.0 * plan.edgeParting + kRoundingMetres + metres * (kTangentError + bent);
    const LocalFrame frame{extent.middle};
    GeosContext context;
    const auto swept = unitedPieces(context, Beside{frame, plan, hand, over}.pieces(stretch));
    return toEarth(context, swept.get(), frame, plan, Side::Grow);
}

} // namespace

model::MultiPolygon sweptBeside(const model::LineString& line, Hand hand, double metres) {
    Path whole{line, Chain::Open};
    whole.corners.erase(std::unique(whole.corners.begin(), whole.corners.end()), whole.corners.end());
    const double reach = std::max(kFrameReach, metres + kFrameReach / 4.0);
    std::vector<Path> paths;
    if (extentOf(std::span{&whole, 1}).radius + metres <= reach)
        paths.push_back(std::move(whole));
    else
        cut(whole, std::min(reach - metres, kFrameReach / 2.0), paths);
    std::vector<model::MultiPolygon> swept;
    for (std::size_t i = 0; i < paths.size(); ++i) {
        Stretch stretch{paths[i], std::nullopt, std::nullopt};
        if (i > 0)
            stretch.before = paths[i - 1].corners[paths[i - 1].corners.size() - 2];
        if (i + 1 < paths.size())
            stretch.after = paths[i + 1].corners[1];
        swept.push_back(inFrame(stretch, hand, metres));
    }
    return swept.size() == 1 ? std::move(swept.front()) : united(swept);
}

double leastBeside(double metres) { return 0.001 * metres + 0.002; }

} // namespace fencewright::geometry::detail
