#include "app/desktop/window_probe.h"

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr double kLon = -8.7;
constexpr double kLat = 46.2;

model::Fence square(const std::string& name, double lon, double lat, double half) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name = name;
    fence.shape = model::DrawnPolygon{
        {{{{lon - half, lat - half}, {lon + half, lat - half}, {lon + half, lat + half}, {lon - half, lat + half}}},
         {}}};
    return fence;
}

/// Three keep-outs side by side, a site and a home, in sight.
void lay(WindowProbe& probe) {
    model::Edit all{"Lay out", {}, 0};
    model::FenceSet state = probe.set();
    const auto add = [&](model::Edit edit) {
        state = model::applied(state, edit);
        all.changes.insert(all.changes.end(), edit.changes.begin(), edit.changes.end());
    };
    add(model::addFence(state, square("West", kLon - 0.004, kLat, 0.001)));
    add(model::addFence(state, square("Middle", kLon, kLat, 0.001)));
    add(model::addFence(state, square("East", kLon + 0.004, kLat, 0.001)));
    model::Site site;
    site.id = model::freshId<model::Site>();
    site.name = "Mast";
    site.geometry = model::Position{kLon - 0.002, kLat};
    add(model::addSite(state, site));
    model::Home home;
    home.id = model::freshId<model::Home>();
    home.name = "Home";
    home.place = {kLon + 0.002, kLat};
    add(model::addHome(state, home));
    probe.document().push(all);
    probe.look(kLon, kLat, 0.006);
}

} // namespace

/// Choosing several things, on the map and in the ledger.
class SelectingTest : public QObject {
    Q_OBJECT

private slots:
    void ledger_choosesSeveral_andTheMapFollows() {
        WindowProbe probe;
        lay(probe);
        auto* table = probe.find<QTableView>("ledgerTable");
        const auto click = [&](int row, Qt::KeyboardModifiers modifiers) {
            QTest::mouseClick(table->viewport(), Qt::LeftButton, modifiers,
                              table->visualRect(table->model()->index(row, 0)).center());
        };
        const auto& fences = probe.set().fences;
        click(0, {});
        QVERIFY(probe.map().selection() == Selection{fences[0].id});
        click(2, Qt::ShiftModifier);
        QVERIFY(probe.map().selection() == Selection{fences[0].id}.with(fences[1].id).with(fences[2].id));
        click(1, Qt::ControlModifier);
        QVERIFY(probe.map().selection() == Selection{fences[0].id}.with(fences[2].id));
        click(1, {});
        QVERIFY(probe.map().selection() == Selection{fences[1].id});
    }

    void map_choosesSeveral_andTheLedgerMarksThem() {
        WindowProbe probe;
        lay(probe);
        auto* table = probe.find<QTableView>("ledgerTable");
        const auto& set = probe.set();
        probe.map().select(Selection{set.fences[0].id}.with(set.fences[2].id).with(set.sites[0].id));
        QCOMPARE(table->selectionModel()->selectedRows().size(), 2);
        QVERIFY(table->selectionModel()->isRowSelected(0) && table->selectionModel()->isRowSelected(2));
        // What is gone is no longer chosen.
        probe.document().push(model::removeFence(set, set.fences[0].id));
        QVERIFY(probe.map().selection() == Selection{set.fences[1].id}.with(set.sites[0].id));
        probe.document().undoStack().undo();
        QCOMPARE(table->selectionModel()->selectedRows().size(), 1);
    }

    void form_ofSeveral_showsWhatTheyShare_andChangesAllInOneStep() {
        WindowProbe probe;
        lay(probe);
        const auto& set = probe.set();
        model::Fence east = set.fences[2];
        east.kind = model::FenceKind::KeepIn;
        east.band.ceiling = model::HeightLimit{{Length::metres(120), "120 m"}, model::HeightReference::Ground};
        probe.document().push(model::replaceFence(set, east, "Change East"));
        probe.map().select(Selection{set.fences[0].id}.with(set.fences[2].id));
        QCOMPARE(probe.find<QLabel>("recordTitle")->text(), QString{"2 selected"});
        QVERIFY(!probe.find<QLineEdit>("fenceName"));
        QCOMPARE(probe.find<QComboBox>("fenceKind")->currentIndex(), -1);
        auto* ceiling = probe.find<QLineEdit>("fenceCeiling");
        QCOMPARE(ceiling->text(), QString{});
        QCOMPARE(ceiling->placeholderText(), QString{"differ"});
        // To look at a field in which they differ changes nothing.
        const model::FenceSet before = set;
        ceiling->setFocus();
        probe.find<QLineEdit>("fenceFloor")->setFocus();
        QVERIFY(set == before);
        const int steps = probe.document().undoStack().count();
        probe.typeAndEnter("fenceCeiling", "60 m");
        QCOMPARE(set.fences[0].band.ceiling->value.length, Length::metres(60));
        QCOMPARE(set.fences[2].band.ceiling->value.length, Length::metres(60));
        QVERIFY(!set.fences[1].band.ceiling);
        QCOMPARE(probe.document().undoStack().count(), steps + 1);
        QCOMPARE(probe.find<QLineEdit>("fenceCeiling")->text(), QString{"60 m"});
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(set == before);
    }

    void form_ofSeveral_switchesAll_whereTheyDiffer() {
        WindowProbe probe;
        lay(probe);
        const auto& set = probe.set();
        model::Fence off = set.fences[0];
        off.enabled = false;
        probe.document().push(model::replaceFence(set, off, "Switch West"));
        probe.map().select(Selection{set.fences[0].id}.with(set.fences[1].id));
        auto* enabled = probe.find<QCheckBox>("fenceEnabled");
        QCOMPARE(enabled->checkState(), Qt::PartiallyChecked);
        enabled->click();
        QVERIFY(set.fences[0].enabled && set.fences[1].enabled);
        QCOMPARE(enabled->checkState(), Qt::Checked);
        enabled->click();
        QVERIFY(!set.fences[0].enabled && !set.fences[1].enabled && set.fences[2].enabled);
    }

    void delete_takesAllThatIsSelected_inOneStep() {
        WindowProbe probe;
        lay(probe);
        const model::FenceSet before = probe.set();
        probe.map().select(Selection{before.fences[1].id}.with(before.sites[0].id).with(before.homes[0].id));
        probe.map().setFocus();
        probe.key(Qt::Key_Delete);
        QCOMPARE(probe.set().fences.size(), std::size_t{2});
        QVERIFY(probe.set().sites.empty() && probe.set().homes.empty());
        QVERIFY(probe.map().selection().empty());
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(probe.set() == before);
    }
};

QTEST_MAIN(SelectingTest)
#include "selecting_test.moc"
