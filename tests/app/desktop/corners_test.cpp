#include "app/desktop/window_probe.h"

#include "desktop/dialogs/corners_dialog.h"
#include "desktop/dialogs/pasted_corners_dialog.h"
#include "geodesy/coordinate_notation.h"
#include "geodesy/geodesic.h"

using namespace fencewright;
using namespace fencewright::desktop;
using model::LineString;
using model::Position;

namespace {

constexpr double kLon = -8.7, kLat = 46.2;

/// Doubles that no short text names.
const LineString kShell{{kLon - 0.002, kLat - 0.001},
                        {kLon + 0.002 + 1e-15, kLat - 0.001 + 1.0 / 3e9},
                        {kLon + 0.002, kLat + 0.001},
                        {kLon - 0.002, kLat + 0.001 + 1.0 / 7e8}};
const LineString kHole{{kLon - 0.001, kLat - 0.0005}, {kLon, kLat - 0.0005}, {kLon, kLat + 0.0005}};

model::FenceId addFence(WindowProbe& probe, model::Shape shape, const char* name = "Mill field") {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name = name;
    fence.shape = std::move(shape);
    probe.document().push(model::addFence(probe.set(), fence));
    probe.look(kLon, kLat, 0.003);
    return fence.id;
}
model::FenceId addField(WindowProbe& probe) { return addFence(probe, model::DrawnPolygon{{{kShell}, {{kHole}}}}); }

/// The table, as a person has it.
struct Table {
    explicit Table(WindowProbe& theProbe) : probe{theProbe} {
        // In decimal degrees all digits are there.
        probe.window->findChild<QAction*>("notationDecimal")->trigger();
        probe.key(Qt::Key_T, Qt::ControlModifier);
        (void)QTest::qWaitFor([&] { return dialog() && dialog()->isVisible(); }, 5000);
        view = dialog()->findChild<QTableView*>("cornersTable");
        activate();
    }
    /// Until the keys go there: the window of a dialog counts as active while its parent's is.
    void activate() {
        dialog()->activateWindow();
        (void)QTest::qWaitFor([&] { return QApplication::activeWindow() == dialog(); }, 5000);
    }
    CornersDialog* dialog() { return probe.find<CornersDialog>("cornersDialog"); }
    QString text(int row, int column) { return view->model()->index(row, column).data().toString(); }
    int row() { return view->currentIndex().row(); }
    void choose(int row, int column = CornerModel::Place, Qt::KeyboardModifiers modifiers = {}) {
        const QModelIndex at = view->model()->index(row, column);
        view->scrollTo(at);
        QTest::mouseClick(view->viewport(), Qt::LeftButton, modifiers, view->visualRect(at).center());
    }
    /// Opens the editor of the cell by the keyboard, and types over it.
    void type(int row, int column, const QString& words) {
        choose(row, column);
        QTest::keyClick(view, Qt::Key_F2);
        const QPointer<QLineEdit> editor{qobject_cast<QLineEdit*>(QApplication::focusWidget())};
        QVERIFY(editor);
        QTest::keyClick(editor.data(), Qt::Key_A, Qt::ControlModifier);
        QTest::keyClicks(editor.data(), words);
        QTest::keyClick(editor.data(), Qt::Key_Return);
        QTRY_VERIFY(!editor || !editor->isVisible()); // it is taken once the key is through
    }
    void undo() {
        activate();
        QTest::keyClick(view, Qt::Key_Z, Qt::ControlModifier);
    }
    QString words() {
        auto* label = dialog()->findChild<QLabel*>("cornersWords");
        return label->isVisible() ? label->text() : QString{};
    }
    void click(const char* name) { probe.clickIn(dialog(), name); }
    PastedCornersDialog* paste(const QString& clipboard) {
        QGuiApplication::clipboard()->setText(clipboard);
        view->setFocus();
        QTest::keyClick(view, Qt::Key_V, Qt::ControlModifier);
        return words().isEmpty() ? probe.waitForDialog<PastedCornersDialog>("pastedCornersDialog") : nullptr;
    }

    WindowProbe& probe;
    QTableView* view = nullptr;
};

const model::Polygon& polygon(WindowProbe& probe) {
    return std::get<model::DrawnPolygon>(probe.set().fences[0].shape).polygon;
}
const LineString& shell(WindowProbe& probe) { return polygon(probe).shell.corners; }
geodesy::Segment leg(const Position& a, const Position& b) { return geodesy::inverse(a, b); }

LineString circle(int count) {
    LineString ring;
    for (int i = 0; i < count; ++i) {
        const double angle = i * 2.0 * M_PI / count;
        ring.push_back({kLon + 0.01 * std::cos(angle), kLat + 0.01 * std::sin(angle)});
    }
    return ring;
}

/// The whole table, cell by cell as it is shown.
QString shownTable(const QAbstractItemModel& model) {
    QString text;
    for (int row = -1; row < model.rowCount(); ++row)
        for (int column = 0; column < model.columnCount(); ++column)
            text += (row < 0 ? model.headerData(column, Qt::Horizontal).toString()
                             : model.index(row, column).data().toString()) +
                    (column + 1 < model.columnCount() ? '\t' : '\n');
    return text;
}

session::BackgroundJob* jobCalled(WindowProbe& probe, const QString& title) {
    for (session::BackgroundJob* job : probe.window->jobs().running())
        if (job->title() == title)
            return job;
    return nullptr;
}

} // namespace

/// The corners of a fence as a table, worked with mouse and keys.
class CornersTest : public QObject {
    Q_OBJECT

private slots:
    void initTestCase() { QApplication::setDoubleClickInterval(60); }

    void table_showsAllCorners_asTheyAre() {
        WindowProbe probe;
        probe.map().select(addField(probe));
        Table table{probe};
        QCOMPARE(table.view->model()->rowCount(), 7);
        QCOMPARE(table.dialog()->findChild<QLabel*>("cornersHeading")->text(), QString{"Mill field, 7 corners"});
        QCOMPARE(table.text(3, CornerModel::Ring), QString{"Outline"});
        QCOMPARE(table.text(4, CornerModel::Ring), QString{"Hole 1"});
        QCOMPARE(table.text(4, CornerModel::Number), QString{"1"});
        for (int row = 0; row < 4; ++row)
            QVERIFY(geodesy::parsePosition(table.text(row, CornerModel::Place).toStdString()) == kShell[row]);
        // The last leg leads back to the first corner.
        const geodesy::Segment last = leg(kShell[3], kShell[0]);
        QCOMPARE(table.text(3, CornerModel::Leg), QString::number(last.length.inMetres(), 'f', 3) + " m");
        QCOMPARE(table.text(3, CornerModel::Bearing),
                 QString::number(last.azimuthAtStart.inDegrees(), 'f', 4) + QString{"°"});
        probe.window->findChild<QAction*>("notationUtm")->trigger();
        QVERIFY2(table.text(0, CornerModel::Place).startsWith("29T "), qPrintable(table.text(0, CornerModel::Place)));
    }

    void cell_leftAsItIs_changesNothing() {
        WindowProbe probe;
        probe.map().select(addField(probe));
        const model::FenceSet before = probe.set();
        const int steps = probe.document().undoStack().count();
        Table table{probe};
        for (const char* notation : {"notationDms", "notationUtm", "notationMgrs", "notationDecimal"}) {
            probe.window->findChild<QAction*>(notation)->trigger();
            for (int column = CornerModel::Place; column < CornerModel::Columns; ++column) {
                table.choose(1, column);
                QTest::keyClick(table.view, Qt::Key_F2);
                QVERIFY(qobject_cast<QLineEdit*>(QApplication::focusWidget()));
                QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
            }
        }
        QVERIFY(probe.set() == before);
        QCOMPARE(probe.document().undoStack().count(), steps);
    }

    void place_isTypedInAnyNotation_andTakenBack() {
        WindowProbe probe;
        probe.map().select(addField(probe));
        const model::FenceSet before = probe.set();
        Table table{probe};
        table.type(1, CornerModel::Place, "46°12'3.6\"N 8°41'52.8\"W");
        QVERIFY2(leg(shell(probe)[1], {-8.698, 46.201}).length < Length::metres(1e-6),
                 qPrintable(table.words() + " " + table.text(1, CornerModel::Place)));
        QVERIFY(shell(probe)[0] == kShell[0] && shell(probe)[2] == kShell[2] && shell(probe)[3] == kShell[3]);
        table.type(5, CornerModel::Place, "29T 523150 5116500");
        QVERIFY(polygon(probe).holes[0].corners[1] == geodesy::parsePosition("29T 523150 5116500"));
        table.type(5, CornerModel::Place, "beside the mill");
        QVERIFY2(table.words().contains("beside"), qPrintable(table.words()));
        // A mistake undone, from within the table.
        table.undo();
        table.undo();
        QVERIFY(probe.set() == before);
        QVERIFY(geodesy::parsePosition(table.text(1, CornerModel::Place).toStdString()) == kShell[1]); // follows
    }

    void legAndBearing_moveTheEndOfTheLeg() {
        WindowProbe probe;
        probe.map().select(addField(probe));
        Table table{probe};
        const geodesy::Segment before = leg(kShell[0], kShell[1]);
        table.type(0, CornerModel::Leg, "250 m");
        geodesy::Segment now = leg(shell(probe)[0], shell(probe)[1]);
        QVERIFY(std::abs(now.length.inMetres() - 250.0) < 1e-6);
        QVERIFY(std::abs(now.azimuthAtStart.inDegrees() - before.azimuthAtStart.inDegrees()) < 1e-7);
        table.type(0, CornerModel::Bearing, "95.5");
        now = leg(shell(probe)[0], shell(probe)[1]);
        QVERIFY(std::abs(now.length.inMetres() - 250.0) < 1e-6);
        QVERIFY(std::abs(now.azimuthAtStart.inDegrees() - 95.5) < 1e-7);
        table.type(0, CornerModel::Bearing, "S 80°30' E");
        QVERIFY(std::abs(leg(shell(probe)[0], shell(probe)[1]).azimuthAtStart.inDegrees() - 99.5) < 1e-7);
        // Of the last leg the end is the first corner.
        table.type(3, CornerModel::Leg, "100 m");
        QVERIFY(std::abs(leg(shell(probe)[3], shell(probe)[0]).length.inMetres() - 100.0) < 1e-6);
        table.type(3, CornerModel::Leg, "0 m");
        QVERIFY(!table.words().isEmpty());
        QVERIFY(std::abs(leg(shell(probe)[3], shell(probe)[0]).length.inMetres() - 100.0) < 1e-6);
    }

    void corridor_hasNoLegBehindItsLastCorner() {
        WindowProbe probe;
        probe.map().select(addFence(probe,
                                    model::Corridor{{kShell[0], kShell[1], kShell[2]},
                                                    {Length::metres(20), "20 m"},
                                                    {Length::metres(20), "20 m"}},
                                    "Pipeline"));
        Table table{probe};
        QCOMPARE(table.view->model()->rowCount(), 3);
        QCOMPARE(table.text(2, CornerModel::Leg), QString{});
        QVERIFY(!(table.view->model()->index(2, CornerModel::Leg).flags() & Qt::ItemIsEditable));
        table.choose(2);
        table.click("cornersInsert");
        const auto& line = std::get<model::Corridor>(probe.set().fences[0].shape).line;
        QCOMPARE(line.size(), std::size_t{4});
        QVERIFY(line[3] == kShell[2]);
    }

    void rows_areInserted_deleted_andTakenBack() {
        WindowProbe probe;
        probe.map().select(addField(probe));
        const model::FenceSet before = probe.set();
        Table table{probe};
        table.choose(1);
        QTest::keyClick(table.view, Qt::Key_Insert);
        QCOMPARE(shell(probe).size(), std::size_t{5});
        QVERIFY((shell(probe)[2] ==
                 Position{(kShell[1].lon + kShell[2].lon) / 2.0, (kShell[1].lat + kShell[2].lat) / 2.0}));
        QCOMPARE(table.row(), 2); // the new one
        QTest::keyClick(table.view, Qt::Key_Delete);
        QVERIFY(probe.set() == before);
        // Two of the outline and the hole as a whole, in one step.
        table.choose(0);
        table.choose(4, CornerModel::Place, Qt::ControlModifier);
        table.click("cornersDelete");
        QCOMPARE(shell(probe).size(), std::size_t{3});
        QVERIFY(polygon(probe).holes.empty());
        table.choose(1);
        table.click("cornersDelete");
        QVERIFY2(table.words().contains("needs its last"), qPrintable(table.words()));
        table.undo();
        QVERIFY(probe.set() == before);
    }

    void copiedRows_comeBackExactly() {
        WindowProbe probe;
        const model::FenceId first = addField(probe);
        probe.map().select(first);
        Table table{probe};
        table.choose(0);
        table.choose(3, CornerModel::Place, Qt::ShiftModifier);
        QTest::keyClick(table.view, Qt::Key_C, Qt::ControlModifier);
        const QString text = QGuiApplication::clipboard()->text();
        QCOMPARE(text.count('\n'), 5); // with a heading
        table.type(2, CornerModel::Place, "46.3 N 8.6 W");
        table.choose(0);
        auto* dialog = table.paste(text);
        QVERIFY(dialog);
        QVERIFY(dialog->findChild<QRadioButton*>("pastedInsteadOfAll")->isChecked());
        probe.clickIn(dialog, "pastedGo");
        QVERIFY(shell(probe) == kShell);
        QCOMPARE(polygon(probe).holes.size(), std::size_t{1});
    }

    void pastedNumbers_areAskedFor_whereTheyAreAmbiguous() {
        WindowProbe probe;
        probe.map().select(addField(probe));
        Table table{probe};
        table.choose(1);
        table.choose(2, CornerModel::Place, Qt::ShiftModifier);
        auto* dialog = table.paste("46.199\t-8.699\n46.2\t-8.697\n46.201\t-8.699\n");
        QVERIFY(dialog);
        auto* go = dialog->findChild<QPushButton*>("pastedGo");
        QVERIFY(!go->isEnabled());
        QTest::mouseClick(dialog->findChild<QRadioButton*>("pastedLatitudeFirst"), Qt::LeftButton, {}, QPoint{8, 8});
        QVERIFY(go->isEnabled());
        QVERIFY2(dialog->findChild<QLabel*>("pastedRead")->text().contains("46.199° N 8.699° W"),
                 qPrintable(dialog->findChild<QLabel*>("pastedRead")->text()));
        QVERIFY(dialog->findChild<QRadioButton*>("pastedInsteadOfChosen")->isChecked());
        QTest::mouseClick(go, Qt::LeftButton);
        QVERIFY((shell(probe) == LineString{kShell[0], {-8.699, 46.199}, {-8.697, 46.2}, {-8.699, 46.201}, kShell[3]}));
        table.undo();
        QVERIFY(shell(probe) == kShell);
    }

    void pastedNonsense_namesTheRow() {
        WindowProbe probe;
        probe.map().select(addField(probe));
        Table table{probe};
        QVERIFY(!table.paste("46.2 N 8.7 W\n1\t2\t3\n"));
        QVERIFY2(table.words().contains("row 2 of the pasted text"), qPrintable(table.words()));
        QVERIFY(shell(probe) == kShell);
    }

    void chosenCorner_isTheSameInTableAndMap() {
        WindowProbe probe;
        const model::FenceId id = addField(probe);
        probe.map().select(id);
        Table table{probe};
        table.choose(5);
        QCOMPARE(probe.map().chosenCorner(), (std::optional{Corner{id, 1, 1}}));
        probe.clickMap(kShell[2].lon, kShell[2].lat);
        QCOMPARE(probe.map().chosenCorner(), (std::optional{Corner{id, 0, 2}}));
        QCOMPARE(table.row(), 2);
        // Dragged on the map, the row follows.
        const QString before = table.text(2, CornerModel::Place);
        const QPoint at = probe.pixel(kShell[2].lon, kShell[2].lat);
        QTest::mousePress(&probe.map(), Qt::LeftButton, {}, at);
        QTest::mouseMove(&probe.map(), at + QPoint{20, -20});
        QTest::mouseMove(&probe.map(), at + QPoint{30, -30});
        QTest::mouseRelease(&probe.map(), Qt::LeftButton, {}, at + QPoint{30, -30});
        QVERIFY(table.text(2, CornerModel::Place) != before);
        // Far away, the map shows it.
        probe.look(kLon + 1.0, kLat, 0.003);
        table.choose(0);
        QVERIFY(probe.map().rect().contains(probe.pixel(kShell[0].lon, kShell[0].lat)));
    }

    void table_followsTheSelection() {
        WindowProbe probe;
        probe.map().select(addField(probe));
        Table table{probe};
        const model::FenceId other = addFence(probe, model::DrawnPolygon{{{kHole}, {}}}, "Other");
        probe.map().select(other);
        QCOMPARE(table.view->model()->rowCount(), 3);
        probe.map().select({});
        QCOMPARE(table.view->model()->rowCount(), 0);
        QVERIFY(!table.dialog()->findChild<QPushButton*>("cornersPaste")->isEnabled());
        QVERIFY(table.dialog()->findChild<QLabel*>("cornersHeading")->text().contains("Choose one polygon"));
    }

    void formAndMenus_openTheTable() {
        WindowProbe probe;
        probe.map().select(addField(probe));
        auto* button = probe.find<QPushButton>("fenceCornersButton");
        QVERIFY(button);
        QTest::mouseClick(button, Qt::LeftButton);
        QTRY_VERIFY(probe.find<CornersDialog>("cornersDialog"));
        probe.clickIn(probe.find<CornersDialog>("cornersDialog"), "cornersClose");
        QTRY_VERIFY(!probe.find<CornersDialog>("cornersDialog"));
        const QPoint at = probe.pixel(kLon - 0.0015, kLat);
        QContextMenuEvent event{QContextMenuEvent::Mouse, at, probe.map().mapToGlobal(at)};
        QCoreApplication::sendEvent(&probe.map(), &event);
        auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
        QVERIFY(menu);
        auto* action = probe.window->findChild<QAction*>("corners");
        QVERIFY(menu->actions().contains(action));
        QTest::mouseClick(menu, Qt::LeftButton, {}, menu->actionGeometry(action).center());
        QTRY_VERIFY(probe.find<CornersDialog>("cornersDialog"));
    }

    void manyPastedRows_areReadWhileTheWindowGoesOn() {
        WindowProbe probe;
        const model::FenceId id = addField(probe);
        probe.map().select(id);
        Table table{probe};
        // As they are copied out of such a table: what reads them has to find the place in each row.
        constexpr int count = 20'000;
        QString rows;
        for (int i = 0; i < count; ++i) {
            const double angle = i * 2.0 * M_PI / count;
            rows += QString{"Outline\t%1\t%2° N %3° W\t62.8 m\t45.1°\n"}
                        .arg(i + 1)
                        .arg(46.2 + 0.01 * std::sin(angle), 0, 'f', 9)
                        .arg(8.7 - 0.01 * std::cos(angle), 0, 'f', 9);
        }
        QGuiApplication::clipboard()->setText(rows);
        auto* paste = table.dialog()->findChild<QPushButton*>("cornersPaste");
        auto* heading = table.dialog()->findChild<QLabel*>("cornersHeading");
        paste->click();
        QVERIFY(!paste->isEnabled()); // not twice
        QCOMPARE(heading->text(), QString{"Reading the pasted rows…"});
        PastedCornersDialog* dialog = nullptr;
        QTRY_VERIFY_WITH_TIMEOUT(dialog = table.dialog()->findChild<PastedCornersDialog*>(), 30'000);
        QVERIFY(paste->isEnabled());
        QTest::mouseClick(dialog->findChild<QRadioButton*>("pastedInsteadOfAll"), Qt::LeftButton, {}, QPoint{8, 8});
        QTest::mouseClick(dialog->findChild<QPushButton*>("pastedGo"), Qt::LeftButton);
        QCOMPARE(shell(probe).size(), std::size_t{count});
        QCOMPARE_LE(std::abs(shell(probe)[0].lon + 8.69), 1e-9);
        // What cannot be read is said then, too.
        QGuiApplication::clipboard()->setText(rows + "1\t2\t3\n");
        paste->click();
        QTRY_VERIFY2_WITH_TIMEOUT(table.words().contains("row 20001 of the pasted text"), qPrintable(table.words()),
                                  30'000);
        table.undo();
        QVERIFY(shell(probe) == kShell);
    }

    void pastedRows_areForTheFenceThatWasShown() {
        WindowProbe probe;
        const model::FenceId field = addField(probe);
        const model::FenceId other = addFence(probe, model::DrawnPolygon{{{kShell}, {}}}, "Other field");
        const model::FenceSet before = probe.set();
        probe.map().select(field);
        Table table{probe};
        QGuiApplication::clipboard()->setText(QString{"46.2° N 8.7° W\n"}.repeated(2'000));
        table.dialog()->findChild<QPushButton*>("cornersPaste")->click();
        QVERIFY(jobCalled(probe, "Reading the pasted rows"));
        probe.map().select(other);
        QTRY_VERIFY_WITH_TIMEOUT(!jobCalled(probe, "Reading the pasted rows"), 30'000);
        QVERIFY2(table.words().contains("were dropped"), qPrintable(table.words()));
        QVERIFY(!table.dialog()->findChild<PastedCornersDialog*>());
        // And while it is asked what is to become of them.
        probe.map().select(field);
        PastedCornersDialog* dialog = table.paste("46.2° N 8.7° W\n46.3° N 8.7° W\n46.2° N 8.6° W\n");
        QVERIFY2(dialog, qPrintable(table.words()));
        probe.map().select(other);
        QTest::mouseClick(dialog->findChild<QPushButton*>("pastedGo"), Qt::LeftButton);
        QVERIFY2(table.words().contains("were dropped"), qPrintable(table.words()));
        QVERIFY(probe.set() == before);
    }

    void readingOfManyRows_canBeStopped() {
        WindowProbe probe;
        probe.map().select(addField(probe));
        Table table{probe};
        QGuiApplication::clipboard()->setText(QString{"46.2° N 8.7° W\n"}.repeated(200'000));
        auto* paste = table.dialog()->findChild<QPushButton*>("cornersPaste");
        paste->click();
        session::BackgroundJob* reading = jobCalled(probe, "Reading the pasted rows");
        QVERIFY(reading);
        reading->cancel();
        QTRY_VERIFY_WITH_TIMEOUT(paste->isEnabled(), 30'000);
        QVERIFY(!table.dialog()->findChild<PastedCornersDialog*>());
        QCOMPARE(table.dialog()->findChild<QLabel*>("cornersHeading")->text(), QString{"Mill field, 7 corners"});
        // And with the table.
        paste->click();
        table.click("cornersClose");
        QTRY_VERIFY_WITH_TIMEOUT(probe.window->jobs().running().empty(), 30'000);
        QVERIFY(shell(probe) == kShell);
    }

    void manyCopiedRows_areWrittenWhileTheWindowGoesOn() {
        WindowProbe probe;
        probe.map().select(addFence(probe, model::DrawnPolygon{{{circle(100'000)}, {{kHole}}}}));
        (void)probe.settle();
        Table table{probe};
        const QString shown = shownTable(*table.view->model());
        QClipboard& clipboard = *QGuiApplication::clipboard();
        clipboard.setText("before");
        QTest::keyClick(table.view, Qt::Key_A, Qt::ControlModifier);
        QElapsedTimer clock;
        clock.start();
        QTest::keyClick(table.view, Qt::Key_C, Qt::ControlModifier);
        qInfo("copying was begun in %lld ms", (long long)clock.elapsed());
        QCOMPARE(clipboard.text(), QString{"before"});
        QVERIFY(jobCalled(probe, "Copying 100003 corners"));
        // The table as it stood: not what becomes of it meanwhile.
        table.type(50'000, CornerModel::Leg, "5 m");
        QTRY_VERIFY_WITH_TIMEOUT(clipboard.text() != "before", 60'000);
        QVERIFY(clipboard.text() == shown);
        QVERIFY(shownTable(*table.view->model()) != shown);
        QVERIFY2(probe.message().contains("100003 corners are on the clipboard"), qPrintable(probe.message()));
    }

    void copyingOfManyRows_givesWayToWhatIsNewer() {
        WindowProbe probe;
        probe.map().select(addFence(probe, model::DrawnPolygon{{{circle(20'000)}, {}}}));
        (void)probe.settle();
        Table table{probe};
        QClipboard& clipboard = *QGuiApplication::clipboard();
        const QString title = "Copying 20000 corners";
        const auto copyAll = [&] {
            table.activate();
            QTest::keyClick(table.view, Qt::Key_A, Qt::ControlModifier);
            clipboard.setText("before");
            QTest::keyClick(table.view, Qt::Key_C, Qt::ControlModifier);
        };
        const auto wait = [&] { return QTest::qWaitFor([&] { return !jobCalled(probe, title); }, 60'000); };
        copyAll();
        QVERIFY(jobCalled(probe, title));
        jobCalled(probe, title)->cancel();
        QVERIFY(wait());
        QCOMPARE(clipboard.text(), QString{"before"});
        copyAll();
        clipboard.setText("newer");
        QVERIFY(wait());
        QCOMPARE(clipboard.text(), QString{"newer"});
        // A few rows are there at once, and are newer, too.
        copyAll();
        table.choose(1);
        QTest::keyClick(table.view, Qt::Key_C, Qt::ControlModifier);
        const QString few = clipboard.text();
        QCOMPARE(few.count('\n'), 2);
        QVERIFY(wait());
        QCOMPARE(clipboard.text(), few);
        // The table may be closed meanwhile.
        copyAll();
        const QString shown = shownTable(*table.view->model());
        table.click("cornersClose");
        QVERIFY(wait());
        QVERIFY(clipboard.text() == shown);
    }

    void aHundredThousandCorners_stayQuick() {
        WindowProbe probe;
        probe.map().select(addFence(probe, model::DrawnPolygon{{{circle(100'000)}, {}}}));
        (void)probe.settle();
        QElapsedTimer clock;
        clock.start();
        Table table{probe};
        const qint64 opened = clock.restart();
        table.choose(99'999);
        const qint64 chosen = clock.restart();
        table.type(50'000, CornerModel::Leg, "5 m");
        const qint64 typed = clock.restart();
        qInfo("opened in %lld ms, last row chosen in %lld ms, a leg typed in %lld ms", (long long)opened,
              (long long)chosen, (long long)typed);
        QCOMPARE(table.view->model()->rowCount(), 100'000);
        // On a machine that does other things too; with items, opening alone took many times that.
        QVERIFY(opened < 3000 && chosen < 3000 && typed < 8000);
    }
};

QTEST_MAIN(CornersTest)
#include "corners_test.moc"
