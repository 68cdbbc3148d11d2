#pragma once

#include "geodesy/coordinate_notation.h"

#include <string>

// Private to the module.
namespace fencewright::geodesy {

/// The square of 1 m that the place lies in: "29T NM 20533 17466".
std::string militaryGridText(const UtmPlace& place);

/// The letters of the 100 km square in that column and row, counted from easting and northing zero: "NM". Empty where
/// the zone has no such column.
std::string militaryGridSquareLetters(int zone, double column, double row);

/// A grid reference taken apart.
struct MilitaryGridSquare {
    int zone = 0;
    char band = 'N';
    char column = 'A';
    char row = 'A';
    double easting = 0.0;  ///< of the corner within the 100 km square, metres
    double northing = 0.0; ///< likewise
    double side = 1.0;     ///< of the square, metres
};

/// The centre of the square. @throws Fault  no such square in that zone and band.
model::Position centreOf(const MilitaryGridSquare& square);

/// The latitudes of a band: from `south` to `north`. @throws Fault  no such band.
struct BandLimits {
    double south;
    double north;
};
BandLimits limitsOfBand(char band);

} // namespace fencewright::geodesy
