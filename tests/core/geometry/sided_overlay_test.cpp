// Which side results err to. The answers are asked of exact predicates in places right beside each corner, where
// rounding shows, and of a plain even-odd rule in places anywhere.

#include "geometry/sided_overlay.h"

#include "fault.h"
#include "geometry/containment.h"
#include "geometry/detail/common_region.h"
#include "geometry/detail/corner_mending.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/overlay.h"
#include "geometry/spatial_index.h"
#include "geometry/validity.h"
#include "support/random_geometry.h"

#include <QtTest>

#include <array>
#include <cmath>
#include <random>
#include <set>

using namespace fencewright;
using geometry::Side;
using geometry::detail::ExactSurface;
using model::MultiPolygon;
using model::Polygon;
using model::Position;

namespace {

MultiPolygon box(double west, double south, double east, double north) {
    return {{Polygon{{{{west, south}, {east, south}, {east, north}, {west, north}}}, {}}}};
}

enum class Operation { Union, Difference, Intersection };

MultiPolygon sided(Operation operation, const MultiPolygon& a, const MultiPolygon& b, Side side) {
    switch (operation) {
    case Operation::Union:
        return geometry::united(std::array{a, b}, side);
    case Operation::Difference:
        return geometry::difference(a, b, side);
    case Operation::Intersection:
        break;
    }
    return geometry::intersection(a, b, side);
}

bool holds(Operation operation, bool inA, bool inB) {
    return operation == Operation::Union ? inA || inB : operation == Operation::Difference ? inA && !inB : inA && inB;
}

/// No library at all: rays to the east, crossings in floating point.
bool plainlyInside(const MultiPolygon& surface, const Position& place) {
    bool inside = false;
    const auto count = [&](const model::Ring& ring) {
        for (std::size_t i = 0; i < ring.corners.size(); ++i) {
            const auto &a = ring.corners[i], &b = ring.corners[(i + 1) % ring.corners.size()];
            if ((a.lat > place.lat) != (b.lat > place.lat) &&
                place.lon < a.lon + (place.lat - a.lat) * (b.lon - a.lon) / (b.lat - a.lat))
                inside = !inside;
        }
    };
    for (const auto& part : surface.parts) {
        count(part.shell);
        std::for_each(part.holes.begin(), part.holes.end(), count);
    }
    return inside;
}

double distanceToEdges(const MultiPolygon& surface, const Position& place) {
    double least = 1e300;
    const auto look = [&](const model::Ring& ring) {
        for (std::size_t i = 0; i < ring.corners.size(); ++i) {
            const auto &a = ring.corners[i], &b = ring.corners[(i + 1) % ring.corners.size()];
            const double dx = b.lon - a.lon, dy = b.lat - a.lat;
            const double along = ((place.lon - a.lon) * dx + (place.lat - a.lat) * dy) / (dx * dx + dy * dy);
            const double share = std::isfinite(along) ? std::clamp(along, 0.0, 1.0) : 0.0;
            least = std::min(least, std::hypot(place.lon - a.lon - share * dx, place.lat - a.lat - share * dy));
        }
    };
    for (const auto& part : surface.parts) {
        look(part.shell);
        std::for_each(part.holes.begin(), part.holes.end(), look);
    }
    return least;
}

} // namespace

class SidedOverlayTest : public QObject {
    Q_OBJECT

private slots:
    void results_ofBoxes_areExact() {
        const auto a = box(0, 0, 2, 2), b = box(1, 1, 3, 3);
        for (const auto side : {Side::Grow, Side::Shrink}) {
            QVERIFY(geometry::sameArea(geometry::intersection(a, b, side), box(1, 1, 2, 2)));
            QVERIFY(geometry::sameArea(geometry::difference(a, box(1, 0, 2, 2), side), box(0, 0, 1, 2)));
            QVERIFY(geometry::sameArea(geometry::united(std::array{a, box(2, 0, 4, 2)}, side), box(0, 0, 4, 2)));
            QVERIFY(geometry::intersection(a, box(5, 5, 6, 6), side).empty());
            QVERIFY(geometry::difference(a, box(-1, -1, 3, 3), side).empty());
            QVERIFY(geometry::sameArea(geometry::difference(a, {}, side), a));
            QVERIFY(geometry::united(std::span<const MultiPolygon>{}, side).empty());
        }
    }

    // Edges that cross in thirds of a degree, which no double holds.
    void crossings_comeToLieOnTheSideWanted() {
        const MultiPolygon a{{Polygon{{{{0, 0}, {3, 1}, {3, -5}}}, {}}}},
            b{{Polygon{{{{0, 1}, {3, -1}, {0, -5}}}, {}}}};
        const auto grown = geometry::united(std::array{a, b}, Side::Grow);
        QVERIFY(geometry::contains(grown, a) && geometry::contains(grown, b));
        const auto less = geometry::intersection(a, b, Side::Shrink);
        QVERIFY(geometry::contains(a, less) && geometry::contains(b, less));
        const auto rest = geometry::difference(a, b, Side::Shrink);
        QVERIFY(geometry::contains(a, rest));
    }

    void tilesThatMeet_becomeOneSurfaceWithoutSeams() {
        // Their corners lie on the others' edges to rounding only.
        std::vector<MultiPolygon> tiles;
        const auto at = [](double u, double v) {
            return Position{10.0 + 0.31 * u - 0.17 * v, 50.0 + 0.19 * u + 0.23 * v};
        };
        for (int i = 0; i < 4; ++i)
            for (int j = 0; j < 3; ++j) {
                const double u = i + (j % 2) / 3.0;
                tiles.push_back({{Polygon{{{at(u, j), at(u + 1, j), at(u + 1, j + 1), at(u, j + 1)}}, {}}}});
            }
        for (const auto side : {Side::Grow, Side::Shrink}) {
            const auto whole = geometry::united(tiles, side);
            QCOMPARE(whole.parts.size(), std::size_t{1});
            QCOMPARE(whole.parts.front().holes.size(), std::size_t{0});
            QVERIFY(whole.parts.front().shell.corners.size() < 20);
        }
    }

    void corners_thatWereGiven_areTheSameNumbers() {
        std::mt19937_64 random{5};
        std::uniform_real_distribution<double> unit{0.0, 1.0};
        std::set<std::pair<double, double>> given;
        MultiPolygon a, b;
        for (auto* surface : {&a, &b}) {
            surface->parts.emplace_back();
            for (int i = 0; i < 9; ++i) {
                const double angle = 2.0 * M_PI * i / 9.0, radius = 0.5 + unit(random);
                const Position corner{7.1 + (surface == &b) * 0.4 + radius * std::cos(angle),
                                      46.3 + radius * std::sin(angle)};
                surface->parts[0].shell.corners.push_back(corner);
                given.emplace(corner.lon, corner.lat);
            }
        }
        const auto whole = geometry::united(std::array{a, b}, Side::Grow);
        int kept = 0, made = 0;
        for (const auto& corner : whole.parts.front().shell.corners)
            ++(given.contains({corner.lon, corner.lat}) ? kept : made);
        QVERIFY(kept >= 9);
        QCOMPARE(made % 2, 0);
        QVERIFY(made >= 2 && made <= 6);
    }

    // Three half planes whose normals stand 120 degrees apart share a triangle, or nothing, as the determinant of their
    // lines has its sign: exact in 128-bit integers.
    void anyRegion_decidesWhetherThreeEdgesNearlyInOnePlaceLeaveATriangle() {
        __extension__ using Wide = __int128;
        std::mt19937_64 random{11};
        std::uniform_int_distribution<long long> jitter{-1, 1}, middle{-1000, 1000};
        constexpr long long reach = 1 << 20;
        int some = 0, none = 0;
        for (int round = 0; round < 3000; ++round) {
            const long long x = middle(random), y = middle(random);
            std::array<ExactSurface*, 3> surfaces{};
            std::vector<ExactSurface> kept;
            std::array<std::array<Wide, 3>, 3> lines{};
            for (int i = 0; i < 3; ++i) {
                const double angle = 0.3 + 2.0 * M_PI * i / 3.0;
                const auto dx = std::llround(static_cast<double>(reach) * std::cos(angle));
                const auto dy = std::llround(static_cast<double>(reach) * std::sin(angle));
                const long long ax = x - dx + jitter(random), ay = y - dy + jitter(random);
                const long long bx = x + dx + jitter(random), by = y + dy + jitter(random);
                // The inside lies left of a to b.
                const MultiPolygon half{{Polygon{
                    {{{double(ax), double(ay)}, {double(bx), double(by)}, {double(x - 2 * dy), double(y + 2 * dx)}}},
                    {}}}};
                kept.emplace_back(half);
                lines[std::size_t(i)] = {Wide(ay - by), Wide(bx - ax), Wide(ax) * by - Wide(bx) * ay};
            }
            for (std::size_t i = 0; i < 3; ++i)
                surfaces[i] = &kept[i];
            const auto minor = [&](std::size_t i, std::size_t j) {
                return lines[i][0] * lines[j][1] - lines[i][1] * lines[j][0];
            };
            // Positive where each line has the crossing of the others on its left.
            const Wide determinant = lines[0][2] * minor(1, 2) + lines[1][2] * minor(2, 0) + lines[2][2] * minor(0, 1);
            const bool found =
                geometry::detail::anyRegion({surfaces[0], surfaces[1], surfaces[2]},
                                            [](const std::array<bool, 3>& in) { return in[0] && in[1] && in[2]; });
            if (determinant != 0)
                QVERIFY2(found == (determinant > 0), qPrintable(QString{"seed 11 round %1"}.arg(round)));
            ++(found ? some : none);
        }
        QVERIFY(some > 500 && none > 500);
    }

    void everyResult_errsToItsSide() {
        int refused = 0, tried = 0, crossing = 0;
        for (unsigned seed = 1; seed <= 600; ++seed) {
            tests::RandomGeometry random{seed};
            const auto [a, given] = random.neighbours();
            const auto b = geometry::detail::turnedNear(given, geometry::detail::middleLongitude(a));
            const geometry::PreparedSurface inA{a}, inB{b};
            for (const auto operation : {Operation::Union, Operation::Difference, Operation::Intersection})
                for (const auto side : {Side::Grow, Side::Shrink}) {
                    ++tried;
                    const auto failure = QString{"seed %1, operation %2, side %3"}
                                             .arg(seed)
                                             .arg(int(operation))
                                             .arg(side == Side::Grow ? "grow" : "shrink");
                    MultiPolygon result;
                    try {
                        result = sided(operation, a, given, side);
                    } catch (const Fault&) {
                        ++refused; // micrometres apart all along
                        continue;
                    }
                    for (const auto& part : result.parts)
                        QVERIFY2(geometry::isValid(part), qPrintable(failure));
                    bool whole = true;
                    if (operation == Operation::Union && side == Side::Grow)
                        whole = geometry::contains(result, a) && geometry::contains(result, b);
                    else if (side == Side::Shrink && operation != Operation::Union)
                        whole = geometry::contains(a, result) &&
                                (operation == Operation::Difference || geometry::contains(b, result));
                    QVERIFY2(whole, qPrintable(failure));

                    const geometry::PreparedSurface inResult{result};
                    const auto isWrong = [&](const Position& place) {
                        // A boundary place of either may be said to lie in it or not.
                        const bool exact = holds(operation, inA.contains(place), inB.contains(place));
                        const bool found = inResult.contains(place);
                        return side == Side::Grow ? exact && !found : found && !exact;
                    };
                    const std::array all{a, b, result};
                    for (const auto& corner : geometry::detail::cornersOf(all))
                        for (int i = 0; i < 12; ++i) {
                            const double away = random.magnitude(1e-13, 1e-8), angle = random.between(0.0, 2 * M_PI);
                            const Position place{corner.lon + away * std::cos(angle),
                                                 corner.lat + away * std::sin(angle)};
                            if (!isWrong(place))
                                continue;
                            const bool seam = distanceToEdges(a, place) <= geometry::kSeamDegrees * 1.01 &&
                                              distanceToEdges(b, place) <= geometry::kSeamDegrees * 1.01;
                            // On a boundary the closed surfaces above both have the place.
                            const bool boundary =
                                distanceToEdges(a, place) < 1e-15 || distanceToEdges(b, place) < 1e-15;
                            QVERIFY2(
                                seam || boundary,
                                qPrintable(failure +
                                           QString{": %1 %2"}.arg(place.lon, 0, 'g', 17).arg(place.lat, 0, 'g', 17)));
                        }
                    auto reach = geometry::boxOf(a);
                    reach.add(geometry::boxOf(b));
                    for (int i = 0; i < 60; ++i) {
                        const Position place{random.between(reach.minX, reach.maxX),
                                             random.between(reach.minY, reach.maxY)};
                        if (std::min({distanceToEdges(a, place), distanceToEdges(b, place),
                                      distanceToEdges(result, place)}) < 1e-10)
                            continue;
                        QVERIFY2(plainlyInside(result, place) ==
                                     holds(operation, plainlyInside(a, place), plainlyInside(b, place)),
                                 qPrintable(failure));
                    }
                    crossing += operation == Operation::Intersection && !result.empty();
                }
        }
        QVERIFY(crossing > 300);
        QVERIFY2(refused * 100 <= tried, qPrintable(QString::number(refused)));
    }
};

QTEST_APPLESS_MAIN(SidedOverlayTest)
#include "sided_overlay_test.moc"
