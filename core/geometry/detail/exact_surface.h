#pragma once

#include "geometry/spatial_index.h"
#include "model/polygon.h"
#include "model/position.h"

#include <cstddef>
#include <vector>

namespace fencewright::geometry::detail {

/// How a simple ring winds. Exact.
/// @param corners  three or more, none of them twice in a row.
[[nodiscard]] bool isCounterClockwise(const std::vector<model::Position>& corners);

/// A valid surface as edges that know on which side its inside lies, with an index. All answers are exact for the given
/// coordinates: they rest on the sign of orientation() alone, and no crossing point is ever computed.
class ExactSurface {
public:
    /// @param surface  valid: rings do not cross, parts do not overlap.
    explicit ExactSurface(const model::MultiPolygon& surface);
    /// Pieces that do not overlap, each valid, as the surface that they make together. Where they meet along an edge,
    /// both have that edge, from the same corner to the same corner, or else it stays a boundary.
    [[nodiscard]] static ExactSurface joined(const std::vector<model::Polygon>& pieces);

    enum class Location { Inside, Boundary, Outside };
    [[nodiscard]] Location locate(model::Position place) const;
    /// Whether every place of `inner` lies inside or on the boundary.
    [[nodiscard]] bool covers(const ExactSurface& inner) const;
    /// Whether they share a place, boundaries included.
    [[nodiscard]] bool meets(const ExactSurface& other) const;
    /// Whether their boundaries share a place.
    [[nodiscard]] bool boundariesMeet(const ExactSurface& other) const;
    [[nodiscard]] const Box& box() const { return m_box; }

    struct Edge {
        model::Position from, to;
        bool insideOnLeft;
    };
    [[nodiscard]] const std::vector<Edge>& edges() const { return m_edges; }
    /// Of the boxes of the edges.
    [[nodiscard]] const SpatialIndex& index() const { return m_index; }

    /// A direction in which the boundary leaves a place, and what lies counter-clockwise of it.
    struct Ray {
        model::Position towards;
        bool insideAfter;
    };
    /// None where the place is not on the boundary.
    [[nodiscard]] std::vector<Ray> raysFrom(model::Position place) const;

private:
    ExactSurface() = default;
    void addRing(const model::Ring& ring, bool hole);
    void makeIndex();
    [[nodiscard]] bool coversAround(model::Position place, const ExactSurface& inner) const;

    std::vector<Edge> m_edges;
    std::vector<std::size_t> m_ringBegins; ///< the first edge of each ring
    SpatialIndex m_index;
    Box m_box;
};

} // namespace fencewright::geometry::detail
