#include "geodesy/edge_places.h"

#include "geodesy/detail/wgs84.h"
#include "geodesy/geodesic.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace fencewright::geodesy {
namespace {

constexpr double kRadians = std::numbers::pi / 180.0;
constexpr double kOnTheEdgeMetres = 1e-6;
constexpr double kFoundMetres = 1e-10;
constexpr int kMostSteps = 30;

/// Metres to a degree of longitude and of latitude.
struct Scale {
    double lon = 0.0;
    double lat = 0.0;

    explicit Scale(double latitude) {
        const double sine = std::sin(latitude * kRadians);
        const double w = 1.0 - kEccentricitySquared * sine * sine;
        lon = kSemiMajorMetres / std::sqrt(w) * std::cos(latitude * kRadians) * kRadians;
        lat = kSemiMajorMetres * (1.0 - kEccentricitySquared) / (w * std::sqrt(w)) * kRadians;
    }
};

model::Position at(const model::Position& a, const model::Position& b, double along) {
    return {a.lon + along * (b.lon - a.lon), a.lat + along * (b.lat - a.lat)};
}

/// Of the whole edge, in metres at the scale of a place of it.
double lengthOf(const model::Position& a, const model::Position& b, const Scale& scale) {
    return std::hypot((b.lon - a.lon) * scale.lon, (b.lat - a.lat) * scale.lat);
}

/// Where on the edge, or how far beyond it, the miss is zero, by Newton's method: `missAt(along)` gives the miss in
/// metres and how it grows.
template <class MissAt> std::optional<double> zeroOf(double along, MissAt missAt) {
    for (int step = 0; step < kMostSteps; ++step) {
        const auto [miss, growth] = missAt(along);
        if (!std::isfinite(miss) || growth == 0.0)
            return std::nullopt;
        const double next = std::clamp(along - miss / growth, -1.0, 2.0);
        if (std::abs(miss) < kFoundMetres || next == along)
            return std::abs(miss) < kOnTheEdgeMetres ? std::optional{along} : std::nullopt;
        along = next;
    }
    // What rounding leaves of a long way.
    return std::abs(missAt(along).first) < kOnTheEdgeMetres ? std::optional{along} : std::nullopt;
}

std::optional<EdgePlace> within(const model::Position& a, const model::Position& b, std::optional<double> along) {
    constexpr double rounding = 1e-12;
    if (!along || *along < -rounding || *along > 1.0 + rounding)
        return std::nullopt;
    *along = std::clamp(*along, 0.0, 1.0);
    return EdgePlace{*along, *along == 0.0 ? a : *along == 1.0 ? b : at(a, b, *along)};
}

/// Where the edge would be nearest, or met, if the ground were flat about the place.
double flatAlong(const model::Position& a, const model::Position& b, const model::Position& from, double east,
                 double north) {
    const Scale scale{from.lat};
    const double ax = std::remainder(a.lon - from.lon, 360.0) * scale.lon, ay = (a.lat - from.lat) * scale.lat;
    const double dx = (b.lon - a.lon) * scale.lon, dy = (b.lat - a.lat) * scale.lat;
    const double across = dx * north - dy * east;
    return across == 0.0 ? 0.5 : std::clamp((ay * east - ax * north) / across, -1.0, 2.0);
}

} // namespace

Angle azimuthAlong(const model::Position& a, const model::Position& b, const model::Position& place) {
    const Scale scale{place.lat};
    const double degrees = std::atan2((b.lon - a.lon) * scale.lon, (b.lat - a.lat) * scale.lat) / kRadians;
    return Angle::degrees(degrees < 0.0 ? degrees + 360.0 : degrees);
}

std::optional<EdgePlace> footOn(const model::Position& a, const model::Position& b, const model::Position& from) {
    if (a == b)
        return std::nullopt;
    const Scale scale{from.lat};
    // At a right angle to the edge, for the first guess.
    const double dx = (b.lon - a.lon) * scale.lon, dy = (b.lat - a.lat) * scale.lat;
    const auto along = zeroOf(flatAlong(a, b, from, -dy, dx), [&](double share) {
        const model::Position foot = at(a, b, share);
        const Segment back = inverse(foot, from);
        const double angle = (back.azimuthAtStart - azimuthAlong(a, b, foot)).inRadians();
        return std::pair{-back.length.inMetres() * std::cos(angle), lengthOf(a, b, Scale{foot.lat})};
    });
    const auto found = within(a, b, along);
    if (!found || inverse(found->place, from).length.inMetres() < kOnTheEdgeMetres)
        return std::nullopt;
    return found;
}

std::optional<EdgePlace> meetingWith(const model::Position& a, const model::Position& b, const model::Position& from,
                                     Angle azimuth) {
    if (a == b)
        return std::nullopt;
    const double east = std::sin(azimuth.inRadians()), north = std::cos(azimuth.inRadians());
    const auto along = zeroOf(flatAlong(a, b, from, east, north), [&](double share) {
        const model::Position place = at(a, b, share);
        const Segment way = inverse(from, place);
        const double off = (way.azimuthAtStart - azimuth).inRadians();
        const double edge = (azimuthAlong(a, b, place) - way.azimuthAtEnd).inRadians();
        // What the edge gains across the geodesic, seen from where that begins.
        const double growth =
            lengthOf(a, b, Scale{place.lat}) * (way.length.inMetres() > 0.0
                                                    ? std::sin(edge) * std::cos(off) + std::cos(edge) * std::sin(off)
                                                    : std::sin((azimuthAlong(a, b, place) - azimuth).inRadians()));
        return std::pair{way.length.inMetres() * std::sin(off), growth};
    });
    return within(a, b, along);
}

std::optional<model::Position> crossingOf(const model::Position& a, const model::Position& b, const model::Position& c,
                                          const model::Position& d) {
    const double turn = 360.0 * std::round((a.lon - c.lon) / 360.0);
    const double px = b.lon - a.lon, py = b.lat - a.lat, qx = d.lon - c.lon, qy = d.lat - c.lat;
    const double sx = c.lon + turn - a.lon, sy = c.lat - a.lat;
    const double across = px * qy - py * qx;
    constexpr double parallel = 1e-5;
    if (std::abs(across) <= parallel * std::hypot(px, py) * std::hypot(qx, qy))
        return std::nullopt;
    const double t = (sx * qy - sy * qx) / across, u = (sx * py - sy * px) / across;
    constexpr double rounding = 1e-12;
    if (!(t >= -rounding && t <= 1.0 + rounding && u >= -rounding && u <= 1.0 + rounding))
        return std::nullopt;
    return at(a, b, std::clamp(t, 0.0, 1.0));
}

} // namespace fencewright::geodesy
