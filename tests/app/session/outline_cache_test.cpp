#include "session/outline_cache.h"

#include "model/edit.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::model;

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

QTEST_APPLESS_MAIN(OutlineCacheTest)
#include "outline_cache_test.moc"
