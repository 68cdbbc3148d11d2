#include "geodesy/detail/military_grid.h"

#include "fault.h"

#include <algorithm>
#include <cmath>

// Squares of 100 km, letters of the WGS 84 lettering scheme. Source: NGA.STND.0037, Universal Grids and Grid Reference
// Systems (2014), from memory; the test compares with an independent library.

namespace fencewright::geodesy {

namespace {

constexpr double kSquare = 100'000.0;
constexpr std::string_view kBands = "CDEFGHJKLMNPQRSTUVWX";
constexpr std::string_view kColumns = "ABCDEFGHJKLMNPQRSTUVWXYZ"; // eight to a zone, again after three zones
constexpr std::string_view kRows = "ABCDEFGHJKLMNPQRSTUV";        // again after 2,000 km; even zones start at F

int firstColumn(int zone) { return (zone - 1) % 3 * 8; }
int firstRow(int zone) { return zone % 2 == 0 ? 5 : 0; }

std::string fiveDigits(double metres) {
    const std::string digits = std::to_string(static_cast<int>(metres));
    return std::string(5 - digits.size(), '0') + digits;
}

[[noreturn]] void refuse(const MilitaryGridSquare& square) {
    throw Fault{phrase("core", "There is no such 100 km square in this zone and band."),
                std::to_string(square.zone) + square.band + " " + square.column + square.row,
                phrase("core", "Check the letters of the MGRS place, such as 29T NM 20533 17466.")};
}

} // namespace

BandLimits limitsOfBand(char band) {
    const auto index = kBands.find(band);
    if (index == std::string_view::npos)
        throw Fault{phrase("core", "There is no latitude band %1.")(band), "",
                    phrase("core", "Bands are C to X, without I and O.")};
    const double south = -80.0 + 8.0 * static_cast<double>(index);
    return {south, band == 'X' ? 84.0 : south + 8.0};
}

std::string militaryGridSquareLetters(int zone, double column, double row) {
    if (!(column >= 1.0 && column <= 8.0))
        return {};
    // The false northing of the south, 10,000 km, is five whole turns of the row letters.
    const int turn = static_cast<int>(std::fmod(row, 20.0)) + 20 + firstRow(zone);
    return {kColumns[static_cast<std::size_t>(firstColumn(zone) + static_cast<int>(column) - 1)],
            kRows[static_cast<std::size_t>(turn % 20)]};
}

std::string militaryGridText(const UtmPlace& place) {
    const double columnNumber = std::floor(place.easting / kSquare);
    const double rowNumber = std::floor(place.northing / kSquare);
    std::string text = place.zone < 10 ? "0" : "";
    text +=
        std::to_string(place.zone) + place.band + " " + militaryGridSquareLetters(place.zone, columnNumber, rowNumber);
    return text + " " + fiveDigits(place.easting - columnNumber * kSquare) + " " +
           fiveDigits(place.northing - rowNumber * kSquare);
}

model::Position centreOf(const MilitaryGridSquare& square) {
    const BandLimits band = limitsOfBand(square.band);
    const auto columnLetter = kColumns.find(square.column);
    const auto rowLetter = kRows.find(square.row);
    if (square.zone < 1 || square.zone > 60 || columnLetter == std::string_view::npos ||
        rowLetter == std::string_view::npos)
        refuse(square);
    const int column = static_cast<int>(columnLetter) - firstColumn(square.zone) + 1;
    if (column < 1 || column > 8)
        refuse(square);
    const int row = (static_cast<int>(rowLetter) - firstRow(square.zone) + 20) % 20;

    // The row letter tells the northing but for multiples of 2,000 km, 18 degrees: the band tells which.
    UtmPlace corner{square.zone, band.south >= 0.0, square.band, column * kSquare, 0.0};
    const double middle = (band.south + band.north) / 2.0;
    UtmPlace nearest = corner;
    double leastApart = 360.0;
    for (int turn = 0; turn < 5; ++turn) {
        UtmPlace candidate = corner;
        candidate.northing = (row + 20 * turn) * kSquare;
        if (candidate.northing >= 10'000'000.0)
            break;
        candidate.easting += kSquare / 2.0;
        candidate.northing += kSquare / 2.0;
        // Degrees of latitude have 110.6 to 111.7 km: half a degree off at most, where candidates lie 18 apart.
        const double north = candidate.northing - (candidate.north ? 0.0 : 10'000'000.0);
        const double apart = std::abs(north / 111'150.0 - middle);
        if (apart < leastApart) {
            leastApart = apart;
            nearest = candidate;
        }
    }
    // The square must have a part in the band. Its parallels bend, so its corners and the middles of its sides speak.
    double south = 90.0;
    double north = -90.0;
    for (const double east : {-0.5, 0.0, 0.5})
        for (const double up : {-0.5, 0.5}) {
            UtmPlace rim = nearest;
            rim.easting += east * kSquare;
            rim.northing += up * kSquare;
            const double latitude = fromUtm(rim).lat;
            south = std::min(south, latitude);
            north = std::max(north, latitude);
        }
    if (north < band.south || south > band.north)
        refuse(square);

    nearest.easting += square.easting - kSquare / 2.0 + square.side / 2.0;
    nearest.northing += square.northing - kSquare / 2.0 + square.side / 2.0;
    return fromUtm(nearest);
}

} // namespace fencewright::geodesy
