// What a person may expect of undo lists, arrangements, pens and keys: from memory, common practice, no published
// source.
#include "app/desktop/window_probe.h"

#include "desktop/arrangement.h"

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr double kLon = -8.7;
constexpr double kLat = 46.2;

QListView* openEdits(WindowProbe& probe) {
    probe.key(Qt::Key_H, Qt::ControlModifier);
    return probe.find<QListView>("editsList");
}

void clickRow(QListView* list, int row) {
    const QModelIndex at = list->model()->index(row, 0);
    list->scrollTo(at);
    QTest::mouseClick(list->viewport(), Qt::LeftButton, {}, list->visualRect(at).center());
}

QString spoken(QListView* list, int row) {
    return list->model()->index(row, 0).data(Qt::AccessibleTextRole).toString();
}

/// A pen that lies on the tablet, sent the way the window system sends it.
class Pen {
public:
    explicit Pen(QWidget& widget, QPointingDevice::PointerType end = QPointingDevice::PointerType::Pen)
        : m_widget{widget}, m_device{"pen",
                                     7,
                                     QInputDevice::DeviceType::Stylus,
                                     end,
                                     QInputDevice::Capability::Position | QInputDevice::Capability::Pressure,
                                     1,
                                     2} {}

    void send(QEvent::Type type, const QPointF& at, double pressure, Qt::MouseButton button, Qt::MouseButtons buttons) {
        QTabletEvent event{type, &m_device, at, m_widget.mapToGlobal(at), pressure, 0,      0,
                           0,    0,         0,  Qt::NoModifier,           button,   buttons};
        QCoreApplication::sendEvent(&m_widget, &event);
    }
    void tap(const QPointF& at, double pressure = 0.5) {
        send(QEvent::TabletMove, at, 0.0, Qt::NoButton, Qt::NoButton);
        send(QEvent::TabletPress, at, pressure, Qt::LeftButton, Qt::LeftButton);
        send(QEvent::TabletRelease, at, 0.0, Qt::LeftButton, Qt::NoButton);
        QTest::qWait(QApplication::doubleClickInterval() + 20);
    }
    void stroke(const std::vector<QPointF>& way) {
        send(QEvent::TabletPress, way.front(), 0.2, Qt::LeftButton, Qt::LeftButton);
        double pressure = 0.2;
        for (const QPointF& at : way)
            send(QEvent::TabletMove, at, pressure = 1.1 - pressure, Qt::NoButton, Qt::LeftButton);
        send(QEvent::TabletRelease, way.back(), 0.0, Qt::LeftButton, Qt::NoButton);
    }

private:
    QWidget& m_widget;
    QPointingDevice m_device;
};

} // namespace

class ComfortTest : public QObject {
    Q_OBJECT

private slots:
    void initTestCase() { QApplication::setDoubleClickInterval(60); }

    void edits_areListed_markedAndGoneTo_byMouseAndKeys() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.02);
        std::vector<model::FenceSet> states{probe.set()};
        for (int i = 0; i < 3; ++i) {
            probe.square("tool_keepin", kLon + 0.004 * i, kLat, 0.001);
            states.push_back(probe.set());
        }
        QVERIFY(probe.save(probe.folder.filePath("three.gpkg")));
        probe.square("tool_keepout", kLon, kLat + 0.005, 0.001);
        states.push_back(probe.set());
        auto* list = openEdits(probe);
        QTRY_VERIFY(list->hasFocus());
        QCOMPARE(list->model()->rowCount(), 5);
        QVERIFY2(spoken(list, 4).contains("now"), qPrintable(spoken(list, 4)));
        QVERIFY2(spoken(list, 3).contains("saved"), qPrintable(spoken(list, 3)));
        clickRow(list, 1);
        QVERIFY(probe.set() == states[1]);
        QVERIFY(spoken(list, 1).contains("now") && spoken(list, 2).contains("taken back"));
        // By keys: down twice and Enter; walking alone changes nothing.
        QTest::keyClick(list, Qt::Key_Down);
        QTest::keyClick(list, Qt::Key_Down);
        QVERIFY(probe.set() == states[1]);
        QTest::keyClick(list, Qt::Key_Return);
        QVERIFY(probe.set() == states[3]);
        QVERIFY(!probe.document().isModified());
        QTest::keyClick(list, Qt::Key_Home);
        QTest::keyClick(list, Qt::Key_Return);
        QVERIFY(probe.set() == states[0]);
        // A new step takes the place of those that were taken back.
        probe.square("tool_keepin", kLon, kLat, 0.002);
        QCOMPARE(list->model()->rowCount(), 2);
        QVERIFY(spoken(list, 1).contains("now"));
    }

    void thousandsOfEdits_areOneChangeToGoThrough() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.02);
        probe.square("tool_keepin", kLon, kLat, 0.001);
        const model::FenceSet first = probe.set();
        for (int i = 0; i < 5000; ++i) {
            model::Fence fence = probe.set().fences[0];
            fence.name = "Name " + std::to_string(i);
            probe.document().push(model::replaceFence(probe.set(), std::move(fence), "Rename"));
        }
        const model::FenceSet last = probe.set();
        auto* list = openEdits(probe);
        QCOMPARE(list->model()->rowCount(), 5002);
        QSignalSpy changes{&probe.document(), &session::OpenDocument::changed};
        clickRow(list, 1);
        QVERIFY(probe.set() == first);
        QCOMPARE(changes.count(), 1);
        clickRow(list, 5001);
        QVERIFY(probe.set() == last);
        QCOMPARE(changes.count(), 2);
    }

    void arrangement_lasts_andIsGivenBack() {
        WindowProbe probe;
        auto* across = qobject_cast<QSplitter*>(probe.find<QWidget>("rightColumn")->parentWidget());
        QVERIFY(across);
        const int given = probe.find<QWidget>("rightColumn")->width();
        QSplitterHandle* handle = across->handle(1);
        const QPoint grip{0, handle->height() / 2};
        QTest::mousePress(handle, Qt::LeftButton, {}, grip);
        QTest::mouseMove(handle, grip - QPoint{100, 0});
        QTest::mouseRelease(handle, Qt::LeftButton, {}, grip - QPoint{100, 0});
        const int left = probe.find<QWidget>("rightColumn")->width();
        QVERIFY(std::abs(left - (given + 100)) <= 4); // the handle may be gripped some pixels beside its middle
        probe.find<QAction>("showCalendar")->trigger();
        QVERIFY(!probe.find<QWidget>("calendarStrip")->isVisible());
        probe.key(Qt::Key_F1);
        auto* keys = probe.waitForDialog<QDialog>("keysDialog");
        QVERIFY(keys);
        keys->resize(800, 500);
        keys->accept();
        QTRY_VERIFY(!probe.dialog());

        probe.window->close();
        probe.window.reset();
        probe.show();
        QCOMPARE(probe.find<QWidget>("rightColumn")->width(), left);
        QVERIFY(!probe.find<QWidget>("calendarStrip")->isVisible());
        QVERIFY(!probe.find<QAction>("showCalendar")->isChecked());
        probe.key(Qt::Key_F1);
        keys = probe.waitForDialog<QDialog>("keysDialog");
        QVERIFY(keys);
        QCOMPARE(keys->size(), QSize(800, 500));
        keys->accept();
        QTRY_VERIFY(!probe.dialog());

        probe.find<QAction>("arrangeAsGiven")->trigger();
        QTRY_COMPARE(probe.find<QWidget>("rightColumn")->width(), given);
        QVERIFY(probe.find<QWidget>("calendarStrip")->isVisible());
        probe.window.reset();
        probe.show();
        QCOMPARE(probe.find<QWidget>("rightColumn")->width(), given);
        QVERIFY(probe.find<QWidget>("calendarStrip")->isVisible());
    }

    void columnsOfTheLedger_areAsWideAsAPersonMadeThem() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.01);
        probe.square("tool_keepin", kLon, kLat, 0.004);
        const auto header = [&] { return probe.find<QTableView>("ledgerTable")->horizontalHeader(); };
        const int given = header()->sectionSize(1);
        // The handle between the name and the band: to the left makes the band wider.
        const QPoint grip{header()->sectionViewportPosition(1) + header()->sectionSize(1), header()->height() / 2};
        QTest::mousePress(header()->viewport(), Qt::LeftButton, {}, grip);
        QTest::mouseMove(header()->viewport(), grip + QPoint{15, 0});
        QTest::mouseMove(header()->viewport(), grip + QPoint{30, 0});
        QTest::mouseRelease(header()->viewport(), Qt::LeftButton, {}, grip + QPoint{30, 0});
        const int left = header()->sectionSize(1);
        QVERIFY2(std::abs(left - given - 30) <= 4, qPrintable(QString{"%1 %2"}.arg(given).arg(left)));
        probe.window.reset();
        probe.show();
        probe.square("tool_keepin", kLon, kLat, 0.004);
        QCOMPARE(header()->sectionSize(1), left);
        probe.find<QAction>("arrangeAsGiven")->trigger();
        QTRY_COMPARE(header()->sectionSize(1), given);
    }

    void everyTool_isInSight_inALowWindow() {
        WindowProbe probe;
        for (const int height : {640, 800, 1200}) {
            probe.window->resize(1280, height);
            QTest::qWait(10);
            auto* column = probe.find<QWidget>("toolColumn");
            QRegion taken;
            for (const QToolButton* button : column->findChildren<QToolButton*>()) {
                QVERIFY2(column->rect().contains(button->geometry()), qPrintable(button->objectName()));
                QVERIFY2(!taken.intersects(button->geometry()), qPrintable(button->objectName()));
                taken += button->geometry();
            }
        }
    }

    void windowLeftElsewhere_comesBackOntoTheScreen() {
        QWidget window;
        window.setMinimumSize(300, 200);
        const QRect room = window.screen()->availableGeometry();
        window.setGeometry(room.right() + 4000, room.bottom() + 3000, 600, 400);
        fitOnScreen(window);
        QVERIFY2(room.contains(window.geometry()), qPrintable(QDebug::toString(window.geometry())));
        window.setMinimumSize(room.size() * 2);
        window.setGeometry(-500, -400, room.width() * 2, room.height() * 2);
        fitOnScreen(window);
        QVERIFY2(room.contains(window.geometry()), qPrintable(QDebug::toString(window.geometry())));
    }

    void pen_drawsWhateverItsPressure_andItsOtherEndStepsBack() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.01);
        probe.find<QAction>("keepin")->trigger();
        Pen pen{probe.map()};
        Pen eraser{probe.map(), QPointingDevice::PointerType::Eraser};
        const auto at = [&](double x, double y) { return QPointF{probe.pixel(kLon + x, kLat + y)}; };
        pen.tap(at(-0.005, -0.005), 0.01);
        pen.tap(at(0.005, -0.005), 1.0);
        pen.tap(at(0.007, 0.007), 0.3);
        eraser.send(QEvent::TabletPress, at(0.007, 0.007), 0.4, Qt::LeftButton, Qt::LeftButton);
        eraser.send(QEvent::TabletRelease, at(0.007, 0.007), 0.0, Qt::LeftButton, Qt::NoButton);
        pen.tap(at(0.005, 0.005), 0.6);
        probe.key(Qt::Key_Return);
        QCOMPARE(probe.set().fences.size(), std::size_t{1});
        const auto& shell = std::get<model::DrawnPolygon>(probe.set().fences[0].shape).polygon.shell.corners;
        QCOMPARE(shell.size(), std::size_t{3});
        const double tolerance = 2 * probe.map().metresPerPixel() / 111'195.0 / std::cos(kLat * 3.14159 / 180);
        QVERIFY(std::abs(shell[2].lon - (kLon + 0.005)) < tolerance);

        // Two soon after each other finish a polygon, as with a mouse.
        probe.find<QAction>("keepout")->trigger();
        pen.tap(at(-0.002, -0.002));
        pen.tap(at(0.002, -0.002));
        for (int i = 0; i < 2; ++i) {
            pen.send(QEvent::TabletPress, at(0.0, 0.002), 0.5, Qt::LeftButton, Qt::LeftButton);
            pen.send(QEvent::TabletRelease, at(0.0, 0.002), 0.0, Qt::LeftButton, Qt::NoButton);
        }
        QCOMPARE(probe.set().fences.size(), std::size_t{2});

        // By hand, in one stroke.
        probe.find<QAction>("freehand")->trigger();
        std::vector<QPointF> way;
        for (int i = 0; i <= 40; ++i)
            way.push_back(at(0.008 * std::cos(i * 0.15), 0.003 * std::sin(i * 0.15)));
        pen.stroke(way);
        QCOMPARE(probe.set().fences.size(), std::size_t{3});
    }

    void buttonOfThePen_opensTheMenu() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.01);
        QSignalSpy menus{&probe.map(), &MapCanvas::menuRequested};
        Pen pen{probe.map()};
        pen.send(QEvent::TabletPress, {200, 200}, 0.0, Qt::RightButton, Qt::RightButton);
        pen.send(QEvent::TabletRelease, {200, 200}, 0.0, Qt::RightButton, Qt::NoButton);
        QCOMPARE(menus.count(), 1);
        QTRY_VERIFY(QApplication::activePopupWidget());
        QTest::keyClick(QApplication::activePopupWidget(), Qt::Key_Escape);
    }

    void twoFingers_moveTheMap_andPinchingComesNearer() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.01);
        MapCanvas& map = probe.map();
        const model::Position under = map.toEarth({300, 300});
        QWheelEvent scroll{{300, 300},       map.mapToGlobal(QPointF{300, 300}),
                           {40, -25},        {40, -25},
                           Qt::NoButton,     Qt::NoModifier,
                           Qt::ScrollUpdate, false};
        QApplication::sendEvent(&map, &scroll);
        const QPointF moved = map.toWidget(under);
        QVERIFY(std::hypot(moved.x() - 340, moved.y() - 275) < 0.5);
        const double before = map.metresPerPixel();
        const auto* device = QPointingDevice::primaryPointingDevice();
        for (int i = 0; i < 5; ++i) {
            QNativeGestureEvent pinch{
                Qt::ZoomNativeGesture, device, 2, {340, 275}, {340, 275}, map.mapToGlobal(QPointF{340, 275}), 0.1, {}};
            QApplication::sendEvent(&map, &pinch);
        }
        QVERIFY(std::abs(before / map.metresPerPixel() / std::pow(1.1, 5) - 1) < 1e-6);
        const QPointF kept = map.toWidget(under);
        QVERIFY(std::hypot(kept.x() - moved.x(), kept.y() - moved.y()) < 0.5);
    }

    void polygon_isDrawnByKeysAlone() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.01);
        probe.key(Qt::Key_I);
        QCOMPARE(probe.map().toolId(), QString{"keepin"});
        const QPointF middle = QRectF{probe.map().rect()}.center();
        std::vector<model::Position> meant;
        const auto set = [&] {
            meant.push_back(probe.map().toEarth(middle));
            probe.key(Qt::Key_Space);
            QTest::qWait(1);
        };
        const auto walk = [&](Qt::Key key, int steps) {
            for (int i = 0; i < steps; ++i)
                probe.key(key);
            QTest::qWait(1);
        };
        set();
        QVERIFY(probe.find<QWidget>("keyboardPointer")->isVisible());
        walk(Qt::Key_Right, 3);
        set();
        walk(Qt::Key_Up, 2);
        set();
        // One mistake, taken back.
        walk(Qt::Key_Up, 1);
        set();
        meant.pop_back();
        probe.key(Qt::Key_Backspace);
        walk(Qt::Key_Down, 1);
        walk(Qt::Key_Left, 3);
        set();
        probe.key(Qt::Key_Return);
        QCOMPARE(probe.set().fences.size(), std::size_t{1});
        const auto& shell = std::get<model::DrawnPolygon>(probe.set().fences[0].shape).polygon.shell.corners;
        QCOMPARE(shell.size(), meant.size());
        const double tolerance = 2 * probe.map().metresPerPixel() / 111'195.0 / std::cos(kLat * 3.14159 / 180);
        for (std::size_t i = 0; i < meant.size(); ++i)
            QVERIFY(std::abs(shell[i].lon - meant[i].lon) < tolerance &&
                    std::abs(shell[i].lat - meant[i].lat) < tolerance);
        // The mouse takes over.
        QTest::mouseMove(&probe.map(), QPoint{30, 30});
        QTRY_VERIFY(!probe.find<QWidget>("keyboardPointer")->isVisible());
    }

    void space_heldWhileDragging_clicksNowhere() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.01);
        probe.key(Qt::Key_I);
        QTest::keyPress(&probe.map(), Qt::Key_Space);
        QTest::mousePress(&probe.map(), Qt::LeftButton, {}, {200, 200});
        QTest::mouseMove(&probe.map(), {240, 200});
        QTest::mouseRelease(&probe.map(), Qt::LeftButton, {}, {240, 200});
        QTest::keyRelease(&probe.map(), Qt::Key_Space);
        QTest::qWait(5);
        // No place was set: the hint still asks for the first corner.
        probe.key(Qt::Key_Return);
        QCOMPARE(probe.set().fences.size(), std::size_t{0});
        QVERIFY(!probe.find<QWidget>("keyboardPointer")->isVisible());
    }

    void map_saysToolSelectionAndHint_toThoseWhoDoNotSeeIt() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.01);
        probe.square("tool_keepin", kLon, kLat, 0.004);
        const auto described = [&] {
            return QAccessible::queryAccessibleInterface(&probe.map())->text(QAccessible::Description);
        };
        probe.map().select(probe.set().fences[0].id);
        QVERIFY2(described().contains(QString::fromStdString(probe.set().fences[0].name)), qPrintable(described()));
        probe.map().setFocus();
        probe.key(Qt::Key_M);
        QVERIFY2(described().contains("Tool: Measure."), qPrintable(described()));
        QVERIFY2(described().contains("Click where to measure from."), qPrintable(described()));
    }

    void findings_haveAMenu_andADoubleClickGoesToTheForm() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.01);
        // A bow tie: it crosses itself, and can be repaired.
        probe.draw("tool_keepout", {{kLon - 0.004, kLat - 0.004},
                                    {kLon + 0.004, kLat + 0.004},
                                    {kLon + 0.004, kLat - 0.004},
                                    {kLon - 0.004, kLat + 0.004}});
        QVERIFY(probe.settle());
        auto* list = probe.find<QListView>("findingsList");
        QTRY_VERIFY(list->model()->rowCount() > 0);
        const auto openMenu = [&](int row) {
            const QPoint at = list->visualRect(list->model()->index(row, 0)).center();
            QContextMenuEvent event{QContextMenuEvent::Mouse, at, list->viewport()->mapToGlobal(at)};
            QCoreApplication::sendEvent(list->viewport(), &event);
            return qobject_cast<QMenu*>(QApplication::activePopupWidget());
        };
        const auto choose = [](QMenu* menu, const QString& begin) {
            for (QAction* action : menu->actions())
                if (action->text().remove('&').startsWith(begin)) {
                    QTest::mouseClick(menu, Qt::LeftButton, {}, menu->actionGeometry(action).center());
                    return true;
                }
            menu->close();
            return false;
        };
        int repairable = -1;
        for (int row = 0; row < list->model()->rowCount() && repairable < 0; ++row) {
            QMenu* menu = openMenu(row);
            QVERIFY(menu);
            const QString words = list->model()->index(row, 0).data().toString();
            QVERIFY(choose(menu, "Copy its words"));
            QVERIFY2(QGuiApplication::clipboard()->text().contains(words), qPrintable(words));
            QTRY_VERIFY(!QApplication::activePopupWidget());
            menu = openMenu(row);
            for (const QAction* action : menu->actions())
                if (action->text().contains("repair"))
                    repairable = row;
            menu->close();
            QTRY_VERIFY(!QApplication::activePopupWidget());
        }
        QVERIFY(repairable >= 0);
        const QPoint at = list->visualRect(list->model()->index(0, 0)).center();
        QTest::mouseClick(list->viewport(), Qt::LeftButton, {}, at);
        QTest::mouseDClick(list->viewport(), Qt::LeftButton, {}, at);
        QVERIFY2(probe.find<QLineEdit>("fenceName") && probe.window->focusWidget() != list, "the form has no focus");
        const model::FenceSet before = probe.set();
        QVERIFY(choose(openMenu(repairable), "Take repair"));
        QVERIFY(!(probe.set() == before));
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(probe.set() == before);
    }

    void aFindingsMenu_keepsToItsFinding_whileTheListChangesUnderIt() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.01);
        for (const double lon : {kLon - 0.005, kLon + 0.005}) // each can be repaired
            probe.draw("tool_keepout", {{lon - 0.003, kLat - 0.004},
                                        {lon + 0.003, kLat + 0.004},
                                        {lon + 0.003, kLat - 0.004},
                                        {lon - 0.003, kLat + 0.004}});
        QCOMPARE(probe.set().fences.size(), std::size_t{2});
        QVERIFY(probe.settle());
        auto* list = probe.find<QListView>("findingsList");
        const auto repairableRows = [&] {
            std::vector<int> rows;
            const auto& findings = probe.window->audit().result()->findings;
            for (int row = 0; row < int(findings.size()); ++row)
                if (const auto& one = findings[std::size_t(row)]; one.repair && one.fence)
                    rows.push_back(row);
            return rows;
        };
        const auto fenceOf = [&](int row) { return *probe.window->audit().result()->findings[std::size_t(row)].fence; };
        QCOMPARE(repairableRows().size(), std::size_t{2});
        const int upper = repairableRows()[0], lower = repairableRows()[1];
        const model::FenceId upperFence = fenceOf(upper), lowerFence = fenceOf(lower);
        // The menu of one row, another thing removed meanwhile, and then the repair.
        const auto takeAfterRemoving = [&](int row, const model::FenceId& removed) {
            const QPoint at = list->visualRect(list->model()->index(row, 0)).center();
            QContextMenuEvent event{QContextMenuEvent::Mouse, at, list->viewport()->mapToGlobal(at)};
            QCoreApplication::sendEvent(list->viewport(), &event);
            auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
            if (!menu)
                return false;
            probe.document().push(model::removeFence(probe.set(), removed));
            if (!QTest::qWaitFor([&] { return probe.window->audit().isCurrent(); }, 20'000))
                return false;
            for (QAction* action : menu->actions())
                if (action->text().remove('&').startsWith("Take repair")) {
                    QTest::mouseClick(menu, Qt::LeftButton, {}, menu->actionGeometry(action).center());
                    return true;
                }
            return false;
        };

        // Its finding moved up: that is the one that is repaired.
        const model::FenceSet before = probe.set();
        const auto broken = before.fences.findPointer(lowerFence);
        QVERIFY(takeAfterRemoving(lower, upperFence));
        QCOMPARE(probe.set().fences.size(), std::size_t{1});
        QVERIFY(probe.set().fences.findPointer(lowerFence) != broken);
        probe.document().goToStep(2);
        QVERIFY(probe.set() == before);
        QVERIFY(probe.settle());
        QCOMPARE(fenceOf(upper), upperFence);

        // Its finding is gone, and another stands in its row: that one is left alone.
        QVERIFY(takeAfterRemoving(upper, upperFence));
        QCOMPARE(probe.set().fences.size(), std::size_t{1});
        QVERIFY(probe.set().fences.findPointer(lowerFence) == broken);
        QVERIFY2(probe.message().contains("not found any more"), qPrintable(probe.message()));
    }

    void calendar_hasAMenu_ofTheDayUnderThePointer() {
        WindowProbe probe;
        auto* bars = probe.find<QWidget>("calendarStrip")->findChild<QAbstractScrollArea*>();
        const QPoint at{bars->viewport()->width() / 2, 10};
        QContextMenuEvent event{QContextMenuEvent::Mouse, at, bars->viewport()->mapToGlobal(at)};
        QCoreApplication::sendEvent(bars->viewport(), &event);
        auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
        QVERIFY(menu);
        const auto before = probe.window->audit().moment().date;
        QTest::mouseClick(menu, Qt::LeftButton, {}, menu->actionGeometry(menu->actions().front()).center());
        QVERIFY(probe.window->audit().moment().date != before);
        QCOMPARE(probe.window->audit().moment().date.year(), before.year());
    }

    void source_hasAMenu_ofWhatItsFormOffers() {
        WindowProbe probe;
        model::Source source;
        source.id = model::freshId<struct model::Source>();
        source.name = "Parcels";
        source.kind = model::SourceKind::Reference;
        source.path = probe.folder.filePath("not-there.gpkg").toStdString();
        probe.document().push(model::addSource(probe.set(), source));
        (void)probe.settle();
        QTest::mouseClick(probe.find<QPushButton>("tabSources"), Qt::LeftButton);
        auto* rows = probe.find<QTableView>("ledgerTable");
        const QPoint at = rows->visualRect(rows->model()->index(0, 0)).center();
        const auto choose = [&](const QString& words) {
            QTest::mouseClick(rows->viewport(), Qt::RightButton, {}, at);
            QContextMenuEvent event{QContextMenuEvent::Mouse, at, rows->viewport()->mapToGlobal(at)};
            QCoreApplication::sendEvent(rows->viewport(), &event);
            auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
            if (!menu)
                return false;
            for (QAction* action : menu->actions())
                if (action->text().remove('&') == words) {
                    QTest::mouseClick(menu, Qt::LeftButton, {}, menu->actionGeometry(action).center());
                    return true;
                }
            menu->close();
            return false;
        };
        QVERIFY(choose("Hide"));
        QVERIFY(!probe.set().sources[0].visible);
        QVERIFY(choose("Show"));
        QVERIFY(probe.set().sources[0].visible);
        QVERIFY(choose("Remove"));
        QVERIFY(probe.set().sources.empty());
    }

    void fault_goesWhenLaterWorkGoesWell() {
        WindowProbe probe;
        probe.window->open(probe.folder.filePath("not-there.gpkg"));
        QTRY_VERIFY(!probe.message().isEmpty());
        probe.look(kLon, kLat, 0.01);
        probe.square("tool_keepin", kLon, kLat, 0.004);
        QVERIFY(!probe.message().isEmpty()); // drawing has nothing to do with it
        QVERIFY(probe.save(probe.folder.filePath("set.gpkg")));
        QTRY_VERIFY(probe.message().isEmpty());
    }

    void nextPart_goesRoundTheWindow() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.01);
        probe.square("tool_keepin", kLon, kLat, 0.004);
        probe.map().select(probe.set().fences[0].id);
        probe.map().setFocus();
        QSet<QWidget*> seen;
        for (int i = 0; i < 5; ++i) {
            probe.key(Qt::Key_F6);
            QWidget* now = probe.window->focusWidget();
            QVERIFY(now);
            seen << now;
        }
        QCOMPARE(seen.size(), 5);
        QVERIFY(probe.map().hasFocus());
    }
};

QTEST_MAIN(ComfortTest)
#include "comfort_test.moc"
