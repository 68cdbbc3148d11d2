// Shapes moved, turned and scaled, against the exact geodesics and geodesic polygon areas of GeographicLib, which use
// neither a plane nor the series of PROJ.

#include "airspace/placing.h"
#include "geodesy/local_frame.h"

#include <GeographicLib/GeodesicExact.hpp>
#include <GeographicLib/PolygonArea.hpp>

#include <QtTest>

#include <cmath>
#include <random>

using namespace fencewright;
using airspace::Placing;
using model::Position;

namespace {

const GeographicLib::GeodesicExact& exact() { return GeographicLib::GeodesicExact::WGS84(); }

struct Way {
    double metres = 0;
    double azimuth = 0; // at the start
};

Way way(const Position& from, const Position& to) {
    Way found;
    double atEnd = 0;
    exact().Inverse(from.lat, from.lon, to.lat, to.lon, found.metres, found.azimuth, atEnd);
    return found;
}

double areaOf(const model::LineString& corners) {
    GeographicLib::PolygonAreaExact polygon{exact()};
    for (const Position& corner : corners)
        polygon.AddPoint(corner.lat, corner.lon);
    double perimeter = 0, area = 0;
    polygon.Compute(false, true, perimeter, area);
    return std::abs(area);
}

Position from(const Position& middle, double azimuth, double metres) {
    Position place;
    exact().Direct(middle.lat, middle.lon, azimuth, metres, place.lat, place.lon);
    return place; // GeographicLib wraps its longitude: a shape across the antimeridian has to be joined
}

/// A star of corners around a middle.
model::LineString star(std::mt19937_64& random, const Position& middle, double reach) {
    std::uniform_real_distribution<double> share{0.3, 1.0};
    model::LineString corners;
    for (int corner = 0; corner < 9; ++corner) {
        Position place = from(middle, corner * 40.0, reach * share(random));
        place.lon = middle.lon + std::remainder(place.lon - middle.lon, 360.0);
        corners.push_back(place);
    }
    return corners;
}

const model::LineString& shellOf(const model::Fence& fence) {
    return std::get<model::DrawnPolygon>(fence.shape).polygon.shell.corners;
}

} // namespace

class PlacingReferenceTest : public QObject {
    Q_OBJECT

private slots:
    void sizesAndAngles_areKeptOnTheGround_data() {
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        QTest::addColumn<double>("reach"); // metres
        QTest::addColumn<double>("azimuth");
        QTest::addColumn<double>("metres");
        QTest::addColumn<double>("turn");
        QTest::addColumn<double>("scale");
        QTest::newRow("30 km north") << -8.73 << 46.2 << 800.0 << 0.0 << 30e3 << 0.0 << 1.0;
        QTest::newRow("30 km north, 10 km wide") << -8.73 << 46.2 << 5000.0 << 0.0 << 30e3 << 0.0 << 1.0;
        QTest::newRow("300 km aslant") << -8.73 << 46.2 << 5000.0 << 214.0 << 300e3 << 0.0 << 1.0;
        QTest::newRow("at 80 degrees") << 25.0 << 80.0 << 2000.0 << 12.0 << 30e3 << 0.0 << 1.0;
        QTest::newRow("at 80 degrees, all") << 25.0 << 80.0 << 2000.0 << 300.0 << 30e3 << 77.0 << 1.3;
        QTest::newRow("from the equator to 60 degrees") << 10.0 << 0.0 << 20e3 << 0.0 << 6.65e6 << 0.0 << 1.0;
        QTest::newRow("over the antimeridian") << 179.99 << -17.0 << 3000.0 << 90.0 << 30e3 << 0.0 << 1.0;
        QTest::newRow("over the antimeridian, back") << -179.99 << -17.0 << 3000.0 << 270.0 << 30e3 << 10.0 << 0.5;
        QTest::newRow("turned") << -8.73 << 46.2 << 2000.0 << 0.0 << 0.0 << 37.0 << 1.0;
        QTest::newRow("turned, 100 km wide") << -8.73 << 46.2 << 50e3 << 0.0 << 0.0 << 90.0 << 1.0;
        QTest::newRow("scaled up") << -8.73 << 46.2 << 2000.0 << 0.0 << 0.0 << 0.0 << 3.5;
        QTest::newRow("scaled down") << -8.73 << 46.2 << 50e3 << 0.0 << 0.0 << 0.0 << 0.01;
    }
    void sizesAndAngles_areKeptOnTheGround() {
        QFETCH(double, lon);
        QFETCH(double, lat);
        QFETCH(double, reach);
        QFETCH(double, azimuth);
        QFETCH(double, metres);
        QFETCH(double, turn);
        QFETCH(double, scale);
        constexpr unsigned seed = 4711;
        std::mt19937_64 random{seed};
        const Position pivot{lon, lat};
        Placing placing = airspace::movedAlong(pivot, Angle::degrees(azimuth), Length::metres(metres));
        placing.turn = Angle::degrees(turn);
        placing.scale = scale;
        const bool isMove = turn == 0.0 && scale == 1.0;
        // What the header states; 10 nm for the rounding of degrees.
        const double bound = geodesy::LocalFrame::scaleError(Length::metres(reach)) +
                             geodesy::LocalFrame::scaleError(Length::metres(reach * scale));
        double worstLength = 0, worstArea = 0, worstAngle = 0;
        for (int round = 0; round < 20; ++round) {
            model::FenceSet set;
            model::Fence fence;
            fence.id = model::freshId<model::Fence>();
            fence.shape = model::DrawnPolygon{{{star(random, pivot, reach)}, {}}};
            set.fences.append(fence);
            const model::Thing things[] = {fence.id};
            const auto after = model::applied(set, airspace::placed(set, things, placing));
            const model::LineString &was = shellOf(fence), &is = shellOf(after.fences[0]);
            QCOMPARE(is.size(), was.size());
            for (std::size_t i = 0; i < was.size(); ++i) {
                const Way before = way(pivot, was[i]), now = way(placing.to, is[i]);
                const double turned = std::remainder(now.azimuth - before.azimuth - turn, 360.0);
                worstAngle = std::max(worstAngle, std::abs(turned) * M_PI / 180.0);
                for (std::size_t j = 0; j < i; ++j) {
                    const double length = way(was[i], was[j]).metres * scale;
                    const double error = std::abs(way(is[i], is[j]).metres - length);
                    QVERIFY2(error <= length * bound * (isMove ? 0.05 : 1.0) + 1e-8,
                             qPrintable(QString{"seed %1 round %2: %3 m of %4"}
                                            .arg(seed)
                                            .arg(round)
                                            .arg(error, 0, 'g', 4)
                                            .arg(length)));
                    worstLength = std::max(worstLength, error / length);
                }
                const std::size_t next = (i + 1) % was.size(), last = (i + was.size() - 1) % was.size();
                const double angle = way(was[i], was[next]).azimuth - way(was[i], was[last]).azimuth;
                const double angleNow = way(is[i], is[next]).azimuth - way(is[i], is[last]).azimuth;
                const double error = std::abs(std::remainder(angleNow - angle, 360.0)) * M_PI / 180.0;
                QVERIFY2(error <= bound + 1e-8 / reach / scale * 10, qPrintable(QString::number(error)));
            }
            const double area = areaOf(was) * scale * scale;
            worstArea = std::max(worstArea, std::abs(areaOf(is) - area) / area);
        }
        QVERIFY2(worstArea <= 3 * bound + 1e-9, qPrintable(QString::number(worstArea)));
        QVERIFY2(worstAngle <= bound + 1e-8 / (0.3 * reach * scale), qPrintable(QString::number(worstAngle)));
        qInfo("length %.2g, area %.2g, bearing from the pivot %.2g; stated %.2g", worstLength, worstArea, worstAngle,
              bound);
    }

    void movedBy_goesEastAndNorth() {
        for (const double lat : {-60.0, 0.0, 46.2, 80.0}) {
            const Position start{179.9, lat};
            const auto east = airspace::movedBy(start, Length::metres(500), {});
            const Way eastward = way(start, east.to);
            QVERIFY(std::abs(eastward.metres - 500) < 1e-4);
            QCOMPARE(east.to.lat, lat);
            // A parallel leaves the geodesic: its chord sets out to the pole's side by half the convergence.
            QVERIFY(std::abs(eastward.azimuth - 90) < 0.03);
            const Way northward = way(start, airspace::movedBy(start, {}, Length::metres(500)).to);
            QVERIFY(std::abs(northward.metres - 500) < 1e-8);
            QVERIFY(std::abs(northward.azimuth) < 1e-9);
        }
    }
};

QTEST_APPLESS_MAIN(PlacingReferenceTest)
#include "placing_test.moc"
