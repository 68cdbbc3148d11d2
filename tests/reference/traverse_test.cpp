#include <QtTest>

#include "fault.h"
#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/offset.h"
#include "geometry/traverse.h"

#include <numbers>
#include <random>

using namespace fencewright;
using geometry::Course;
using geometry::Turn;
using units::System;

namespace {

// J. Mahun, Open Access Surveying Library, Traverse Computations, chapters G and I: the four courses, their misclosure,
// the coordinates by the compass rule and the cross products of the area. Feet.
constexpr auto kMahun = "S 68°05'35\" W 472.68 ft\n"
                        "N 19°46'00\" W 216.13 ft\n"
                        "N 45°55'20\" E 276.52 ft\n"
                        "S 54°59'15\" E 382.24 ft\n";

double feet(double metres) { return Length::metres(metres).inFeet(); }

} // namespace

class TraverseTest : public QObject {
    Q_OBJECT

private slots:
    void published_misclosure() {
        const auto figure = geometry::figureOf(geometry::parseCourses(kMahun, System::Us));
        const auto closure = geometry::closureOf(figure);
        QCOMPARE_LE(std::abs(feet(closure.northMetres) - 0.083), 0.0006);
        QCOMPARE_LE(std::abs(feet(closure.eastMetres) - 0.074), 0.0006); // the book, of rounded departures: 0.075
        QCOMPARE_LE(std::abs(closure.perimeter.inFeet() - 1347.57), 1e-6);
        QCOMPARE_LE(std::abs(closure.misclosure.inFeet() - 0.111), 0.0006);
        QCOMPARE_LE(std::abs(*closure.precision - 12'100.0), 50.0); // 1 : 12 100, rounded to hundreds
    }
    void published_latitudesAndDepartures() {
        const auto figure = geometry::figureOf(geometry::parseCourses(kMahun, System::Us));
        const double expected[4][2] = {
            {-176.357, -438.548}, {203.395, -73.093}, {192.357, 198.651}, {-219.312, 313.065}};
        for (std::size_t i = 0; i < 4; ++i) {
            QCOMPARE_LE(std::abs(feet(figure.points[i + 1].y - figure.points[i].y) - expected[i][0]), 0.0011);
            QCOMPARE_LE(std::abs(feet(figure.points[i + 1].x - figure.points[i].x) - expected[i][1]), 0.0011);
        }
    }
    void published_compassRule() {
        const auto figure =
            geometry::closedByCompassRule(geometry::figureOf(geometry::parseCourses(kMahun, System::Us)));
        const double expected[5][2] = {
            {500.000, 2000.000}, {323.614, 1561.426}, {526.996, 1488.321}, {719.336, 1686.956}, {500.000, 2000.000}};
        for (std::size_t i = 0; i < 5; ++i) {
            QCOMPARE_LE(std::abs(500.0 + feet(figure.points[i].y) - expected[i][0]), 0.0015);
            QCOMPARE_LE(std::abs(2000.0 + feet(figure.points[i].x) - expected[i][1]), 0.0015);
        }
        const auto closure = geometry::closureOf(figure);
        QVERIFY(!closure.precision);
        // Half the difference of the book's sums of cross products, 3 590 045.6 and 3 384 174.1 square feet.
        QCOMPARE_LE(std::abs(closure.area.inSquareFeet() - (3'590'045.6 - 3'384'174.1) / 2.0), 1.0);
        QCOMPARE_LE(std::abs(closure.area.inAcres() - 2.3631), 0.0001);
    }
    void textbookTraverse_fromMemory() {
        // Ghilani and Wolf, Elementary Surveying, five-sided example, from memory: 0.88 ft, area 272 600 ft2.
        const auto figure = geometry::figureOf(geometry::parseCourses("N 26°10' E 285.10\nS 75°25' E 610.45\n"
                                                                      "S 15°30' W 720.48\nN 1°42' W 203.00\n"
                                                                      "N 53°06' W 647.02\n",
                                                                      System::Us));
        QCOMPARE_LE(std::abs(geometry::closureOf(figure).misclosure.inFeet() - 0.88), 0.005);
        const auto closed = geometry::closureOf(geometry::closedByCompassRule(figure));
        QCOMPARE_LE(std::abs(closed.area.inSquareFeet() - 272'600.0), 100.0);
        QCOMPARE_LE(std::abs(closed.area.inAcres() - 6.258), 0.001);
    }
    void sectionOfLand_isSixHundredAndFortyAcres() {
        // Definition: a section is 80 chains square. Manual of Surveying Instructions, from memory.
        const auto closure = geometry::closureOf(geometry::figureOf(
            geometry::parseCourses("north 80 ch\neast 80 ch\nsouth 80 ch\nwest 80 ch", System::Metric)));
        QVERIFY(!closure.precision);
        QCOMPARE_LE(std::abs(closure.area.inAcres() - 640.0), 1e-9);
    }

    void quarterCircle_hasItsArcAndItsArea() {
        // Geometry: a sector of a quarter turn of radius 100 m has pi 100^2 / 4 square metres.
        const auto courses =
            geometry::parseCourses("N 100 m\ncurve right, radius 100 m, angle 90, chord S 45 E 141.4213562 m\n"
                                   "W 100 m\n",
                                   System::Metric);
        QVERIFY(courses[1].curve.has_value());
        const auto closure = geometry::closureOf(geometry::figureOf(courses));
        QCOMPARE_LE(closure.misclosure.inMetres(), 1e-6);
        QCOMPARE_LE(std::abs(closure.area.inSquareMetres() - std::numbers::pi * 2500.0), 1e-3);
        QCOMPARE_LE(std::abs(closure.perimeter.inMetres() - (200.0 + std::numbers::pi * 50.0)), 1e-6);
    }
    void tangentCurve_runsOnFromTheCourseBefore() {
        const auto courses =
            geometry::parseCourses("N 50 m\ncurve left, radius 100 m, arc 157.0796327 m\nW 10 m", System::Metric);
        QCOMPARE_LE(std::abs(courses[1].azimuth.inDegrees() - 315.0), 1e-6); // half a quarter turn to the left of north
        QCOMPARE_LE(std::abs(courses[1].length.inMetres() - 141.4213562), 1e-6);
        const auto figure = geometry::figureOf(courses);
        QCOMPARE_LE(std::abs(figure.points[2].x + 100.0), 1e-6);
        QCOMPARE_LE(std::abs(figure.points[2].y - 150.0), 1e-6);
    }

    void ring_liesOnTheGroundAsTheDeedSays() {
        // Lengths and directions between corners by the geodesics of tests/reference/geodesics_test.cpp.
        const auto courses = geometry::parseCourses(kMahun, System::Us);
        const double declination = 7.25;
        const auto ring = geometry::ringOf(geometry::figureOf(courses), {{-8.5, 62.0}, Angle::degrees(declination)},
                                           geometry::Side::Grow);
        QCOMPARE(ring.corners.size(), std::size_t{5}); // it does not close: the last corner stays
        for (std::size_t i = 0; i < 4; ++i) {
            const auto leg = geodesy::inverse(ring.corners[i], ring.corners[i + 1]);
            QCOMPARE_LE(std::abs(leg.length / courses[i].length - 1.0), 1e-8);
            const double off = leg.azimuthAtStart.inDegrees() - courses[i].azimuth.inDegrees() - declination;
            QCOMPARE_LE(std::abs(std::remainder(off, 360.0)), 0.003); // the meridians converge by 0.002 over 140 m
        }
    }

    void arcs_areOnTheSafeSide() {
        // 1,000 rounded oblongs and bites: the exact figure is approached by corners on the arc, a hundred times finer.
        constexpr unsigned seed = 4711;
        std::mt19937_64 random{seed};
        const auto between = [&](double low, double high) {
            return std::uniform_real_distribution<double>{low, high}(random);
        };
        for (int i = 0; i < 1'000; ++i) {
            const double radius = between(5.0, 800.0), angle = between(2.0, 300.0);
            const double chord = 2.0 * radius * std::sin(angle / 2.0 * M_PI / 180.0);
            const bool outwards = i % 2 == 0;
            // Two long sides, the arc at the far end; clockwise, so that a curve to the right bulges outwards.
            const double side = 4.0 * radius + 10.0;
            std::vector<Course> courses{
                {Angle::degrees(0), Length::metres(side), std::nullopt},
                {Angle::degrees(90), Length::metres(chord),
                 Course::Curve{Length::metres(radius), Angle::degrees(angle), outwards ? Turn::Right : Turn::Left}},
                {Angle::degrees(180), Length::metres(side), std::nullopt}};
            // An arc over half a circle is wider than its chord: set off, so that it crosses no side.
            if (angle > 180.0) {
                const double off = radius;
                courses[0].length = Length::metres(side);
                courses.insert(courses.begin() + 1, Course{Angle::degrees(90), Length::metres(off), std::nullopt});
                courses.insert(courses.begin() + 3, Course{Angle::degrees(90), Length::metres(off), std::nullopt});
            }
            const auto figure = geometry::figureOf(courses);
            const geometry::TraversePlacement placement{{between(-180, 180), between(-70, 70)},
                                                        Angle::degrees(between(0, 360))};
            const double tolerance = between(0.005, 0.5);
            const auto surface = [&](geometry::Side which, double near) {
                return model::MultiPolygon{{{geometry::ringOf(figure, placement, which, Length::metres(near)), {}}}};
            };
            const auto grown = surface(geometry::Side::Grow, tolerance);
            const auto shrunk = surface(geometry::Side::Shrink, tolerance);
            const auto finer = surface(geometry::Side::Grow, tolerance / 100.0);
            const auto finerWithin = surface(geometry::Side::Shrink, tolerance / 100.0);
            const auto words = QString{"seed %1, case %2: radius %3, angle %4"}.arg(seed).arg(i).arg(radius).arg(angle);
            QVERIFY2(geometry::contains(grown, finerWithin), qPrintable(words));
            QVERIFY2(geometry::contains(finer, shrunk), qPrintable(words));
            // And not farther than was allowed: no corner of the one is farther from the other's boundary.
            if (i % 50 == 0)
                for (const auto& corner : grown.parts[0].shell.corners)
                    QCOMPARE_LE(geometry::distanceToBoundary(finer, corner).inMetres(), tolerance * 1.02 + 0.002);
        }
    }

    void refusals_nameTheLine_data() {
        QTest::addColumn<QString>("deed");
        QTest::addColumn<QString>("words");
        QTest::newRow("no length") << "N 45 E 10 m\nN 45 E"
                                   << "no length";
        QTest::newRow("no direction") << "N 45 E 10 m\nthence to the oak 10 m"
                                      << "no direction";
        QTest::newRow("zero") << "N 45 E 10 m\nS 1 E 0 m"
                              << "not over zero";
        QTest::newRow("curve without a turn") << "N 45 E 10 m\ncurve radius 10 m arc 3 m"
                                              << "left or right";
        QTest::newRow("curve without a radius") << "N 45 E 10 m\ncurve left arc 3 m"
                                                << "no radius";
        QTest::newRow("curve without a length") << "N 45 E 10 m\ncurve left radius 3 m"
                                                << "needs its arc";
        QTest::newRow("curve at the start") << "# a deed\ncurve left radius 3 m arc 2 m"
                                            << "first course is a curve";
        QTest::newRow("arc and angle apart") << "N 45 E 10 m\ncurve left radius 10 m arc 3 m angle 40"
                                             << "do not agree";
        QTest::newRow("chord too long") << "N 45 E 10 m\ncurve left radius 10 m chord N 3 E 30 m"
                                        << "twice the radius";
        QTest::newRow("over 90") << "N 45 E 10 m\nN 95 E 10 m"
                                 << "over 90";
    }
    void refusals_nameTheLine() {
        QFETCH(QString, deed);
        QFETCH(QString, words);
        try {
            (void)geometry::parseCourses(deed.toStdString(), System::Metric);
            QFAIL("it was taken");
        } catch (const Fault& fault) {
            QVERIFY2(QString::fromStdString(fault.problem()).contains(words), fault.what());
            QVERIFY2(QString::fromStdString(fault.place()).startsWith("line 2"), fault.what());
        }
    }
    void notations_mean() {
        const auto one = [](const char* text, System system = System::Metric) {
            return geometry::parseCourses(text, system).front();
        };
        QCOMPARE(one("120 m 45"), (Course{Angle::degrees(45), Length::metres(120), std::nullopt}));
        QCOMPARE(one("45 120 m"), (Course{Angle::degrees(45), Length::metres(120), std::nullopt}));
        QCOMPARE(one("20 ch S 45 W"), (Course{Angle::degrees(225), Length::chains(20), std::nullopt}));
        QCOMPARE(one("N 45 E, 100 ftUS"), (Course{Angle::degrees(45), Length::usSurveyFeet(100), std::nullopt}));
        QCOMPARE(one("N 45 E 100", System::Us), (Course{Angle::degrees(45), Length::feet(100), std::nullopt}));
        QCOMPARE(one("N 45 30 E 100'"), (Course{Angle::degrees(45.5), Length::feet(100), std::nullopt}));
    }
    void figure_withoutThreeCorners_isRefused() {
        const auto figure = geometry::figureOf(geometry::parseCourses("N 100 m\nS 100 m", System::Metric));
        QVERIFY_THROWS_EXCEPTION(Fault, (void)geometry::ringOf(figure, {{0, 0}, Angle{}}, geometry::Side::Grow));
        const auto far = geometry::figureOf(geometry::parseCourses("N 30 km\nE 1 km", System::Metric));
        QVERIFY_THROWS_EXCEPTION(Fault, (void)geometry::ringOf(far, {{0, 0}, Angle{}}, geometry::Side::Grow));
    }
};

QTEST_APPLESS_MAIN(TraverseTest)
#include "traverse_test.moc"
