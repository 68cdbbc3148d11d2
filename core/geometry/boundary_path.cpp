#include "geometry/boundary_path.h"

#include "geodesy/edge_meaning.h"
#include "geodesy/geodesic.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fencewright::geometry {
namespace {

using model::Position;

constexpr double kCornerMetres = 1e-6;
/// Shorter edges part from geodesics by so little that both are as long.
constexpr double kShortEdgeDegrees = 0.01;

const Position& cornerAfter(const BoundaryLine& line, std::size_t edge) {
    return line.corners[edge + 1 < line.corners.size() ? edge + 1 : 0];
}

/// Metres east and north of a place: the two axes scaled, so that straight edges stay straight.
class Around {
public:
    explicit Around(const Position& origin) : m_origin{origin} {
        constexpr double step = 1e-3; // degrees
        const double inwards = origin.lat > 0.0 ? -step : step;
        m_perLon = geodesy::inverse(origin, {origin.lon + step, origin.lat}).length.inMetres() / step;
        m_perLat = geodesy::inverse(origin, {origin.lon, origin.lat + inwards}).length.inMetres() / step;
    }

    struct Point {
        double x = 0.0, y = 0.0;
    };
    [[nodiscard]] Point of(const Position& place) const {
        return {turned(place.lon - m_origin.lon) * m_perLon, (place.lat - m_origin.lat) * m_perLat};
    }
    /// The end of an edge, on the turn of its begin.
    [[nodiscard]] Point ofEnd(const Position& begin, const Position& end) const {
        return {(turned(begin.lon - m_origin.lon) + (end.lon - begin.lon)) * m_perLon,
                (end.lat - m_origin.lat) * m_perLat};
    }

private:
    // Left alone where it is the short way already: no rounding.
    static double turned(double degrees) {
        return std::abs(degrees) <= 180.0 ? degrees : std::remainder(degrees, 360.0);
    }

    Position m_origin;
    double m_perLon = 0.0, m_perLat = 0.0;
};

/// How far along the segment the foot of the origin lies, in [0, 1].
double footOfOrigin(const Around::Point& a, const Around::Point& b) {
    const double x = b.x - a.x, y = b.y - a.y, squared = x * x + y * y;
    return squared > 0.0 ? std::clamp(-(a.x * x + a.y * y) / squared, 0.0, 1.0) : 0.0;
}

double edgeMetres(const Position& a, const Position& b) {
    if (std::abs(a.lon - b.lon) + std::abs(a.lat - b.lat) < kShortEdgeDegrees)
        return geodesy::inverse(a, b).length.inMetres();
    return geodesy::lengthOf({a, b}).inMetres();
}

/// Whether all lie within so many metres of the segment.
bool lieAlong(std::span<const Position> corners, const Position& from, const Position& to, double metres) {
    return std::all_of(corners.begin(), corners.end(), [&](const Position& corner) {
        const Around around{corner};
        const Around::Point a = around.of(from),
                            b = around.ofEnd(from, {geodesy::longitudeNear(to.lon, from.lon), to.lat});
        const double foot = footOfOrigin(a, b);
        return std::hypot(a.x + foot * (b.x - a.x), a.y + foot * (b.y - a.y)) <= metres;
    });
}

} // namespace

std::optional<NearestOnBoundary> nearestOn(std::span<const BoundaryLine> lines, const Position& place) {
    const Around around{place};
    struct Nearest {
        std::size_t line = 0, edge = 0;
        double along = 0.0, squared = 0.0;
    };
    std::optional<Nearest> nearest;
    for (std::size_t number = 0; number < lines.size(); ++number) {
        const BoundaryLine& line = lines[number];
        for (std::size_t edge = 0; edge < line.edges(); ++edge) {
            const Position& begin = line.corners[edge];
            const Around::Point a = around.of(begin), b = around.ofEnd(begin, cornerAfter(line, edge));
            const double foot = footOfOrigin(a, b);
            const double x = a.x + foot * (b.x - a.x), y = a.y + foot * (b.y - a.y), squared = x * x + y * y;
            if (!nearest || squared < nearest->squared)
                nearest = Nearest{number, edge, foot, squared};
        }
    }
    if (!nearest)
        return std::nullopt;
    const BoundaryLine& line = lines[nearest->line];
    BoundaryPlace at{nearest->line, nearest->edge, nearest->along};
    const Position &begin = line.corners[at.edge], &end = cornerAfter(line, at.edge);
    const Around::Point a = around.of(begin), b = around.ofEnd(begin, end);
    const double metres = std::hypot(b.x - a.x, b.y - a.y);
    if (at.along * metres <= kCornerMetres) {
        at.along = 0.0;
    } else if ((1.0 - at.along) * metres <= kCornerMetres) {
        const bool ends = !line.closed && at.edge + 1 == line.edges();
        at = ends ? BoundaryPlace{at.line, at.edge, 1.0} : BoundaryPlace{at.line, (at.edge + 1) % line.edges(), 0.0};
    }
    Position found = placeOn(line, at);
    if (std::abs(found.lon - place.lon) > 180.0)
        found.lon = geodesy::longitudeNear(found.lon, place.lon);
    return NearestOnBoundary{at, found, Length::metres(std::sqrt(nearest->squared))};
}

Position placeOn(const BoundaryLine& line, const BoundaryPlace& at) {
    const Position &begin = line.corners[at.edge], &end = cornerAfter(line, at.edge);
    if (at.along <= 0.0)
        return begin;
    if (at.along >= 1.0)
        return end;
    return {begin.lon + at.along * (end.lon - begin.lon), begin.lat + at.along * (end.lat - begin.lat)};
}

model::LineString pathAlong(const BoundaryLine& line, const BoundaryPlace& from, const BoundaryPlace& to, Sense sense) {
    const std::size_t count = line.corners.size();
    model::LineString path;
    if (from.edge == to.edge && (sense == Sense::Forward ? to.along >= from.along : to.along <= from.along))
        return path;
    if (sense == Sense::Forward) {
        for (std::size_t corner = (from.edge + 1) % count; corner != to.edge; corner = (corner + 1) % count)
            path.push_back(line.corners[corner]);
        if (to.along > 0.0)
            path.push_back(line.corners[to.edge]);
        return path;
    }
    std::size_t corner = from.edge;
    if (from.along <= 0.0)
        corner = (corner + count - 1) % count;
    else if (corner == to.edge)
        path.push_back(line.corners[std::exchange(corner, (corner + count - 1) % count)]); // all the way round
    for (; corner != to.edge; corner = (corner + count - 1) % count)
        path.push_back(line.corners[corner]);
    return path;
}

MeasuredBoundary::MeasuredBoundary(const BoundaryLine& line) : m_line{line} {
    m_metresTo.reserve(line.edges() + 1);
    m_metresTo.push_back(0.0);
    for (std::size_t edge = 0; edge < line.edges(); ++edge)
        m_metresTo.push_back(m_metresTo.back() + edgeMetres(line.corners[edge], cornerAfter(line, edge)));
}

double MeasuredBoundary::metresTo(const BoundaryPlace& at) const {
    if (at.along >= 1.0)
        return m_metresTo[at.edge + 1];
    return m_metresTo[at.edge] + (at.along > 0.0 ? edgeMetres(m_line.corners[at.edge], placeOn(m_line, at)) : 0.0);
}

Length MeasuredBoundary::between(const BoundaryPlace& from, const BoundaryPlace& to, Sense sense) const {
    const double forward = metresTo(to) - metresTo(from);
    if (!m_line.closed)
        return Length::metres(std::abs(forward));
    const double way = sense == Sense::Forward ? forward : -forward;
    return Length::metres(way < 0.0 ? way + m_metresTo.back() : way);
}

Sense MeasuredBoundary::shorterSense(const BoundaryPlace& from, const BoundaryPlace& to) const {
    if (!m_line.closed)
        return metresTo(to) >= metresTo(from) ? Sense::Forward : Sense::Backward;
    return between(from, to, Sense::Forward) <= between(from, to, Sense::Backward) ? Sense::Forward : Sense::Backward;
}

std::optional<BoundaryPlace> MeasuredBoundary::after(const BoundaryPlace& from, Length length, Sense sense) const {
    const double whole = m_metresTo.back();
    double metres = metresTo(from) + (sense == Sense::Forward ? length : -length).inMetres();
    if (length >= Length::metres(whole) && m_line.closed)
        return std::nullopt;
    if (m_line.closed)
        metres = metres < 0.0 ? metres + whole : metres >= whole ? metres - whole : metres;
    else if (metres < 0.0 || metres > whole)
        return std::nullopt;
    // The last corner that is not farther; of edges without length the last.
    const auto beyond = std::upper_bound(m_metresTo.begin(), m_metresTo.end() - 1, metres);
    BoundaryPlace at{from.line, std::min<std::size_t>(std::size_t(beyond - m_metresTo.begin()) - 1, m_line.edges() - 1),
                     0.0};
    const double edge = m_metresTo[at.edge + 1] - m_metresTo[at.edge];
    if (!(edge > 0.0))
        return at;
    at.along = std::clamp((metres - m_metresTo[at.edge]) / edge, 0.0, 1.0);
    // Ground lengths along an edge are nearly in proportion: each step takes four digits or more off what is left.
    for (int step = 0; step < 4 && at.along > 0.0 && at.along < 1.0; ++step)
        at.along = std::clamp(at.along + (metres - metresTo(at)) / edge, 0.0, 1.0);
    if (at.along >= 1.0 && (m_line.closed || at.edge + 1 < m_line.edges()))
        at = {at.line, (at.edge + 1) % m_line.edges(), 0.0};
    return at;
}

std::optional<model::LineString> conformedTo(const BoundaryLine& line, const Position& from,
                                             const BoundaryPlace& fromAt, const Position& to, const BoundaryPlace& toAt,
                                             Length within) {
    std::optional<model::LineString> conformed;
    for (const Sense sense : {Sense::Forward, Sense::Backward}) {
        const bool leads = line.closed || (sense == Sense::Forward) == (std::pair{toAt.edge, toAt.along} >=
                                                                        std::pair{fromAt.edge, fromAt.along});
        if (!leads)
            continue;
        model::LineString path = pathAlong(line, fromAt, toAt, sense);
        if ((!conformed || path.size() < conformed->size()) && lieAlong(path, from, to, within.inMetres()))
            conformed = std::move(path);
    }
    return conformed;
}

} // namespace fencewright::geometry
