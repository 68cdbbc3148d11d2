#include "desktop/canvas/view_transform.h"

#include "desktop/canvas/near_plane.h"
#include "desktop/canvas/turn_gesture.h"
#include "geodesy/geodesic.h"

#include <QtTest>

#include <cmath>
#include <random>

using namespace fencewright;
using namespace fencewright::desktop;

class ViewTransformTest : public QObject {
    Q_OBJECT

    // UTM zone 29 has its central meridian at 9 W, where its scale is 0.9996 (EPSG:25829). At 6.3 W, near the zone's
    // edge, the scale on the ground is noticeably another, and its north is not true north.
    static constexpr const char* kUtm29 = "EPSG:25829";
    static constexpr geometry::Box kNearEdge{-6.32, 42.00, -6.28, 42.03};

    static ViewTransform viewOf(const geometry::Box& box) {
        ViewTransform view;
        view.setSize({1000, 700});
        view.setPreferredCrs(kUtm29, box);
        view.showBox(box, 40.0);
        return view;
    }

private slots:
    void plane_isThatOfTheRaster_nearIt_only() {
        ViewTransform view = viewOf(kNearEdge);
        QCOMPARE(view.plane().definition().crs, std::string{kUtm29});
        view.setOrigin({-3.0, 42.0});
        QCOMPARE(view.plane().definition().crs, std::string{});
        view.setOrigin({-6.3, 42.01});
        QCOMPARE(view.plane().definition().crs, std::string{kUtm29});
        view.setPreferredCrs({}, {});
        QVERIFY(view.settlePlane());
        QCOMPARE(view.plane().definition().crs, std::string{});
    }

    void plane_isLocal_whereTheCrsDoesNotServe() {
        // EPSG:3857 is metric by name; at 42 degrees its metres are 1.35 of the ground's.
        ViewTransform view;
        view.setPreferredCrs("EPSG:3857", kNearEdge);
        view.showBox(kNearEdge, 40.0);
        QCOMPARE(view.plane().definition().crs, std::string{});
        view.setPreferredCrs("no such system", kNearEdge);
        QVERIFY(!view.settlePlane());
        view.setPreferredCrs("EPSG:4326", kNearEdge);
        QVERIFY(!view.settlePlane());
    }

    void plane_neverFlipsBackAndForth() {
        // To and fro over every distance from the raster, at several scales: one change each way at most.
        for (const double metresPerPixel : {0.2, 5.0, 50.0, 300.0}) {
            ViewTransform view = viewOf(kNearEdge);
            view.setMetresPerPixel(metresPerPixel);
            for (int border = 0; border < 60; ++border) {
                const double pixels = border * 3'000.0 / metresPerPixel;
                view.setOrigin({-6.3, 42.01});
                view.panBy({0.0, pixels});
                view.settlePlane();
                int changes = 0;
                std::string crs = view.plane().definition().crs;
                for (int i = 0; i < 10; ++i) {
                    view.panBy({0.0, (i % 2 ? 2'000.0 : -2'000.0) / metresPerPixel});
                    view.settlePlane();
                    changes += std::exchange(crs, view.plane().definition().crs) != crs;
                }
                QCOMPARE_LE(changes, 1);
            }
        }
    }

    void planeOfTheRaster_staysTheSame_whereverTheViewMoves() {
        ViewTransform view = viewOf({-8.8, 42.0, -8.2, 42.4});
        const auto number = view.planeNumber();
        for (int i = 0; i < 50; ++i) {
            view.panBy({-50.0 * (i % 7 - 3), 35.0 * (i % 5 - 2)});
            QVERIFY(!view.settlePlane());
        }
        view.showBox({-8.5, 42.1, -8.49, 42.11}, 20.0);
        QCOMPARE(view.planeNumber(), number);
        // Another picture of the same system beside it widens the box; the plane stays.
        view.setPreferredCrs(kUtm29, {-8.8, 42.0, -8.0, 42.4});
        QVERIFY(!view.settlePlane());
        QCOMPARE(view.planeNumber(), number);
        // And what was kept of it is good again after a look elsewhere.
        view.setOrigin({5.0, 45.0});
        QVERIFY(view.planeNumber() != number);
        view.setOrigin({-8.5, 42.1});
        QCOMPARE(view.planeNumber(), number);
    }

    void scale_isThatOfTheGround() {
        // Against the geodesic inverse (see tests/core/geodesy/geodesic_test.cpp).
        for (const double up : {0.0, 37.0, 90.0}) {
            ViewTransform view = viewOf(kNearEdge);
            view.setUpAzimuth(up);
            const auto line = geodesy::inverse(view.earthAt({400, 350}), view.earthAt({600, 350}));
            const double ground = line.length.inMetres() / 200.0;
            QCOMPARE_LE(std::abs(view.groundMetresPerPixel() / ground - 1.0), 1e-6);
            // The scale factor of UTM 2.7 degrees off the meridian at 42 N: 0.9996 (1 + (2.7 deg cos 42)^2 / 2) in the
            // spherical approximation of Snyder, "Map Projections" (USGS 1395), eq. 8-4; 1.00021.
            QCOMPARE_LE(std::abs(view.metresPerPixel() / ground - 1.00021), 1e-5);
        }
    }

    void turned_whatIsUpLiesThere_andTheMiddleStays_data() {
        QTest::addColumn<bool>("inCrs");
        QTest::addColumn<double>("up");
        for (const double up : {0.0, 37.0, 90.0, 180.0, 270.0, 359.0}) {
            QTest::addRow("local, %g", up) << false << up;
            QTest::addRow("UTM, %g", up) << true << up;
        }
    }
    void turned_whatIsUpLiesThere_andTheMiddleStays() {
        QFETCH(bool, inCrs);
        QFETCH(double, up);
        ViewTransform view;
        view.setSize({1000, 700});
        if (inCrs)
            view.setPreferredCrs(kUtm29, kNearEdge);
        view.showBox(kNearEdge, 40.0);
        QCOMPARE(!view.plane().definition().crs.empty(), inCrs);
        const model::Position middle = view.earthAt({500, 350});
        view.setTrueUpAzimuth(up);
        QCOMPARE_LE(distanceBetween(*view.widgetOf(middle), {500, 350}), 1e-3);
        const auto azimuth = [&](const QPointF& to) {
            return geodesy::inverse(middle, view.earthAt(to)).azimuthAtStart.inDegrees();
        };
        // A straight line of the plane is no geodesic: over 300 pixels of 5 m they part by less than a hundredth of a
        // degree.
        QCOMPARE_LE(std::abs(std::remainder(azimuth({500, 50}) - up, 360.0)), 0.01);
        QCOMPARE_LE(std::abs(std::remainder(azimuth({800, 350}) - up - 90.0, 360.0)), 0.01);
        QCOMPARE_LE(std::abs(std::remainder(view.trueUpAzimuth() - up, 360.0)), 0.001);
        // All that is seen lies in the box of what is seen.
        const geometry::Box seen = view.visibleLonLat();
        for (int x = 0; x <= 10; ++x)
            for (int y = 0; y <= 10; ++y) {
                const model::Position place = view.earthAt({x * 100.0, y * 70.0});
                QVERIFY(place.lon >= seen.minX - 1e-6 && place.lon <= seen.maxX + 1e-6);
                QVERIFY(place.lat >= seen.minY - 1e-6 && place.lat <= seen.maxY + 1e-6);
                QCOMPARE_LE(distanceBetween(*view.widgetOf(place), {x * 100.0, y * 70.0}), 1e-3);
            }
        // And the whole box is shown when it is asked for.
        view.showBox(kNearEdge, 40.0);
        QCOMPARE_LE(std::abs(std::remainder(view.trueUpAzimuth() - up, 360.0)), 0.05);
        const QRectF inner = QRectF{0, 0, 1000, 700}.adjusted(39, 39, -39, -39);
        for (const double lon : {kNearEdge.minX, kNearEdge.maxX})
            for (const double lat : {kNearEdge.minY, kNearEdge.maxY})
                QVERIFY(inner.contains(*view.widgetOf({lon, lat})));
    }

    void turnOf_anotherKindOfPlane_keepsWhatIsUp() {
        ViewTransform view = viewOf(kNearEdge);
        view.setTrueUpAzimuth(37.0);
        view.setPreferredCrs({}, {});
        QVERIFY(view.settlePlane());
        QCOMPARE_LE(std::abs(view.trueUpAzimuth() - 37.0), 0.001);
        QVERIFY(std::abs(view.upAzimuthDegrees() - 37.0) < 0.01); // a local frame's north is true
    }

    void overAPole_allLongitudesAreSeen() {
        ViewTransform view;
        view.setSize({800, 800});
        view.setOrigin({10.0, 89.5});
        view.setMetresPerPixel(500.0);
        const geometry::Box seen = view.visibleLonLat();
        QCOMPARE_GE(seen.maxX - seen.minX, 360.0);
        QCOMPARE_GE(seen.maxY, 90.0);
    }

    void turnGesture_leavesPlacesUnderTheFingers() {
        ViewTransform view = viewOf(kNearEdge);
        const QPointF about{300, 200}, finger{420, 260};
        const model::Position still = view.earthAt(about), moving = view.earthAt(finger);
        TurnGesture turn;
        for (int i = 0; i < 10; ++i)
            turn.carry(about, 4.0, 1.02);
        QCOMPARE(turn.clockwiseDegrees(), 40.0);
        const QPointF carried = turn.carried().map(finger);
        // Clockwise on the screen: from the right of the point towards below it.
        QVERIFY(carried.y() > finger.y());
        const double before = view.trueUpAzimuth();
        turn.settle(view);
        QVERIFY(!turn.isUnderWay());
        QCOMPARE_LE(distanceBetween(*view.widgetOf(still), about), 0.01);
        QCOMPARE_LE(distanceBetween(*view.widgetOf(moving), carried), 0.01);
        QCOMPARE_LE(std::abs(std::remainder(view.trueUpAzimuth() - before + 40.0, 360.0)), 0.01);
        // Nearly back is back.
        turn.carry({500, 350}, -38.0);
        turn.settle(view);
        QCOMPARE(view.upAzimuthDegrees(), 0.0);
    }

    void roundTrip_staysUnderAThousandthOfAPixel_data() {
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        QTest::newRow("equator") << 0.0 << 0.0;
        QTest::newRow("middle") << -8.7 << 46.2;
        QTest::newRow("high north") << 25.0 << 70.0;
        QTest::newRow("very high") << 25.0 << 84.0;
        QTest::newRow("south") << 170.0 << -45.0;
        QTest::newRow("antimeridian") << 180.0 << -17.0;
        QTest::newRow("beyond the antimeridian") << 181.0 << 52.0;
    }
    void roundTrip_staysUnderAThousandthOfAPixel() {
        QFETCH(double, lon);
        QFETCH(double, lat);
        constexpr unsigned seed = 20261125;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> unit{0.0, 1.0};
        for (int i = 0; i < 1000; ++i) {
            ViewTransform view;
            view.setSize({1920, 1080});
            view.setOrigin({lon, lat});
            view.setMetresPerPixel(std::pow(10.0, unit(random) * 4.0 - 2.0)); // 1 cm to 100 m a pixel
            view.panBy({unit(random) * 2000.0 - 1000.0, unit(random) * 2000.0 - 1000.0});
            const QPointF widget{unit(random) * 1920.0, unit(random) * 1080.0};
            const auto back = view.widgetOf(view.earthAt(widget));
            const QByteArray where = QByteArray("seed ") + QByteArray::number(seed) + " case " + QByteArray::number(i);
            QVERIFY2(back.has_value(), where.constData());
            QVERIFY2(distanceBetween(*back, widget) < 1e-3, where.constData());
        }
    }

    void pixels_areMetresOnTheGround() {
        // Against the geodesic inverse, which is held against published lines in tests/core/geodesy/geodesic_test.cpp.
        for (const double lat : {0.0, 45.0, 70.0, -45.0}) {
            ViewTransform view;
            view.setSize({1000, 1000});
            view.setOrigin({180.0, lat});
            view.setMetresPerPixel(2.0);
            const model::Position from = view.earthAt({100, 500}), to = view.earthAt({900, 500});
            QCOMPARE_LE(std::abs(geodesy::inverse(from, to).length.inMetres() - 1600.0), 0.01);
        }
    }

    void zoomAbout_keepsWhatLiesThere() {
        ViewTransform view;
        view.setOrigin({-8.7, 46.2});
        const QPointF at{100, 333};
        const model::Position before = view.earthAt(at);
        view.zoomAbout(at, 3.7);
        QCOMPARE_LE(distanceBetween(*view.widgetOf(before), at), 1e-3);
        QCOMPARE_LE(std::abs(view.metresPerPixel() - 1.0 / 3.7), 1e-12);
    }

    void recentre_keepsTheView_andRenewsTheFrame() {
        ViewTransform view;
        view.setOrigin({-8.7, 46.2});
        view.setSize({800, 600});
        const auto frame = view.planeNumber();
        view.panBy({-15'000, 0});
        QVERIFY(!view.settlePlane());
        view.panBy({-10'000, 0}); // 25 km east of the origin now
        const model::Position middle = view.earthAt({400, 300}), corner = view.earthAt({790, 20});
        QVERIFY(view.settlePlane());
        QVERIFY(view.planeNumber() != frame);
        QCOMPARE_LE(distanceBetween(*view.widgetOf(middle), {400, 300}), 1e-3);
        // North of one frame is not quite north of the other: a corner of the view turns by under two pixels.
        QCOMPARE_LE(distanceBetween(*view.widgetOf(corner), {790, 20}), 2.0);
    }

    void showBox_showsItAll_alsoAcrossTheAntimeridian() {
        for (const geometry::Box box :
             {geometry::Box{-8.74, 46.2, -8.72, 46.22}, geometry::Box{179.99, -17.0, 180.01, -16.99},
              geometry::Box{10.0, 60.0, 20.0, 70.0}}) {
            ViewTransform view;
            view.setSize({1000, 700});
            view.showBox(box, 40.0);
            const QRectF inner = QRectF{0, 0, 1000, 700}.adjusted(39, 39, -39, -39);
            for (const double lon : {box.minX, box.maxX})
                for (const double lat : {box.minY, box.maxY})
                    QVERIFY(inner.contains(*view.widgetOf({lon, lat})));
        }
    }

    void placesThatCannotBeShown_areNone() {
        const ViewTransform view;
        QVERIFY(!view.widgetOf({0.0, 120.0}));
        QVERIFY(!view.widgetOf({std::nan(""), 0.0}));
        QVERIFY(view.planeOf(std::vector<model::Position>{{0.0, 0.0}, {0.0, 120.0}}).empty());
    }

    void nearPlane_keepsDistances() {
        for (const double lat : {0.0, 46.2, -70.0}) {
            const NearPlane plane{{179.999, lat}};
            const model::Position other{-179.996, lat + 0.003};
            const double there = distanceBetween(plane.toPlane(other), {});
            const double true_ = geodesy::inverse({179.999, lat}, other).length.inMetres();
            QCOMPARE_LE(std::abs(there / true_ - 1.0), 1e-3);
        }
    }
};

QTEST_GUILESS_MAIN(ViewTransformTest)
#include "view_transform_test.moc"
