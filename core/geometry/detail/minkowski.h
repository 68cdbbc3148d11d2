#pragma once

#include "geodesy/local_frame.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace fencewright::geometry::detail {

using PlaneRing = std::vector<geodesy::PlanePoint>;

/// A regular polygon around (0, 0) that stands for a disc. Its corners are the same numbers wherever it is used, so
/// that pieces laid side by side share their corners exactly.
class Disc {
public:
    // Both have corners due east, north, west and south, so that an edge along a meridian or a parallel, bent a little
    // either way, has one corner that lies farthest to its right all along. The number of corners is a multiple of 24:
    // likewise for edges at 15, 30, 45 degrees.

    /// Contains the disc of that radius.
    static Disc circumscribed(double radius, std::size_t corners);
    /// Lies in the disc of that radius.
    static Disc inscribed(double radius, std::size_t corners);

    [[nodiscard]] std::size_t size() const { return m_corners.size(); }
    [[nodiscard]] const geodesy::PlanePoint& corner(std::size_t index) const { return m_corners[index % size()]; }
    /// The corner that lies farthest to the right of a line that runs from `a` to `b`.
    [[nodiscard]] std::size_t rightmost(geodesy::PlanePoint a, geodesy::PlanePoint b) const;

private:
    Disc(double circumradius, std::size_t corners);

    std::vector<geodesy::PlanePoint> m_corners;
};

enum class Chain { Open, Closed };

/// On which side of a line the sum is wanted whole. On the other, the outer sides of bends may be left out.
enum class Wanted { BothSides, Right, Left };

/// Simple polygons whose union is the Minkowski sum of the line (not of what it may enclose) and the disc, exactly but
/// for the rounding of their corners. A single place gives the disc around it.
[[nodiscard]] std::vector<PlaneRing> sweep(std::span<const geodesy::PlanePoint> line, Chain chain, const Disc& disc,
                                           Wanted wanted);

/// The same sum as one ring, where the line is so nearly straight that it can be told without a union; else nothing.
[[nodiscard]] std::optional<PlaneRing> straightSum(std::span<const geodesy::PlanePoint> line, const Disc& disc);

/// The Minkowski sum of a simple ring, its inside included, and the disc. Nothing where the ring is not convex (but for
/// bends under a side of the disc), or not counter-clockwise.
[[nodiscard]] std::optional<PlaneRing> convexSum(std::span<const geodesy::PlanePoint> ring, const Disc& disc);

/// The convolution of a simple ring, counter-clockwise, with the disc: a closed line that winds round the places of
/// their Minkowski sum (the ring's inside included) once or more, and round no other place. Nothing where the ring
/// turns back so sharply that the disc cannot tell to which side. Source: Guibas, Ramshaw, Stolfi (see the .cpp): it
/// winds round a place as often as the disc around that place, turned over, has pieces in common with the ring.
[[nodiscard]] std::optional<PlaneRing> convolution(std::span<const geodesy::PlanePoint> ring, const Disc& disc);

} // namespace fencewright::geometry::detail
