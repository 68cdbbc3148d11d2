#include "geodesy/map_plane.h"

#include "fault.h"
#include "geodesy/crs_transform.h"
#include "geodesy/geodesic.h"
#include "units/number_notation.h"

#include <cmath>
#include <numbers>

namespace fencewright::geodesy {

namespace {

constexpr double kRadians = std::numbers::pi / 180.0;
constexpr double kMostScaleError = 0.01;
constexpr double kMostConvergenceDegrees = 5.0;

[[noreturn]] void refuseFarPlace(const Wording& place, const std::string& crs) {
    throw Fault{phrase("core", "The place is too far away to be shown in the map's plane (%1).")(crs), place,
                phrase("core", "Move the map nearer to it first.")};
}

} // namespace

struct MapPlane::Parts {
    explicit Parts(const Definition& theDefinition) : definition{theDefinition} {
        sine = std::sin(definition.upAzimuthDegrees * kRadians);
        cosine = std::cos(definition.upAzimuthDegrees * kRadians);
        if (definition.upAzimuthDegrees == 0.0)
            sine = 0.0;
        if (definition.crs.empty()) {
            frame.emplace(definition.origin);
            return;
        }
        transform.emplace(definition.crs);
        const auto at = transform->fromWgs84(std::span{&definition.origin, 1}).front();
        if (!at)
            throw Fault{phrase("core", "The coordinate system cannot be used there."), definition.crs,
                        phrase("core", "Draw the map in another coordinate system.")};
        originInCrs = *at;
    }

    /// Turns what points to the azimuth so that it points up.
    PlanePoint turned(PlanePoint p) const { return {p.x * cosine - p.y * sine, p.x * sine + p.y * cosine}; }
    PlanePoint turnedBack(PlanePoint p) const { return {p.x * cosine + p.y * sine, -p.x * sine + p.y * cosine}; }

    Definition definition;
    double sine = 0.0, cosine = 1.0;
    std::optional<LocalFrame> frame;
    std::optional<CrsTransform> transform;
    PlanePoint originInCrs;
};

MapPlane::MapPlane(const Definition& definition) : m_parts{std::make_shared<const Parts>(definition)} {}

const MapPlane::Definition& MapPlane::definition() const { return m_parts->definition; }

std::optional<PlanePoint> MapPlane::originInCrs() const {
    return m_parts->transform ? std::optional{m_parts->originInCrs} : std::nullopt;
}

PlanePoint MapPlane::toPlane(model::Position position) const { return toPlane(std::span{&position, 1}).front(); }

model::Position MapPlane::toEarth(PlanePoint point) const { return toEarth(std::span{&point, 1}).front(); }

std::vector<PlanePoint> MapPlane::toPlane(std::span<const model::Position> positions) const {
    const Parts& parts = *m_parts;
    std::vector<PlanePoint> points;
    if (parts.frame) {
        points = parts.frame->toPlane(positions);
    } else {
        const auto places = parts.transform->fromWgs84(positions);
        points.reserve(places.size());
        for (std::size_t i = 0; i < places.size(); ++i) {
            if (!places[i])
                refuseFarPlace(phrase("core", "longitude %1, latitude %2")(units::shortest(positions[i].lon),
                                                                           units::shortest(positions[i].lat)),
                               parts.transform->name());
            points.push_back({places[i]->x - parts.originInCrs.x, places[i]->y - parts.originInCrs.y});
        }
    }
    if (parts.sine != 0.0)
        for (PlanePoint& point : points)
            point = parts.turned(point);
    return points;
}

std::vector<model::Position> MapPlane::toEarth(std::span<const PlanePoint> points) const {
    const Parts& parts = *m_parts;
    std::vector<PlanePoint> unturned{points.begin(), points.end()};
    if (parts.sine != 0.0)
        for (PlanePoint& point : unturned)
            point = parts.turnedBack(point);
    if (parts.frame)
        return parts.frame->toEarth(unturned);
    for (PlanePoint& point : unturned)
        point = {point.x + parts.originInCrs.x, point.y + parts.originInCrs.y};
    const auto places = parts.transform->toWgs84(unturned);
    std::vector<model::Position> positions;
    positions.reserve(places.size());
    for (std::size_t i = 0; i < places.size(); ++i) {
        if (!places[i])
            refuseFarPlace(units::shortest(unturned[i].x) + ", " + units::shortest(unturned[i].y),
                           parts.transform->name());
        model::Position place = *places[i];
        place.lon = parts.definition.origin.lon + std::remainder(place.lon - parts.definition.origin.lon, 360.0);
        positions.push_back(place);
    }
    return positions;
}

bool MapPlane::serves(const std::string& crs, model::Position place) {
    try {
        const CrsTransform transform{crs};
        if (transform.isGeographic() || transform.metresPerUnit() != 1.0)
            return false;
        const auto at = transform.fromWgs84(std::span{&place, 1}).front();
        if (!at)
            return false;
        // A hundred metres each way: what they measure on the ground, and where the first of them points.
        constexpr double step = 100.0;
        const std::vector<PlanePoint> around{*at,
                                             {at->x, at->y + step},
                                             {at->x + step, at->y},
                                             {at->x + step, at->y + step},
                                             {at->x - step, at->y + step}};
        const auto places = transform.toWgs84(around);
        for (const auto& one : places)
            if (!one)
                return false;
        for (std::size_t i = 1; i < places.size(); ++i) {
            const Segment line = inverse(*places[0], *places[i]);
            const double plane = std::hypot(around[i].x - around[0].x, around[i].y - around[0].y);
            if (!(std::abs(plane / line.length.inMetres() - 1.0) <= kMostScaleError))
                return false;
            if (i == 1 &&
                !(std::abs(std::remainder(line.azimuthAtStart.inDegrees(), 360.0)) <= kMostConvergenceDegrees))
                return false;
        }
        return true;
    } catch (const Fault&) {
        return false;
    }
}

} // namespace fencewright::geodesy
