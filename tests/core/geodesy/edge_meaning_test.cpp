#include "geodesy/edge_meaning.h"

#include "fault.h"

#include <QtTest>

#include <limits>
#include <random>

using namespace fencewright;
using geodesy::densified;
using model::LineString;
using model::Position;

namespace {

// A place on the straight lon/lat edge, by its fraction; how far `place` is off it, in degrees.
double offEdge(Position from, Position to, Position place) {
    const double dx = to.lon - from.lon;
    const double dy = to.lat - from.lat;
    const double t = ((place.lon - from.lon) * dx + (place.lat - from.lat) * dy) / (dx * dx + dy * dy);
    return std::hypot(place.lon - from.lon - t * dx, place.lat - from.lat - t * dy);
}

} // namespace

class EdgeMeaningTest : public QObject {
    Q_OBJECT

private slots:
    void partingFromGeodesic_isZeroWhereTheEdgeIsAGeodesic_data() {
        QTest::addColumn<double>("lon1");
        QTest::addColumn<double>("lat1");
        QTest::addColumn<double>("lon2");
        QTest::addColumn<double>("lat2");
        QTest::newRow("a meridian") << 8.0 << 10.0 << 8.0 << 70.0;
        QTest::newRow("the equator") << 8.0 << 0.0 << 9.0 << 0.0;
        QTest::newRow("no length") << 8.0 << 45.0 << 8.0 << 45.0;
        QTest::newRow("along the pole") << 8.0 << 90.0 << 60.0 << 90.0;
    }
    void partingFromGeodesic_isZeroWhereTheEdgeIsAGeodesic() {
        QFETCH(double, lon1);
        QFETCH(double, lat1);
        QFETCH(double, lon2);
        QFETCH(double, lat2);
        const double metres = geodesy::partingFromGeodesic({lon1, lat1}, {lon2, lat2}).inMetres();
        QVERIFY2(metres < 1e-6, qPrintable(QString::number(metres)));
    }

    void partingFromGeodesic_isTheSameBothWaysAndOnEveryTurn() {
        const Position a{179.9, 52.0};
        const Position b{180.3, 52.2};
        const double there = geodesy::partingFromGeodesic(a, b).inMetres();
        QVERIFY(there > 1.0);
        QVERIFY(std::abs(geodesy::partingFromGeodesic(b, a).inMetres() - there) < 1e-3 * there);
        QVERIFY(std::abs(geodesy::partingFromGeodesic({a.lon - 360, a.lat}, {b.lon - 360, b.lat}).inMetres() - there) <
                1e-6);
    }

    void partingFromGeodesic_refusesWhatIsNoPlace() {
        QVERIFY_EXCEPTION_THROWN((void)geodesy::partingFromGeodesic({0, 0}, {0, 91}), Fault);
        QVERIFY_EXCEPTION_THROWN((void)geodesy::partingFromGeodesic({std::nan(""), 0}, {0, 1}), Fault);
    }

    // The property that densified() is for, over edges from metres to half the earth.
    void densified_staysWithinTheTolerance() {
        constexpr unsigned seed = 31337;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> unit{-1.0, 1.0};
        std::size_t added = 0;
        for (int round = 0; round < 1500; ++round) {
            const double spread = std::pow(10.0, 2.5 * unit(random) - 1.0); // 3e-4 to 30 degrees
            const Position from{unit(random) * 180.0, unit(random) * 85.0};
            Position to{from.lon + spread * unit(random), std::clamp(from.lat + spread * unit(random), -89.0, 89.0)};
            if (round % 5 == 0)
                to.lat = from.lat; // along a parallel, where it matters most
            if (round % 7 == 0)
                to.lat = -from.lat * 0.3; // across the equator
            const double metres = std::pow(10.0, 2.0 * unit(random)) * (spread > 3.0 ? 10.0 : 0.1);
            const LineString line = densified({from, to}, Length::metres(metres));
            QCOMPARE(line.front(), from);
            QCOMPARE(line.back(), to);
            added += line.size() - 2;
            for (std::size_t i = 1; i < line.size(); ++i) {
                const double parting = geodesy::partingFromGeodesic(line[i - 1], line[i]).inMetres();
                QVERIFY2(parting <= metres * 1.001 + 1e-6,
                         qPrintable(QString{"seed %1 round %2: %3 m over %4 m"}.arg(seed).arg(round).arg(parting).arg(
                             metres)));
                QVERIFY(offEdge(from, to, line[i]) < 1e-13 * 400.0);
            }
            // Not many more than needed: every second place could not be left out everywhere.
            if (line.size() > 5) {
                bool needed = false;
                for (std::size_t i = 2; i < line.size() && !needed; ++i)
                    needed = geodesy::partingFromGeodesic(line[i - 2], line[i]).inMetres() > metres;
                QVERIFY2(needed, qPrintable(QString{"seed %1 round %2: too dense"}.arg(seed).arg(round)));
            }
        }
        QVERIFY(added > 1000);
    }

    void densified_keepsCornersInOrder() {
        const model::Polygon polygon{{{{8, 60}, {10, 60}, {10, 61}, {8, 61}}, true},
                                     {{{{8.5, 60.2}, {9.5, 60.2}, {9, 60.8}}}}};
        const model::Polygon dense = densified(polygon, Length::metres(0.1));
        QVERIFY(dense.shell.closureAssumed);
        QCOMPARE(dense.holes.size(), std::size_t{1});
        QVERIFY(!dense.holes.front().closureAssumed);
        QVERIFY(dense.shell.corners.size() > 100);
        const auto& corners = dense.shell.corners;
        auto at = corners.begin();
        for (const Position& corner : polygon.shell.corners) {
            at = std::find(at, corners.end(), corner);
            QVERIFY(at != corners.end());
        }
        // The closing edge, a meridian, needs none; a northern one does.
        QCOMPARE(corners.back(), polygon.shell.corners.back());
        const model::Ring cap{{{0, 60}, {0, 61}, {4, 60}}};
        QVERIFY(densified(cap, Length::metres(0.1)).corners.back() != cap.corners.back());
    }

    void densified_leavesShortEdgesAlone() {
        const LineString line{{8.0, 45.0}, {8.001, 45.0}, {8.001, 45.001}};
        QCOMPARE(densified(line, Length::metres(0.1)), line);
        QVERIFY(densified(LineString{}, Length::metres(1)).empty());
    }

    void densified_refusesWhatItCannotDo() {
        const LineString line{{0, 45}, {90, 45}};
        QVERIFY_EXCEPTION_THROWN((void)densified(line, Length{}), Fault);
        QVERIFY_EXCEPTION_THROWN((void)densified(line, Length::metres(-1)), Fault);
        QVERIFY_EXCEPTION_THROWN((void)densified(line, Length::metres(std::nan(""))), Fault);
        QVERIFY_EXCEPTION_THROWN((void)densified(line, Length::metres(1e-12)), Fault);
        QVERIFY_EXCEPTION_THROWN((void)densified({{0, 45}, {1, 100}}, Length::metres(1)), Fault);
    }

    void unwrapped_makesLongitudesContinuous() {
        const auto jump = geodesy::unwrapped({{{179, 10}, {-179, 10}, {-179, 11}, {179, 11}}, true});
        QVERIFY(jump.changed);
        QVERIFY(jump.ring.closureAssumed);
        QCOMPARE(jump.ring.corners, (std::vector<Position>{{179, 10}, {181, 10}, {181, 11}, {179, 11}}));
        const auto west = geodesy::unwrapped({{{-179, 10}, {179, 10}, {179, 11}}});
        QCOMPARE(west.ring.corners, (std::vector<Position>{{-179, 10}, {-181, 10}, {-181, 11}}));
        const model::Ring plain{{{10, 10}, {11, 10}, {11, 11}}};
        const auto same = geodesy::unwrapped(plain);
        QVERIFY(!same.changed);
        QCOMPARE(same.ring, plain);
        const model::Ring beyond{{{179, 10}, {181, 10}, {181, 11}}};
        QVERIFY(!geodesy::unwrapped(beyond).changed);
        // Just half way round: either way is as short, so it stays.
        QVERIFY(!geodesy::unwrapped({{{0, 10}, {180, 10}, {0, 11}}}).changed);
        QVERIFY(!geodesy::unwrapped({}).changed);
    }

    void longitudes_turn() {
        QCOMPARE(geodesy::longitudeNear(-179.0, 179.0), 181.0);
        QCOMPARE(geodesy::longitudeNear(179.0, -179.0), -181.0);
        QCOMPARE(geodesy::longitudeNear(5.0, 725.0), 725.0);
        QCOMPARE(geodesy::longitudeNear(0.1, 0.3), 0.1);
        QCOMPARE(geodesy::normalisedLongitude(180.0), -180.0);
        QCOMPARE(geodesy::normalisedLongitude(-180.0), -180.0);
        QCOMPARE(geodesy::normalisedLongitude(540.0), -180.0);
        QCOMPARE(geodesy::normalisedLongitude(181.0), -179.0);
        const double last = std::nextafter(180.0, 0.0);
        QCOMPARE(geodesy::normalisedLongitude(last), last);
        QCOMPARE(geodesy::normalisedLongitude(-1e-20), -1e-20);
    }
};

QTEST_APPLESS_MAIN(EdgeMeaningTest)
#include "edge_meaning_test.moc"
