// Zones, bands and grid lines against GeographicLib's UTMUPS and MGRS, an independent library.

#include "geodesy/utm_grid.h"

#include <GeographicLib/MGRS.hpp>
#include <GeographicLib/UTMUPS.hpp>

#include <QtTest>

#include <algorithm>
#include <random>

using namespace fencewright;
using geodesy::GridCell;
using geodesy::PlanePoint;
using model::Position;

class UtmGridTest : public QObject {
    Q_OBJECT

    static QByteArray at(Position place, int round) {
        return QString{"seed 7 round %1: %2 %3"}
            .arg(round)
            .arg(place.lat, 0, 'g', 17)
            .arg(place.lon, 0, 'g', 17)
            .toUtf8();
    }

private slots:
    void everyPlace_liesInOneCell_thatOfTheIndependentLibrary() {
        std::mt19937_64 random{7};
        std::uniform_real_distribution<double> unit{-1.0, 1.0};
        for (int round = 0; round < 4000; ++round) {
            Position place{179.999 * unit(random), 2.0 + 81.9 * unit(random)};
            if (round % 3 == 1) // Norway and Svalbard
                place = {21.0 + 25.0 * unit(random), 70.0 + 13.9 * unit(random)};
            if (round % 5 == 0)
                place.lon = std::round(place.lon / 3.0) * 3.0 + 1e-9 * unit(random);
            const auto cells = geodesy::gridCellsMeeting(place.lon, place.lat, place.lon, place.lat);
            std::vector<GridCell> holding;
            for (const GridCell& cell : cells)
                if (place.lon >= cell.west && place.lon < cell.east && place.lat >= cell.south &&
                    place.lat < cell.north)
                    holding.push_back(cell);
            QVERIFY2(holding.size() == 1, at(place, round));
            QVERIFY2(holding[0].zone == GeographicLib::UTMUPS::StandardZone(place.lat, place.lon), at(place, round));

            const geodesy::UtmGrid grid{holding[0].zone};
            const PlanePoint point = grid.toGrid(std::span{&place, 1}).front();
            int zone;
            bool north;
            double easting, northing;
            GeographicLib::UTMUPS::Forward(place.lat, place.lon, zone, north, easting, northing);
            QVERIFY2(north == (place.lat >= 0.0), at(place, round));
            QVERIFY2(std::abs(point.x - easting) < 1e-6, at(place, round));
            QVERIFY2(std::abs(geodesy::UtmGrid::shownNorthing(point.y, north) - northing) < 1e-6, at(place, round));
            const Position back = grid.toEarth(std::span{&point, 1}).front();
            QVERIFY2(std::abs(back.lat - place.lat) < 1e-11, at(place, round));
            QVERIFY2(std::abs(std::remainder(back.lon - place.lon, 360.0)) < 1e-9, at(place, round));

            std::string reference;
            GeographicLib::MGRS::Forward(zone, north, easting, northing, place.lat, 0, reference);
            QVERIFY2(holding[0].name() + grid.squareOf(point) == (reference.size() == 4 ? "0" : "") + reference,
                     at(place, round));
        }
    }

    void cells_comeBackOnTheTurnOfTheBox() {
        const auto cells = geodesy::gridCellsMeeting(179.0, -18.0, 181.0, -17.0);
        QCOMPARE(cells.size(), std::size_t{2}); // zones 60 and 1; band K is 24 to 16 south
        QVERIFY(std::any_of(cells.begin(), cells.end(), [](const GridCell& cell) {
            return cell.name() == "60K" && cell.west == 174.0 && cell.east == 180.0;
        }));
        QVERIFY(std::any_of(cells.begin(), cells.end(), [](const GridCell& cell) {
            return cell.name() == "01K" && cell.west == 180.0 && cell.east == 186.0;
        }));
    }

    void beyondUtm_thereIsNoCell() {
        QVERIFY(geodesy::gridCellsMeeting(0.0, 84.5, 10.0, 89.0).empty());
        QVERIFY(geodesy::gridCellsMeeting(0.0, -89.0, 10.0, -80.5).empty());
    }
};

QTEST_GUILESS_MAIN(UtmGridTest)
#include "utm_grid_test.moc"
