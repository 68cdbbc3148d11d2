// How far a straight lon/lat edge departs from the geodesic, against GeographicLib and against measured figures.

#include "geodesy/edge_meaning.h"
#include "geodesy/geodesic.h"

#include <GeographicLib/GeodesicExact.hpp>
#include <GeographicLib/GeodesicLineExact.hpp>

#include <QtTest>

#include <random>

using namespace fencewright;
using model::Position;

namespace {

/// The largest distance from a densely sampled edge to the geodesic, by searching the geodesic for the nearest point of
/// each: slow, and without any formula of ours.
double searched(Position from, Position to) {
    const auto& earth = GeographicLib::GeodesicExact::WGS84();
    const auto geodesic = earth.InverseLine(from.lat, from.lon, to.lat, to.lon);
    const double length = geodesic.Distance();
    const auto distance = [&](Position place, double along) {
        double lat = 0;
        double lon = 0;
        double metres = 0;
        geodesic.Position(along, lat, lon);
        earth.Inverse(lat, lon, place.lat, place.lon, metres);
        return metres;
    };
    double largest = 0;
    constexpr int samples = 60;
    for (int i = 1; i < samples; ++i) {
        const double t = static_cast<double>(i) / samples;
        const Position place{from.lon + t * (to.lon - from.lon), from.lat + t * (to.lat - from.lat)};
        double low = 0;
        double high = length;
        // A foot missed by d makes a distance of h too long by d^2 / 2h.
        while (high - low > 1e-6) {
            const double a = low + (high - low) * 0.381966;
            const double b = high - (high - low) * 0.381966;
            if (distance(place, a) < distance(place, b))
                high = b;
            else
                low = a;
        }
        largest = std::max(largest, distance(place, (low + high) / 2));
    }
    return largest;
}

} // namespace

class EdgeMeaningReferenceTest : public QObject {
    Q_OBJECT

private slots:
    // Edges running east, measured independently with GeographicLib's GeodSolve (two or three digits).
    void parting_matchesMeasuredFigures_data() {
        QTest::addColumn<double>("lat");
        QTest::addColumn<double>("kilometres");
        QTest::addColumn<double>("metres");
        QTest::addColumn<double>("tolerance");
        QTest::newRow("1 km at 0.1") << 0.1 << 1.0 << 0.00003 << 0.000006;
        QTest::newRow("1 km at 45") << 45.0 << 1.0 << 0.020 << 0.0006;
        QTest::newRow("1 km at 70") << 70.0 << 1.0 << 0.054 << 0.0006;
        QTest::newRow("10 km at 0.1") << 0.1 << 10.0 << 0.0034 << 0.00006;
        QTest::newRow("10 km at 45") << 45.0 << 10.0 << 1.96 << 0.006;
        QTest::newRow("10 km at 70") << 70.0 << 10.0 << 5.4 << 0.06;
        QTest::newRow("50 km at 0.1") << 0.1 << 50.0 << 0.09 << 0.006;
        QTest::newRow("50 km at 45") << 45.0 << 50.0 << 49.0 << 0.6;
        QTest::newRow("50 km at 70") << 70.0 << 50.0 << 134.0 << 1.0;
    }
    void parting_matchesMeasuredFigures() {
        QFETCH(double, lat);
        QFETCH(double, kilometres);
        QFETCH(double, metres);
        QFETCH(double, tolerance);
        const double parallel = geodesy::lengthOf({{0, lat}, {1, lat}}).inMetres();
        const double parting =
            geodesy::partingFromGeodesic({8, lat}, {8 + kilometres * 1000 / parallel, lat}).inMetres();
        QVERIFY2(std::abs(parting - metres) <= tolerance, qPrintable(QString::number(parting)));
    }

    void parting_matchesASearch() {
        constexpr unsigned seed = 100;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> unit{-1.0, 1.0};
        for (int round = 0; round < 250; ++round) {
            const Position from{180 * unit(random), 85 * unit(random)};
            const double reach = std::pow(10.0, 1.5 * unit(random) + 3.5); // 100 m to 100 km
            Position to = geodesy::direct(from, Angle::degrees(180 * unit(random)), Length::metres(reach));
            if (round % 4 == 0)
                to.lat = from.lat;
            if (round % 9 == 0)
                to.lat = -from.lat * 0.02;
            if (geodesy::inverse(from, to).length.inMetres() > 1e5)
                continue;
            const double expected = searched(from, to);
            const double parting = geodesy::partingFromGeodesic(from, to).inMetres();
            QVERIFY2(
                std::abs(parting - expected) <= 0.01 * expected + 1e-6,
                qPrintable(QString{"seed %1 round %2: %3, not %4"}.arg(seed).arg(round).arg(parting).arg(expected)));
        }
    }

    void parting_acrossTheEquatorHasTwoBows() {
        for (const auto& [from, to] :
             {std::pair{Position{0, -0.3}, Position{0.5, 0.3}}, std::pair{Position{0, -0.1}, Position{0.5, 0.4}},
              std::pair{Position{0, -0.001}, Position{0.8, 0.2}}}) {
            const double expected = searched(from, to);
            QVERIFY(expected > 1e-3);
            QVERIFY(std::abs(geodesy::partingFromGeodesic(from, to).inMetres() - expected) <= 0.01 * expected);
        }
    }
};

QTEST_APPLESS_MAIN(EdgeMeaningReferenceTest)
#include "edge_meaning_test.moc"
