#include "geometry/validity.h"

#include "geometry/containment.h"
#include "geometry/overlay.h"
#include "support/topology_cases.h"

#include <QtTest>

#include <chrono>
#include <cmath>
#include <limits>
#include <random>

using namespace fencewright;
using geometry::FaultKind;
using geometry::Side;
using model::MultiPolygon;
using model::Polygon;
using model::Position;

namespace {

Polygon polygon(const char* wkt) { return tests::surfaceFromWkt(wkt)->parts.front(); }

/// How often the ring goes round the place: the winding number, by the angle that it sweeps; and the parity of
/// crossings. Sound for places that are not close to the ring.
int winding(const model::Ring& ring, Position place) {
    double angle = 0.0;
    for (std::size_t i = 0; i < ring.corners.size(); ++i) {
        const auto &a = ring.corners[i], &b = ring.corners[(i + 1) % ring.corners.size()];
        const double ax = a.lon - place.lon, ay = a.lat - place.lat, bx = b.lon - place.lon, by = b.lat - place.lat;
        angle += std::atan2(ax * by - ay * bx, ax * bx + ay * by);
    }
    return static_cast<int>(std::lround(angle / (2.0 * M_PI)));
}

double distanceToRing(const model::Ring& ring, Position place) {
    double least = std::numeric_limits<double>::max();
    for (std::size_t i = 0; i < ring.corners.size(); ++i) {
        const auto &a = ring.corners[i], &b = ring.corners[(i + 1) % ring.corners.size()];
        const double dx = b.lon - a.lon, dy = b.lat - a.lat, square = dx * dx + dy * dy;
        const double share =
            square == 0.0 ? 0.0 : std::clamp(((place.lon - a.lon) * dx + (place.lat - a.lat) * dy) / square, 0.0, 1.0);
        least = std::min(least, std::hypot(place.lon - a.lon - share * dx, place.lat - a.lat - share * dy));
    }
    return least;
}

Polygon randomBad(std::mt19937_64& random) {
    std::uniform_int_distribution<int> kind(0, 4), corners(3, 9), cell(0, 8);
    std::uniform_real_distribution<double> anywhere(0.0, 8.0);
    const bool grid = kind(random) < 3; // corners on corners, edges along edges
    const auto ring = [&] {
        model::Ring result;
        const int count = corners(random);
        for (int i = 0; i < count; ++i)
            result.corners.push_back(grid ? Position{1.0 * cell(random), 1.0 * cell(random)}
                                          : Position{anywhere(random), anywhere(random)});
        if (kind(random) == 0) // out and back
            result.corners.insert(result.corners.begin() + 1, {result.corners[0], {9.0, 4.0}, result.corners[0]});
        return result;
    };
    Polygon result{ring(), {}};
    for (int holes = kind(random); holes > 1; --holes)
        result.holes.push_back(ring());
    return result;
}

} // namespace

class ValidityTest : public QObject {
    Q_OBJECT

private slots:
    // OGC 06-103r4 (ISO 19125-1) section 6.1.11: the assertions (a) to (f) on polygons, a case each; places by hand.
    void faults_findsEachKindAtItsPlace_data() {
        QTest::addColumn<QString>("wkt");
        QTest::addColumn<int>("kind");
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        QTest::addColumn<int>("ring");
        const auto row = [](const char* name, const char* wkt, FaultKind kind, double lon, double lat, int ring = 0) {
            QTest::newRow(name) << wkt << static_cast<int>(kind) << lon << lat << ring;
        };
        row("bow-tie", "POLYGON((0 0, 4 4, 4 0, 0 4, 0 0))", FaultKind::SelfCrossing, 2, 2);
        row("crossing in a corner", "POLYGON((0 0, 2 2, 4 4, 4 0, 2 2, 0 4, 0 0))", FaultKind::SelfCrossing, 2, 2);
        row("edge along itself", "POLYGON((0 0, 4 0, 4 2, 2 2, 2 0, 3 0, 3 -2, 0 -2, 0 0))", FaultKind::SelfCrossing, 2,
            0);
        row("shell touching itself to make a hole", "POLYGON((0 0, 4 0, 4 4, 2 0, 0 4, 0 0))", FaultKind::SelfTouching,
            2, 0);
        row("two rooms that meet in a corner", "POLYGON((0 0, 2 2, 4 0, 4 4, 2 2, 0 4, 0 0))", FaultKind::SelfTouching,
            2, 2);
        row("spike of zero width", "POLYGON((0 0, 4 0, 4 2, 9 2, 4 2, 4 4, 0 4, 0 0))", FaultKind::Spike, 9, 2);
        row("spike inwards", "POLYGON((0 0, 4 0, 4 2, 1 2, 4 2, 4 4, 0 4, 0 0))", FaultKind::Spike, 1, 2);
        row("spike at the beginning", "POLYGON((0 9, 0 0, 4 0, 4 4, 0 4, 0 9))", FaultKind::Spike, 0, 9);
        row("spike of several corners", "POLYGON((0 0, 4 0, 4 2, 6 2, 9 3, 6 2, 4 2, 4 4, 0 4, 0 0))", FaultKind::Spike,
            9, 3);
        row("hole outside", "POLYGON((0 0, 4 0, 4 4, 0 4, 0 0),(5 5, 6 5, 6 6, 5 5))", FaultKind::HoleOutside, 5, 5, 1);
        row("hole round the shell", "POLYGON((0 0, 4 0, 4 4, 0 4, 0 0),(-9 -9, 9 -9, 9 9, -9 9, -9 -9))",
            FaultKind::HoleOutside, -9, -9, 1);
        row("hole sharing an edge", "POLYGON((0 0, 4 0, 4 4, 0 4, 0 0),(0 1, 2 1, 2 3, 0 3, 0 1))",
            FaultKind::HoleOutside, 0, 1, 1);
        row("hole crossing", "POLYGON((0 0, 4 0, 4 4, 0 4, 0 0),(3 1, 5 1, 3 2, 3 1))", FaultKind::HoleOutside, 4, 1,
            1);
        row("hole in a hole", "POLYGON((0 0, 9 0, 9 9, 0 9, 0 0),(1 1, 8 1, 8 8, 1 8, 1 1),(3 3, 4 3, 4 4, 3 3))",
            FaultKind::HolesNested, 3, 3, 2);
        row("the same hole twice", "POLYGON((0 0, 9 0, 9 9, 0 9, 0 0),(1 1, 2 1, 2 2, 1 1),(1 1, 2 1, 2 2, 1 1))",
            FaultKind::HolesNested, 1, 1, 2);
        row("hole touching the shell twice", "POLYGON((0 0, 4 0, 4 4, 0 4, 0 0),(2 0, 3 2, 2 4, 1 2, 2 0))",
            FaultKind::InteriorInPieces, 2, 4, 1);
        row("three holes in a round",
            "POLYGON((0 0, 9 0, 9 9, 0 9, 0 0),(2 2, 4 2, 2 4, 2 2),(4 2, 6 2, 6 4, 4 2),"
            "(2 4, 6 4, 4 6, 2 4))",
            FaultKind::InteriorInPieces, 6, 4, 3);
        row("repeated corner", "POLYGON((0 0, 4 0, 4 0, 4 4, 0 0))", FaultKind::RepeatedCorner, 4, 0);
        row("two corners", "POLYGON((0 0, 4 0, 0 0))", FaultKind::TooFewCorners, 0, 0);
        row("three corners on a line", "POLYGON((0 0, 4 0, 2 0, 0 0))", FaultKind::Spike, 4, 0);
    }
    void faults_findsEachKindAtItsPlace() {
        QFETCH(QString, wkt);
        QFETCH(int, kind);
        QFETCH(double, lon);
        QFETCH(double, lat);
        QFETCH(int, ring);
        const auto faults = geometry::faults(polygon(qPrintable(wkt)));
        bool found = false;
        for (const auto& fault : faults) {
            found = found || (static_cast<int>(fault.kind) == kind && std::abs(fault.place.lon - lon) < 1e-12 &&
                              std::abs(fault.place.lat - lat) < 1e-12 && fault.ring == static_cast<std::size_t>(ring));
            QVERIFY2(static_cast<int>(fault.kind) == kind || kind == static_cast<int>(FaultKind::Spike),
                     qPrintable(QString{"also kind %1"}.arg(static_cast<int>(fault.kind))));
        }
        QVERIFY2(found, qPrintable(QString{"%1 faults"}.arg(faults.size())));
        QCOMPARE(geometry::isValid(polygon(qPrintable(wkt))), kind == static_cast<int>(FaultKind::RepeatedCorner));
    }

    // The same section: what is valid.
    void faults_areNoneWhereRingsTouchAsTheyMay_data() {
        QTest::addColumn<QString>("wkt");
        QTest::newRow("hole touching the shell in a point")
            << "POLYGON((0 0, 4 0, 4 4, 0 4, 0 0),(2 0, 3 2, 1 2, 2 0))";
        QTest::newRow("two holes touching")
            << "POLYGON((0 0, 9 0, 9 9, 0 9, 0 0),(2 2, 4 2, 2 4, 2 2),(4 2, 6 2, 6 4, 4 2))";
        QTest::newRow("three holes in one point")
            << "POLYGON((0 0, 9 0, 9 9, 0 9, 0 0),(4 4, 5 2, 3 2, 4 4),(4 4, 6 5, 6 4, 4 4),"
               "(4 4, 2 5, 2 4, 4 4))";
        QTest::newRow("corner on a straight edge") << "POLYGON((0 0, 2 0, 4 0, 4 4, 0 4, 0 0))";
    }
    void faults_areNoneWhereRingsTouchAsTheyMay() {
        QFETCH(QString, wkt);
        QVERIFY(geometry::faults(polygon(qPrintable(wkt))).empty());
        QVERIFY(geometry::isValid(polygon(qPrintable(wkt))));
    }

    void faults_reportsAllAndNotOnlyTheFirst() {
        // A zigzag across a line: nine crossings.
        Polygon comb{{{{-1, 0}, {10, 0}, {10, 9}}}, {}};
        for (int i = 9; i >= 0; --i)
            comb.shell.corners.push_back({i + 0.5, i % 2 ? 1.0 : -1.0});
        const auto faults = geometry::faults(comb);
        QVERIFY2(faults.size() >= 9, qPrintable(QString::number(faults.size())));
        for (const auto& fault : faults)
            QCOMPARE(fault.kind, FaultKind::SelfCrossing);
        QCOMPARE(geometry::faults(comb, 3).size(), std::size_t{3});
    }

    void faults_reportsNumbersThatAreNone() {
        const double nan = std::numeric_limits<double>::quiet_NaN(), infinite = std::numeric_limits<double>::infinity();
        const auto faults = geometry::faults({{{{0, 0}, {nan, 1}, {1, 1}, {2, infinite}}, true}, {}});
        QCOMPARE(faults.size(), std::size_t{2});
        QCOMPARE(faults[0].kind, FaultKind::NotFinite);
        QVERIFY(!geometry::isValid({{{{0, 0}, {nan, 1}, {1, 1}}}, {}}));
        const auto open = geometry::faults({{{{0, 0}, {1, 0}, {1, 1}}, true}, {}});
        QCOMPARE(open.size(), std::size_t{1});
        QCOMPARE(open[0].kind, FaultKind::ClosureAssumed);
    }

    // A second opinion from the library behind isValid.
    void faults_agreeWithIsValidOnRandomRings() {
        int valid = 0;
        for (std::uint64_t seed = 1; seed <= 20000; ++seed) {
            std::mt19937_64 random{seed};
            const auto one = randomBad(random);
            auto faults = geometry::faults(one);
            std::erase_if(faults, [](const auto& fault) { return fault.kind == FaultKind::RepeatedCorner; });
            valid += faults.empty();
            QVERIFY2(faults.empty() == geometry::isValid(one), qPrintable(QString{"seed %1"}.arg(seed)));
        }
        QVERIFY2(valid > 500, qPrintable(QString::number(valid)));
    }

    void faults_surviveAMillionCorners() {
        Polygon rough, smooth;
        std::mt19937_64 random{7};
        std::uniform_real_distribution<double> noise(0.9, 1.0);
        for (int i = 0; i < 1'000'000; ++i) {
            const double angle = 2.0 * M_PI * i / 1e6, radius = 0.1 * noise(random);
            rough.shell.corners.push_back({10.0 + radius * std::cos(angle), 50.0 + radius * std::sin(angle)});
            smooth.shell.corners.push_back({10.0 + 0.1 * std::cos(angle), 50.0 + 0.1 * std::sin(angle)});
        }
        QVERIFY(geometry::faults(smooth).empty());
        // A million near-parallel edges: too many pairs to look at, and it says so instead of calling them sound.
        const auto given = geometry::faults(rough);
        QCOMPARE(given.size(), std::size_t{1});
        QCOMPARE(given[0].kind, FaultKind::TooIntricate);
        std::shuffle(rough.shell.corners.begin(), rough.shell.corners.end(), random);
        QCOMPARE(geometry::faults(rough).size(), std::size_t{20});
    }

    // The readings are counted here by angle and by parity, at random places; the repair may only err to its side.
    void repaired_keepsToTheSafeSideOfEveryReading() {
        int enclosed = 0, open = 0;
        for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
            std::mt19937_64 random{seed};
            const auto bad = randomBad(random);
            const auto grown = geometry::repaired(bad, Side::Grow), shrunk = geometry::repaired(bad, Side::Shrink);
            for (const auto* result : {&grown, &shrunk})
                for (const auto& part : result->surface.parts)
                    QVERIFY2(geometry::isValid(part), qPrintable(QString{"seed %1"}.arg(seed)));
            QVERIFY2(geometry::contains(grown.surface, shrunk.surface) ||
                         geometry::difference(shrunk.surface, grown.surface).empty(),
                     qPrintable(QString{"seed %1"}.arg(seed)));
            const geometry::PreparedSurface large{grown.surface}, small{shrunk.surface};
            std::uniform_real_distribution<double> anywhere(-0.5, 9.5);
            for (int i = 0; i < 20; ++i) {
                const Position place{anywhere(random), anywhere(random)};
                double clearance = distanceToRing(bad.shell, place);
                for (const auto& hole : bad.holes)
                    clearance = std::min(clearance, distanceToRing(hole, place));
                if (clearance < 1e-6)
                    continue;
                const int round = winding(bad.shell, place);
                bool odd = round % 2 != 0, wound = round != 0, inHole = false;
                for (const auto& hole : bad.holes) {
                    const int roundHole = winding(hole, place);
                    odd = odd != (roundHole % 2 != 0);
                    inHole = inHole || roundHole != 0;
                }
                wound = wound && !inHole;
                if (odd || wound) {
                    ++enclosed;
                    QVERIFY2(large.contains(place), qPrintable(QString{"seed %1"}.arg(seed)));
                }
                if (!odd || !wound) {
                    ++open;
                    QVERIFY2(!small.contains(place), qPrintable(QString{"seed %1"}.arg(seed)));
                }
            }
        }
        QVERIFY(enclosed > 2000 && open > 2000);
    }

    void repaired_leavesTheValidAsItIs() {
        const auto good = polygon("POLYGON((0 0, 4 0, 4 4, 0 4, 0 0),(2 0, 3 2, 1 2, 2 0))");
        const auto result = geometry::repaired(good, Side::Shrink);
        QCOMPARE(result.surface.parts.size(), std::size_t{1});
        QVERIFY(result.surface.parts[0] == good);
        QCOMPARE(result.added, Area{});
    }

    void repaired_ofCommonFaults() {
        const auto grow = [](const char* wkt) { return geometry::repaired(polygon(wkt), Side::Grow); };
        const auto shrink = [](const char* wkt) { return geometry::repaired(polygon(wkt), Side::Shrink); };
        const auto surface = [](const char* wkt) { return *tests::surfaceFromWkt(wkt); };
        // Both lobes of a bow-tie are enclosed by any reading.
        const char* bowTie = "POLYGON((0 0, 4 4, 4 0, 0 4, 0 0))";
        const auto lobes = surface("MULTIPOLYGON(((0 0, 2 2, 0 4, 0 0)),((4 0, 4 4, 2 2, 4 0)))");
        QVERIFY(geometry::sameArea(grow(bowTie).surface, lobes));
        QVERIFY(geometry::sameArea(shrink(bowTie).surface, lobes));
        // A shell that makes a hole by touching itself: the safe side differs.
        const char* inverted = "POLYGON((0 0, 9 0, 9 9, 0 9, 0 0, 3 2, 5 5, 2 3, 0 0))";
        QVERIFY(geometry::sameArea(grow(inverted).surface, surface("POLYGON((0 0, 9 0, 9 9, 0 9, 0 0))")));
        QVERIFY(grow(inverted).added > Area{});
        QVERIFY(geometry::sameArea(shrink(inverted).surface,
                                   surface("POLYGON((0 0, 9 0, 9 9, 0 9, 0 0),(0 0, 3 2, 5 5, 2 3, 0 0))")));
        // A hole outside is kept closed by Grow, and left out by Shrink.
        const char* outside = "POLYGON((0 0, 4 0, 4 4, 0 4, 0 0),(5 5, 6 5, 6 6, 5 5))";
        QVERIFY(geometry::contains(grow(outside).surface, surface("POLYGON((5 5, 6 5, 6 6, 5 5))")));
        QVERIFY(geometry::sameArea(shrink(outside).surface, surface("POLYGON((0 0, 4 0, 4 4, 0 4, 0 0))")));
        QVERIFY(shrink(outside).removed > Area{});
        // A spike encloses nothing.
        QVERIFY(geometry::sameArea(grow("POLYGON((0 0, 4 0, 4 2, 9 2, 4 2, 4 4, 0 4, 0 0))").surface,
                                   surface("POLYGON((0 0, 4 0, 4 4, 0 4, 0 0))")));
        QVERIFY(shrink("POLYGON((0 0, 4 0, 2 0, 0 0))").surface.empty());
    }
};

QTEST_APPLESS_MAIN(ValidityTest)
#include "validity_test.moc"
