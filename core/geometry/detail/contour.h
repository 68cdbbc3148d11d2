#pragma once

#include "geometry/detail/exact_surface.h"
#include "geometry/spatial_index.h"
#include "model/polygon.h"
#include "model/position.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace fencewright::geometry::detail {

/// The boundary of a valid surface as edges that have the inside on their left, ring after ring. Where a corner of one
/// ring lies on an edge of another, it is a corner there, too.
class Contour {
public:
    /// @param surface  valid: rings do not cross, parts do not overlap.
    /// @param id       tells it from every other one.
    Contour(const model::MultiPolygon& surface, std::uint64_t id);

    struct Edge {
        model::Position from, to;
    };
    [[nodiscard]] std::uint64_t id() const { return m_id; }
    [[nodiscard]] const Box& box() const { return m_box; }
    [[nodiscard]] const std::vector<Edge>& edges() const { return m_edges; }
    [[nodiscard]] std::size_t ringCount() const { return m_ringEnds.size(); }
    [[nodiscard]] std::span<const Edge> ring(std::size_t number) const {
        return std::span{m_edges}.subspan(ringBegin(number), m_ringEnds[number] - ringBegin(number));
    }
    /// The first edge of a ring.
    [[nodiscard]] std::size_t ringBegin(std::size_t number) const { return number == 0 ? 0 : m_ringEnds[number - 1]; }
    /// Whether rings touch there: it is a corner more than once.
    [[nodiscard]] bool touchesItselfAt(model::Position place) const;
    /// Whether the place lies in the inside, or on the boundary to the east of it. Exact.
    [[nodiscard]] bool holds(model::Position place) const;
    /// Of the boxes of the edges; made when first needed. Not for two threads at once.
    [[nodiscard]] const SpatialIndex& index() const;
    /// An index is larger than what it is of.
    void dropIndexUnlessUsed() const;

private:
    void addRing(const model::Ring& ring, bool hole);
    void divideWhereRingsTouch();

    std::uint64_t m_id;
    std::vector<Edge> m_edges;
    std::vector<std::size_t> m_ringEnds;
    std::vector<model::Position> m_touches; ///< from west to east, and from south to north
    Box m_box;
    mutable std::optional<SpatialIndex> m_index;
    mutable bool m_indexUsed = false;
};

/// The box of the edge, and kSeparationDegrees around it.
[[nodiscard]] Box boxAround(const Contour::Edge& edge);
/// Whether the place lies within kSeparationDegrees of the edge.
[[nodiscard]] bool isNear(const Contour::Edge& edge, model::Position place);

/// Where two edges cross: rounded, and the same place in either order.
struct EdgeCrossing {
    bool clash = false; ///< a corner of one is near the other, or rounding might put the place elsewhere along them
    std::optional<model::Position> at;
};
[[nodiscard]] EdgeCrossing crossingOf(const Contour::Edge& one, const Contour::Edge& other);
/// How far along the edge, in degrees, from a place on it, an edge at most crosses it that lies within
/// kSeparationDegrees of that place: at a lesser angle, crossingOf() tells no place.
[[nodiscard]] double reachAlong(const Contour::Edge& edge);

/// Where two boundaries cross.
struct Crossing {
    std::uint32_t edgeOfFirst, edgeOfSecond;
    model::Position at;
};

/// How two contours lie to one another.
struct Meeting {
    /// A corner of one lies within kSeparationDegrees of an edge of the other, or edges cross so slantwise that the
    /// place cannot be told: only an overlay on a grid can be trusted with them.
    bool clash = false;
    std::vector<Crossing> crossings;
    std::vector<bool> firstIn, secondIn; ///< by ring: whether it begins in the inside of the other one

    /// Whether the surfaces have something in common.
    [[nodiscard]] bool overlap() const;
};
[[nodiscard]] Meeting meetingOf(const Contour& first, const Contour& second);

} // namespace fencewright::geometry::detail
