#include "session/outline_cache.h"

#include "airspace/outline.h"
#include "model/edit.h"

#include <QSignalSpy>
#include <QtTest>

#include <numbers>
#include <random>

using namespace fencewright;
using namespace fencewright::model;

namespace {

/// A ring so rough that it crosses itself: its outline takes long.
LineString rough(int corners, unsigned seed) {
    std::mt19937 random{seed};
    std::uniform_real_distribution<double> reach{0.3, 1.0}, turn{-3.0, 3.0};
    LineString line;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2.0 * std::numbers::pi * (i + turn(random)) / corners, r = 0.01 * reach(random);
        line.push_back({-8.7 + r * std::cos(angle), 46.2 + r * std::sin(angle)});
    }
    return line;
}

Fence fenceOf(Shape shape, const std::string& name) {
    Fence fence;
    fence.id = freshId<Fence>();
    fence.name = name;
    fence.shape = std::move(shape);
    return fence;
}

} // namespace

class OutlineCacheTest : public QObject {
    Q_OBJECT

private slots:
    void anEdit_computesOnlyWhatItTouches() {
        FenceSet set;
        const Site nest{freshId<Site>(), "Nest", "nest", Position{-8.7, 46.2}, {}, "", false, ""};
        set = applied(set, addSite(set, nest));
        Fence setback;
        setback.id = freshId<Fence>();
        setback.name = "Nest";
        setback.shape = Setback{nest.id, {Length::metres(402.336), "1/4 mi"}};
        set = applied(set, addFence(set, setback));
        Fence circle;
        circle.id = freshId<Fence>();
        circle.name = "Circle";
        circle.shape = Circle{{-8.71, 46.2}, {Length::metres(50), "50 m"}};
        set = applied(set, addFence(set, circle));

        session::OutlineCache cache;
        const auto first = cache.outlined(set);
        QCOMPARE(first.size(), 2u);
        // A full circle of 1/4 statute mile: 508 543 m2 (pi r squared); a keep-out is larger, by at most 0.2 %.
        QVERIFY(first[0]->area.inSquareMetres() >= 508543 && first[0]->area.inSquareMetres() <= 508543 * 1.002);

        circle.enabled = false;
        set = applied(set, replaceFence(set, circle, "Disable"));
        const auto second = cache.outlined(set);
        QCOMPARE(second[0], first[0]);
        QVERIFY(second[1] != first[1]);

        // The setback follows its site.
        Site moved = nest;
        moved.geometry = Position{-8.69, 46.2};
        set = applied(set, replaceSite(set, moved, "Move"));
        const auto third = cache.outlined(set);
        QVERIFY(third[0] != second[0]);
        QCOMPARE(third[1], second[1]);
        QVERIFY(!(third[0]->surface == second[0]->surface));
    }

    void whatTakesLong_isComputedInTheBackground_andIsThenWhatItIsDirectly() {
        FenceSet set;
        Site wood{freshId<Site>(), "Wood", "wood", Polygon{{rough(400, 3)}, {}}, {}, "", false, ""};
        set.sites.append(wood);
        set.fences.append(fenceOf(DrawnPolygon{{{rough(400, 1)}, {}}}, "rough"));
        set.fences.append(fenceOf(Setback{wood.id, {Length::metres(30), ""}}, "setback"));
        set.fences.append(fenceOf(Circle{{-8.71, 46.2}, {Length::metres(50), "50 m"}}, "circle"));
        session::BackgroundJobs jobs;
        session::OutlineCache cache{&jobs};
        QSignalSpy settled{&cache, &session::OutlineCache::settled};
        QElapsedTimer timer;
        timer.start();
        auto outlined = cache.outlined(set);
        QVERIFY(outlined[0]->pending && outlined[1]->pending);
        QVERIFY(!outlined[2]->pending); // small ones at once
        QVERIFY(!cache.isSettled());
        // A polygon stands in for itself as it is drawn; of a setback nothing is known yet.
        QVERIFY(outlined[0]->surface.parts.front() == std::get<DrawnPolygon>(set.fences[0].shape).polygon);
        QVERIFY(outlined[1]->surface.empty());
        const auto number = cache.number();
        QTRY_VERIFY_WITH_TIMEOUT(cache.isSettled(), 60'000);
        QVERIFY(settled.count() > 0 && cache.number() != number);
        outlined = cache.outlined(set);
        for (std::size_t i = 0; i < outlined.size(); ++i) {
            QVERIFY(!outlined[i]->pending);
            QVERIFY(outlined[i]->surface == airspace::outline(set.fences[i], set.sites));
            QVERIFY(cache.places().box(i) == outlined[i]->box);
        }

        // While the next state is computed, the last one stands in.
        wood.geometry = Polygon{{rough(400, 4)}, {}};
        set = applied(set, replaceSite(set, wood, "Redraw"));
        const auto then = cache.outlined(set);
        QVERIFY(then[1]->pending && then[1]->surface == outlined[1]->surface);
        QCOMPARE(then[0], outlined[0]);
        QTRY_VERIFY_WITH_TIMEOUT(cache.isSettled(), 60'000);
        QVERIFY(cache.outlined(set)[1]->surface == airspace::outline(set.fences[1], set.sites));
    }

    void manyChangesInARow_endWithTheNewest() {
        FenceSet set;
        Fence fence = fenceOf(DrawnPolygon{{{rough(300, 1)}, {}}}, "rough");
        set.fences.append(fence);
        session::BackgroundJobs jobs;
        session::OutlineCache cache{&jobs};
        for (unsigned seed = 2; seed < 12; ++seed) {
            std::get<DrawnPolygon>(fence.shape).polygon.shell.corners = rough(300, seed);
            set = applied(set, replaceFence(set, fence, "Redraw"));
            QVERIFY(cache.outlined(set)[0]->fence == set.fences.pointer(0));
            QTest::qWait(3);
        }
        QTRY_VERIFY_WITH_TIMEOUT(cache.isSettled(), 60'000);
        QVERIFY(cache.outlined(set)[0]->surface == airspace::outline(set.fences[0], set.sites));
    }

    void aChange_betweenTheCancellingAndTheEnd_isComputed() {
        FenceSet set;
        Fence fence = fenceOf(DrawnPolygon{{{rough(400, 1)}, {}}}, "rough");
        set.fences.append(fence);
        session::BackgroundJobs jobs;
        session::OutlineCache cache{&jobs};
        QVERIFY(cache.outlined(set)[0]->pending);
        QCOMPARE(jobs.running().size(), std::size_t{1});
        jobs.running().front()->cancel();
        std::get<DrawnPolygon>(fence.shape).polygon.shell.corners = rough(400, 2);
        set = applied(set, replaceFence(set, fence, "Redraw"));
        QVERIFY(cache.outlined(set)[0]->pending);
        QTRY_VERIFY_WITH_TIMEOUT(cache.isSettled(), 60'000);
        QVERIFY(cache.outlined(set)[0]->surface == airspace::outline(set.fences[0], set.sites));
    }

    void randomEdits_leaveTheBoxesOfAFreshCache() {
        for (unsigned seed = 1; seed <= 60; ++seed) {
            std::mt19937 random{seed};
            const auto circle = [&] {
                return fenceOf(Circle{{double(random() % 100) / 50.0, double(random() % 100) / 50.0},
                                      {Length::metres(10.0 + double(random() % 500)), ""}},
                               "circle");
            };
            FenceSet set;
            session::OutlineCache cache;
            for (int edit = 0; edit < 20; ++edit) {
                if (set.fences.empty() || random() % 3 == 0) {
                    set.fences.insert(random() % (set.fences.size() + 1), std::make_shared<const Fence>(circle()));
                } else if (random() % 3 == 0) {
                    set.fences.erase(random() % set.fences.size());
                } else {
                    const std::size_t at = random() % set.fences.size();
                    Fence moved = circle();
                    moved.id = set.fences[at].id;
                    set.fences.replace(at, std::make_shared<const Fence>(moved));
                }
                const auto& outlined = cache.outlined(set);
                session::OutlineCache fresh;
                const auto& expected = fresh.outlined(set);
                QCOMPARE(outlined.size(), expected.size());
                for (std::size_t i = 0; i < expected.size(); ++i) {
                    QVERIFY2(outlined[i]->surface == expected[i]->surface, qPrintable(QString("seed %1").arg(seed)));
                    QVERIFY2(cache.places().box(i) == fresh.places().box(i), qPrintable(QString("seed %1").arg(seed)));
                }
                QVERIFY2(cache.places().meeting({0, 0, 1, 1}) == fresh.places().meeting({0, 0, 1, 1}),
                         qPrintable(QString("seed %1").arg(seed)));
            }
        }
    }

    void aShapeThatCannotBeComputed_saysWhy() {
        FenceSet set;
        Fence circle;
        circle.id = freshId<Fence>();
        circle.name = "Pole";
        circle.shape = Circle{{0, 89.9}, {Length::metres(50), "50 m"}};
        set = applied(set, addFence(set, circle));
        session::OutlineCache cache;
        const auto outlined = cache.outlined(set);
        QVERIFY(outlined[0]->surface.empty());
        QVERIFY(!outlined[0]->fault.empty());
    }
};

QTEST_GUILESS_MAIN(OutlineCacheTest)
#include "outline_cache_test.moc"
