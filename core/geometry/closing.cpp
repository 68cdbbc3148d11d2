#include "geodesy/geodesic.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/offset.h"
#include "geometry/overlay.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>
#include <utility>
#include <vector>

namespace fencewright::geometry {
namespace {

/// Overlay keeps the edges of the given polygons to rounding; a place within this of one lies on it (some 10
/// micrometres).
constexpr double kOnEdgeDegrees = 1e-10;

/// The edges of all given polygons, each with the number of its polygon.
class Bounds {
public:
    explicit Bounds(const model::MultiPolygon& polygons) {
        for (std::size_t owner = 0; owner < polygons.parts.size(); ++owner) {
            add(polygons.parts[owner].shell, owner);
            for (const auto& hole : polygons.parts[owner].holes)
                add(hole, owner);
        }
        std::vector<Box> boxes;
        for (const auto& edge : m_edges) {
            Box& box = boxes.emplace_back();
            box.add(edge.from.lon, edge.from.lat);
            box.add(edge.to.lon, edge.to.lat);
        }
        m_index = SpatialIndex{boxes};
    }
    /// The polygons on whose boundary the place lies.
    [[nodiscard]] std::set<std::size_t> ownersAt(model::Position place) const {
        std::set<std::size_t> owners;
        const Box window{place.lon - kOnEdgeDegrees, place.lat - kOnEdgeDegrees, place.lon + kOnEdgeDegrees,
                         place.lat + kOnEdgeDegrees};
        m_index.visitMeeting(window, [&](std::size_t number) {
            const auto& [from, to, owner] = m_edges[number];
            const double dx = to.lon - from.lon, dy = to.lat - from.lat, square = dx * dx + dy * dy;
            const double along = (place.lon - from.lon) * dx + (place.lat - from.lat) * dy;
            const double share = square > 0.0 ? std::clamp(along / square, 0.0, 1.0) : 0.0;
            if (std::hypot(place.lon - from.lon - share * dx, place.lat - from.lat - share * dy) <= kOnEdgeDegrees)
                owners.insert(owner);
            return true;
        });
        return owners;
    }

private:
    struct Edge {
        model::Position from, to;
        std::size_t owner;
    };
    void add(const model::Ring& ring, std::size_t owner) {
        for (std::size_t i = 0; i < ring.corners.size(); ++i)
            m_edges.push_back({ring.corners[i], ring.corners[(i + 1) % ring.corners.size()], owner});
    }

    std::vector<Edge> m_edges;
    SpatialIndex m_index;
};

/// How the outline of a piece lies to the polygons around it.
struct Contact {
    std::set<std::size_t> owners;
    double boundLength = 0.0; ///< of edges on polygons, in stretched degrees
    double freeLength = 0.0;
    int openings = 0; ///< stretches of free edges, parted by places on polygons
};

Contact contactOf(const model::Polygon& piece, const Bounds& bounds) {
    Contact contact;
    const auto& corners = piece.shell.corners;
    const double squeeze = std::cos(corners.front().lat * std::numbers::pi / 180.0);
    std::vector<bool> free(corners.size()), cornerBound(corners.size());
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const auto &from = corners[i], &to = corners[(i + 1) % corners.size()];
        const double length = std::hypot((to.lon - from.lon) * squeeze, to.lat - from.lat);
        const auto owners = bounds.ownersAt({(from.lon + to.lon) / 2.0, (from.lat + to.lat) / 2.0});
        free[i] = owners.empty();
        cornerBound[i] = !bounds.ownersAt(from).empty();
        (free[i] ? contact.freeLength : contact.boundLength) += length;
        contact.owners.insert(owners.begin(), owners.end());
    }
    for (std::size_t i = 0; i < corners.size(); ++i)
        if (free[i] && (!free[(i + corners.size() - 1) % corners.size()] || cornerBound[i]))
            ++contact.openings;
    return contact;
}

bool closesAGap(const model::Polygon& piece, const Bounds& bounds) {
    const auto contact = contactOf(piece, bounds);
    if (contact.owners.size() < 2)
        return false;
    // With one opening it is a wedge, or the rounding of an open corner. At a corner of angle a, sides of cot(a/2) each
    // meet an arc of pi - a: two thirds of the outline lie on the sides where a is some 46 degrees.
    return contact.openings != 1 || contact.boundLength > 2.0 * contact.freeLength;
}

/// The closing is worked out a little too small, so that a wedge keeps a sliver at its tip. What no disc of the radius
/// fits into the exact closing fills, and it is idempotent: so these holes may be filled.
model::MultiPolygon holesTooSmallFor(Length radius, const model::MultiPolygon& surface, const Bounds& bounds) {
    const double disc = std::numbers::pi * radius.inMetres() * radius.inMetres();
    model::MultiPolygon found;
    for (const auto& part : surface.parts)
        for (const auto& hole : part.holes) {
            const model::Polygon filling{hole, {}};
            if (contactOf(filling, bounds).owners.size() >= 2 && geodesy::measure(filling).area.inSquareMetres() < disc)
                found.parts.push_back(filling);
        }
    return found;
}

} // namespace

ClosedUnion unitedClosing(std::span<const model::MultiPolygon> surfaces, Length closing) {
    ClosedUnion result{united(surfaces), {}};
    if (closing <= Length{} || result.surface.empty())
        return result;
    model::MultiPolygon given;
    for (const auto& surface : surfaces) {
        const auto turned = detail::turnedNear(surface, detail::middleLongitude(result.surface));
        given.parts.insert(given.parts.end(), turned.parts.begin(), turned.parts.end());
    }
    const auto reach = closing / 2.0;
    const auto closed = eroded(grown(result.surface, reach, Side::Shrink), reach, Side::Shrink);
    const Bounds bounds{given};
    for (auto& piece : difference(closed, result.surface).parts)
        if (closesAGap(piece, bounds)) {
            given.parts.push_back(piece);
            result.closedGaps.parts.push_back(std::move(piece));
        }
    if (result.closedGaps.empty())
        return result;
    result.surface = united(std::vector{result.surface, result.closedGaps});
    const auto slivers = holesTooSmallFor(reach, result.surface, Bounds{given});
    if (!slivers.empty()) {
        result.closedGaps = united(std::vector{result.closedGaps, slivers});
        result.surface = united(std::vector{result.surface, slivers});
    }
    return result;
}

} // namespace fencewright::geometry
