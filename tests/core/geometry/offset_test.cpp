#include "geometry/offset.h"

#include "fault.h"
#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/validity.h"
#include "support/random_geometry.h"

#include <QtTest>

#include <cmath>
#include <limits>
#include <vector>

using namespace fencewright;
using geometry::Side;
using model::MultiPolygon;
using model::Position;
using tests::asWkt;

namespace {

constexpr int kCases = 1000;

bool allValid(const MultiPolygon& surface) {
    return std::all_of(surface.parts.begin(), surface.parts.end(),
                       [](const model::Polygon& part) { return geometry::isValid(part); });
}

/// Some corners of the boundary, and places along its edges.
std::vector<Position> someOf(const MultiPolygon& surface, tests::RandomGeometry& random, int count) {
    std::vector<const model::Ring*> rings;
    for (const auto& part : surface.parts) {
        rings.push_back(&part.shell);
        for (const auto& hole : part.holes)
            rings.push_back(&hole);
    }
    std::vector<Position> places;
    while (!rings.empty() && count-- > 0) {
        const auto& corners =
            rings[static_cast<std::size_t>(random.whole(0, static_cast<int>(rings.size()) - 1))]->corners;
        const auto i = static_cast<std::size_t>(random.whole(0, static_cast<int>(corners.size()) - 1));
        const auto &a = corners[i], &b = corners[(i + 1) % corners.size()];
        const double t = random.chance(0.5) ? 0.0 : random.between(0.0, 1.0);
        places.push_back({std::lerp(a.lon, b.lon, t), std::lerp(a.lat, b.lat, t)});
    }
    return places;
}

/// There and back: a ring with the line's edges.
MultiPolygon asRing(const model::LineString& line) {
    model::Ring ring{line, false};
    for (std::size_t i = line.size() - 1; i-- > 1;)
        ring.corners.push_back(line[i]);
    return {{{ring, {}}}};
}

/// The ground distance is measured by distanceToBoundary, which the test below holds against geodesics.
constexpr double kMeasured = 2e-6; // of a distance, and 1 mm besides: its stated error

bool notShort(double metres, double distance) { return metres >= distance * (1.0 - kMeasured) - 0.001; }
bool notLong(double metres, double distance) { return metres <= distance * (1.0 + kMeasured) + 0.001; }
bool hardlyMore(double metres, double distance) { return metres <= distance * (1.001 + kMeasured) + 0.003; }
bool hardlyLess(double metres, double distance) { return metres >= distance * (0.999 - kMeasured) - 0.003; }

QByteArray described(int seed, double distance, const std::string& wkt, double metres = 0.0) {
    return "seed " + QByteArray::number(seed) + " distance " + QByteArray::number(distance, 'g', 10) + " got " +
           QByteArray::number(metres, 'g', 10) + " " + QByteArray::fromStdString(wkt).left(3000);
}

double aDistance(tests::RandomGeometry& random) {
    return random.chance(0.05) ? random.magnitude(2000.0, 20'000.0) : random.magnitude(1.0, 2000.0);
}

} // namespace

class OffsetTest : public QObject {
    Q_OBJECT

private slots:
    void distanceToBoundary_matchesDenseSearch() {
        // Against the least of 20 000 geodesics to places along the edges, a method with nothing in common but those.
        for (int seed = 1; seed <= 40; ++seed) {
            tests::RandomGeometry random{static_cast<unsigned>(seed)};
            const auto polygon = random.polygon();
            auto place = polygon.shell.corners.front();
            place.lon += random.between(-0.01, 0.01);
            place.lat += random.between(-0.01, 0.01);
            const double found = geometry::distanceToBoundary({{polygon}}, place).inMetres();
            double least = HUGE_VAL;
            std::vector<model::Ring> rings = polygon.holes;
            rings.push_back(polygon.shell);
            for (const auto& ring : rings)
                for (std::size_t i = 0; i < ring.corners.size(); ++i) {
                    const auto &a = ring.corners[i], &b = ring.corners[(i + 1) % ring.corners.size()];
                    const int steps = 20'000 / static_cast<int>(ring.corners.size());
                    for (int k = 0; k < steps; ++k) {
                        const double t = static_cast<double>(k) / steps;
                        least = std::min(
                            least, geodesy::inverse(place, {std::lerp(a.lon, b.lon, t), std::lerp(a.lat, b.lat, t)})
                                       .length.inMetres());
                    }
                }
            QVERIFY2(found <= least + 0.001, described(seed, least, asWkt(MultiPolygon{{polygon}}), found));
            QVERIFY2(found >= least * 0.98 - 5.0, described(seed, least, asWkt(MultiPolygon{{polygon}}), found));
        }
    }

    void grown_surfaces_keepTheDistance() {
        for (int seed = 1; seed <= kCases; ++seed) {
            tests::RandomGeometry random{static_cast<unsigned>(seed)};
            const auto surface = random.chance(0.8) ? MultiPolygon{{random.polygon()}} : random.surface();
            const double d = aDistance(random);
            const auto outer = geometry::grown(surface, Length::metres(d), Side::Grow);
            const auto inner = geometry::grown(surface, Length::metres(d), Side::Shrink);
            const auto wkt = asWkt(surface);
            QVERIFY2(allValid(outer) && allValid(inner), described(seed, d, wkt));
            QVERIFY2(geometry::contains(outer, surface), described(seed, d, wkt));
            QVERIFY2(geometry::contains(outer, inner), described(seed, d, wkt));
            for (const auto& place : someOf(outer, random, 5)) {
                const double metres = geometry::distanceToBoundary(surface, place).inMetres();
                QVERIFY2(notShort(metres, d) && hardlyMore(metres, d), described(seed, d, wkt, metres));
            }
            for (const auto& place : someOf(inner, random, 5)) {
                const double metres = geometry::distanceToBoundary(surface, place).inMetres();
                QVERIFY2(notLong(metres, d) && hardlyLess(metres, d), described(seed, d, wkt, metres));
            }
        }
    }

    void grown_lines_keepTheDistance() {
        for (int seed = 1; seed <= kCases; ++seed) {
            tests::RandomGeometry random{static_cast<unsigned>(seed + 300'000)};
            const auto line = random.line();
            const double d = aDistance(random);
            const auto outer = geometry::grown(line, Length::metres(d), Side::Grow);
            const auto inner = geometry::grown(line, Length::metres(d), Side::Shrink);
            const auto wkt = asWkt(line);
            QVERIFY2(allValid(outer) && allValid(inner), described(seed, d, wkt));
            QVERIFY2(geometry::contains(outer, inner), described(seed, d, wkt));
            const auto ring = asRing(line);
            for (const auto& place : line)
                QVERIFY2(geometry::contains(outer, place) && geometry::contains(inner, place), described(seed, d, wkt));
            for (const auto& place : someOf(outer, random, 5)) {
                const double metres = geometry::distanceToBoundary(ring, place).inMetres();
                QVERIFY2(notShort(metres, d) && hardlyMore(metres, d), described(seed, d, wkt, metres));
            }
            for (const auto& place : someOf(inner, random, 5)) {
                const double metres = geometry::distanceToBoundary(ring, place).inMetres();
                QVERIFY2(notLong(metres, d) && hardlyLess(metres, d), described(seed, d, wkt, metres));
            }
        }
    }

    void eroded_keepsTheDistance() {
        int left = 0;
        for (int seed = 1; seed <= kCases; ++seed) {
            tests::RandomGeometry random{static_cast<unsigned>(seed + 400'000)};
            const auto surface = random.chance(0.8) ? MultiPolygon{{random.polygon()}} : random.surface();
            if (surface.empty())
                continue;
            // Mostly a part of the surface's own size, or nothing would be left to look at.
            double width = 0.0;
            for (const auto& corner : surface.parts.front().shell.corners)
                width = std::max(
                    width, geodesy::inverse(surface.parts.front().shell.corners.front(), corner).length.inMetres());
            const double d = std::clamp(width * random.magnitude(0.001, 0.3), 1.0, 20'000.0);
            const auto inner = geometry::eroded(surface, Length::metres(d), Side::Shrink);
            const auto outer = geometry::eroded(surface, Length::metres(d), Side::Grow);
            const auto wkt = asWkt(surface);
            left += !inner.empty();
            QVERIFY2(allValid(outer) && allValid(inner), described(seed, d, wkt));
            QVERIFY2(geometry::contains(surface, inner), described(seed, d, wkt));
            QVERIFY2(geometry::contains(outer, inner), described(seed, d, wkt));
            for (const auto& place : someOf(inner, random, 5)) {
                const double metres = geometry::distanceToBoundary(surface, place).inMetres();
                QVERIFY2(notShort(metres, d) && hardlyMore(metres, d), described(seed, d, wkt, metres));
            }
            for (const auto& place : someOf(outer, random, 5)) {
                const double metres = geometry::distanceToBoundary(surface, place).inMetres();
                QVERIFY2(notLong(metres, d) && hardlyLess(metres, d), described(seed, d, wkt, metres));
            }
        }
        QVERIFY2(left > kCases / 4, qPrintable(QString::number(left)));
    }

    void grown_takesScribbles() {
        for (int seed = 1; seed <= 1000; ++seed) {
            tests::RandomGeometry random{static_cast<unsigned>(seed + 500'000)};
            const MultiPolygon scribble{{random.scribble()}};
            const double d = random.magnitude(1.0, 2000.0);
            const auto outer = geometry::grown(scribble, Length::metres(d), Side::Grow);
            QVERIFY2(allValid(outer), described(seed, d, asWkt(scribble)));
            QVERIFY2(geometry::contains(outer, geometry::repaired(scribble.parts.front(), Side::Grow).surface),
                     described(seed, d, asWkt(scribble)));
            QVERIFY2(allValid(geometry::eroded(scribble, Length::metres(d), Side::Shrink)),
                     described(seed, d, asWkt(scribble)));
        }
    }

    void zero_givesSurfacesBack() {
        tests::RandomGeometry random{7};
        const auto surface = random.surface();
        QCOMPARE(geometry::grown(surface, Length{}, Side::Grow), surface);
        QCOMPARE(geometry::eroded(surface, Length{}, Side::Shrink), surface);
        QVERIFY(geometry::grown(Position{1, 2}, Length{}, Side::Grow).empty());
        QVERIFY(geometry::grown(model::LineString{{1, 2}, {1, 3}}, Length{}, Side::Grow).empty());
        QVERIFY(geometry::grown(MultiPolygon{}, Length::metres(5), Side::Grow).empty());
    }

    void refusesWhatCannotBeKept() {
        constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
        const auto refuses = [](Position place, double metres) {
            for (const Side side : {Side::Grow, Side::Shrink}) {
                try {
                    (void)geometry::grown(place, Length::metres(metres), side);
                    return false;
                } catch (const Fault&) {
                }
            }
            return true;
        };
        QVERIFY(refuses({1, 2}, -1.0));
        QVERIFY(refuses({1, 2}, kNan));
        QVERIFY(refuses({1, 2}, 200'001.0));
        QVERIFY(refuses({kNan, 2}, 10.0));
        QVERIFY(refuses({1, 89.5}, 10.0));
        QVERIFY(refuses({1, -89.0}, 120'000.0)); // would enclose the pole
        QVERIFY(!refuses({1, -89.0}, 50'000.0));
        // Longitudes that no operation has, once a way to fill all memory.
        const auto line = model::LineString{{10, 0}, {123456789, 0}};
        QVERIFY_EXCEPTION_THROWN((void)geometry::grown(line, Length::metres(10), Side::Grow), Fault);
        const model::MultiPolygon surface{{{{{{10, 0}, {1000, 0}, {10, 1}}, false}, {}}}};
        QVERIFY_EXCEPTION_THROWN((void)geometry::grown(surface, Length::metres(10), Side::Grow), Fault);
        QVERIFY_EXCEPTION_THROWN((void)geometry::eroded(surface, Length::metres(10), Side::Shrink), Fault);
        // A distance too small to be kept over that reach is a fault too, or kept; never anything else.
        const model::LineString fine{{0, 45}, {1, 45.5}};
        for (const double metres : {1e-9, 1e-6, 1e-3}) {
            try {
                QVERIFY(!geometry::grown(fine, Length::metres(metres), Side::Grow).empty());
            } catch (const Fault& fault) {
                QVERIFY(!fault.remedy().empty());
            }
        }
    }

    void grown_usesFewCorners() {
        QCOMPARE_LE(
            geometry::grown(Position{10, 50}, Length::metres(400), Side::Grow).parts.front().shell.corners.size(),
            std::size_t{96});
    }
};

QTEST_APPLESS_MAIN(OffsetTest)
#include "offset_test.moc"
