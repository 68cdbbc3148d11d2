#include "desktop/canvas/hit.h"

#include "app/desktop/tools/tool_driver.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;

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
