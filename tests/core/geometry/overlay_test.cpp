#include "geometry/overlay.h"

#include "fault.h"
#include "geometry/containment.h"
#include "geometry/validity.h"

#include <QtTest>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <set>

using namespace fencewright;
using model::MultiPolygon;
using model::Polygon;

namespace {

MultiPolygon box(double west, double south, double east, double north) {
    return {{Polygon{{{{west, south}, {east, south}, {east, north}, {west, north}}}, {}}}};
}

/// Up to three rings with corners on a coarse grid or anywhere, valid or not.
MultiPolygon randomSurface(std::mt19937_64& random) {
    std::uniform_int_distribution<int> parts(1, 3), corners(3, 7), cell(0, 9);
    std::uniform_real_distribution<double> anywhere(0.0, 9.0);
    MultiPolygon surface;
    const bool grid = cell(random) < 6;
    for (int part = parts(random); part > 0; --part) {
        Polygon polygon;
        for (int corner = corners(random); corner > 0; --corner)
            polygon.shell.corners.push_back(grid ? model::Position{1.0 * cell(random), 1.0 * cell(random)}
                                                 : model::Position{anywhere(random), anywhere(random)});
        surface.parts.push_back(polygon);
    }
    return surface;
}

double planeArea(const model::Ring& ring) {
    double twice = 0.0;
    for (std::size_t i = 0; i < ring.corners.size(); ++i) {
        const auto &a = ring.corners[i], &b = ring.corners[(i + 1) % ring.corners.size()];
        twice += a.lon * b.lat - b.lon * a.lat;
    }
    return std::abs(twice) / 2.0;
}
double planeArea(const MultiPolygon& surface) {
    double area = 0.0;
    for (const auto& part : surface.parts) {
        area += planeArea(part.shell);
        for (const auto& hole : part.holes)
            area -= planeArea(hole);
    }
    return area;
}

} // namespace

class OverlayTest : public QObject {
    Q_OBJECT

private slots:
    void overlay_ofBoxes() {
        const auto a = box(0, 0, 2, 2), b = box(1, 1, 3, 3);
        QVERIFY(geometry::sameArea(geometry::intersection(a, b), box(1, 1, 2, 2)));
        const std::vector<MultiPolygon> both{a, b};
        const auto whole = geometry::united(both);
        QVERIFY(geometry::contains(whole, a));
        QVERIFY(geometry::contains(whole, b));
        QVERIFY(geometry::sameArea(geometry::difference(whole, b), geometry::difference(a, b)));
        QVERIFY(geometry::intersection(geometry::difference(a, b), b).empty());
    }

    void overlay_bringsTurnsTogether() {
        const auto east = box(179, 0, 181, 1), west = box(-180.5, 0, -179.5, 1);
        QVERIFY(geometry::sameArea(geometry::intersection(east, west), box(179.5, 0, 180.5, 1)));
    }

    // RFC 7946 section 3.1.9: the rectangle 40-50 N, 170 E - 170 W, printed there as two.
    void cutAtAntimeridian_cutsAsTheStandardShows_data() {
        QTest::addColumn<double>("west");
        QTest::addColumn<double>("east");
        QTest::newRow("beyond 180") << 170.0 << 190.0;
        QTest::newRow("below -180") << -190.0 << -170.0;
        QTest::newRow("a turn off") << 530.0 << 550.0;
    }
    void cutAtAntimeridian_cutsAsTheStandardShows() {
        QFETCH(double, west);
        QFETCH(double, east);
        const auto cut = geometry::cutAtAntimeridian(box(west, 40, east, 50));
        QCOMPARE(cut.parts.size(), std::size_t{2});
        const auto corners = [&](std::size_t part) {
            std::set<std::pair<double, double>> found;
            for (const auto& corner : cut.parts[part].shell.corners)
                found.emplace(corner.lon, corner.lat);
            return found;
        };
        const std::set<std::pair<double, double>> eastern{{180, 40}, {180, 50}, {170, 50}, {170, 40}};
        const std::set<std::pair<double, double>> western{{-170, 40}, {-170, 50}, {-180, 50}, {-180, 40}};
        QVERIFY(corners(0) == eastern && corners(1) == western);
        for (const auto& part : cut.parts)
            QCOMPARE(part.shell.corners.size(), std::size_t{4});
    }

    void cutAtAntimeridian_leavesTheRestAsItIs() {
        const auto one = box(170, 40, 180, 50);
        QVERIFY(geometry::sameArea(geometry::cutAtAntimeridian(one), one));
        QVERIFY(geometry::cutAtAntimeridian({}).empty());
        QVERIFY_EXCEPTION_THROWN((void)geometry::cutAtAntimeridian(box(0, 0, 1e6, 1)), Fault);
    }

    void overlay_refusesNumbersThatAreNone() {
        auto bad = box(0, 0, 1, 1);
        bad.parts[0].shell.corners[1].lat = std::numeric_limits<double>::quiet_NaN();
        QVERIFY_EXCEPTION_THROWN((void)geometry::difference(bad, box(0, 0, 1, 1)), Fault);
    }

    // Two equal surfaces, of which the rings begin elsewhere: free overlay of GEOS 3.11.1 left a triangle of an eighth
    // of the area in one direction, and nothing on the grid.
    void difference_ofEqualSurfaces_isNothing() {
        const auto surface = [](std::vector<std::vector<model::Position>> rings) {
            MultiPolygon all;
            for (auto& ring : rings)
                all.parts.push_back({{std::move(ring), false}, {}});
            return all;
        };
        const auto a = surface({{{179.990003, 70.100003},
                                 {179.990002, 70.100003},
                                 {179.990002, 70.100004},
                                 {179.990003, 70.100004},
                                 {179.990003, 70.100005},
                                 {179.99000175999998, 70.100005},
                                 {179.99000217, 70.10000541},
                                 {179.99000117, 70.10000640999999},
                                 {179.99000017, 70.10000541},
                                 {179.990001, 70.10000457999999},
                                 {179.990001, 70.10000360000001},
                                 {179.99000137000002, 70.10000323},
                                 {179.990001, 70.10000285999999},
                                 {179.990001, 70.10000235},
                                 {179.98999906, 70.10000040999999},
                                 {179.99000106, 70.09999841},
                                 {179.99000306, 70.10000040999999},
                                 {179.99000246999998, 70.10000099999999},
                                 {179.990003, 70.10000099999999}},
                                {{179.99000534500001, 70.10000423499999},
                                 {179.99000534, 70.10000423},
                                 {179.990006165, 70.10000340500001},
                                 {179.99000617000002, 70.10000341}}});
        auto b = a;
        const auto begin = [](model::Ring& ring, int corner) {
            std::rotate(ring.corners.begin(), ring.corners.begin() + corner, ring.corners.end());
        };
        begin(b.parts[0].shell, 17);
        begin(b.parts[1].shell, 2);
        const double area = planeArea(geometry::united(std::vector{a}));
        QVERIFY(area > 1e-11);
        for (const auto& [from, removed] : {std::pair{a, b}, std::pair{b, a}}) {
            QVERIFY(planeArea(geometry::difference(from, removed)) < 1e-6 * area);
            QVERIFY(std::abs(planeArea(geometry::intersection(from, removed)) - area) < 1e-6 * area);
        }
    }

    // Corners move by half a grid step of 1e-12 degrees and edges bend by no more than a whole one: along twenty edges
    // up to 13 long that is an area under 3e-10. Seed 1555 is the one on which free floating point overlay gave 12
    // square degrees too much.
    void overlay_keepsItsPromisesOnRandomSurfaces() {
        constexpr double rounding = 1e-9;
        int met = 0;
        for (std::uint64_t seed = 801; seed <= 1800; ++seed) {
            std::mt19937_64 random{seed};
            const auto a = randomSurface(random), b = randomSurface(random);
            const auto failure = QString{"seed %1"}.arg(seed);
            const auto whole = geometry::united(std::vector{a, b});
            const auto common = geometry::intersection(a, b), rest = geometry::difference(a, b);
            for (const auto* result : {&whole, &common, &rest})
                for (const auto& part : result->parts)
                    QVERIFY2(geometry::isValid(part), qPrintable(failure));
            for (const auto& part : {a, b})
                QVERIFY2(planeArea(geometry::difference(part, whole)) <= rounding, qPrintable(failure));
            const double doubled = planeArea(geometry::intersection(rest, b));
            QVERIFY2(doubled <= rounding, qPrintable(failure + QString{", %1"}.arg(doubled)));
            const double areaA = planeArea(geometry::united(std::vector{a})),
                         areaB = planeArea(geometry::united(std::vector{b}));
            QVERIFY2(std::abs(areaA - planeArea(common) - planeArea(rest)) <= rounding, qPrintable(failure));
            QVERIFY2(std::abs(areaA + areaB - planeArea(common) - planeArea(whole)) <= rounding, qPrintable(failure));
            met += !common.empty();
        }
        QVERIFY(met > 500);
    }
};

QTEST_APPLESS_MAIN(OverlayTest)
#include "overlay_test.moc"
