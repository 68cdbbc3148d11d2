#include <QtTest>

#include "fault.h"
#include "geodesy/crs_transform.h"
#include "geodesy/geodesic.h"
#include "geodesy/map_plane.h"

using namespace fencewright;
using geodesy::MapPlane;
using geodesy::PlanePoint;

class MapPlaneTest : public QObject {
    Q_OBJECT

private slots:
    void toPlane_inACrs_isTheCrsLessItsOrigin() {
        // CrsTransform is held against IOGP's worked examples in tests/reference; the plane only shifts it.
        const model::Position origin{-8.5, 42.0}, place{-8.49, 42.01};
        const MapPlane plane{{"EPSG:32629", origin}};
        const geodesy::CrsTransform utm{"EPSG:32629"};
        const std::vector<model::Position> places{origin, place};
        const auto grid = utm.fromWgs84(places);
        const PlanePoint at = plane.toPlane(place);
        QCOMPARE(at.x, grid[1]->x - grid[0]->x);
        QCOMPARE(at.y, grid[1]->y - grid[0]->y);
        QCOMPARE(plane.originInCrs()->x, grid[0]->x);
    }

    void toPlane_turned_putsTheAzimuthUp() {
        for (const std::string crs : {"", "EPSG:32633"})
            for (const double azimuth : {0.0, 30.0, 90.0, 180.0, 271.5}) {
                const model::Position origin{15.0, 60.0}; // on the zone's meridian: grid north is true north
                const MapPlane plane{{crs, origin, azimuth}};
                const model::Position there = geodesy::direct(origin, Angle::degrees(azimuth), Length::metres(1000));
                const PlanePoint at = plane.toPlane(there);
                QVERIFY2(std::abs(at.x) < 0.01, qPrintable(QString::number(at.x)));
                QVERIFY2(std::abs(at.y - 1000.0) < 0.5, qPrintable(QString::number(at.y))); // UTM's scale is 0.9996
            }
    }

    void toEarth_afterToPlane_isTheSamePlace() {
        for (const std::string crs : {"", "EPSG:32660", "EPSG:25829"})
            for (const double azimuth : {0.0, -77.0}) {
                const model::Position origin =
                    crs == "EPSG:32660" ? model::Position{179.95, -16.5} : model::Position{-8.5, 42.0};
                const MapPlane plane{{crs, origin, azimuth}};
                const std::vector<model::Position> places{
                    {origin.lon + 0.1, origin.lat + 0.05}, {origin.lon - 0.3, origin.lat}, origin};
                const auto back = plane.toEarth(plane.toPlane(places));
                for (std::size_t i = 0; i < places.size(); ++i) {
                    QVERIFY(std::abs(back[i].lon - places[i].lon) < 1e-9); // beyond 180 it runs on
                    QVERIFY(std::abs(back[i].lat - places[i].lat) < 1e-9);
                }
            }
    }

    void serves_onlyWhatIsTrueToAHundredth_data() {
        QTest::addColumn<QString>("crs");
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        QTest::addColumn<bool>("serves");
        QTest::newRow("UTM in its zone") << "EPSG:32629" << -8.5 << 42.0 << true;
        QTest::newRow("UTM on WKT") << "EPSG:25829" << -9.0 << 60.0 << true;
        QTest::newRow("UTM two zones off") << "EPSG:32629" << 5.0 << 60.0 << false;
        QTest::newRow("Web Mercator at 45: 1.41 times too long") << "EPSG:3857" << -8.5 << 45.0 << false;
        QTest::newRow("degrees") << "EPSG:4326" << -8.5 << 45.0 << false;
        QTest::newRow("US survey feet") << "EPSG:2227" << -122.0 << 37.5 << false;
        QTest::newRow("Lambert, France") << "EPSG:2154" << 3.0 << 46.5 << true;
        QTest::newRow("British grid") << "EPSG:27700" << -2.0 << 52.0 << true;
        QTest::newRow("no CRS") << "here" << 0.0 << 0.0 << false;
    }
    void serves_onlyWhatIsTrueToAHundredth() {
        QFETCH(QString, crs);
        QFETCH(double, lon);
        QFETCH(double, lat);
        QFETCH(bool, serves);
        QCOMPARE(MapPlane::serves(crs.toStdString(), {lon, lat}), serves);
    }

    void construction_withoutAPlace_isRefused() {
        QVERIFY_THROWS_EXCEPTION(Fault, (MapPlane{{"", {0, 91}}}));
        QVERIFY_THROWS_EXCEPTION(Fault, (MapPlane{{"EPSG:0", {0, 0}}}));
        QVERIFY_THROWS_EXCEPTION(Fault, (MapPlane{{"EPSG:32629", {0, std::nan("")}}}));
    }
};

QTEST_APPLESS_MAIN(MapPlaneTest)
#include "map_plane_test.moc"
