#include "geodesy/edge_meaning.h"

#include "fault.h"
#include "geodesy/detail/place_check.h"
#include "geodesy/detail/wgs84.h"
#include "units/number_notation.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace fencewright::geodesy {

namespace {

using model::Position;

constexpr double kRadians = std::numbers::pi / 180.0;
constexpr std::size_t kMostPlacesAdded = 1'000'000;
/// Below this, the parting is lost in the rounding of coordinates; nothing is gained by more places.
constexpr double kFinestMetres = 1e-6;

/// The edge at a fraction of its way.
Position along(Position from, Position to, double fraction) {
    if (fraction <= 0.0)
        return from;
    if (fraction >= 1.0)
        return to;
    return {std::lerp(from.lon, to.lon, fraction), std::lerp(from.lat, to.lat, fraction)};
}

/// The geodesic between the ends of an edge, and how far places lie from it.
class Chord {
public:
    Chord(Position from, Position to) : m_from{from}, m_to{to} {
        geod_inverse(&m_earth, from.lat, from.lon, to.lat, to.lon, &m_length, &m_azimuth, nullptr);
        geod_lineinit(&m_line, &m_earth, from.lat, from.lon, m_azimuth, 0U);
    }

    [[nodiscard]] double length() const { return m_length; }

    [[nodiscard]] double distanceTo(Position place) const {
        double reach = 0.0;
        double azimuth = 0.0;
        geod_inverse(&m_earth, m_from.lat, m_from.lon, place.lat, place.lon, &reach, &azimuth, nullptr);
        if (m_length == 0.0 || reach == 0.0)
            return reach;
        // The foot of the place on the geodesic: on a sphere at first, then Newton's steps on the ellipsoid.
        const double turn = (azimuth - m_azimuth) * kRadians;
        double foot = kSemiMajorMetres * std::atan2(std::sin(reach / kSemiMajorMetres) * std::cos(turn),
                                                    std::cos(reach / kSemiMajorMetres));
        double distance = reach;
        for (int step = 0; step < 2; ++step) {
            foot = std::clamp(foot, 0.0, m_length);
            double latitude = 0.0;
            double longitude = 0.0;
            double forward = 0.0;
            double bearing = 0.0;
            geod_position(&m_line, foot, &latitude, &longitude, &forward);
            geod_inverse(&m_earth, latitude, longitude, place.lat, place.lon, &distance, &bearing, nullptr);
            foot += kSemiMajorMetres *
                    std::atan2(std::sin(distance / kSemiMajorMetres) * std::cos((bearing - forward) * kRadians),
                               std::cos(distance / kSemiMajorMetres));
        }
        return distance;
    }

private:
    const geod_geodesic& m_earth = wgs84Geodesic();
    Position m_from;
    Position m_to;
    double m_length = 0.0;
    double m_azimuth = 0.0;
    geod_geodesicline m_line{};
};

/// The largest parting between two fractions of the edge, where it has one bow there.
double largestWithin(const Chord& chord, Position from, Position to, double start, double end) {
    constexpr int kSamples = 12;
    const double step = (end - start) / kSamples;
    std::array<double, kSamples + 1> sampled{};
    for (int i = 0; i <= kSamples; ++i)
        sampled[static_cast<std::size_t>(i)] = chord.distanceTo(along(from, to, start + i * step));
    const auto top = std::max_element(sampled.begin(), sampled.end());
    const auto at = top - sampled.begin();
    if (at == 0 || at == kSamples)
        return *top;
    // The vertex of the parabola through the three samples at the top.
    const double before = top[-1];
    const double after = top[1];
    const double bend = before - 2.0 * *top + after;
    if (bend >= 0.0)
        return *top;
    const double offset = 0.5 * (before - after) / bend;
    return std::max(*top, chord.distanceTo(along(from, to, start + (static_cast<double>(at) + offset) * step)));
}

double partingMetres(Position from, Position to) {
    const Chord chord{from, to};
    // The line's bend against a geodesic changes sign at the equator only, so each side of it has one bow.
    if (from.lat * to.lat < 0.0) {
        const double equator = from.lat / (from.lat - to.lat);
        return std::max(largestWithin(chord, from, to, 0.0, equator), largestWithin(chord, from, to, equator, 1.0));
    }
    return largestWithin(chord, from, to, 0.0, 1.0);
}

/// Never under the parting, and cheap. A line straight in longitude and latitude bends against the geodesic by
/// sin(az) tan(lat) (1 + cos(az)^2) / R, at most 1.089 tan(lat) / R for any azimuth; a curve of length L that nowhere
/// bends by more than c stays within c L^2 / 8 of the line between its ends. The ellipsoid changes these by under 1 %.
double partingBoundMetres(Position from, Position to) {
    const double highest = std::max(std::abs(from.lat), std::abs(to.lat)) * kRadians;
    const double lowest = from.lat * to.lat <= 0.0 ? 0.0 : std::min(std::abs(from.lat), std::abs(to.lat)) * kRadians;
    constexpr double kLargestRadius = kSemiMajorMetres * kSemiMajorMetres / kSemiMinorMetres;
    const double length =
        kLargestRadius * std::hypot((to.lat - from.lat) * kRadians, (to.lon - from.lon) * kRadians * std::cos(lowest));
    const double bend = 1.089 * std::tan(highest) / kSemiMinorMetres;
    if (!(bend * length < 0.5) || length > 500'000.0)
        return std::numeric_limits<double>::infinity();
    return 1.02 * bend * length * length / 8.0;
}

class Densifier {
public:
    explicit Densifier(Length tolerance) : m_tolerance{tolerance.inMetres()} {
        if (!(m_tolerance > 0.0))
            throw Fault{phrase("core", "The tolerance for edges must be more than zero."), "",
                        phrase("core", "Give the distance by which an edge may differ, such as 0.1 m.")};
        m_tolerance = std::max(m_tolerance, kFinestMetres);
    }

    /// Adds the places between two corners, without the corners.
    void addBetween(Position from, Position to, std::vector<Position>& places) {
        requirePlace(from);
        requirePlace(to);
        m_from = from;
        m_to = to;
        split(0.0, 1.0, places);
    }

private:
    void split(double start, double end, std::vector<Position>& places) {
        const Position from = along(m_from, m_to, start);
        const Position to = along(m_from, m_to, end);
        if (partingBoundMetres(from, to) <= m_tolerance)
            return;
        const double parting = partingMetres(from, to);
        if (parting <= m_tolerance)
            return;
        // The parting falls with the square of the number of pieces; the little more spares most pieces a second look.
        const double pieces = std::max(2.0, std::ceil(1.05 * std::sqrt(parting / m_tolerance)));
        if (pieces > static_cast<double>(kMostPlacesAdded))
            refuse();
        const auto count = static_cast<std::size_t>(pieces);
        for (std::size_t i = 0; i < count; ++i) {
            const double here = start + (end - start) * (static_cast<double>(i) / pieces);
            const double next = i + 1 == count ? end : start + (end - start) * (static_cast<double>(i + 1) / pieces);
            if (i > 0)
                add(here, places);
            split(here, next, places);
        }
    }

    void add(double fraction, std::vector<Position>& places) {
        if (++m_added > kMostPlacesAdded)
            refuse();
        places.push_back(along(m_from, m_to, fraction));
    }

    [[noreturn]] void refuse() const {
        throw Fault{phrase("core", "The edge would need more than a million places to stay within %1 m.")(
                        units::shortest(m_tolerance)),
                    phrase("core", "edge from longitude %1, latitude %2 to longitude %3, latitude %4")(
                        units::shortest(m_from.lon), units::shortest(m_from.lat), units::shortest(m_to.lon),
                        units::shortest(m_to.lat)),
                    phrase("core", "Give a larger tolerance, or divide the edge.")};
    }

    double m_tolerance;
    Position m_from;
    Position m_to;
    std::size_t m_added = 0;
};

model::Ring densifiedRing(const model::Ring& ring, Densifier& densifier) {
    model::Ring result;
    result.closureAssumed = ring.closureAssumed;
    for (std::size_t i = 0; i < ring.corners.size(); ++i) {
        result.corners.push_back(ring.corners[i]);
        densifier.addBetween(ring.corners[i], ring.corners[(i + 1) % ring.corners.size()], result.corners);
    }
    return result;
}

} // namespace

Length partingFromGeodesic(Position from, Position to) {
    requirePlace(from);
    requirePlace(to);
    return Length::metres(partingMetres(from, to));
}

model::LineString densified(const model::LineString& line, Length tolerance) {
    Densifier densifier{tolerance};
    model::LineString result;
    for (std::size_t i = 0; i < line.size(); ++i) {
        result.push_back(line[i]);
        if (i + 1 < line.size())
            densifier.addBetween(line[i], line[i + 1], result);
    }
    return result;
}

model::Ring densified(const model::Ring& ring, Length tolerance) {
    Densifier densifier{tolerance};
    return densifiedRing(ring, densifier);
}

model::Polygon densified(const model::Polygon& polygon, Length tolerance) {
    Densifier densifier{tolerance};
    model::Polygon result{densifiedRing(polygon.shell, densifier), {}};
    for (const model::Ring& hole : polygon.holes)
        result.holes.push_back(densifiedRing(hole, densifier));
    return result;
}

Unwrapped unwrapped(model::Ring ring) {
    Unwrapped result{std::move(ring), false};
    auto& corners = result.ring.corners;
    for (std::size_t i = 1; i < corners.size(); ++i) {
        const double longitude = longitudeNear(corners[i].lon, corners[i - 1].lon);
        if (longitude != corners[i].lon && std::isfinite(longitude)) {
            corners[i].lon = longitude;
            result.changed = true;
        }
    }
    return result;
}

double longitudeNear(double longitude, double reference) {
    return longitude + 360.0 * std::nearbyint((reference - longitude) / 360.0);
}

double normalisedLongitude(double longitude) {
    const double remainder = std::remainder(longitude, 360.0);
    return remainder == 180.0 ? -180.0 : remainder;
}

} // namespace fencewright::geodesy
