#include "desktop/canvas/view_transform.h"

#include "desktop/canvas/near_plane.h"
#include "geodesy/geodesic.h"

#include <QtTest>

#include <cmath>
#include <random>

using namespace fencewright;
using namespace fencewright::desktop;

class ViewTransformTest : public QObject {
    Q_OBJECT

private slots:
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
        QVERIFY(!view.recentreIfFar());
        view.panBy({-10'000, 0}); // 25 km east of the origin now
        const model::Position middle = view.earthAt({400, 300}), corner = view.earthAt({790, 20});
        QVERIFY(view.recentreIfFar());
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
