#pragma once

#include "geodesy/coordinate_notation.h"
#include "geodesy/local_frame.h"
#include "model/position.h"

#include <span>
#include <string>
#include <vector>

namespace fencewright::geodesy {

/// A part of the earth with one zone and one band: 29T. All its grid lines are those of its zone.
struct GridCell {
    int zone = 0;
    char band = 'N';
    double west = 0.0, south = 0.0, east = 0.0, north = 0.0; ///< degrees; west in [-180, 180), east over west

    bool operator==(const GridCell&) const = default;
    [[nodiscard]] std::string name() const; ///< "29T"
    [[nodiscard]] bool isNorth() const { return south >= 0.0; }
};

/// All cells that meet the box, the exceptions of Norway and Svalbard among them; nothing over 84 N and under 80 S.
/// @param west,east  any turn; the cells come back on the turn on which they meet the box.
/// Source: NGA.STND.0037, Universal Grids and Grid Reference Systems (2014), from memory; tested against an independent
/// library.
[[nodiscard]] std::vector<GridCell> gridCellsMeeting(double west, double south, double east, double north);

/// The grid of one zone, for many places at once. Northings run on over the equator: those of the north, which are
/// under zero in the south; `shown` has them as they are written.
/// Not for two threads at once.
class UtmGrid {
public:
    explicit UtmGrid(int zone);

    /// x is the easting, y the northing. Error: under 1e-6 m within the zone.
    [[nodiscard]] std::vector<PlanePoint> toGrid(std::span<const model::Position> places) const;
    /// Longitudes are continuous with the zone's central meridian.
    [[nodiscard]] std::vector<model::Position> toEarth(std::span<const PlanePoint> points) const;

    [[nodiscard]] static double shownNorthing(double northing, bool north) {
        return north ? northing : northing + 10'000'000.0;
    }
    /// The letters of the 100 km square that holds the place of a cell's zone: "NM". Empty outside the lettering.
    [[nodiscard]] std::string squareOf(PlanePoint point) const;

private:
    int m_zone;
    LocalFrame m_frame;
};

} // namespace fencewright::geodesy
