#include "app/desktop/window_probe.h"

#include "geodesy/geodesic.h"
#include "geometry/containment.h"

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr double kLon = -8.7;
constexpr double kLat = 46.2;

model::Fence square(const std::string& name, double east, double north, double half,
                    model::FenceKind kind = model::FenceKind::KeepOut) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name = name;
    fence.kind = kind;
    const double lon = kLon + east, lat = kLat + north;
    fence.shape = model::DrawnPolygon{
        {{{{lon - half, lat - half}, {lon + half, lat - half}, {lon + half, lat + half}, {lon - half, lat + half}}},
         {}}};
    return fence;
}

void lay(WindowProbe& probe, const std::vector<model::Fence>& fences) {
    for (const auto& fence : fences)
        probe.document().push(model::addFence(probe.set(), fence));
    probe.document().undoStack().clear();
    probe.look(kLon, kLat, 0.006);
}

QStringList names(WindowProbe& probe) {
    QStringList all;
    for (const auto& fence : probe.set().fences)
        all << QString::fromStdString(fence.name);
    return all;
}

double areaOf(const model::Fence& fence) {
    return geodesy::measure(std::get<model::DrawnPolygon>(fence.shape).polygon).area.inSquareMetres();
}

/// Chooses them on the map, one after the other.
void choose(WindowProbe& probe, const std::vector<model::Position>& places) {
    for (std::size_t i = 0; i < places.size(); ++i) {
        const QPoint at = probe.pixel(kLon + places[i].lon, kLat + places[i].lat);
        QTest::mouseMove(&probe.map(), at);
        QTest::mouseClick(&probe.map(), Qt::LeftButton, i == 0 ? Qt::NoModifier : Qt::ShiftModifier, at);
        QTest::qWait(QApplication::doubleClickInterval() / 20);
    }
}

QAction* action(WindowProbe& probe, const char* name) { return probe.find<QAction>(name); }

} // namespace

/// New fences out of those that are chosen.
class ShapingTest : public QObject {
    Q_OBJECT

private slots:
    void unite_makesOneOfTwo_andUndoBringsThemBack() {
        WindowProbe probe;
        lay(probe, {square("West", -0.001, 0, 0.0015), square("East", 0.001, 0, 0.0015)});
        const model::FenceSet before = probe.set();
        QVERIFY(!action(probe, "unite")->isEnabled());
        choose(probe, {{-0.002, 0}, {0.002, 0}});
        QCOMPARE(probe.map().selection().size(), std::size_t{2});
        probe.key(Qt::Key_U, Qt::ControlModifier);
        QCOMPARE(names(probe), QStringList{"West"});
        QVERIFY(probe.map().selection() == Selection{before.fences[0].id});
        QCOMPARE(probe.document().undoStack().undoText(), QString{"Unite West and East"});
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(probe.set() == before);
    }

    void unite_ofTwoKinds_saysWhyNot() {
        WindowProbe probe;
        lay(probe, {square("West", -0.001, 0, 0.0015), square("East", 0.001, 0, 0.0015, model::FenceKind::KeepIn)});
        probe.map().select(Selection{probe.set().fences[0].id}.with(probe.set().fences[1].id));
        probe.key(Qt::Key_U, Qt::ControlModifier);
        QVERIFY2(probe.message().contains("Keep-ins and keep-outs cannot become one fence."),
                 qPrintable(probe.message()));
        QCOMPARE(probe.document().undoStack().count(), 0);
    }

    void takeOut_namesTheFenceThatLoses_alsoInTheMenuOfTheMap() {
        WindowProbe probe;
        lay(probe, {square("Gate & yard", 0.001, 0, 0.0015), square("Land", 0, 0, 0.003)});
        choose(probe, {{-0.002, 0.002}, {0.001, 0}});
        QCOMPARE(probe.map().selection().size(), std::size_t{2});
        const QPoint at = probe.pixel(kLon - 0.002, kLat + 0.002);
        QContextMenuEvent wish{QContextMenuEvent::Mouse, at, probe.map().mapToGlobal(at)};
        QApplication::sendEvent(&probe.map(), &wish);
        auto* menu = probe.find<QMenu>("mapMenu");
        QVERIFY(menu);
        QMenu* shape = nullptr;
        for (QAction* line : menu->actions())
            if (line->menu())
                shape = line->menu();
        QVERIFY(shape && shape->actions().contains(action(probe, "takeOut")));
        QCOMPARE(action(probe, "takeOut")->text().remove('&'), QString{"Take the others out of Land"});
        menu->close();
        const double whole = areaOf(probe.set().fences[1]);
        action(probe, "takeOut")->trigger();
        QCOMPARE(names(probe), (QStringList{"Gate & yard", "Land"}));
        QVERIFY(areaOf(probe.set().fences[1]) < whole * 0.8);
        QCOMPARE(probe.document().undoStack().undoText(), QString{"Take Gate & yard out of Land"});
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(areaOf(probe.set().fences[1]), whole);
        // The other way round it says so.
        probe.map().select(Selection{probe.set().fences[0].id}.with(probe.set().fences[1].id));
        QCOMPARE(action(probe, "takeOut")->text(), QString{"Take the others &out of Gate && yard"});
        action(probe, "takeOut")->trigger();
        QVERIFY(probe.message().contains("Nothing would be left of Gate & yard."));
    }

    void intersect_andFillHoles_fromTheMenu() {
        WindowProbe probe;
        model::Fence ring = square("Ring", 0, 0, 0.003);
        std::get<model::DrawnPolygon>(ring.shape)
            .polygon.holes.push_back(std::get<model::DrawnPolygon>(square("", 0, 0, 0.001).shape).polygon.shell);
        lay(probe, {ring, square("Part", 0.003, 0, 0.003)});
        probe.map().select(Selection{ring.id});
        QVERIFY(!action(probe, "intersect")->isEnabled());
        action(probe, "fillHoles")->trigger();
        QVERIFY(std::get<model::DrawnPolygon>(probe.set().fences[0].shape).polygon.holes.empty());
        action(probe, "fillHoles")->trigger();
        QVERIFY(probe.message().contains("There is no hole to fill."));
        probe.map().select(Selection{ring.id}.with(probe.set().fences[1].id));
        action(probe, "intersect")->trigger();
        QCOMPARE(names(probe), QStringList{"Ring"});
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(probe.set().fences[0] == ring);
    }

    void makePolygon_ofASetback_saysThatItFollowsNoMore() {
        WindowProbe probe;
        model::Site nest;
        nest.id = model::freshId<model::Site>();
        nest.name = "Nest";
        nest.geometry = model::Position{kLon, kLat};
        probe.document().push(model::addSite(probe.set(), nest));
        model::Fence setback = square("Osprey", 0, 0, 1);
        setback.shape = model::Setback{nest.id, {Length::metres(200), "200 m"}};
        lay(probe, {setback});
        probe.map().select(Selection{setback.id});
        action(probe, "makePolygon")->trigger();
        QVERIFY(std::holds_alternative<model::DrawnPolygon>(probe.set().fences[0].shape));
        QVERIFY(probe.message().contains("Osprey follows its site no more."));
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(probe.set().fences[0] == setback);
    }

    void offsetCopy_isTyped_shownWhileItIs_andOneStep() {
        WindowProbe probe;
        lay(probe, {square("Land", 0, 0, 0.002)});
        choose(probe, {{0, 0}});
        const QImage plain = probe.map().grab().toImage();
        probe.key(Qt::Key_O, Qt::ControlModifier | Qt::ShiftModifier);
        auto* dialog = probe.waitForDialog<QDialog>("offsetDialog");
        QVERIFY(dialog);
        auto* go = dialog->findChild<QPushButton*>("offsetGo");
        QVERIFY(!go->isEnabled());
        probe.type(dialog, "offsetDistance", "150 ft");
        QVERIFY(go->isEnabled());
        QTest::qWait(50);
        QVERIFY(probe.map().grab().toImage() != plain);
        QCOMPARE(probe.set().fences.size(), std::size_t{1});
        probe.type(dialog, "offsetDistance", "150 q");
        QVERIFY(!go->isEnabled());
        QVERIFY(!dialog->findChild<QLabel*>("offsetWords")->text().isEmpty());
        probe.type(dialog, "offsetDistance", "9 km");
        dialog->findChild<QComboBox*>("offsetSide")->setCurrentIndex(1);
        QVERIFY(dialog->findChild<QLabel*>("offsetWords")->text().contains("Nothing is left that far inside Land."));
        QVERIFY(!go->isEnabled());
        probe.type(dialog, "offsetDistance", "150 ft");
        dialog->findChild<QComboBox*>("offsetKind")->setCurrentIndex(0);
        QTest::keyClick(dialog->findChild<QLineEdit*>("offsetDistance"), Qt::Key_Return);
        QTRY_COMPARE(names(probe), (QStringList{"Land", "Land \u2212 150 ft"}));
        const model::Fence copy = probe.set().fences[1];
        QCOMPARE(copy.kind, model::FenceKind::KeepIn);
        QVERIFY(geometry::contains({{std::get<model::DrawnPolygon>(probe.set().fences[0].shape).polygon}},
                                   model::MultiPolygon{{std::get<model::DrawnPolygon>(copy.shape).polygon}}));
        QVERIFY(probe.map().selection() == Selection{copy.id});
        probe.window->activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(probe.window.get()));
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(names(probe), QStringList{"Land"});
        // Left by Escape, nothing stays.
        choose(probe, {{0, 0}});
        probe.key(Qt::Key_O, Qt::ControlModifier | Qt::ShiftModifier);
        dialog = probe.waitForDialog<QDialog>("offsetDialog");
        QVERIFY(dialog);
        probe.type(dialog, "offsetDistance", "50 m");
        QTest::keyClick(dialog, Qt::Key_Escape);
        QTRY_VERIFY(!probe.dialog());
        QCOMPARE(names(probe), QStringList{"Land"});
    }

    void duplicate_standsBeside_andIsSelected() {
        WindowProbe probe;
        lay(probe, {square("Land", 0, 0, 0.002)});
        choose(probe, {{0, 0}});
        probe.key(Qt::Key_D, Qt::ControlModifier | Qt::ShiftModifier);
        QCOMPARE(names(probe), (QStringList{"Land", "Land copy"}));
        QVERIFY(probe.map().selection() == Selection{probe.set().fences[1].id});
        const auto corner = [&](std::size_t i) {
            return probe.map().toWidget(
                std::get<model::DrawnPolygon>(probe.set().fences[i].shape).polygon.shell.corners[0]);
        };
        QVERIFY(QLineF(corner(0) + QPointF(24, 24), corner(1)).length() < 1.5);
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(names(probe), QStringList{"Land"});
    }

    void cutTool_byKeyAndClicks_andTyped() {
        WindowProbe probe;
        lay(probe, {square("Land", 0, 0, 0.002)});
        probe.key(Qt::Key_X);
        QCOMPARE(probe.map().toolId(), QString{"cut"});
        probe.clickMap(kLon - 0.004, kLat);
        probe.clickMap(kLon, kLat);
        probe.key(Qt::Key_Return);
        QVERIFY2(probe.message().contains("The line cuts no fence in two."), qPrintable(probe.message()));
        probe.clickMap(kLon + 0.004, kLat + 0.001);
        probe.key(Qt::Key_Return);
        QCOMPARE(names(probe), (QStringList{"Land", "Land 2"}));
        QCOMPARE(probe.map().selection().size(), std::size_t{2});
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(names(probe), QStringList{"Land"});
        probe.clickMap(kLon, kLat - 0.004);
        for (const char letter : {'1', ' ', 'k', 'm', ' ', '0'})
            QTest::keyClick(QApplication::focusWidget(), letter);
        probe.key(Qt::Key_Return);
        probe.key(Qt::Key_Return);
        QCOMPARE(names(probe), (QStringList{"Land", "Land 2"}));
        QVERIFY(std::abs(areaOf(probe.set().fences[0]) / areaOf(probe.set().fences[1]) - 1.0) < 0.05);
    }
};

QTEST_MAIN(ShapingTest)
#include "shaping_test.moc"
