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

/// So many corners about the middle.
model::Fence roundKeepOut(int corners) {
    model::Fence fence = square("Round", kLon, kLat, 0.001);
    model::LineString ring;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2.0 * M_PI * i / corners;
        ring.push_back({kLon + 0.003 * std::cos(angle), kLat + 0.003 * std::sin(angle)});
    }
    fence.shape = model::DrawnPolygon{{{ring}, {}}};
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

    void click_withShiftOrCtrl_addsAndTakesAway() {
        WindowProbe probe;
        lay(probe);
        const auto& set = probe.set();
        const auto click = [&](double lon, Qt::KeyboardModifiers modifiers) {
            QTest::mouseMove(&probe.map(), probe.pixel(lon, kLat));
            QTest::mouseClick(&probe.map(), Qt::LeftButton, modifiers, probe.pixel(lon, kLat));
            QTest::qWait(QApplication::doubleClickInterval() / 20);
        };
        click(kLon - 0.004, {});
        click(kLon + 0.004, Qt::ShiftModifier);
        QVERIFY(probe.map().selection() == Selection{set.fences[0].id}.with(set.fences[2].id));
        click(kLon + 0.002, Qt::ControlModifier);
        QVERIFY(probe.map().selection().contains(set.homes[0].id));
        click(kLon - 0.004, Qt::ControlModifier);
        QVERIFY(probe.map().selection() == Selection{set.fences[2].id}.with(set.homes[0].id));
        // Beside everything: nothing is lost.
        const QPoint beside = probe.pixel(kLon, kLat + 0.003);
        QTest::mouseClick(&probe.map(), Qt::LeftButton, Qt::ShiftModifier, beside);
        QCOMPARE(probe.map().selection().size(), std::size_t{2});
        QCOMPARE(probe.document().undoStack().count(), 1);
    }

    void drag_withCtrl_choosesInABox_andEscDropsIt() {
        WindowProbe probe;
        lay(probe);
        const auto& set = probe.set();
        const model::Position middle = probe.map().toEarth(QPointF(10, 10));
        const auto sweep = [&](bool drop) {
            const QPoint from = probe.pixel(kLon - 0.0055, kLat + 0.002), to = probe.pixel(kLon + 0.0015, kLat - 0.002);
            QTest::mousePress(&probe.map(), Qt::LeftButton, Qt::ControlModifier, from);
            for (int step = 1; step <= 5; ++step) {
                const QPointF at = QPointF{from} + QPointF{to - from} * (step / 5.0);
                QMouseEvent move{QEvent::MouseMove,  at, probe.map().mapToGlobal(at), Qt::NoButton, Qt::LeftButton,
                                 Qt::ControlModifier};
                QApplication::sendEvent(&probe.map(), &move);
            }
            if (drop)
                QTest::keyClick(&probe.map(), Qt::Key_Escape);
            QTest::mouseRelease(&probe.map(), Qt::LeftButton, Qt::ControlModifier, to);
        };
        sweep(true);
        QVERIFY(probe.map().selection().empty());
        sweep(false);
        QVERIFY(probe.map().selection() == Selection{set.fences[0].id}.with(set.fences[1].id).with(set.sites[0].id));
        QVERIFY(probe.map().toEarth(QPointF(10, 10)) == middle);
    }

    void loop_choosesWhatLiesWhollyInIt() {
        WindowProbe probe;
        lay(probe);
        const auto& set = probe.set();
        probe.key(Qt::Key_A);
        QCOMPARE(probe.map().toolId(), QString{"loop"});
        // All around the east, and through the middle one.
        const std::vector<model::Position> way{{kLon, kLat + 0.002},
                                               {kLon + 0.0055, kLat + 0.0025},
                                               {kLon + 0.006, kLat - 0.002},
                                               {kLon + 0.003, kLat - 0.0025},
                                               {kLon, kLat - 0.002}};
        QTest::mousePress(&probe.map(), Qt::LeftButton, {}, probe.pixel(way[0].lon, way[0].lat));
        for (const model::Position& place : way) {
            const QPointF at = probe.map().toWidget(place);
            QMouseEvent move{QEvent::MouseMove, at, probe.map().mapToGlobal(at), Qt::NoButton, Qt::LeftButton, {}};
            QApplication::sendEvent(&probe.map(), &move);
        }
        QTest::mouseRelease(&probe.map(), Qt::LeftButton, {}, probe.pixel(way.back().lon, way.back().lat));
        QVERIFY(probe.map().selection() == Selection{set.fences[2].id}.with(set.homes[0].id));
        QCOMPARE(probe.map().toolId(), QString{"select"});
    }

    void keys_chooseAll_theOthers_andNone() {
        WindowProbe probe;
        lay(probe);
        const auto& set = probe.set();
        probe.key(Qt::Key_A, Qt::ControlModifier);
        QCOMPARE(probe.map().selection().size(), std::size_t{5});
        probe.map().select(Selection{set.fences[1].id}.with(set.sites[0].id));
        probe.key(Qt::Key_A, Qt::ControlModifier | Qt::ShiftModifier);
        QVERIFY(probe.map().selection() == Selection{set.fences[0].id}.with(set.fences[2].id).with(set.homes[0].id));
        probe.key(Qt::Key_Escape);
        QVERIFY(probe.map().selection().empty());
    }

    void chooseWhere_countsWhileTyped_andChooses() {
        WindowProbe probe;
        lay(probe);
        const auto& set = probe.set();
        model::Fence winter = set.fences[2];
        winter.basis.citation = "Lease 12, page 3";
        winter.enabled = false;
        probe.document().push(model::replaceFence(set, winter, "Change East"));
        probe.key(Qt::Key_F, Qt::ControlModifier);
        auto* dialog = probe.waitForDialog<QDialog>("selectWhereDialog");
        QVERIFY(dialog);
        auto* count = dialog->findChild<QLabel*>("whereCount");
        auto* go = dialog->findChild<QPushButton*>("whereGo");
        QCOMPARE(count->text(), QString{"5 are like that."});
        QTest::keyClicks(dialog->findChild<QLineEdit*>("whereName"), "ST");
        QCOMPARE(count->text(), QString{"3 are like that."}); // West, East, Mast
        dialog->findChild<QComboBox*>("whereKind")->setCurrentIndex(3);
        QCOMPARE(count->text(), QString{"2 are like that."});
        QTest::keyClicks(dialog->findChild<QLineEdit*>("whereBasis"), "lease");
        QCOMPARE(count->text(), QString{"One is like that."});
        dialog->findChild<QComboBox*>("wherePeriod")->setCurrentIndex(1);
        QCOMPARE(count->text(), QString{"Nothing is like that."});
        QVERIFY(!go->isEnabled());
        dialog->findChild<QComboBox*>("whereEnabled")->setCurrentIndex(2);
        dialog->findChild<QComboBox*>("wherePeriod")->setCurrentIndex(2);
        QTest::keyClick(dialog, Qt::Key_Return);
        QVERIFY(probe.map().selection() == Selection{set.fences[2].id});
    }

    void copyAndPaste_betweenDocuments_areExact_andUndone() {
        WindowProbe probe;
        lay(probe);
        const model::FenceSet before = probe.set();
        model::Site mast = before.sites[0];
        mast.confidential = true;
        probe.document().push(model::replaceSite(probe.set(), mast, "Change Mast"));
        const model::FenceSet copied = probe.set();
        probe.key(Qt::Key_A, Qt::ControlModifier);
        probe.key(Qt::Key_C, Qt::ControlModifier);
        QVERIFY2(probe.message().contains("confidential"), qPrintable(probe.message()));
        probe.document().startNew();
        probe.map().setFocus();
        probe.key(Qt::Key_V, Qt::ControlModifier);
        QVERIFY(probe.set().fences == copied.fences);
        QVERIFY(probe.set().sites == copied.sites);
        QVERIFY(probe.set().homes == copied.homes);
        QCOMPARE(probe.map().selection().size(), std::size_t{5});
        // Once more: the same things under names of their own.
        probe.key(Qt::Key_V, Qt::ControlModifier);
        QCOMPARE(probe.set().fences[3].name, std::string{"West copy"});
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(probe.set().fences.size(), std::size_t{3});
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(probe.set().fences.empty() && probe.set().sites.empty());
    }

    void cut_takesAway_andSaysWhatIsCopied() {
        WindowProbe probe;
        lay(probe);
        const model::FenceSet before = probe.set();
        probe.map().select(before.fences[1].id);
        probe.key(Qt::Key_X, Qt::ControlModifier);
        QCOMPARE(probe.set().fences.size(), std::size_t{2});
        QVERIFY(QGuiApplication::clipboard()->text().contains("FeatureCollection"));
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(probe.set() == before);
    }

    void paste_ofAnotherProgramsText_andOfNonsense() {
        WindowProbe probe;
        lay(probe);
        QGuiApplication::clipboard()->setText(
            R"({"type":"Polygon","coordinates":[[[-8.7,46.2],[-8.69,46.2],[-8.69,46.21],[-8.7,46.2]]]})");
        probe.key(Qt::Key_V, Qt::ControlModifier);
        QCOMPARE(probe.set().fences.size(), std::size_t{4});
        QCOMPARE(probe.set().fences[3].kind, model::FenceKind::KeepOut);
        QVERIFY2(probe.message().contains("keep-outs"), qPrintable(probe.message()));
        QGuiApplication::clipboard()->setText("{\"type\":\"Polygon\",\"coordinates\":[[[\"a\",2]]]}");
        const model::FenceSet before = probe.set();
        probe.key(Qt::Key_V, Qt::ControlModifier);
        QVERIFY(probe.set() == before);
        QVERIFY2(probe.message().contains("longitude"), qPrintable(probe.message()));
    }

    void muchIsCopied_whileTheWindowGoesOn_andPastedOnceItIsThere() {
        WindowProbe probe;
        lay(probe);
        const model::Fence large = roundKeepOut(40'000);
        probe.document().push(model::addFence(probe.set(), large));
        probe.map().select(large.id);
        QVERIFY(probe.settle());
        QClipboard& clipboard = *QGuiApplication::clipboard();
        clipboard.setText("before");
        QElapsedTimer clock;
        clock.start();
        probe.key(Qt::Key_C, Qt::ControlModifier);
        qInfo("copying was begun in %lld ms", (long long)clock.elapsed());
        QCOMPARE(clipboard.text(), QString{"before"});
        // What is on its way is what is pasted, not what it takes the place of.
        probe.key(Qt::Key_V, Qt::ControlModifier);
        QTRY_COMPARE_WITH_TIMEOUT(probe.set().fences.size(), std::size_t{5}, 60'000);
        QVERIFY(clipboard.text().contains("FeatureCollection"));
        QVERIFY(clipboard.mimeData()->data("application/geo+json") == clipboard.text().toUtf8());
        QVERIFY(probe.set().fences[4].shape == large.shape);
        QCOMPARE(probe.set().fences[4].name, std::string{"Round copy"});
        QVERIFY2(probe.message().contains("Pasted one thing"), qPrintable(probe.message()));
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(probe.set().fences.size(), std::size_t{4});
    }

    void whatIsOnItsWayToTheClipboard_isNotPastedIntoAnotherDocument() {
        WindowProbe probe;
        lay(probe);
        const model::Fence large = roundKeepOut(40'000);
        probe.document().push(model::addFence(probe.set(), large));
        probe.map().select(large.id);
        QVERIFY(probe.settle());
        QGuiApplication::clipboard()->setText("before");
        probe.key(Qt::Key_C, Qt::ControlModifier);
        probe.key(Qt::Key_V, Qt::ControlModifier);
        probe.document().startNew();
        QTRY_VERIFY_WITH_TIMEOUT(QGuiApplication::clipboard()->text().contains("FeatureCollection"), 60'000);
        QTRY_VERIFY_WITH_TIMEOUT(probe.window->jobs().running().empty(), 60'000);
        QVERIFY(probe.set() == model::FenceSet{});
    }

    void muchIsCut_onceItIsThere_unlessTheSetWasChanged() {
        WindowProbe probe;
        lay(probe);
        const model::Fence large = roundKeepOut(40'000);
        probe.document().push(model::addFence(probe.set(), large));
        const model::FenceSet before = probe.set();
        probe.map().select(large.id);
        QVERIFY(probe.settle());
        QClipboard& clipboard = *QGuiApplication::clipboard();
        clipboard.setText("before");
        probe.key(Qt::Key_X, Qt::ControlModifier);
        QVERIFY(probe.set() == before);
        // Chosen meanwhile: that is not what is cut.
        probe.map().select(before.fences[0].id);
        QTRY_COMPARE_WITH_TIMEOUT(probe.set().fences.size(), std::size_t{3}, 60'000);
        QVERIFY(!probe.set().fences.find(large.id));
        QVERIFY(clipboard.text().contains("FeatureCollection"));
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(probe.set() == before);

        clipboard.setText("before");
        probe.map().select(large.id);
        probe.key(Qt::Key_X, Qt::ControlModifier);
        model::Fence renamed = before.fences[0];
        renamed.name = "Renamed";
        probe.document().push(model::replaceFence(before, renamed, "Rename"));
        QTRY_VERIFY_WITH_TIMEOUT(probe.message().contains("nothing was taken away"), 60'000);
        QCOMPARE(probe.set().fences.size(), std::size_t{4});
        QVERIFY(clipboard.text().contains("FeatureCollection"));
        // Given up, it takes nothing away either.
        clipboard.setText("before");
        probe.key(Qt::Key_X, Qt::ControlModifier);
        const auto jobs = probe.window->jobs().running(); // the audit is one of them, too
        const auto copying = std::find_if(jobs.begin(), jobs.end(),
                                          [](const auto* job) { return job->title() == "Copying what is selected"; });
        QVERIFY(copying != jobs.end());
        (*copying)->cancel();
        QTRY_VERIFY_WITH_TIMEOUT(probe.window->jobs().running().empty(), 60'000);
        QCOMPARE(probe.set().fences.size(), std::size_t{4});
        QCOMPARE(clipboard.text(), QString{"before"});
    }

    void muchIsRead_whileTheWindowGoesOn_forTheDocumentItWasMeantFor() {
        WindowProbe probe;
        lay(probe);
        QVERIFY(probe.settle());
        QJsonArray ring;
        const auto large = std::get<model::DrawnPolygon>(roundKeepOut(40'000).shape).polygon.shell.corners;
        for (const model::Position& corner : large)
            ring.append(QJsonArray{corner.lon, corner.lat});
        ring.append(ring.first());
        const QByteArray text =
            QJsonDocument{QJsonObject{{"type", "Polygon"}, {"coordinates", QJsonArray{ring}}}}.toJson();
        QGuiApplication::clipboard()->setText(text);
        QElapsedTimer clock;
        clock.start();
        probe.key(Qt::Key_V, Qt::ControlModifier);
        qInfo("pasting was begun in %lld ms", (long long)clock.elapsed());
        QCOMPARE(probe.set().fences.size(), std::size_t{3});
        QTRY_COMPARE_WITH_TIMEOUT(probe.set().fences.size(), std::size_t{4}, 60'000);
        QVERIFY(std::get<model::DrawnPolygon>(probe.set().fences[3].shape).polygon.shell.corners == large);
        QVERIFY(probe.map().selection() == Selection{probe.set().fences[3].id});
        QVERIFY(probe.settle());
        probe.key(Qt::Key_V, Qt::ControlModifier);
        QCOMPARE(probe.window->jobs().running().size(), std::size_t{1});
        probe.document().startNew();
        QTRY_VERIFY_WITH_TIMEOUT(probe.window->jobs().running().empty(), 60'000);
        QVERIFY(probe.set().fences.empty());
        // What it cannot be read for is said then.
        QByteArray broken = text;
        broken.replace(text.size() / 2, 1, "x");
        QGuiApplication::clipboard()->setText(broken);
        probe.map().setFocus();
        probe.key(Qt::Key_V, Qt::ControlModifier);
        QTRY_VERIFY_WITH_TIMEOUT(probe.message().contains("nor GeoJSON"), 60'000);
        QVERIFY(probe.set().fences.empty());
    }

    void contextMenu_isAboutWhatLiesThere() {
        WindowProbe probe;
        lay(probe);
        const auto menuAt = [&](double lon, double lat) {
            const QPoint at = probe.pixel(lon, lat);
            QContextMenuEvent event{QContextMenuEvent::Mouse, at, probe.map().mapToGlobal(at)};
            QApplication::sendEvent(&probe.map(), &event);
            QStringList lines;
            if (auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget())) {
                for (QAction* action : menu->actions())
                    lines << action->objectName();
                menu->close();
            }
            return lines;
        };
        QVERIFY(menuAt(kLon, kLat).contains("cut"));
        QVERIFY(probe.map().selection() == Selection{probe.set().fences[1].id});
        QVERIFY(menuAt(kLon, kLat + 0.003).contains("paste"));
        // One of several: they stay chosen.
        probe.map().select(Selection{probe.set().fences[0].id}.with(probe.set().fences[1].id));
        QVERIFY(menuAt(kLon, kLat).contains("delete"));
        QCOMPARE(probe.map().selection().size(), std::size_t{2});
    }

    void ledgersMenu_isThatOfTheMap_aboutTheRow() {
        WindowProbe probe;
        lay(probe);
        auto* rows = probe.find<QTableView>("ledgerTable");
        const QPoint at = rows->visualRect(rows->model()->index(1, 0)).center();
        QTest::mouseClick(rows->viewport(), Qt::RightButton, Qt::NoModifier, at);
        QVERIFY(probe.map().selection() == Selection{probe.set().fences[1].id});
        QContextMenuEvent event{QContextMenuEvent::Mouse, at, rows->viewport()->mapToGlobal(at)};
        QApplication::sendEvent(rows->viewport(), &event);
        auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
        QVERIFY(menu);
        QCOMPARE(menu->objectName(), QString{"thingMenu"});
        const std::size_t before = probe.set().fences.size();
        for (QAction* action : menu->actions())
            if (action->objectName() == "delete")
                action->trigger();
        menu->close();
        QCOMPARE(probe.set().fences.size(), before - 1);
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
