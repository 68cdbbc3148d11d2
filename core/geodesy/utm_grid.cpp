#include "geodesy/utm_grid.h"

#include "geodesy/detail/military_grid.h"

#include <algorithm>
#include <cmath>

namespace fencewright::geodesy {

namespace {

constexpr double kScale = 0.9996;
constexpr double kFalseEasting = 500'000.0;
constexpr double kSquare = 100'000.0;
constexpr std::string_view kBands = "CDEFGHJKLMNPQRSTUVWX";

double centralMeridian(int zone) { return 6.0 * zone - 183.0; }

/// West and east of a zone within a band; equal where the band has no such zone.
struct ZoneLimits {
    double west, east;
};
ZoneLimits limitsOf(int zone, char band) {
    const double middle = centralMeridian(zone);
    if (band == 'V' && zone == 31)
        return {0.0, 3.0};
    if (band == 'V' && zone == 32)
        return {3.0, 12.0};
    if (band == 'X') {
        switch (zone) {
        case 31:
            return {0.0, 9.0};
        case 33:
            return {9.0, 21.0};
        case 35:
            return {21.0, 33.0};
        case 37:
            return {33.0, 42.0};
        case 32:
        case 34:
        case 36:
            return {middle, middle};
        default:
            break;
        }
    }
    return {middle - 3.0, middle + 3.0};
}

} // namespace

std::string GridCell::name() const { return (zone < 10 ? "0" : "") + std::to_string(zone) + band; }

std::vector<GridCell> gridCellsMeeting(double west, double south, double east, double north) {
    std::vector<GridCell> cells;
    for (const char band : kBands) {
        const BandLimits limits = limitsOfBand(band);
        if (limits.north < south || limits.south > north)
            continue;
        for (int zone = 1; zone <= 60; ++zone) {
            const ZoneLimits zoneLimits = limitsOf(zone, band);
            if (!(zoneLimits.west < zoneLimits.east))
                continue;
            // On every turn on which it meets the box.
            for (double turn = std::ceil((west - zoneLimits.east) / 360.0) * 360.0; zoneLimits.west + turn <= east;
                 turn += 360.0)
                cells.push_back(
                    {zone, band, zoneLimits.west + turn, limits.south, zoneLimits.east + turn, limits.north});
        }
    }
    return cells;
}

UtmGrid::UtmGrid(int zone) : m_zone{zone}, m_frame{{centralMeridian(zone), 0.0}} {}

std::vector<PlanePoint> UtmGrid::toGrid(std::span<const model::Position> places) const {
    std::vector<PlanePoint> points = m_frame.toPlane(places);
    for (PlanePoint& point : points)
        point = {kFalseEasting + kScale * point.x, kScale * point.y};
    return points;
}

std::vector<model::Position> UtmGrid::toEarth(std::span<const PlanePoint> points) const {
    std::vector<PlanePoint> plane;
    plane.reserve(points.size());
    for (const PlanePoint& point : points)
        plane.push_back({(point.x - kFalseEasting) / kScale, point.y / kScale});
    return m_frame.toEarth(plane);
}

std::string UtmGrid::squareOf(PlanePoint point) const {
    return militaryGridSquareLetters(m_zone, std::floor(point.x / kSquare), std::floor(point.y / kSquare));
}

} // namespace fencewright::geodesy
