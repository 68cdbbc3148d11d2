#include "desktop/canvas/map_grid.h"

#include "desktop/canvas/near_plane.h"

#include <GeographicLib/UTMUPS.hpp>

#include <QtTest>

#include <cmath>
#include <set>

using namespace fencewright;
using namespace fencewright::desktop;
using session::MapGrid;

/// Lines of the screen against GeographicLib's UTMUPS, an independent library.
class MapGridTest : public QObject {
    Q_OBJECT

    static ViewTransform viewAt(double lon, double lat, double metresPerPixel, double up) {
        ViewTransform view;
        view.setSize({1000, 700});
        view.setMetresPerPixel(metresPerPixel);
        view.setOrigin({lon, lat});
        view.setUpAzimuth(up);
        return view;
    }

private slots:
    void utmLines_lieWhereTheirNumbersSay_data() {
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        QTest::addColumn<double>("metresPerPixel");
        QTest::addColumn<double>("up");
        for (const double up : {0.0, 37.0, 90.0, 180.0}) {
            QTest::addRow("fields, up %g", up) << -8.7 << 46.2 << 1.0 << up;
            QTest::addRow("border of zones, up %g", up) << -6.0 << 42.0 << 8.0 << up;
            QTest::addRow("Norway, up %g", up) << 3.0 << 60.0 << 50.0 << up;
            QTest::addRow("Svalbard, up %g", up) << 9.0 << 78.0 << 50.0 << up;
            QTest::addRow("antimeridian and south, up %g", up) << 180.0 << -17.0 << 10.0 << up;
            QTest::addRow("equator, up %g", up) << 30.0 << 0.0 << 20.0 << up;
        }
    }
    void utmLines_lieWhereTheirNumbersSay() {
        QFETCH(double, lon);
        QFETCH(double, lat);
        QFETCH(double, metresPerPixel);
        QFETCH(double, up);
        const ViewTransform view = viewAt(lon, lat, metresPerPixel, up);
        const GridLines grid = gridLines(view, MapGrid::Utm, geodesy::Notation::Utm);
        int checked = 0;
        for (const GridLine& line : grid.lines) {
            if (line.kind == GridLine::Kind::Zone)
                continue;
            for (qsizetype i = 0; i + 1 < line.shape.size(); ++i) {
                const QPointF at = (line.shape[i] + line.shape[i + 1]) / 2.0; // where it is farthest from its curve
                if (!QRectF{0, 0, 1000, 700}.contains(at))
                    continue;
                const model::Position place = view.earthAt(at);
                int zone;
                bool north;
                double easting, northing;
                GeographicLib::UTMUPS::Forward(place.lat, std::remainder(place.lon, 360.0), zone, north, easting,
                                               northing, line.zone);
                if (zone != GeographicLib::UTMUPS::StandardZone(place.lat, std::remainder(place.lon, 360.0)))
                    continue; // within a pixel of the border, as the next check holds
                // At the equator the northing is 0 or 10,000,000 m, as one counts from the north or the south.
                const double off = (line.northward ? easting : northing) - line.value;
                QCOMPARE_LE(std::abs(line.northward ? off : std::remainder(off, 1e7)), metresPerPixel);
                ++checked;
            }
        }
        QCOMPARE_GE(checked, 40);
    }

    void zones_endAtTheirBorders() {
        // No line of zone 29 east of 6 W, and none of zone 30 west of it; southern Norway: 32 V begins at 3 E.
        for (const auto& [lon, lat, west, east] : {std::tuple{-6.0, 42.0, 29, 30}, std::tuple{3.0, 60.0, 31, 32}}) {
            const ViewTransform view = viewAt(lon, lat, 20.0, 37.0);
            const GridLines grid = gridLines(view, MapGrid::Mgrs, geodesy::Notation::Mgrs);
            std::set<int> zones;
            bool border = false;
            for (const GridLine& line : grid.lines) {
                border = border || line.kind == GridLine::Kind::Zone;
                if (line.kind == GridLine::Kind::Zone)
                    continue;
                zones.insert(line.zone);
                for (const QPointF& point : line.shape) {
                    const double there = view.earthAt(point).lon;
                    QVERIFY(line.zone == west ? there <= lon + 1e-6 : there >= lon - 1e-6);
                }
            }
            QVERIFY(border);
            QCOMPARE(zones, (std::set<int>{west, east}));
        }
    }

    void labels_areWrittenAsTheTradeDoes() {
        // Common practice of topographic maps, no published source: hundreds of kilometres small, tens and ones large.
        const GridLines grid = gridLines(viewAt(-8.7, 46.2, 10.0, 0.0), MapGrid::Utm, geodesy::Notation::Utm);
        bool found = false;
        for (const GridLine& line : grid.lines)
            if (line.northward && line.value == 524'000.0) {
                QCOMPARE(line.label.lead, QString{"5"});
                QCOMPARE(line.label.main, QString{"24"});
                found = true;
            }
        QVERIFY(found);
        QCOMPARE(grid.regions.size(), std::size_t{1});
        QCOMPARE(grid.regions[0].name, QString{"29T"});
        // 46.2 N 8.7 W is 29T NM 23 16 by GeoConvert.
        const GridLines squares = gridLines(viewAt(-8.7, 46.2, 10.0, 0.0), MapGrid::Mgrs, geodesy::Notation::Mgrs);
        QCOMPARE(squares.regions.size(), std::size_t{1});
        QCOMPARE(squares.regions[0].name, QString{"29T NM"});
    }

    void graticule_liesOnItsDegrees_alsoTurned() {
        for (const double up : {0.0, 37.0, 90.0, 180.0}) {
            const ViewTransform view = viewAt(-8.7, 46.2, 10.0, up);
            const GridLines grid = gridLines(view, MapGrid::Degrees, geodesy::Notation::DegreesMinutesSeconds);
            QCOMPARE_GE(grid.lines.size(), std::size_t{6});
            for (const GridLine& line : grid.lines)
                for (const QPointF& point : line.shape) {
                    const model::Position place = view.earthAt(point);
                    QCOMPARE_LE(std::abs((line.northward ? place.lon : place.lat) - line.value), 1e-6);
                }
        }
    }

    void none_isNone() { QVERIFY(gridLines(ViewTransform{}, MapGrid::None, geodesy::Notation::Utm).lines.empty()); }
};

QTEST_GUILESS_MAIN(MapGridTest)
#include "map_grid_test.moc"
