#include "geometry/detail/minkowski.h"

#include <algorithm>
#include <cmath>
#include <numbers>

// The sum of a line and a disc is swept by the disc's diameters. Where the line is straight, the diameter that sticks
// out farthest to both sides sweeps a parallelogram; at a corner, the part of the disc between the two diameters fills
// the outer side. Nothing else is needed: a place in the sum is nearest, in the norm whose unit ball is the disc,
// either to the inside of an edge, and then lies in its parallelogram, or to a corner, and then in that corner's fan.
// Source: Guibas, Ramshaw, Stolfi, "A kinetic framework for computational geometry", FOCS 1983 (convolutions).

namespace fencewright::geometry::detail {
namespace {

using geodesy::PlanePoint;

PlanePoint operator+(PlanePoint a, PlanePoint b) { return {a.x + b.x, a.y + b.y}; }

std::vector<PlanePoint> withoutRepeats(std::span<const PlanePoint> line, Chain chain) {
    std::vector<PlanePoint> result;
    result.reserve(line.size());
    for (const auto& point : line)
        if (result.empty() || !(result.back() == point))
            result.push_back(point);
    while (chain == Chain::Closed && result.size() > 1 && result.back() == result.front())
        result.pop_back();
    return result;
}

PlaneRing discAt(PlanePoint centre, const Disc& disc) {
    PlaneRing ring;
    ring.reserve(disc.size());
    for (std::size_t i = 0; i < disc.size(); ++i)
        ring.push_back(centre + disc.corner(i));
    return ring;
}

/// The fan at a corner from disc corner `from`, counter-clockwise over `steps` sides, and a bit more of the disc at
/// both ends: pieces that only shared an edge would be parted by the rounding of crossing points.
PlaneRing fan(PlanePoint centre, const Disc& disc, std::size_t from, std::size_t steps) {
    const std::size_t more = disc.size() / 24;
    if (steps + 2 * more >= disc.size())
        return discAt(centre, disc);
    PlaneRing ring{centre};
    for (std::size_t i = 0; i <= steps + 2 * more; ++i)
        ring.push_back(centre + disc.corner(from + disc.size() - more + i));
    return ring;
}

} // namespace

namespace {

/// The first corner's bearing, in steps from one corner to the next. No corner, and no split of an edge into a few
/// equal pieces, comes to lie due north or east of the middle: there it would repeat the longitude or latitude of what
/// the distance is kept from, which may be confidential.
constexpr double kTurn = 0.382;

} // namespace

Disc::Disc(double circumradius, std::size_t corners) {
    m_corners.reserve(corners);
    const double step = 2.0 * std::numbers::pi / static_cast<double>(corners);
    for (std::size_t i = 0; i < corners; ++i) {
        const double angle = step * (static_cast<double>(i) + kTurn);
        m_corners.push_back({circumradius * std::cos(angle), circumradius * std::sin(angle)});
    }
    // Opposite corners are made exactly opposite, as the parallelograms assume.
    for (std::size_t i = corners / 2; i < corners; ++i)
        m_corners[i] = {-m_corners[i - corners / 2].x, -m_corners[i - corners / 2].y};
}

Disc Disc::circumscribed(double radius, std::size_t corners) {
    return Disc{radius / std::cos(std::numbers::pi / static_cast<double>(corners)), corners};
}

Disc Disc::inscribed(double radius, std::size_t corners) { return Disc{radius, corners}; }

std::size_t Disc::rightmost(PlanePoint a, PlanePoint b) const {
    const double count = static_cast<double>(size());
    const double angle = std::atan2(-(b.x - a.x), b.y - a.y); // of the normal to the right
    const double steps = std::round(angle * count / (2.0 * std::numbers::pi) - kTurn);
    const double index = steps - count * std::floor(steps / count);
    return static_cast<std::size_t>(index) % size();
}

std::vector<PlaneRing> sweep(std::span<const PlanePoint> given, Chain chain, const Disc& disc, Wanted wanted) {
    const auto line = withoutRepeats(given, chain);
    std::vector<PlaneRing> pieces;
    if (line.empty())
        return pieces;
    if (line.size() == 1) {
        pieces.push_back(discAt(line.front(), disc));
        return pieces;
    }
    const std::size_t count = disc.size(), half = count / 2;
    const std::size_t edges = chain == Chain::Closed && line.size() > 2 ? line.size() : line.size() - 1;
    const auto at = [&](std::size_t i) { return line[i % line.size()]; };
    std::vector<std::size_t> right(edges);
    for (std::size_t i = 0; i < edges; ++i)
        right[i] = disc.rightmost(at(i), at(i + 1));

    // Neighbouring edges with the same diameter are swept together: they turn by less than a side of the disc.
    for (std::size_t first = 0; first < edges;) {
        std::size_t last = first;
        while (last + 1 < edges && right[last + 1] == right[first])
            ++last;
        PlaneRing band;
        for (std::size_t i = first; i <= last + 1; ++i)
            band.push_back(at(i) + disc.corner(right[first]));
        band.push_back(at(last + 1)); // shared with its neighbours to the last digit
        for (std::size_t i = last + 2; i-- > first;)
            band.push_back(at(i) + disc.corner(right[first] + half));
        band.push_back(at(first));
        pieces.push_back(std::move(band));
        first = last + 1;
    }

    const bool closed = edges == line.size();
    for (std::size_t i = closed ? 0 : 1; i < edges; ++i) {
        const std::size_t before = right[(i + edges - 1) % edges], after = right[i];
        const std::size_t turn = (after + count - before) % count;
        if (turn == 0)
            continue;
        if (turn == half)
            pieces.push_back(discAt(at(i), disc)); // there and back: either side may be the outer one
        else if (turn < half && wanted != Wanted::Left)
            pieces.push_back(fan(at(i), disc, before, turn));
        else if (turn > half && wanted != Wanted::Right)
            pieces.push_back(fan(at(i), disc, after + half, count - turn));
    }
    if (!closed) {
        pieces.push_back(fan(line.front(), disc, right.front() + half, half));
        pieces.push_back(fan(line.back(), disc, right.back(), half));
    }
    return pieces;
}

std::optional<PlaneRing> straightSum(std::span<const PlanePoint> given, const Disc& disc) {
    const auto line = withoutRepeats(given, Chain::Open);
    if (line.empty())
        return std::nullopt;
    if (line.size() == 1)
        return discAt(line.front(), disc);
    const std::size_t half = disc.size() / 2, right = disc.rightmost(line[0], line[1]);
    for (std::size_t i = 1; i + 1 < line.size(); ++i)
        if (disc.rightmost(line[i], line[i + 1]) != right)
            return std::nullopt;
    PlaneRing ring;
    ring.reserve(2 * line.size() + disc.size());
    for (const auto& point : line)
        ring.push_back(point + disc.corner(right));
    for (std::size_t k = 1; k < half; ++k)
        ring.push_back(line.back() + disc.corner(right + k));
    for (std::size_t i = line.size(); i-- > 0;)
        ring.push_back(line[i] + disc.corner(right + half));
    for (std::size_t k = 1; k < half; ++k)
        ring.push_back(line.front() + disc.corner(right + half + k));
    return ring;
}

std::optional<PlaneRing> convexSum(std::span<const PlanePoint> given, const Disc& disc) {
    const auto ring = withoutRepeats(given, Chain::Closed);
    const std::size_t edges = ring.size(), count = disc.size();
    double area = 0.0;
    for (std::size_t i = 1; i + 1 < edges; ++i)
        area += (ring[i].x - ring[0].x) * (ring[i + 1].y - ring[0].y) -
                (ring[i].y - ring[0].y) * (ring[i + 1].x - ring[0].x);
    if (edges < 3 || area <= 0.0)
        return std::nullopt;
    std::vector<std::size_t> right(edges);
    for (std::size_t i = 0; i < edges; ++i)
        right[i] = disc.rightmost(ring[i], ring[(i + 1) % edges]);
    std::size_t turned = 0;
    PlaneRing sum;
    sum.reserve(edges + count);
    for (std::size_t i = 0; i < edges; ++i) {
        const std::size_t before = right[(i + edges - 1) % edges];
        const std::size_t turn = (right[i] + count - before) % count;
        turned += turn;
        if (turn > count / 2 || turned > count)
            return std::nullopt;
        for (std::size_t k = 0; k <= turn; ++k)
            sum.push_back(ring[i] + disc.corner(before + k));
    }
    return turned == count ? std::optional{std::move(sum)} : std::nullopt;
}

std::optional<PlaneRing> convolution(std::span<const PlanePoint> given, const Disc& disc) {
    const auto ring = withoutRepeats(given, Chain::Closed);
    const std::size_t edges = ring.size(), count = disc.size();
    if (edges < 3)
        return std::nullopt;
    std::vector<std::size_t> right(edges);
    for (std::size_t i = 0; i < edges; ++i)
        right[i] = disc.rightmost(ring[i], ring[(i + 1) % edges]);
    PlaneRing line;
    for (std::size_t i = 0; i < edges; ++i) {
        const std::size_t before = right[(i + edges - 1) % edges];
        const std::size_t turn = (right[i] + count - before) % count;
        if (turn + 1 >= count / 2 && turn <= count / 2 + 1)
            return std::nullopt;
        const bool left = turn < count / 2;
        for (std::size_t k = 0; k <= (left ? turn : count - turn); ++k)
            line.push_back(ring[i] + disc.corner(left ? before + k : before + count - k));
    }
    return line;
}

} // namespace fencewright::geometry::detail
