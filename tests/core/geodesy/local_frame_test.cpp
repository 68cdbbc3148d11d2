#include "geodesy/local_frame.h"

#include "fault.h"
#include "geodesy/geodesic.h"

#include <QtTest>

#include <limits>
#include <random>

using namespace fencewright;
using geodesy::LocalFrame;
using model::Position;

class LocalFrameTest : public QObject {
    Q_OBJECT

private slots:
    void toPlane_putsTheOriginAtZero_data() {
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        QTest::newRow("equator") << 0.0 << 0.0;
        QTest::newRow("middle") << -8.733936 << 46.208844;
        QTest::newRow("high") << 25.0 << 85.0;
        QTest::newRow("antimeridian") << 180.0 << -17.0;
        QTest::newRow("beyond the antimeridian") << 181.5 << -17.0;
        QTest::newRow("pole") << 10.0 << 90.0;
        QTest::newRow("south pole") << 10.0 << -90.0;
    }
    void toPlane_putsTheOriginAtZero() {
        QFETCH(double, lon);
        QFETCH(double, lat);
        const LocalFrame frame{{lon, lat}};
        QCOMPARE(frame.toPlane(frame.origin()), (geodesy::PlanePoint{0.0, 0.0}));
    }

    void toEarth_undoesToPlane() {
        constexpr unsigned seed = 20261125;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> unit{-1.0, 1.0};
        for (int round = 0; round < 2000; ++round) {
            const Position origin{unit(random) * 200.0, unit(random) * 89.0};
            const LocalFrame frame{origin};
            const double spread = std::pow(10.0, 3.0 * unit(random) - 2.0); // 1e-5 to 10 degrees
            const Position place{origin.lon + unit(random) * spread,
                                 std::clamp(origin.lat + unit(random) * spread, -89.9, 89.9)};
            const Position back = frame.toEarth(frame.toPlane(place));
            const double apart = geodesy::inverse(place, back).length.inMetres();
            QVERIFY2(apart < 1e-6 && std::abs(back.lon - place.lon) < 1.0,
                     qPrintable(QString{"seed %1 round %2: %3 m apart"}.arg(seed).arg(round).arg(apart)));
        }
    }

    void toEarth_keepsShapesAcrossTheAntimeridianInOnePiece() {
        const LocalFrame east{{179.9, 52.0}};
        QVERIFY(east.toEarth({20000.0, 0.0}).lon > 180.0);
        const LocalFrame west{{-179.9, 52.0}};
        QVERIFY(west.toEarth({-20000.0, 0.0}).lon < -180.0);
        // The same place, named on either side, is the same point of the plane.
        const auto a = east.toPlane(Position{-179.95, 52.01});
        const auto b = east.toPlane(Position{180.05, 52.01});
        QVERIFY(std::hypot(a.x - b.x, a.y - b.y) < 1e-6);
    }

    void bulk_equalsOneByOne() {
        const LocalFrame frame{{-8.7, 46.2}};
        std::vector<Position> places;
        for (int i = 0; i < 100; ++i)
            places.push_back({-8.7 + 0.01 * i, 46.2 - 0.003 * i});
        const auto points = frame.toPlane(places);
        const auto back = frame.toEarth(points);
        for (std::size_t i = 0; i < places.size(); ++i) {
            QCOMPARE(points[i], frame.toPlane(places[i]));
            QCOMPARE(back[i], frame.toEarth(points[i]));
        }
        QVERIFY(frame.toPlane(std::span<const Position>{}).empty());
    }

    // Against geodesics: the lengths of the plane are those of the ground to within the bound stated.
    void scaleError_boundsLengthsInThePlane() {
        constexpr unsigned seed = 4711;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> unit{0.0, 1.0};
        double worst = 0.0;
        for (int round = 0; round < 4000; ++round) {
            const Position origin{unit(random) * 400.0 - 200.0, unit(random) * 178.0 - 89.0};
            const LocalFrame frame{origin};
            const Length reach = Length::metres(std::pow(10.0, 3.0 + 3.0 * unit(random))); // 1 km to 1,000 km
            const auto somewhere = [&] {
                // Half of them at the rim, east or west, where the scale is worst.
                const bool rim = unit(random) < 0.5;
                const double azimuth = rim ? (unit(random) < 0.5 ? 90.0 : 270.0) : 360.0 * unit(random);
                return geodesy::direct(origin, Angle::degrees(azimuth), reach * (rim ? 1.0 : std::sqrt(unit(random))));
            };
            const Position from = somewhere();
            Position to = somewhere();
            if (unit(random) < 0.5) // a short line close to the first place, inwards
                to = geodesy::direct(from, geodesy::inverse(from, origin).azimuthAtStart, reach * 0.01);
            const double ground = geodesy::inverse(from, to).length.inMetres();
            if (ground < 1.0)
                continue;
            const auto a = frame.toPlane(from);
            const auto b = frame.toPlane(to);
            const double error = std::hypot(a.x - b.x, a.y - b.y) / ground - 1.0;
            const double rounding = 1e-8 / ground + 1e-15;
            const double bound = LocalFrame::scaleError(reach);
            QVERIFY2(error >= -rounding && error <= bound + rounding,
                     qPrintable(QString{"seed %1 round %2: %3 over %4 within %5 m of latitude %6"}
                                    .arg(seed)
                                    .arg(round)
                                    .arg(error)
                                    .arg(bound)
                                    .arg(reach.inMetres())
                                    .arg(origin.lat)));
            worst = std::max(worst, error / bound);
        }
        QVERIFY2(worst > 0.9, qPrintable(QString{"the bound is not tight: %1 of it is the most seen"}.arg(worst)));
    }

    void scaleError_grows() {
        QCOMPARE(LocalFrame::scaleError(Length{}), 0.0);
        QVERIFY(LocalFrame::scaleError(Length::kilometres(10)) < 1.3e-6);
        QVERIFY(LocalFrame::scaleError(Length::kilometres(50)) < 3.2e-5);
        QVERIFY(std::isinf(LocalFrame::scaleError(Length::kilometres(10000))));
    }

    void constructor_refusesWhatIsNoPlace() {
        QVERIFY_EXCEPTION_THROWN(LocalFrame({0.0, 90.5}), Fault);
        QVERIFY_EXCEPTION_THROWN(LocalFrame({std::numeric_limits<double>::infinity(), 0.0}), Fault);
    }

    void toPlane_refusesPlacesItCannotCompute() {
        const LocalFrame frame{{0.0, 0.0}};
        QVERIFY_EXCEPTION_THROWN((void)frame.toPlane(Position{0.0, 91.0}), Fault);
        QVERIFY_EXCEPTION_THROWN((void)frame.toPlane(Position{90.0, 0.0}), Fault);
        QVERIFY_EXCEPTION_THROWN((void)frame.toEarth({1e300, 0.0}), Fault);
        QVERIFY_EXCEPTION_THROWN((void)frame.toEarth({std::nan(""), 0.0}), Fault);
    }
};

QTEST_APPLESS_MAIN(LocalFrameTest)
#include "local_frame_test.moc"
