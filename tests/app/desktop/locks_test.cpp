#include "app/desktop/window_probe.h"

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr double kLon = -8.7;
constexpr double kLat = 46.2;
constexpr double kHalf = 0.001;

/// A square keep-out and a home beside it, in sight.
void lay(WindowProbe& probe) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name = "Yard";
    fence.shape = model::DrawnPolygon{{{{{kLon - kHalf, kLat - kHalf},
                                         {kLon + kHalf, kLat - kHalf},
                                         {kLon + kHalf, kLat + kHalf},
                                         {kLon - kHalf, kLat + kHalf}}},
                                       {}}};
    probe.document().push(model::addFence(probe.set(), fence));
    model::Home home;
    home.id = model::freshId<model::Home>();
    home.name = "Crest";
    home.place = {kLon + 0.003, kLat};
    probe.document().push(model::addHome(probe.set(), home));
    probe.look(kLon, kLat, 0.005);
}

void drag(WindowProbe& probe, QPoint from, QPoint to) {
    QTest::mouseMove(&probe.map(), from);
    QTest::mousePress(&probe.map(), Qt::LeftButton, Qt::NoModifier, from);
    for (int i = 1; i <= 4; ++i)
        QTest::mouseMove(&probe.map(), from + (to - from) * i / 4);
    QTest::mouseRelease(&probe.map(), Qt::LeftButton, Qt::NoModifier, to);
}

} // namespace

/// Things that are locked: by key, menu and form, on the map and in the ledger.
class LocksTest : public QObject {
    Q_OBJECT

private slots:
    void key_locks_thenNothingChangesIt_untilItIsUnlocked() {
        WindowProbe probe;
        lay(probe);
        const auto& set = probe.set();
        probe.clickMap(kLon, kLat);
        QVERIFY(!probe.find<QAction>("unlock")->isEnabled());
        probe.key(Qt::Key_L, Qt::ControlModifier | Qt::ShiftModifier);
        QVERIFY(set.fences[0].locked);
        QVERIFY(!probe.find<QAction>("lock")->isEnabled());
        QCOMPARE(probe.document().undoStack().undoText(), QString{"Lock Yard"});
        const model::FenceSet locked = set;
        const int steps = probe.document().undoStack().count();
        // A corner has no handle any more: the drag moves the map.
        const model::Position before = probe.map().toEarth({100, 100});
        drag(probe, probe.pixel(kLon + kHalf, kLat + kHalf), probe.pixel(kLon + kHalf, kLat + kHalf) + QPoint{40, -30});
        QVERIFY(set == locked);
        QVERIFY(!(probe.map().toEarth({100, 100}) == before));
        probe.key(Qt::Key_Delete);
        QVERIFY(set == locked);
        QVERIFY2(probe.message().contains("Yard is locked") && probe.message().contains("Unlock it first"),
                 qPrintable(probe.message()));
        QCOMPARE(probe.document().undoStack().count(), steps);
        probe.key(Qt::Key_X, Qt::ControlModifier);
        QVERIFY(set == locked);
        QVERIFY2(probe.message().contains("Yard is locked"), qPrintable(probe.message()));
        probe.key(Qt::Key_U, Qt::ControlModifier | Qt::ShiftModifier);
        QVERIFY(!set.fences[0].locked);
        probe.key(Qt::Key_Delete);
        QVERIFY(set.fences.empty());
    }

    void lockingIsUndone_likeAnyEdit() {
        WindowProbe probe;
        lay(probe);
        const auto& set = probe.set();
        const model::FenceSet before = set;
        probe.key(Qt::Key_A, Qt::ControlModifier);
        const int steps = probe.document().undoStack().count();
        probe.key(Qt::Key_L, Qt::ControlModifier | Qt::ShiftModifier);
        QVERIFY(set.fences[0].locked && set.homes[0].locked);
        QCOMPARE(probe.document().undoStack().count(), steps + 1);
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(set == before);
        // Where some are locked, both can be done.
        probe.map().select(set.fences[0].id);
        probe.key(Qt::Key_L, Qt::ControlModifier | Qt::ShiftModifier);
        probe.key(Qt::Key_A, Qt::ControlModifier);
        QVERIFY(probe.find<QAction>("lock")->isEnabled() && probe.find<QAction>("unlock")->isEnabled());
        probe.key(Qt::Key_U, Qt::ControlModifier | Qt::ShiftModifier);
        QVERIFY(set == before);
    }

    void form_locks_andRefusesWhatIsTyped() {
        WindowProbe probe;
        lay(probe);
        const auto& set = probe.set();
        probe.map().select(set.fences[0].id);
        probe.find<QCheckBox>("fenceLocked")->click();
        QVERIFY(set.fences[0].locked);
        probe.typeAndEnter("fenceName", "Other");
        QVERIFY2(probe.refusal("fenceName").contains("locked"), qPrintable(probe.refusal("fenceName")));
        QCOMPARE(QString::fromStdString(set.fences[0].name), QString{"Yard"});
        QTest::keyClick(probe.find<QLineEdit>("fenceName"), Qt::Key_Escape);
        probe.find<QCheckBox>("fenceLocked")->click();
        QVERIFY(!set.fences[0].locked);
        probe.typeAndEnter("fenceName", "Other");
        QCOMPARE(QString::fromStdString(set.fences[0].name), QString{"Other"});
        probe.map().select(set.homes[0].id);
        probe.find<QCheckBox>("homeLocked")->click();
        QVERIFY(set.homes[0].locked);
        probe.typeAndEnter("homePlace", "46.3 -8.6");
        QVERIFY(probe.refusal("homePlace").contains("locked"));
    }

    void lockedHome_isNotDragged() {
        WindowProbe probe;
        lay(probe);
        const auto& set = probe.set();
        const QPoint at = probe.pixel(kLon + 0.003, kLat);
        drag(probe, at, at + QPoint{0, 40});
        QVERIFY(set.homes[0].place.lat < kLat - 1e-5); // unlocked, it is
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        probe.map().select(set.homes[0].id);
        probe.key(Qt::Key_L, Qt::ControlModifier | Qt::ShiftModifier);
        drag(probe, at, at + QPoint{0, 40});
        QCOMPARE(set.homes[0].place.lat, kLat);
    }

    void ledger_marksIt_andTheContextMenuUnlocksIt() {
        WindowProbe probe;
        lay(probe);
        const auto& set = probe.set();
        auto* table = probe.find<QTableView>("ledgerTable");
        const QModelIndex row = table->model()->index(0, 0);
        const auto picture = [&] {
            QTest::qWait(50);
            return table->viewport()->grab(table->visualRect(row)).toImage();
        };
        const QImage open = picture();
        model::Fence locked = set.fences[0];
        locked.locked = true;
        probe.document().push(model::replaceFence(set, locked, "Lock Yard"));
        QVERIFY(picture() != open);
        QVERIFY(row.data(Qt::AccessibleTextRole).toString().contains("locked"));
        QVERIFY(row.data(Qt::ToolTipRole).toString().contains("Locked"));
        const QPoint at = probe.pixel(kLon, kLat);
        QContextMenuEvent event{QContextMenuEvent::Mouse, at, probe.map().mapToGlobal(at)};
        QApplication::sendEvent(&probe.map(), &event);
        auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
        QVERIFY(menu);
        auto* unlock = probe.find<QAction>("unlock");
        QVERIFY(menu->actions().contains(unlock) && !menu->actions().contains(probe.find<QAction>("lock")));
        unlock->trigger();
        menu->close();
        QVERIFY(!set.fences[0].locked);
        QVERIFY(!row.data(Qt::AccessibleTextRole).toString().contains("locked"));
    }

    void lock_isKeptInTheFile() {
        WindowProbe probe;
        lay(probe);
        probe.map().select(probe.set().homes[0].id);
        probe.key(Qt::Key_L, Qt::ControlModifier | Qt::ShiftModifier);
        const QString path = probe.folder.filePath("locked.gpkg");
        QVERIFY(probe.save(path));
        WindowProbe again{path};
        QVERIFY(QTest::qWaitFor([&] { return !again.set().homes.empty(); }, 10000));
        QVERIFY(again.set().homes[0].locked && !again.set().fences[0].locked);
    }
};

QTEST_MAIN(LocksTest)
#include "locks_test.moc"
