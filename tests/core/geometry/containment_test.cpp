#include "geometry/containment.h"

#include "geometry/overlay.h"
#include "geometry/validity.h"

#include <QtTest>

#include <cmath>
#include <random>

using namespace fencewright;
using model::MultiPolygon;
using model::Polygon;
using model::Position;

namespace {

MultiPolygon box(double west, double south, double east, double north) {
    return {{Polygon{{{{west, south}, {east, south}, {east, north}, {west, north}}}, {}}}};
}

struct Whole {
    long long x, y;
};

__extension__ using Wide = __int128;

/// Exact: 128-bit integers hold every product of 62-bit differences.
int side(Whole a, Whole b, Whole c) {
    const Wide cross = static_cast<Wide>(b.x - a.x) * (c.y - a.y) - static_cast<Wide>(b.y - a.y) * (c.x - a.x);
    return cross > 0 ? 1 : cross < 0 ? -1 : 0;
}

/// Even-odd rule with the boundary counted as inside; integers alone.
bool insideOrOn(const std::vector<Whole>& ring, Whole place) {
    bool inside = false;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const auto a = ring[i], b = ring[(i + 1) % ring.size()];
        const int turn = side(a, b, place);
        if (turn == 0 && place.x >= std::min(a.x, b.x) && place.x <= std::max(a.x, b.x) &&
            place.y >= std::min(a.y, b.y) && place.y <= std::max(a.y, b.y))
            return true;
        if ((a.y > place.y) != (b.y > place.y) && turn == (b.y > a.y ? 1 : -1))
            inside = !inside;
    }
    return inside;
}

/// A ring round a centre, with corners on a grid of whole numbers.
std::vector<Whole> star(std::mt19937_64& random, Whole centre, long long reach) {
    std::uniform_int_distribution<int> corners(3, 9);
    std::uniform_real_distribution<double> share(0.2, 1.0);
    const int count = corners(random);
    std::vector<Whole> ring;
    for (int i = 0; i < count; ++i) {
        const double angle = 2.0 * M_PI * (i + 0.8 * share(random)) / count;
        const double radius = static_cast<double>(reach) * share(random);
        ring.push_back(
            {centre.x + std::llround(radius * std::cos(angle)), centre.y + std::llround(radius * std::sin(angle))});
    }
    return ring;
}

model::Ring ringOf(const std::vector<Whole>& ring, double unit) {
    model::Ring result;
    for (const auto& corner : ring)
        result.corners.push_back({static_cast<double>(corner.x) * unit, static_cast<double>(corner.y) * unit});
    return result;
}

} // namespace

class ContainmentTest : public QObject {
    Q_OBJECT

private slots:
    // The oracle is integer arithmetic. Corners are whole numbers of 2^-44 degrees below 2^51, so the doubles are
    // exact; the places asked for are the lattice places nearest to an edge: on it, or off it by the smallest step
    // there is.
    void contains_agreesWithWholeNumbersNextToEdges() {
        constexpr double unit = 0x1p-44;
        int on = 0, checked = 0;
        for (std::uint64_t seed = 1; seed <= 400; ++seed) {
            std::mt19937_64 random{seed};
            auto ring = star(random, {1LL << 50, 1LL << 49}, 1LL << (12 + seed % 36));
            if (seed % 2)
                for (auto& corner : ring)
                    corner = {corner.x / 1024 * 1024, corner.y / 1024 * 1024};
            const Polygon polygon{ringOf(ring, unit), {}};
            if (!geometry::isValid(polygon))
                continue;
            const geometry::PreparedSurface surface{{{polygon}}};
            for (std::size_t i = 0; i < ring.size(); ++i) {
                const auto a = ring[i], b = ring[(i + 1) % ring.size()];
                for (int k = 0; k < 4; ++k) {
                    // Every second seed's corners are multiples of 1024, so that 1023 lattice places lie on each edge.
                    const long long step = std::uniform_int_distribution<long long>(-99, 1123)(random);
                    const Whole near{a.x + (b.x - a.x) / 1024 * step, a.y + (b.y - a.y) / 1024 * step};
                    for (const int dx : {-1, 0, 1})
                        for (const int dy : {-1, 0, 1}) {
                            const Whole place{near.x + dx, near.y + dy};
                            const bool expected = insideOrOn(ring, place);
                            on += side(a, b, place) == 0;
                            ++checked;
                            const bool answer = surface.contains(
                                Position{static_cast<double>(place.x) * unit, static_cast<double>(place.y) * unit});
                            QVERIFY2(answer == expected, qPrintable(QString{"seed %1, edge %2"}.arg(seed).arg(i)));
                        }
                }
            }
        }
        QVERIFY2(checked > 10000, qPrintable(QString::number(checked)));
        QVERIFY2(on > 100, qPrintable(QString::number(on)));
    }

    // On a grid of whole numbers up to 24 what is left over has an area far above rounding, so that the overlay is a
    // sound oracle: contained just where nothing is left. Small grids make corners on corners and on edges common.
    void contains_agreesWithWhatOverlayLeaves() {
        int contained = 0, checked = 0;
        for (std::uint64_t seed = 1; checked < 3000; ++seed) {
            std::mt19937_64 random{seed};
            std::uniform_int_distribution<long long> shift(-3, 3);
            const auto grid = static_cast<long long>(3 + seed % 9);
            const auto surface = [&](long long reach) {
                Polygon polygon{ringOf(star(random, {shift(random), shift(random)}, reach), 1.0), {}};
                if (seed % 2)
                    polygon.holes.push_back(ringOf(star(random, {shift(random), shift(random)}, 2), 1.0));
                return polygon;
            };
            const auto a = surface(grid + 4), b = surface(grid);
            if (!geometry::isValid(a) || !geometry::isValid(b))
                continue;
            ++checked;
            const MultiPolygon outer{{a}}, inner{{b}};
            const bool expected = geometry::difference(inner, outer).empty();
            contained += expected;
            QVERIFY2(geometry::contains(outer, inner) == expected, qPrintable(QString{"seed %1"}.arg(seed)));
            const bool meet = !geometry::intersection(outer, inner).empty();
            QVERIFY2(!meet || geometry::touches(outer, inner), qPrintable(QString{"seed %1"}.arg(seed)));
            QVERIFY2(geometry::contains(outer, outer) && geometry::sameArea(inner, inner),
                     qPrintable(QString::number(seed)));
            // What both have lies in each, and each in the union, where the grid makes no crossings to round.
            QCOMPARE(geometry::sameArea(outer, inner), expected && geometry::contains(inner, outer));
        }
        QVERIFY2(contained > 100, qPrintable(QString::number(contained)));
    }

    void contains_seesOneStepOverTheEdge() {
        const auto outer = box(10, 50, 11, 51);
        const double over = std::nextafter(11.0, 12.0);
        QVERIFY(geometry::contains(outer, box(10, 50, 11, 51)));
        QVERIFY(!geometry::contains(outer, box(10, 50, over, 51)));
        QVERIFY(!geometry::contains(outer, Position{over, 50.5}));
        QVERIFY(geometry::contains(outer, Position{11.0, 50.5}));
        QVERIFY(!geometry::touches(outer, box(over, 50, 12, 51)));
        QVERIFY(geometry::touches(outer, box(11.0, 50, 12, 51)));
    }

    void contains_knowsHolesAndTheirContents() {
        MultiPolygon ring = box(0, 0, 10, 10);
        ring.parts[0].holes.push_back(box(4, 4, 6, 6).parts[0].shell);
        QVERIFY(geometry::contains(ring, box(1, 1, 4, 4)));
        QVERIFY(!geometry::contains(ring, box(4, 4, 6, 6)));
        QVERIFY(!geometry::contains(ring, box(1, 1, 9, 9)));     // the hole lies inside of it, boundaries do not meet
        QVERIFY(!geometry::contains(ring, box(4.5, 4.5, 5, 5))); // wholly in the hole
        QVERIFY(!geometry::contains(ring, Position{5, 5}));
        QVERIFY(geometry::contains(ring, Position{4, 5}));
        QVERIFY(geometry::touches(ring, box(4, 4, 6, 6)));
        QVERIFY(!geometry::touches(ring, box(4.5, 4.5, 5, 5)));
        QVERIFY(geometry::contains(ring, MultiPolygon{}));
        QVERIFY(!geometry::contains(MultiPolygon{}, ring));
    }

    void contains_takesPartsThatShareAnEdgeAsOne() {
        MultiPolygon halves = box(0, 0, 1, 1);
        halves.parts.push_back(box(1, 0, 2, 1).parts[0]);
        QVERIFY(geometry::contains(halves, box(0.5, 0.25, 1.5, 0.75)));
        QVERIFY(geometry::sameArea(halves, box(0, 0, 2, 1)));
    }

    void contains_bringsTurnsTogether() {
        QVERIFY(geometry::contains(box(179, 0, 181, 1), Position{-179.5, 0.5}));
        QVERIFY(geometry::contains(box(179, 0, 181, 1), box(-180, 0.25, -179.5, 0.5)));
        QVERIFY(!geometry::contains(box(179, 0, 181, 1), Position{-178.5, 0.5}));
    }

    void labelPlace_liesInside() {
        MultiPolygon ring = box(0, 60, 10, 64);
        ring.parts[0].holes.push_back(box(4, 60.5, 6, 63.5).parts[0].shell);
        ring.parts.push_back(box(20, 0, 20.1, 0.1).parts[0]);
        const auto place = geometry::labelPlace(ring);
        QVERIFY(place.has_value());
        QVERIFY(geometry::contains(ring, *place));
        QVERIFY(place->lat > 61.0 && place->lat < 63.0);
        QVERIFY(!geometry::labelPlace({}).has_value());
    }
};

QTEST_APPLESS_MAIN(ContainmentTest)
#include "containment_test.moc"
