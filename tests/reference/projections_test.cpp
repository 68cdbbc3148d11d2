// Projections and datums against worked examples of the bodies that define them, through CrsTransform.

#include "geodesy/crs_transform.h"
#include "geodesy/geodesic.h"

#include <QtTest>

using namespace fencewright;
using geodesy::CrsTransform;
using geodesy::PlanePoint;
using model::Position;

namespace {

double degrees(double whole, double minutes, double seconds) { return whole + minutes / 60.0 + seconds / 3600.0; }

/// A system on an ellipsoid without a datum. No shift is known from it, so that longitude and latitude are taken over
/// as they are: what is left is the projection alone.
CrsTransform withoutDatum(const std::string& projection) { return CrsTransform{projection + " +no_defs"}; }

} // namespace

class ProjectionsTest : public QObject {
    Q_OBJECT

private slots:
    void projections_matchWorkedExamples_data() {
        QTest::addColumn<QString>("projection");
        QTest::addColumn<QString>("ellipsoid");
        for (const char* column : {"lon", "lat", "easting", "northing", "tolerance"})
            QTest::addColumn<double>(column);
        // IOGP Guidance Note 7-2 (373-07-02, September 2019), method 9807, pages 54-55. The printed figures are rounded
        // by hand: 0.01 m.
        QTest::newRow("Transverse Mercator, 9807")
            << "+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000"
            << "+a=6377563.396 +rf=299.3249646" << 0.5 << 50.5 << 577274.99 << 69740.50 << 0.01;
        // Ordnance Survey, A guide to coordinate systems in Great Britain, Annex C.
        QTest::newRow("National Grid, Annex C")
            << "+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000"
            << "+a=6377563.396 +b=6356256.910" << degrees(1, 43, 4.5177) << degrees(52, 39, 27.2531) << 651409.903
            << 313177.270 << 0.0015;
        // IOGP 7-2, method 9831, after Snyder, USGS Professional Paper 1395 (1987), azimuthal equidistant, Guam.
        QTest::newRow("Guam, 9831") << "+proj=aeqd +guam +lat_0=13.472466353 +lon_0=144.748750706 +x_0=50000 +y_0=50000"
                                    << "+ellps=clrk66" << degrees(144, 38, 7.19265) << degrees(13, 20, 20.53846)
                                    << 37712.48 << 35242.00 << 0.01;
        // IOGP 7-2, method 9832, Yap Islands; the published figures from memory, two copies differ by 0.01 m.
        QTest::newRow("Yap, 9832") << "+proj=aeqd +lat_0=9.54670833333 +lon_0=138.168744444 +x_0=40000 +y_0=60000"
                                   << "+ellps=clrk66" << 138.19303 << 9.596525859 << 42665.90 << 65509.82 << 0.015;
        // Snyder 1987, page 269; from memory.
        QTest::newRow("Transverse Mercator, Snyder")
            << "+proj=tmerc +lat_0=0 +lon_0=-75 +k=0.9996 +x_0=0 +y_0=0"
            << "+ellps=clrk66" << -73.5 << 40.5 << 127106.5 << 4484124.4 << 0.1;
    }
    void projections_matchWorkedExamples() {
        QFETCH(QString, projection);
        QFETCH(QString, ellipsoid);
        QFETCH(double, lon);
        QFETCH(double, lat);
        QFETCH(double, easting);
        QFETCH(double, northing);
        QFETCH(double, tolerance);
        const CrsTransform projected = withoutDatum(projection.toStdString() + " " + ellipsoid.toStdString());
        QVERIFY(projected.datumShiftUnknown());
        const auto point = projected.fromWgs84(std::vector<Position>{{lon, lat}});
        QVERIFY(point[0]);
        QVERIFY2(std::abs(point[0]->x - easting) <= tolerance && std::abs(point[0]->y - northing) <= tolerance,
                 qPrintable(QString{"%1 %2"}.arg(point[0]->x, 0, 'f', 4).arg(point[0]->y, 0, 'f', 4)));
        const auto back = projected.toWgs84(std::vector<PlanePoint>{{easting, northing}});
        QVERIFY(back[0] && geodesy::inverse(*back[0], {lon, lat}).length.inMetres() <= 2.0 * tolerance);
    }

    void nationalGrid_byItsCode() {
        // Ordnance Survey, Annex C, with EPSG 27700 and its geographic base EPSG 4277.
        const auto place = CrsTransform{"EPSG:4277"}.toWgs84(
            std::vector<PlanePoint>{{degrees(1, 43, 4.5177), degrees(52, 39, 27.2531)}});
        const auto point = CrsTransform{"EPSG:27700"}.fromWgs84(std::vector<Position>{*place[0]});
        // Both ways go through the same datum shift, good to metres; they cancel to millimetres.
        QVERIFY2(point[0] && std::hypot(point[0]->x - 651409.903, point[0]->y - 313177.270) < 0.01,
                 qPrintable(QString{"%1 %2"}.arg(point[0]->x, 0, 'f', 4).arg(point[0]->y, 0, 'f', 4)));
    }

    void webMercator_isNotMetresOnTheGround() {
        // EPSG 3857, IOGP 7-2, method 1024 worked example: 24 22'54.433" N, 100 20'00.000" W; from memory.
        const auto point = CrsTransform{"EPSG:3857"}.fromWgs84(
            std::vector<Position>{{-degrees(100, 20, 0.0), degrees(24, 22, 54.433)}});
        QVERIFY2(point[0] && std::abs(point[0]->x + 11169055.58) < 0.02 && std::abs(point[0]->y - 2800000.00) < 0.02,
                 qPrintable(QString{"%1 %2"}.arg(point[0]->x, 0, 'f', 4).arg(point[0]->y, 0, 'f', 4)));
    }
};

QTEST_APPLESS_MAIN(ProjectionsTest)
#include "projections_test.moc"
