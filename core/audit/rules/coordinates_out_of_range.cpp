#include "audit/detail/drawn.h"
#include "audit/rule.h"
#include "units/number_notation.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <variant>

namespace fencewright::audit {
namespace {

constexpr double kMostLatitude = 89.0; // beyond it a fence might go round the pole, and no outline is computed
constexpr double kMostLongitude =
    540.0; // a shape across the antimeridian runs on beyond 180, but by no more than a turn

bool bad(model::Position place) {
    return !std::isfinite(place.lon) || !std::isfinite(place.lat) || std::abs(place.lon) > kMostLongitude ||
           std::abs(place.lat) > kMostLatitude;
}

/// What has the place, as the sentence begins, and what is wrong with it.
Wording problemOf(const Wording& thing, model::Position place) {
    if (!std::isfinite(place.lon) || !std::isfinite(place.lat))
        return phrase("core", "%1 has a coordinate that is not a number.")(thing);
    if (std::abs(place.lat) > 90.0)
        return phrase("core", "%1 has a latitude of %2 degrees; latitudes go to 90.")(thing,
                                                                                      units::shortest(place.lat));
    if (std::abs(place.lat) > kMostLatitude)
        return phrase("core", "%1 has a latitude of %2 degrees; beyond 89 no outline can be computed.")(
            thing, units::shortest(place.lat));
    return phrase("core",
                  "%1 has a longitude of %2 degrees; longitudes go to 180, and across the antimeridian to 540.")(
        thing, units::shortest(place.lon));
}

/// Where the map can go.
std::optional<model::Position> shown(model::Position place) {
    if (!std::isfinite(place.lon) || !std::isfinite(place.lat))
        return std::nullopt;
    return model::Position{std::clamp(place.lon, -kMostLongitude, kMostLongitude), std::clamp(place.lat, -90.0, 90.0)};
}

struct FirstBad {
    std::optional<model::Position> operator()(model::Position place) const {
        return bad(place) ? std::optional{place} : std::nullopt;
    }
    std::optional<model::Position> operator()(const model::LineString& line) const {
        const auto found = std::find_if(line.begin(), line.end(), bad);
        return found == line.end() ? std::nullopt : std::optional{*found};
    }
    std::optional<model::Position> operator()(const model::Polygon& polygon) const {
        if (const auto place = (*this)(polygon.shell.corners))
            return place;
        for (const auto& hole : polygon.holes)
            if (const auto place = (*this)(hole.corners))
                return place;
        return std::nullopt;
    }
};

/// The first bad coordinate of each ring, line or centre of a fence.
class Places {
public:
    Places(const model::Fence& fence, const Report& report) : m_fence{fence}, m_report{report} {}
    void examine() { std::visit(*this, m_fence.shape); }
    void operator()(const model::DrawnPolygon& shape) const { tell(FirstBad{}(shape.polygon)); }
    void operator()(const model::Circle& shape) const { tell(FirstBad{}(shape.centre)); }
    void operator()(const model::Corridor& shape) const { tell(FirstBad{}(shape.line)); }
    void operator()(const model::Setback&) const {} // its site is examined for itself
    void operator()(const model::ParcelUnion& shape) const {
        for (const auto& parcel : shape.parcels)
            for (const auto& part : parcel.surface.parts)
                tell(FirstBad{}(part));
    }

private:
    void tell(std::optional<model::Position> place) const {
        if (!place)
            return;
        Finding finding;
        finding.fence = m_fence.id;
        finding.place = shown(*place);
        finding.words = problemOf(detail::beginWith(m_fence), *place);
        m_report(std::move(finding));
    }
    const model::Fence& m_fence;
    const Report& m_report;
};

} // namespace

constinit extern const Rule coordinatesOutOfRange{
    .id = "coordinates.out-of-range",
    .title = phrase("core", "Coordinates out of range"),
    .why = phrase("core", "A coordinate that is no place on the earth, or too near a pole to compute with, makes every "
                          "figure about the fence wrong."),
    .remedy = phrase("core", "Correct the coordinate: longitude first, then latitude, in degrees."),
    .severity = Severity::Error,
    .check = [](const Subject& subject, const Report& report) {
        for (const auto& fence : subject.set.fences)
            if (fence.enabled)
                Places{fence, report}.examine();
        for (const auto& site : subject.set.sites)
            if (const auto place = std::visit(FirstBad{}, site.geometry)) {
                Finding finding;
                finding.place = shown(*place);
                finding.words = problemOf(phrase("core", "Site \"%1\"")(site.name), *place);
                report(std::move(finding));
            }
        for (const auto& home : subject.set.homes)
            if (bad(home.place)) {
                Finding finding;
                finding.home = home.id;
                finding.place = shown(home.place);
                finding.words = problemOf(phrase("core", "Home \"%1\"")(home.name), home.place);
                report(std::move(finding));
            }
    }};

} // namespace fencewright::audit
