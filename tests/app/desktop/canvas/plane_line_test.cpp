#include "desktop/canvas/comb.h"
#include "desktop/canvas/near_plane.h"
#include "desktop/canvas/plane_line.h"

#include <QtTest>

#include <cmath>
#include <random>

using namespace fencewright::desktop;

namespace {

std::vector<QPointF> roughRing(std::mt19937_64& random, int corners) {
    std::uniform_real_distribution<double> unit{0.6, 1.0};
    std::vector<QPointF> ring;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2.0 * M_PI * i / corners;
        const double radius = 300.0 * unit(random);
        ring.emplace_back(500 + radius * std::cos(angle), 500 + radius * std::sin(angle));
    }
    return ring;
}

double distanceTo(const std::vector<QPointF>& ring, const QPointF& point) {
    double nearest = 1e300;
    for (std::size_t i = 0; i < ring.size(); ++i)
        nearest =
            std::min(nearest, distanceBetween(point, nearestOnSegment(point, ring[i], ring[(i + 1) % ring.size()])));
    return nearest;
}

} // namespace

class PlaneLineTest : public QObject {
    Q_OBJECT

private slots:
    void decimated_staysWithinTheTolerance() {
        constexpr unsigned seed = 20261125;
        std::mt19937_64 random{seed};
        for (int i = 0; i < 1000; ++i) {
            const std::vector<QPointF> ring = roughRing(random, 3 + i % 200);
            const double tolerance = 0.5 + i % 40;
            const std::vector<QPointF> fewer = decimated(ring, tolerance, true);
            QVERIFY(fewer.size() <= ring.size());
            QVERIFY(fewer.front() == ring.front());
            for (const QPointF& point : ring)
                QVERIFY2(distanceTo(fewer, point) <= tolerance * (1 + 1e-9),
                         ("seed " + std::to_string(seed) + " case " + std::to_string(i)).c_str());
        }
    }

    void decimated_smoothCircle_loosesMostOfItsPoints() {
        std::vector<QPointF> circle;
        for (int i = 0; i < 10'000; ++i)
            circle.emplace_back(60 * std::cos(2 * M_PI * i / 10'000), 60 * std::sin(2 * M_PI * i / 10'000));
        QCOMPARE_LE(decimated(circle, 0.6, true).size(), std::size_t{64});
    }

    void clippedRing_enclosesTheSameWithinTheRectangle() {
        constexpr unsigned seed = 4711;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> unit{0.0, 1000.0};
        for (int i = 0; i < 1000; ++i) {
            const std::vector<QPointF> ring = roughRing(random, 3 + i % 30);
            QPolygonF whole;
            for (const QPointF& point : ring)
                whole << point;
            const QPointF a{unit(random), unit(random)}, b{unit(random), unit(random)};
            const QRectF window = QRectF{a, b}.normalized();
            const QPolygonF clipped = clippedRing(whole, window);
            for (int k = 0; k < 20; ++k) {
                const QPointF probe{window.left() + window.width() * (k + 0.5) / 20,
                                    window.top() + window.height() * ((k * 7) % 20 + 0.5) / 20};
                QVERIFY2(whole.containsPoint(probe, Qt::OddEvenFill) == clipped.containsPoint(probe, Qt::OddEvenFill),
                         ("seed " + std::to_string(seed) + " case " + std::to_string(i)).c_str());
            }
        }
    }

    void clippedLine_cutsIntoPieces() {
        const QPolygonF line = QPolygonF{} << QPointF{-10, 5} << QPointF{20, 5} << QPointF{20, 50} << QPointF{5, 50}
                                           << QPointF{5, -20};
        const auto pieces = clippedLine(line, {0, 0, 10, 10});
        QCOMPARE(pieces.size(), std::size_t{2});
        QCOMPARE(pieces[0].first(), QPointF(0, 5));
        QCOMPARE(pieces[0].last(), QPointF(10, 5));
        QCOMPARE(pieces[1].first(), QPointF(5, 10));
        QCOMPARE(pieces[1].last(), QPointF(5, 0));
    }

    void comb_standsOnTheGivenSide_whateverTheWinding() {
        constexpr unsigned seed = 99;
        std::mt19937_64 random{seed};
        const QRectF seen{0, 0, 1000, 1000};
        for (int i = 0; i < 1000; ++i) {
            std::vector<QPointF> points = roughRing(random, 3 + i % 9);
            if (i % 2)
                std::reverse(points.begin(), points.end());
            QPolygonF ring;
            for (const QPointF& point : points)
                ring << point;
            for (const CombSide side : {CombSide::Inside, CombSide::Outside})
                for (const QLineF& tick : combOf(ring, side, seen)) {
                    QCOMPARE_LE(distanceTo(points, tick.p1()), 1e-6);
                    QCOMPARE_LE(std::abs(tick.length() - kCombTickPixels), 1e-6);
                    // Just off its foot: a tick as a whole may reach across a sharp corner.
                    const bool inside = ring.containsPoint(tick.pointAt(0.01), Qt::OddEvenFill);
                    QVERIFY2(inside == (side == CombSide::Inside),
                             ("seed " + std::to_string(seed) + " case " + std::to_string(i)).c_str());
                }
        }
    }

    void comb_ofARoughLine_isStillThere_onItsSide() {
        // A digitised shore: a thousand corners on 377 pixels, up and down by six.
        constexpr unsigned seed = 5;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> rough{0.9, 1.0};
        QPolygonF ring;
        for (int i = 0; i < 1000; ++i) {
            const double angle = 2.0 * M_PI * i / 1000, radius = 60.0 * rough(random);
            ring << QPointF{200 + radius * std::cos(angle), 200 + radius * std::sin(angle)};
        }
        const auto comb = combOf(ring, CombSide::Outside, {0, 0, 400, 400});
        QCOMPARE_GE(comb.size(), std::size_t{25});
        for (const QLineF& tick : comb)
            QVERIFY(distanceBetween(tick.p2(), {200, 200}) > distanceBetween(tick.p1(), {200, 200}));
    }

    void comb_isDense_andTheSameWhateverIsSeen() {
        const QPolygonF ring = QPolygonF{} << QPointF{100, 100} << QPointF{900, 100} << QPointF{900, 700}
                                           << QPointF{100, 700};
        const auto all = combOf(ring, CombSide::Inside, {0, 0, 1000, 1000});
        QCOMPARE(all.size(), std::size_t((800 + 600) * 2 / kCombSpacingPixels));
        std::size_t found = 0;
        for (const QLineF& tick : combOf(ring, CombSide::Inside, {0, 0, 333, 1000})) {
            QVERIFY(std::find(all.begin(), all.end(), tick) != all.end());
            ++found;
        }
        QVERIFY(found > 100 && found < all.size());
    }
};

QTEST_GUILESS_MAIN(PlaneLineTest)
#include "plane_line_test.moc"
