#include "desktop/tools/leg.h"

#include "fault.h"
#include "geodesy/bearing_notation.h"
#include "geodesy/geodesic.h"
#include "units/number_notation.h"

#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr double kWholeBearingDegrees = 15.0;

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos)
        return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// A last word that is a bare number, with or without a degree sign.
std::optional<double> bearingWord(std::string_view word) {
    constexpr std::string_view degree = "°";
    if (word.ends_with(degree))
        word.remove_suffix(degree.size());
    return units::parseNumber(word);
}

} // namespace

Leg parseLeg(std::string_view text, units::System unitless) {
    text = trimmed(text);
    // A quadrant bearing comes first, as deeds write it.
    if (!text.empty() && std::string_view{"NSns"}.find(text.front()) != std::string_view::npos)
        if (const auto bearing = geodesy::leadingBearing(text))
            return {units::parseLength(trimmed(text.substr(bearing->length)), unitless), bearing->azimuth};
    const auto gap = text.find_last_of(" \t");
    if (gap == std::string_view::npos)
        return {units::parseLength(text, unitless), std::nullopt};
    const std::optional<double> bearing = bearingWord(text.substr(gap + 1));
    if (!bearing)
        return {units::parseLength(text, unitless), std::nullopt};
    if (*bearing < 0.0 || *bearing > 360.0)
        throw Fault{"The bearing " + units::shortest(*bearing) + "° is not between 0 and 360.", "",
                    "Type a distance and a bearing clockwise from north, such as \"120 m 45\"."};
    return {units::parseLength(trimmed(text.substr(0, gap)), unitless), Angle::degrees(*bearing)};
}

model::Position endOf(const Leg& leg, const model::Position& from, const model::Position& towards) {
    const Angle bearing = leg.bearing ? *leg.bearing : geodesy::inverse(from, towards).azimuthAtStart;
    return geodesy::direct(from, bearing, leg.length.length);
}

model::Position onWholeBearing(const model::Position& from, const model::Position& to) {
    const geodesy::Segment line = geodesy::inverse(from, to);
    const double whole = std::round(line.azimuthAtStart.inDegrees() / kWholeBearingDegrees) * kWholeBearingDegrees;
    const double off = (line.azimuthAtStart.inDegrees() - whole) * M_PI / 180.0;
    return geodesy::direct(from, Angle::degrees(whole), line.length * std::cos(off));
}

QString lengthAndBearing(const model::Position& from, const model::Position& to, units::System units) {
    const geodesy::Segment line = geodesy::inverse(from, to);
    return QString::fromStdString(units::formatLength(line.length, units) + " · " +
                                  units::fixed(std::fmod(line.azimuthAtStart.inDegrees() + 0.05, 360.0) - 0.05, 1) +
                                  "°");
}

} // namespace fencewright::desktop
