#include "desktop/canvas/hit.h"

#include "app/desktop/tools/tool_driver.h"

#include "desktop/canvas/near_plane.h"

#include <QtTest>

#include <numbers>
#include <random>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

/// By looking at every edge of every fence: the sum of the angles under which edges are seen tells inside from outside,
/// and the distance to each edge is that in the plane. Source: Haines, "Point in polygon strategies", Graphics Gems IV
/// (1994), the angle summation test.
Selection bruteForce(const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined,
                     const model::Position& place, double tolerance) {
    const NearPlane plane{place};
    const session::OutlinedFence* smallest = nullptr;
    for (const auto& one : outlined) {
        bool hit = false;
        for (const model::Polygon& part : one->surface.parts) {
            int windings = 0;
            double nearest = HUGE_VAL;
            const auto walk = [&](const model::Ring& ring) {
                double angle = 0.0;
                for (std::size_t i = 0; i < ring.corners.size(); ++i) {
                    const QPointF a = plane.toPlane(ring.corners[i]);
                    const QPointF b = plane.toPlane(ring.corners[(i + 1) % ring.corners.size()]);
                    angle += std::atan2(a.x() * b.y() - a.y() * b.x(), QPointF::dotProduct(a, b));
                    nearest = std::min(nearest, distanceBetween(nearestOnSegment({}, a, b), {}));
                }
                windings += std::abs(int(std::round(angle / (2.0 * std::numbers::pi)))) % 2;
            };
            walk(part.shell);
            std::for_each(part.holes.begin(), part.holes.end(), walk);
            hit = hit || windings % 2 == 1 || nearest <= tolerance;
        }
        if (hit && (!smallest || one->area <= smallest->area))
            smallest = one.get();
    }
    return smallest ? Selection{smallest->fence->id} : Selection{};
}

} // namespace

class HitTest : public QObject {
    Q_OBJECT

private slots:
    void surface_isHitInside_notInItsHole_andNearItsBoundary() {
        const model::MultiPolygon surface{
            {{{{metresFrom(0, 0), metresFrom(300, 0), metresFrom(300, 300), metresFrom(0, 300)}},
              {{{metresFrom(100, 100), metresFrom(200, 100), metresFrom(200, 200), metresFrom(100, 200)}}}}}};
        const Length tolerance = Length::metres(5);
        QVERIFY(isHit(surface, metresFrom(50, 50), tolerance));
        QVERIFY(!isHit(surface, metresFrom(150, 150), tolerance));
        QVERIFY(isHit(surface, metresFrom(104, 150), tolerance)); // in the hole, 4 m from its edge
        QVERIFY(isHit(surface, metresFrom(-4, 150), tolerance));  // outside, 4 m off
        QVERIFY(!isHit(surface, metresFrom(-6, 150), tolerance));
    }

    void surface_acrossTheAntimeridian_isHitOnEitherTurn() {
        const model::MultiPolygon surface{
            {{{{{179.99, -17.0}, {180.01, -17.0}, {180.01, -16.98}, {179.99, -16.98}}}, {}}}};
        QVERIFY(isHit(surface, {-179.995, -16.99}, Length::metres(1)));
        QVERIFY(isHit(surface, {180.005, -16.99}, Length::metres(1)));
        QVERIFY(isHit(surface, {179.995, -16.99}, Length::metres(1)));
        QVERIFY(!isHit(surface, {-179.98, -16.99}, Length::metres(1)));
    }

    void thingAt_withAnIndex_isWhatLookingAtEveryEdgeFinds() {
        int hits = 0;
        for (unsigned seed = 1; seed <= 100; ++seed) {
            std::mt19937 random{seed};
            std::uniform_real_distribution<double> off{-600.0, 600.0}, share{0.6, 1.0};
            const bool antimeridian = seed % 4 == 0;
            const model::Position middle = antimeridian ? model::Position{180.0, -17.0} : metresFrom(0, 0);
            const NearPlane plane{middle};
            model::FenceSet set;
            session::OutlineCache outlines;
            for (int i = 0; i < 30; ++i) {
                const QPointF centre{off(random), off(random)};
                const double radius = 20.0 + std::abs(off(random)) / 3.0;
                const int corners = i % 5 == 0 ? 500 : 3 + int(random() % 20);
                const auto ring = [&](double reach) {
                    model::LineString line;
                    for (int c = 0; c < corners; ++c) {
                        const double angle = 2.0 * std::numbers::pi * c / corners;
                        const double r = reach * (corners > 100 ? 0.98 + 0.02 * share(random) : share(random));
                        line.push_back(plane.toEarth(centre + QPointF{r * std::cos(angle), r * std::sin(angle)}));
                        if (antimeridian && i % 2 == 0)
                            line.back().lon -= 360.0;
                    }
                    return line;
                };
                model::Fence fence = drawnFence("one", ring(radius));
                if (corners > 100)
                    std::get<model::DrawnPolygon>(fence.shape).polygon.holes.push_back({ring(radius * 0.4)});
                set.fences.append(fence);
            }
            (void)outlines.outlined(set);
            for (int round = 0; round < 12; ++round) {
                const model::Position place = plane.toEarth({off(random), off(random)});
                const double tolerance = 1.0 + double(random() % 12);
                const auto& outlined = outlines.outlined(set);
                const Selection expected = bruteForce(outlined, place, tolerance);
                QVERIFY2(thingAt(set, outlined, place, Length::metres(tolerance), &outlines.places()) == expected,
                         qPrintable(QString("seed %1, round %2").arg(seed).arg(round)));
                QVERIFY(thingAt(set, outlined, place, Length::metres(tolerance)) == expected);
                hits += expected != Selection{} ? 1 : 0;
                // Another state of one of the fences, so that the index is one that has changed.
                model::Fence moved = set.fences[random() % set.fences.size()];
                for (model::Position& corner : std::get<model::DrawnPolygon>(moved.shape).polygon.shell.corners)
                    corner.lat += 1e-4;
                set = model::applied(set, model::replaceFence(set, moved, "Move"));
            }
        }
        QVERIFY(hits > 300 && hits < 1100);
    }

    void line_isHitNearIt() {
        const model::SiteGeometry line = model::LineString{metresFrom(0, 0), metresFrom(100, 0), metresFrom(100, 100)};
        QVERIFY(isHit(line, metresFrom(50, 4), Length::metres(5)));
        QVERIFY(isHit(line, metresFrom(96, 50), Length::metres(5)));
        QVERIFY(!isHit(line, metresFrom(50, 50), Length::metres(5)));
    }

    void emptyThings_areNeverHit() {
        QVERIFY(!isHit(model::MultiPolygon{}, {0, 0}, Length::metres(1e6)));
        QVERIFY(!isHit(model::SiteGeometry{model::LineString{}}, {0, 0}, Length::metres(1e6)));
        QVERIFY(!isHit(model::MultiPolygon{{model::Polygon{}}}, {0, 0}, Length::metres(1e6)));
    }

    void thingAt_prefersHomesThenSitesThenTheSmallestFence() {
        model::FenceSet set;
        const auto small =
            drawnFence("small", {metresFrom(0, 0), metresFrom(50, 0), metresFrom(50, 50), metresFrom(0, 50)});
        const auto large = drawnFence(
            "large", {metresFrom(-100, -100), metresFrom(200, -100), metresFrom(200, 200), metresFrom(-100, 200)});
        set.fences.append(small);
        set.fences.append(large); // later, and so drawn above
        session::OutlineCache outlines;
        const Length tolerance = Length::metres(6);
        QVERIFY(thingAt(set, outlines.outlined(set), metresFrom(25, 25), tolerance) == Selection{small.id});
        QVERIFY(thingAt(set, outlines.outlined(set), metresFrom(100, 100), tolerance) == Selection{large.id});
        model::Site site;
        site.id = model::freshId<model::Site>();
        site.geometry = metresFrom(25, 25);
        set.sites.append(site);
        QVERIFY(thingAt(set, outlines.outlined(set), metresFrom(25, 25), tolerance) == Selection{site.id});
        model::Home home;
        home.id = model::freshId<model::Home>();
        home.place = metresFrom(27, 25);
        set.homes.append(home);
        QVERIFY(thingAt(set, outlines.outlined(set), metresFrom(25, 25), tolerance) == Selection{home.id});
        QVERIFY(thingAt(set, outlines.outlined(set), metresFrom(500, 25), tolerance) == Selection{});
    }
};

QTEST_GUILESS_MAIN(HitTest)
#include "hit_test.moc"
