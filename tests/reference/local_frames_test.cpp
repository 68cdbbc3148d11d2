// The local frame against GeographicLib: its exact transverse Mercator (elliptic integrals, not the series that PROJ
// uses) and its geodesics.

#include "geodesy/geodesic.h"
#include "geodesy/local_frame.h"

#include <GeographicLib/GeodesicExact.hpp>
#include <GeographicLib/TransverseMercatorExact.hpp>

#include <QtTest>

#include <random>

using namespace fencewright;
using geodesy::LocalFrame;
using model::Position;

class LocalFramesTest : public QObject {
    Q_OBJECT

private slots:
    void plane_isTheTransverseMercator_data() {
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        QTest::newRow("equator") << 9.0 << 0.0;
        QTest::newRow("45 N") << 9.0 << 45.0;
        QTest::newRow("70 N") << 9.0 << 70.0;
        QTest::newRow("85 N") << 9.0 << 85.0;
        QTest::newRow("45 S") << -71.0 << -45.0;
        QTest::newRow("antimeridian") << 179.99 << 52.0;
        QTest::newRow("antimeridian, from the west") << -179.99 << -17.0;
    }
    void plane_isTheTransverseMercator() {
        QFETCH(double, lon);
        QFETCH(double, lat);
        const LocalFrame frame{{lon, lat}};
        const GeographicLib::TransverseMercatorExact exact{6378137.0, 1 / 298.257223563, 1.0};
        double x0 = 0;
        double y0 = 0;
        exact.Forward(lon, lat, lon, x0, y0);
        constexpr unsigned seed = 9807;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> unit{-1.0, 1.0};
        double largest = 0;
        for (int round = 0; round < 1000; ++round) {
            const Position place = geodesy::direct({lon, lat}, Angle::degrees(180 * unit(random)),
                                                   Length::kilometres(200 * std::abs(unit(random))));
            double x = 0;
            double y = 0;
            double convergence = 0;
            double scale = 0;
            exact.Forward(lon, place.lat, place.lon, x, y, convergence, scale);
            const geodesy::PlanePoint point = frame.toPlane(place);
            largest = std::max(largest, std::hypot(point.x - x, point.y - (y - y0)));
            const double reach = geodesy::inverse({lon, lat}, place).length.inMetres();
            QVERIFY2(scale - 1.0 <= LocalFrame::scaleError(Length::metres(reach)) + 1e-14,
                     qPrintable(QString{"seed %1 round %2"}.arg(seed).arg(round)));
            double backLat = 0;
            double backLon = 0;
            exact.Reverse(lon, point.x, point.y + y0, backLat, backLon);
            const Position back = frame.toEarth(point);
            QVERIFY(geodesy::inverse(back, {backLon, backLat}).length.inMetres() < 1e-6);
            QVERIFY(std::abs(back.lon - lon) < 90.0); // in one piece with the origin
        }
        // The header's word: under a micrometre.
        QVERIFY2(largest < 1e-6, qPrintable(QString::number(largest)));
    }

    // Plane lengths against ground lengths, as they matter: short lines anywhere within 20 km.
    void lengths_areThoseOnTheGround_data() {
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        for (const double lat : {0.0, 45.0, 70.0, 85.0, -89.0})
            QTest::addRow("latitude %g", lat) << 10.0 << lat;
        QTest::newRow("antimeridian") << 179.95 << 45.0;
    }
    void lengths_areThoseOnTheGround() {
        QFETCH(double, lon);
        QFETCH(double, lat);
        const LocalFrame frame{{lon, lat}};
        const auto& earth = GeographicLib::GeodesicExact::WGS84();
        const Length reach = Length::kilometres(20);
        const double bound = LocalFrame::scaleError(reach);
        // Published figure of this projection: 100 m within 10 km, 0.125 mm; so within 20 km, 4 times that.
        QVERIFY(bound < 5.1e-6);
        constexpr unsigned seed = 20;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> unit{0.0, 1.0};
        for (int round = 0; round < 1000; ++round) {
            double latA = 0, lonA = 0, latB = 0, lonB = 0;
            earth.Direct(lat, lon, 360 * unit(random), 20000 * unit(random), latA, lonA);
            earth.Direct(lat, lon, 360 * unit(random), 20000 * unit(random), latB, lonB);
            double ground = 0;
            earth.Inverse(latA, lonA, latB, lonB, ground);
            const auto a = frame.toPlane(Position{lonA, latA});
            const auto b = frame.toPlane(Position{lonB, latB});
            const double plane = std::hypot(a.x - b.x, a.y - b.y);
            QVERIFY2(
                plane - ground >= -1e-7 && plane - ground <= bound * ground + 1e-7,
                qPrintable(
                    QString{"seed %1 round %2: %3 m over %4 m"}.arg(seed).arg(round).arg(plane - ground).arg(ground)));
        }
    }
};

QTEST_APPLESS_MAIN(LocalFramesTest)
#include "local_frames_test.moc"
