#include "geodesy/coordinate_notation.h"

#include "fault.h"
#include "geodesy/detail/military_grid.h"
#include "geodesy/detail/place_check.h"
#include "geodesy/detail/place_parser.h"
#include "geodesy/edge_meaning.h"
#include "geodesy/local_frame.h"
#include "units/number_notation.h"

#include <array>
#include <charconv>
#include <cmath>

namespace fencewright::geodesy {

namespace {

constexpr double kScale = 0.9996;
constexpr double kFalseEasting = 500'000.0;
constexpr double kFalseNorthing = 10'000'000.0;

bool withinUtm(double latitude) { return latitude >= -80.0 && latitude <= 84.0; }

/// Eight degrees to a letter from 80 S on, I and O left out; the last, X, has twelve.
char bandOf(double latitude) {
    constexpr std::string_view letters = "CDEFGHJKLMNPQRSTUVWX";
    const auto row = static_cast<std::size_t>(std::floor((latitude + 80.0) / 8.0));
    return letters[std::min(row, letters.size() - 1)];
}

/// The zone's sixth of a turn, save for southern Norway (32V reaches west to 3 E) and Svalbard (31X, 33X, 35X and 37X
/// share it). Source: NGA.STND.0037, Universal Grids and Grid Reference Systems (2014), from memory.
int zoneOf(double longitude, char band) {
    const int zone = static_cast<int>(std::floor((longitude + 180.0) / 6.0)) + 1;
    if (band == 'V' && longitude >= 3.0 && longitude < 12.0)
        return 32;
    if (band == 'X' && longitude >= 0.0 && longitude < 42.0)
        return longitude < 9.0 ? 31 : longitude < 21.0 ? 33 : longitude < 33.0 ? 35 : 37;
    return zone;
}

double centralMeridian(int zone) { return 6.0 * zone - 183.0; }

double lonForReading(double longitude) {
    return std::abs(longitude) > 180.0 ? normalisedLongitude(longitude) : longitude;
}

std::string decimalDegrees(double value, char positive, char negative) {
    const double rounded = std::round(value * 1e6) / 1e6;
    return units::fixed(std::abs(rounded), 6) + "° " + (rounded < 0.0 ? negative : positive);
}

std::string twoDigits(long long value) { return (value < 10 ? "0" : "") + std::to_string(value); }

/// The seconds with so many decimals.
std::string sexagesimal(double value, int decimals, char positive, char negative) {
    const auto parts = static_cast<long long>(std::pow(10.0, decimals)); // of a second
    const long long all = std::llround(std::abs(value) * 3600.0 * static_cast<double>(parts));
    const long long second = all / parts;
    const std::string fraction = std::to_string(parts + all % parts).substr(1); // with its zeros in front
    return std::to_string(second / 3600) + "°" + twoDigits(second / 60 % 60) + "′" + twoDigits(second % 60) + "." +
           fraction + "″ " + (value < 0.0 && all > 0 ? negative : positive);
}

std::string allDecimals(double value, char positive, char negative) {
    std::array<char, 400> text; // the smallest double has 324 digits after the point
    const auto end = std::to_chars(text.data(), text.data() + text.size(), std::abs(value), std::chars_format::fixed);
    return std::string{text.data(), end.ptr} + "° " + (value < 0.0 ? negative : positive);
}

std::string inSeconds(const model::Position& position, int decimals) {
    return sexagesimal(position.lat, decimals, 'N', 'S') + " " +
           sexagesimal(lonForReading(position.lon), decimals, 'E', 'W');
}

std::string utmText(const UtmPlace& place, int decimals) {
    return twoDigits(place.zone) + place.band + " " + units::fixed(place.easting, decimals) + " " +
           units::fixed(place.northing, decimals);
}

} // namespace

UtmPlace toUtm(model::Position position) {
    requirePlace(position);
    if (!withinUtm(position.lat))
        throw Fault{phrase("core", "UTM ends at 84 degrees north and 80 degrees south."),
                    phrase("core", "latitude %1")(units::shortest(position.lat)),
                    phrase("core", "Use degrees for this place.")};
    const double longitude = normalisedLongitude(position.lon);
    UtmPlace place;
    place.band = bandOf(position.lat);
    place.zone = zoneOf(longitude, place.band);
    place.north = position.lat >= 0.0;
    const PlanePoint point =
        LocalFrame{{centralMeridian(place.zone), 0.0}}.toPlane(model::Position{longitude, position.lat});
    place.easting = kFalseEasting + kScale * point.x;
    place.northing = (place.north ? 0.0 : kFalseNorthing) + kScale * point.y;
    return place;
}

model::Position fromUtm(const UtmPlace& place) {
    if (place.zone < 1 || place.zone > 60)
        throw Fault{phrase("core", "UTM has zones 1 to 60."), phrase("core", "zone %1")(place.zone),
                    phrase("core", "Correct the zone.")};
    const double northing = place.northing - (place.north ? 0.0 : kFalseNorthing);
    model::Position position = LocalFrame{{centralMeridian(place.zone), 0.0}}.toEarth(
        {(place.easting - kFalseEasting) / kScale, northing / kScale});
    position.lon = lonForReading(position.lon);
    return position;
}

std::string format(model::Position position, Notation notation) {
    requirePlace(position);
    const bool grid = notation == Notation::Utm || notation == Notation::Mgrs;
    if (grid && withinUtm(position.lat)) {
        const UtmPlace place = toUtm(position);
        if (notation == Notation::Mgrs)
            return militaryGridText(place);
        return utmText(place, 0);
    }
    if (notation == Notation::DecimalDegrees)
        return decimalDegrees(position.lat, 'N', 'S') + " " + decimalDegrees(lonForReading(position.lon), 'E', 'W');
    return inSeconds(position, 2);
}

std::string formatFinely(model::Position position, Notation notation) {
    requirePlace(position);
    if (notation == Notation::DecimalDegrees)
        return allDecimals(position.lat, 'N', 'S') + " " + allDecimals(lonForReading(position.lon), 'E', 'W');
    if (notation != Notation::DegreesMinutesSeconds && withinUtm(position.lat))
        return utmText(toUtm(position), 6);
    return inSeconds(position, 8);
}

model::Position parsePosition(std::string_view text) { return PlaceParser{text}.place(); }

std::optional<model::Position> tryParsePosition(std::string_view text) {
    try {
        return parsePosition(text);
    } catch (const Fault&) {
        return std::nullopt;
    }
}

} // namespace fencewright::geodesy
