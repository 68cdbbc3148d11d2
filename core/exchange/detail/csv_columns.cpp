#include "exchange/detail/csv_columns.h"

#include "fault.h"
#include "geodesy/coordinate_notation.h"
#include "units/number_notation.h"

#include <ogr_api.h>

#include <cctype>

namespace fencewright::exchange::detail {

namespace {

using Names = std::vector<std::string_view>;

struct Pair {
    CoordinateColumns::Form form;
    Names x;
    Names y;
};

const std::vector<Pair>& pairs() {
    static const std::vector<Pair> all{
        {CoordinateColumns::Form::LonLat,
         {"lon", "long", "lng", "longitude", "lon_dd", "decimallongitude"},
         {"lat", "latitude", "lat_dd", "decimallatitude"}},
        {CoordinateColumns::Form::Plane,
         {"easting", "east", "e", "x", "xcoord", "x_coord", "coord_x", "rechtswert"},
         {"northing", "north", "n", "y", "ycoord", "y_coord", "coord_y", "hochwert"}},
    };
    return all;
}
const Names kWkt{"wkt", "geom_wkt", "wkt_geom", "geometry", "geom", "the_geom", "shape"};
const Names kHeight{"z", "height", "altitude", "elevation", "alt", "elev"};

std::string plain(std::string_view text) {
    std::string result;
    for (const char c : text)
        if (!std::isspace(static_cast<unsigned char>(c)))
            result += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return result;
}

std::optional<std::size_t> find(const std::vector<std::string>& fields, const Names& names) {
    for (const std::string_view name : names)
        for (std::size_t i = 0; i < fields.size(); ++i)
            if (plain(fields[i]) == name)
                return i;
    return std::nullopt;
}

gdal::GeometryHandle point(double x, double y, std::optional<double> z) {
    gdal::GeometryHandle handle{OGR_G_CreateGeometry(z ? wkbPoint25D : wkbPoint)};
    auto geometry = static_cast<OGRGeometryH>(handle.get());
    if (z)
        OGR_G_SetPoint(geometry, 0, x, y, *z);
    else
        OGR_G_SetPoint_2D(geometry, 0, x, y);
    return handle;
}

} // namespace

Wording knownColumnNames() { return phrase("core", "lon and lat, x and y, easting and northing, or wkt"); }

std::optional<CoordinateColumns> findCoordinateColumns(const std::vector<std::string>& fields) {
    for (const Pair& pair : pairs()) {
        const auto x = find(fields, pair.x);
        const auto y = find(fields, pair.y);
        if (x && y)
            return CoordinateColumns{pair.form, *x, *y, find(fields, kHeight)};
    }
    if (const auto wkt = find(fields, kWkt))
        return CoordinateColumns{CoordinateColumns::Form::Wkt, *wkt, *wkt, std::nullopt};
    return std::nullopt;
}

std::optional<double> parseTableNumber(std::string text) {
    std::erase_if(text, [](char c) { return std::isspace(static_cast<unsigned char>(c)) || c == '\''; });
    const std::size_t comma = text.rfind(',');
    const std::size_t dot = text.rfind('.');
    if (comma != std::string::npos && (dot == std::string::npos || dot < comma)) {
        // 4.512.345,67 or 12,5; two commas and no point can only be groups, and which of them is not for us to guess.
        if (std::count(text.begin(), text.end(), ',') > 1)
            return std::nullopt;
        std::erase(text, '.');
        text[text.find(',')] = '.';
    } else if (comma != std::string::npos) {
        std::erase(text, ',');
    }
    return units::parseNumber(text);
}

RowGeometry geometryOfRow(CoordinateColumns::Form form, const std::string& x, const std::string& y,
                          const std::string& z) {
    if (plain(x).empty() && plain(y).empty())
        return {};
    if (form == CoordinateColumns::Form::Wkt) {
        OGRGeometryH geometry = nullptr;
        std::string text = x;
        char* at = text.data();
        const bool read = OGR_G_CreateFromWkt(&at, nullptr, &geometry) == OGRERR_NONE && geometry;
        gdal::GeometryHandle handle{geometry};
        const std::size_t rest = std::string_view{at}.find_first_not_of(" \t\r\n;");
        if (!read || rest != std::string_view::npos)
            return {nullptr, phrase("core", "\"%1\" is not well-known text")(x.substr(0, 40))};
        return {std::move(handle), ""};
    }
    const auto east = parseTableNumber(x);
    const auto north = parseTableNumber(y);
    if (east && north)
        return {point(*east, *north, parseTableNumber(z)), ""};
    if (form == CoordinateColumns::Form::LonLat)
        if (const auto place = geodesy::tryParsePosition(y + " " + x))
            return {point(place->lon, place->lat, std::nullopt), ""};
    return {nullptr, phrase("core", "\"%1\" and \"%2\" are not coordinates")(x.substr(0, 40), y.substr(0, 40))};
}

} // namespace fencewright::exchange::detail
