// For every command that changes what is chosen: one straight run, one mistake taken back, and one typed run where it
// takes figures. As tool_runs_test does for the tools; a command without a run fails.
#include "app/desktop/window_probe.h"

#include "desktop/panels/corner_model.h"
#include "desktop/window_actions.h"
#include "geodesy/geodesic.h"

#include <QClipboard>

#include <functional>
#include <map>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr double kLon = -8.7, kLat = 46.2;

model::Ring square(double east, double north, double half) {
    const double lon = kLon + east, lat = kLat + north;
    return {{{lon - half, lat - half}, {lon + half, lat - half}, {lon + half, lat + half}, {lon - half, lat + half}}};
}
void add(WindowProbe& probe, const char* name, model::Shape shape) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name = name;
    fence.shape = std::move(shape);
    probe.document().push(model::addFence(probe.set(), fence));
}
/// Two that overlap, the western one with a hole, and a circle beside them.
void lay(WindowProbe& probe) {
    add(probe, "West", model::DrawnPolygon{{square(-0.001, 0, 0.0015), {square(-0.0015, 0, 0.0003)}}});
    add(probe, "East", model::DrawnPolygon{{square(0.001, 0, 0.0015), {}}});
    add(probe, "Tank", model::Circle{{kLon, kLat + 0.0035}, {Length::metres(80), "80 m"}});
    probe.document().undoStack().clear();
    probe.look(kLon, kLat, 0.006);
    probe.map().setFocus();
}
/// Where each can be clicked without meeting another.
const model::Position kWest{kLon - 0.0022, kLat}, kEast{kLon + 0.002, kLat}, kTank{kLon, kLat + 0.0035};

void choose(WindowProbe& probe, const std::vector<model::Position>& places) {
    probe.map().select({});
    for (std::size_t i = 0; i < places.size(); ++i) {
        const QPoint at = probe.pixel(places[i].lon, places[i].lat);
        QTest::mouseMove(&probe.map(), at);
        QTest::mouseClick(&probe.map(), Qt::LeftButton, i == 0 ? Qt::NoModifier : Qt::ShiftModifier, at);
        QTest::qWait(QApplication::doubleClickInterval() / 20);
    }
    QCOMPARE(probe.map().selection().size(), places.size());
}
void undo(WindowProbe& probe) {
    probe.map().setFocus();
    probe.key(Qt::Key_Z, Qt::ControlModifier);
}
/// From the menu, or by its key where it has one.
void command(WindowProbe& probe, const char* name) {
    auto* action = probe.find<QAction>(name);
    QVERIFY2(action && action->isEnabled(), name);
    if (action->shortcut().isEmpty())
        return action->trigger();
    const QKeyCombination key = action->shortcut()[0];
    probe.map().setFocus();
    probe.key(key.key(), key.keyboardModifiers());
}
std::vector<std::string> names(WindowProbe& probe) {
    std::vector<std::string> all;
    for (const model::Fence& fence : probe.set().fences)
        all.push_back(fence.name);
    return all;
}
using Names = std::vector<std::string>;
const model::Polygon& polygon(WindowProbe& probe, std::size_t i) {
    return std::get<model::DrawnPolygon>(probe.set().fences[i].shape).polygon;
}
double squareMetres(WindowProbe& probe, std::size_t i) {
    return geodesy::measure(polygon(probe, i)).area.inSquareMetres();
}
void activate(WindowProbe& probe) {
    probe.window->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(probe.window.get()));
}
/// Answers the question for the distance.
void answerDistance(WindowProbe& probe, const QString& typed) {
    auto* dialog = probe.waitForDialog<QDialog>("offsetDialog");
    QVERIFY(dialog);
    probe.type(dialog, "offsetDistance", typed);
    QTest::keyClick(dialog->findChild<QLineEdit*>("offsetDistance"), Qt::Key_Return);
    QTRY_VERIFY(!probe.dialog());
    activate(probe);
}
/// The first place of the chosen fence, typed in the table.
void typeFirstCorner(WindowProbe& probe, const QString& place) {
    command(probe, "corners");
    QDialog* dialog = nullptr;
    QTRY_VERIFY((dialog = probe.find<QDialog>("cornersDialog")) && dialog->isVisible());
    dialog->activateWindow();
    QTRY_COMPARE(QApplication::activeWindow(), dialog);
    auto* view = dialog->findChild<QTableView*>("cornersTable");
    const QModelIndex at = view->model()->index(0, CornerModel::Place);
    QTest::mouseClick(view->viewport(), Qt::LeftButton, {}, view->visualRect(at).center());
    QTest::keyClick(view, Qt::Key_F2);
    const QPointer<QLineEdit> editor{qobject_cast<QLineEdit*>(QApplication::focusWidget())};
    QVERIFY(editor);
    QTest::keyClick(editor.data(), Qt::Key_A, Qt::ControlModifier);
    QTest::keyClicks(editor.data(), place);
    QTest::keyClick(editor.data(), Qt::Key_Return);
    QTRY_VERIFY(!editor || !editor->isVisible());
    dialog->close();
    activate(probe);
}

struct Run {
    std::function<void(WindowProbe&)> straight;
    std::function<void(WindowProbe&)> mistake; ///< another use of the same command, taken back by one undo
    std::function<bool(WindowProbe&)> isRight; ///< after the straight run
    int steps = 1;
};

/// A command that asks nothing: done to the right ones, and by mistake to others.
Run plain(const char* name, std::vector<model::Position> right, std::vector<model::Position> wrong,
          std::function<bool(WindowProbe&)> isRight) {
    const auto doTo = [name](std::vector<model::Position> places) {
        return [name, places = std::move(places)](WindowProbe& probe) {
            choose(probe, places);
            command(probe, name);
        };
    };
    return {doTo(std::move(right)), doTo(std::move(wrong)), std::move(isRight)};
}

const std::map<QString, Run>& runs() {
    static const double whole = [] {
        return geodesy::measure(model::Polygon{square(0, 0, 0.0015), {}}).area.inSquareMetres();
    }();
    static const std::map<QString, Run> all{
        {"duplicate", plain("duplicate", {kWest}, {kTank},
                            [](WindowProbe& probe) {
                                return names(probe) == Names{"West", "East", "Tank", "West copy"} &&
                                       probe.map().selection() == Selection{probe.set().fences[3].id};
                            })},
        {"delete",
         plain("delete", {kEast, kTank}, {kWest}, [](WindowProbe& probe) { return names(probe) == Names{"West"}; })},
        {"cut",
         plain(
             "cut", {kEast}, {kWest, kTank},
             [](WindowProbe& probe) {
                 return names(probe) == Names{"West", "Tank"} && QGuiApplication::clipboard()->text().contains("East");
             })},
        {"paste",
         {[](WindowProbe& probe) {
              choose(probe, {kTank});
              command(probe, "copy");
              command(probe, "paste");
          },
          [](WindowProbe& probe) {
              choose(probe, {kEast});
              command(probe, "copy");
              command(probe, "paste");
          },
          [](WindowProbe& probe) {
              if (probe.set().fences.size() != 4)
                  return false;
              const auto* circle = std::get_if<model::Circle>(&probe.set().fences[3].shape);
              return circle && circle->radius.asWritten == "80 m";
          }}},
        {"lock",
         plain("lock", {kWest}, {kEast},
               [](WindowProbe& probe) { return probe.set().fences[0].locked && !probe.set().fences[1].locked; })},
        {"unlock",
         {[](WindowProbe& probe) {
              choose(probe, {kWest, kEast});
              command(probe, "lock");
              choose(probe, {kWest});
              command(probe, "unlock");
          },
          [](WindowProbe& probe) {
              choose(probe, {kTank});
              command(probe, "lock");
              command(probe, "unlock");
              undo(probe); // locked again, and then not
          },
          [](WindowProbe& probe) { return !probe.set().fences[0].locked && probe.set().fences[1].locked; }, 2}},
        {"unite", plain("unite", {kWest, kEast}, {kWest, kEast, kTank},
                        [](WindowProbe& probe) {
                            // 0.005 by 0.003 degrees, less the hole of 0.0006 by 0.0006.
                            return names(probe) == Names{"West", "Tank"} && polygon(probe, 0).holes.size() == 1 &&
                                   std::abs(squareMetres(probe, 0) / whole - (15.0 - 0.36) / 9.0) < 1e-4;
                        })},
        {"takeOut", plain("takeOut", {kWest, kEast}, {kEast, kWest},
                          [](WindowProbe& probe) {
                              // 0.002 by 0.003 degrees less the hole are left.
                              return std::abs(squareMetres(probe, 0) / whole - (6.0 - 0.36) / 9.0) < 1e-4 &&
                                     std::abs(squareMetres(probe, 1) / whole - 1.0) < 1e-4;
                          })},
        {"intersect", plain("intersect", {kWest, kEast}, {kEast, kWest},
                            [](WindowProbe& probe) {
                                return names(probe) == Names{"West", "Tank"} &&
                                       std::abs(squareMetres(probe, 0) / whole - 3.0 / 9.0) < 1e-4;
                            })},
        {"fillHoles",
         {[](WindowProbe& probe) {
              choose(probe, {kWest});
              command(probe, "fillHoles");
          },
          [](WindowProbe& probe) {
              choose(probe, {kWest, kEast});
              command(probe, "fillHoles");
          },
          [](WindowProbe& probe) {
              return polygon(probe, 0).holes.empty() && std::abs(squareMetres(probe, 0) / whole - 1.0) < 1e-4;
          }}},
        {"makePolygon",
         {[](WindowProbe& probe) {
              choose(probe, {kTank});
              command(probe, "makePolygon");
          },
          [](WindowProbe& probe) {
              choose(probe, {kTank});
              command(probe, "duplicate");
          },
          [](WindowProbe& probe) { return std::holds_alternative<model::DrawnPolygon>(probe.set().fences[2].shape); }}},
        {"offsetCopy",
         {[](WindowProbe& probe) {
              choose(probe, {kTank});
              command(probe, "offsetCopy");
              answerDistance(probe, "20 m");
          },
          [](WindowProbe& probe) {
              choose(probe, {kTank});
              command(probe, "offsetCopy");
              answerDistance(probe, "200 ft");
          },
          [](WindowProbe& probe) {
              // Of a circle, 100 m around its middle at least: a keep-out goes round its circle.
              if (names(probe) != Names{"West", "East", "Tank", "Tank + 20 m"})
                  return false;
              const auto* circle = std::get_if<model::Circle>(&probe.set().fences[3].shape);
              if (circle)
                  return std::abs(circle->radius.length.inMetres() - 100.0) < 1e-6;
              for (const model::Position& corner : polygon(probe, 3).shell.corners)
                  if (geodesy::inverse({kLon, kLat + 0.0035}, corner).length.inMetres() < 99.99)
                      return false;
              return true;
          }}},
        {"corners",
         {[](WindowProbe& probe) {
              choose(probe, {kEast});
              typeFirstCorner(probe, "46.1983, -8.7007");
          },
          [](WindowProbe& probe) {
              choose(probe, {kEast});
              typeFirstCorner(probe, "46.1, -8.7");
          },
          [](WindowProbe& probe) {
              return polygon(probe, 1).shell.corners[0] == model::Position{-8.7007, 46.1983} &&
                     polygon(probe, 1).shell.corners.size() == 4;
          }}},
        {"nudge",
         {[](WindowProbe& probe) {
              choose(probe, {kEast});
              for (int i = 0; i < 3; ++i)
                  probe.key(Qt::Key_Up, Qt::AltModifier);
              probe.key(Qt::Key_Up, Qt::AltModifier | Qt::ShiftModifier);
          },
          [](WindowProbe& probe) {
              choose(probe, {kEast});
              probe.key(Qt::Key_Left, Qt::AltModifier | Qt::ShiftModifier);
          },
          [](WindowProbe& probe) {
              const auto moved =
                  geodesy::inverse(square(0.001, 0, 0.0015).corners[0], polygon(probe, 1).shell.corners[0]);
              return std::abs(moved.length.inMetres() - 13.0) < 0.01 &&
                     std::abs(std::remainder(moved.azimuthAtStart.inDegrees(), 360.0)) < 0.05;
          }}},
    };
    return all;
}

} // namespace

class EditRunsTest : public QObject {
    Q_OBJECT

    /// What the menu of edits holds that changes the set; how things are chosen, found and undone is no matter of this.
    static void everyCommand() {
        QTest::addColumn<QString>("id");
        WindowProbe probe;
        const auto& actions = *probe.find<WindowActions>("");
        const QSet<const QAction*> others{
            actions.undo,         actions.redo,       actions.listEdits,   actions.copy,         actions.selectAll,
            actions.selectOthers, actions.selectNone, actions.selectWhere, actions.shareCorners, actions.search};
        for (QAction* action : actions.all())
            if (menuPlace(*action).startsWith("Edit") && !others.contains(action))
                QTest::newRow(qPrintable(action->objectName())) << action->objectName();
        QTest::newRow("nudge") << "nudge";
    }

private slots:
    void initTestCase() { QApplication::setDoubleClickInterval(60); }

    void straight_data() { everyCommand(); }
    void straight() {
        QFETCH(QString, id);
        QVERIFY2(runs().contains(id), "this command has no run here");
        const Run& run = runs().at(id);
        WindowProbe probe;
        lay(probe);
        const model::FenceSet before = probe.set();
        QVERIFY(!run.isRight(probe));
        run.straight(probe);
        QVERIFY(run.isRight(probe));
        QCOMPARE(probe.document().undoStack().count(), run.steps);
        const model::FenceSet after = probe.set();
        for (int i = 0; i < run.steps; ++i)
            undo(probe);
        QVERIFY(probe.set() == before);
        for (int i = 0; i < run.steps; ++i)
            probe.key(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
        QVERIFY(probe.set() == after);
    }

    void aMistake_isTakenBack_andDoneRightly_data() { everyCommand(); }
    void aMistake_isTakenBack_andDoneRightly() {
        QFETCH(QString, id);
        QVERIFY2(runs().contains(id), "this command has no run here");
        const Run& run = runs().at(id);
        WindowProbe probe;
        lay(probe);
        const model::FenceSet before = probe.set();
        run.mistake(probe);
        QVERIFY(probe.set() != before);
        undo(probe);
        QVERIFY(probe.set() == before);
        run.straight(probe);
        QVERIFY(run.isRight(probe));
    }

    /// What takes figures tells why it cannot take some, and the set stays.
    void typedNonsense_changesNothing() {
        WindowProbe probe;
        lay(probe);
        const model::FenceSet before = probe.set();
        choose(probe, {kTank});
        command(probe, "offsetCopy");
        auto* dialog = probe.waitForDialog<QDialog>("offsetDialog");
        QVERIFY(dialog);
        probe.type(dialog, "offsetDistance", "20 parsec");
        QVERIFY(!dialog->findChild<QLabel*>("offsetWords")->text().isEmpty());
        QTest::keyClick(dialog->findChild<QLineEdit*>("offsetDistance"), Qt::Key_Return);
        QVERIFY(dialog->isVisible());
        QTest::keyClick(dialog, Qt::Key_Escape);
        QTRY_VERIFY(!probe.dialog());
        activate(probe);
        choose(probe, {kEast});
        typeFirstCorner(probe, "nowhere");
        QVERIFY(probe.set() == before);
        QGuiApplication::clipboard()->setText("no fence at all");
        command(probe, "paste");
        QVERIFY(!probe.message().isEmpty());
        QVERIFY(probe.set() == before);
    }
};

QTEST_MAIN(EditRunsTest)
#include "edit_runs_test.moc"
