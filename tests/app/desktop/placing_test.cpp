#include "app/desktop/window_probe.h"
#include "geodesy/geodesic.h"

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr double kLon = -8.7;
constexpr double kLat = 46.2;
constexpr double kHalf = 0.001;

model::Fence square(const std::string& name, double lon) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name = name;
    fence.shape = model::DrawnPolygon{{{{{lon - kHalf, kLat - kHalf},
                                         {lon + kHalf, kLat - kHalf},
                                         {lon + kHalf, kLat + kHalf},
                                         {lon - kHalf, kLat + kHalf}}},
                                       {}}};
    return fence;
}

double metresBetween(const model::Position& a, const model::Position& b) {
    return geodesy::inverse(a, b).length.inMetres();
}

} // namespace

/// Moving, turning and scaling, by mouse, keys and figures, in the real window. West and East share a side.
class PlacingWindowTest : public QObject {
    Q_OBJECT

    std::unique_ptr<WindowProbe> m_probe;

    const model::LineString& corners(std::size_t fence) {
        return std::get<model::DrawnPolygon>(m_probe->set().fences[fence].shape).polygon.shell.corners;
    }
    model::Position corner(std::size_t number) { return corners(0)[number]; }
    void drag(const QPoint& from, const QPoint& to, Qt::KeyboardModifiers modifiers = {}, bool drops = true) {
        MapCanvas& map = m_probe->map();
        QTest::mouseMove(&map, from);
        QTest::mousePress(&map, Qt::LeftButton, modifiers, from);
        for (int step = 1; step <= 4; ++step)
            send(from + (to - from) * step / 4, modifiers);
        if (drops)
            QTest::mouseRelease(&map, Qt::LeftButton, modifiers, to);
    }
    /// QTest's own knows no buttons and modifiers.
    void send(const QPoint& at, Qt::KeyboardModifiers modifiers) {
        MapCanvas& map = m_probe->map();
        QMouseEvent move{QEvent::MouseMove, QPointF{at},    QPointF{map.mapToGlobal(at)},
                         Qt::NoButton,      Qt::LeftButton, modifiers};
        QCoreApplication::sendEvent(&map, &move);
    }
    QPoint at(double lon, double lat) { return m_probe->pixel(lon, lat); }
    void type(const QString& text) {
        QTest::keyClicks(&m_probe->map(), text.left(1));
        auto* line = qobject_cast<QLineEdit*>(QApplication::focusWidget());
        QVERIFY(line);
        QTest::keyClicks(line, text.mid(1));
        QTest::keyClick(line, Qt::Key_Return);
    }
    int steps() { return m_probe->document().undoStack().index(); }
    void undo() { m_probe->key(Qt::Key_Z, Qt::ControlModifier); }
    QStringList menuAt(double lon, double lat) {
        MapCanvas& map = m_probe->map();
        QContextMenuEvent event{QContextMenuEvent::Mouse, at(lon, lat), map.mapToGlobal(at(lon, lat))};
        QCoreApplication::sendEvent(&map, &event);
        QStringList words;
        for (const QAction* action : menu()->actions())
            words << action->text();
        return words;
    }
    QMenu* menu() { return m_probe->find<QMenu>("mapMenu"); }
    void choose(const QString& words) {
        for (QAction* action : menu()->actions())
            if (action->text() == words)
                action->trigger();
        menu()->close();
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    }

private slots:
    void init() {
        m_probe = std::make_unique<WindowProbe>();
        const model::Fence west = square("West", kLon), east = square("East", kLon + 2 * kHalf);
        m_probe->document().push(
            model::inSequence("Lay out", m_probe->set(), model::addFence(m_probe->set(), west),
                              [&](const model::FenceSet& set) { return model::addFence(set, east); }));
        m_probe->look(kLon, kLat, 0.003);
        m_probe->map().select(west.id);
    }

    void dragInside_moves_isUndone_andTyped() {
        const model::FenceSet before = m_probe->set();
        const int was = steps();
        drag(at(kLon + 0.0003, kLat + 0.0002), at(kLon + 0.0003, kLat - 0.0018));
        QCOMPARE(steps(), was + 1);
        QVERIFY(metresBetween(corner(0), {kLon - kHalf, kLat - kHalf - 0.002}) < 5);
        type("20 m 45");
        QCOMPARE(steps(), was + 1);
        QVERIFY(std::abs(metresBetween(corner(2), {kLon + kHalf, kLat + kHalf}) - 20) < 0.01);
        undo();
        QVERIFY(m_probe->set() == before);
    }

    void dragInside_ofWhatIsNotSelected_movesTheMap() {
        const model::FenceSet before = m_probe->set();
        const model::Position middle = m_probe->map().toEarth({400, 300});
        drag(at(kLon + 2 * kHalf, kLat), at(kLon + 2 * kHalf, kLat) + QPoint{60, 40});
        QVERIFY(m_probe->set() == before);
        QVERIFY(metresBetween(m_probe->map().toEarth({400, 300}), middle) > 10);
    }

    void aMove_snapsByItsNearestCorner() {
        // The south-west corner to the south-east corner of East.
        const QPoint from = at(kLon - 0.8 * kHalf, kLat - 0.8 * kHalf);
        drag(from, from + at(kLon + 3 * kHalf, kLat - kHalf) - at(kLon - kHalf, kLat - kHalf) + QPoint{3, 2});
        QVERIFY(corner(0) == corners(1)[1]); // to the last bit
    }

    void escape_inAMove_putsItBack() {
        const model::FenceSet before = m_probe->set();
        drag(at(kLon, kLat), at(kLon - 0.001, kLat), {}, false);
        QVERIFY(!(m_probe->set() == before));
        QTest::keyClick(&m_probe->map(), Qt::Key_Escape);
        QVERIFY(m_probe->set() == before);
        QTest::mouseRelease(&m_probe->map(), Qt::LeftButton, {}, at(kLon - 0.001, kLat));
        QVERIFY(m_probe->set() == before);
    }

    void figuresWhileTheButtonIsDown_putItExactly() {
        drag(at(kLon, kLat), at(kLon, kLat - 0.001), {}, false);
        type("35 m 180");
        QTest::mouseRelease(&m_probe->map(), Qt::LeftButton, {}, at(kLon, kLat - 0.001));
        QVERIFY(std::abs(metresBetween(corner(2), {kLon + kHalf, kLat + kHalf}) - 35) < 0.01);
    }

    void altDrag_movesAnEdge_isUndone_andTyped() {
        const model::FenceSet before = m_probe->set();
        const int was = steps();
        // Off its middle; the edge to the south.
        drag(at(kLon - 0.0004, kLat - kHalf), at(kLon - 0.0002, kLat - kHalf - 0.0005), Qt::AltModifier);
        QCOMPARE(steps(), was + 1);
        QVERIFY(corner(0).lat < kLat - kHalf - 0.0003 && corner(1).lat < kLat - kHalf - 0.0003);
        QVERIFY(std::abs(corner(0).lon - (kLon - kHalf)) < 1e-6);
        QCOMPARE(corner(2), (model::Position{kLon + kHalf, kLat + kHalf}));
        type("12 m inward");
        QCOMPARE(steps(), was + 1);
        QVERIFY(std::abs(metresBetween(corner(0), {kLon - kHalf, kLat - kHalf}) - 12) < 1e-5);
        QVERIFY(corner(0).lat > kLat - kHalf);
        undo();
        QVERIFY(m_probe->set() == before);
    }

    void aSecondClick_choosesTheEdge_whichIsThenDragged() {
        const QPoint edge = at(kLon - 0.0004, kLat - kHalf);
        QTest::mouseClick(&m_probe->map(), Qt::LeftButton, {}, edge);
        drag(edge, edge + QPoint{0, 25});
        QVERIFY(corner(0).lat < kLat - kHalf);
        QCOMPARE(corner(2), (model::Position{kLon + kHalf, kLat + kHalf}));
    }

    void altArrows_nudge_inOneStep() {
        const model::FenceSet before = m_probe->set();
        const int was = steps();
        for (int i = 0; i < 3; ++i)
            QTest::keyClick(&m_probe->map(), Qt::Key_Right, Qt::AltModifier);
        QTest::keyClick(&m_probe->map(), Qt::Key_Up, Qt::AltModifier | Qt::ShiftModifier);
        QCOMPARE(steps(), was + 1);
        const auto way = geodesy::inverse({kLon - kHalf, kLat - kHalf}, corner(0));
        QVERIFY(std::abs(way.length.inMetres() - std::hypot(3, 10)) < 0.01);
        QVERIFY(std::abs(way.azimuthAtStart.inDegrees() - std::atan2(3, 10) * 180 / M_PI) < 0.05);
        undo();
        QVERIFY(m_probe->set() == before);
        QTest::keyClick(&m_probe->map(), Qt::Key_Left, Qt::AltModifier);
        QCOMPARE(steps(), was + 1);
        // Another choice, another step.
        m_probe->map().select(m_probe->set().fences[1].id);
        QTest::keyClick(&m_probe->map(), Qt::Key_Left, Qt::AltModifier);
        QCOMPARE(steps(), was + 2);
    }

    void altArrows_stepInFeet_andFollowAMapThatIsTurned() {
        m_probe->window->settings().setUnitSystem(units::System::Us);
        m_probe->map().turnBy(90); // what was east is down
        QTest::keyClick(&m_probe->map(), Qt::Key_Down, Qt::AltModifier);
        const auto way = geodesy::inverse({kLon - kHalf, kLat - kHalf}, corner(0));
        QVERIFY(std::abs(way.length.inFeet() - 1) < 1e-4);
        QVERIFY(std::abs(way.azimuthAtStart.inDegrees() - 90) < 0.01);
    }

    void altArrows_moveAChosenCorner() {
        QTest::mouseMove(&m_probe->map(), at(kLon - kHalf, kLat - kHalf));
        QTest::mouseClick(&m_probe->map(), Qt::LeftButton, {}, at(kLon - kHalf, kLat - kHalf));
        QTest::keyClick(&m_probe->map(), Qt::Key_Down, Qt::AltModifier);
        QVERIFY(std::abs(metresBetween(corner(0), {kLon - kHalf, kLat - kHalf}) - 1) < 1e-5);
        QCOMPARE(corner(1), (model::Position{kLon + kHalf, kLat - kHalf}));
    }

    void turnTool_turnsByItsRing_isUndone_andTyped() {
        const model::FenceSet before = m_probe->set();
        const int was = steps();
        m_probe->key(Qt::Key_G);
        QCOMPARE(m_probe->map().toolId(), QString{"turn"});
        const QPoint middle = at(kLon, kLat);
        drag(middle + QPoint{0, -62}, middle + QPoint{62, 0});
        QCOMPARE(steps(), was + 1);
        QVERIFY(metresBetween(corner(0), {kLon - kHalf, kLat - kHalf}) > 50);
        undo();
        QVERIFY(m_probe->set() == before);
        type("30 right");
        const auto now = geodesy::inverse({kLon, kLat}, corner(2));
        const auto then = geodesy::inverse({kLon, kLat}, {kLon + kHalf, kLat + kHalf});
        QVERIFY(std::abs((now.azimuthAtStart - then.azimuthAtStart).inDegrees() - 30) < 1e-4);
        QVERIFY(std::abs((now.length - then.length).inMetres()) < 1e-5);
    }

    void turnTool_takesFigures_beforeThePointerMoves() {
        m_probe->key(Qt::Key_G);
        type("90 right");
        QCOMPARE(m_probe->map().toolId(), QString{"turn"});
        QVERIFY(metresBetween(corner(0), {kLon - kHalf, kLat - kHalf}) > 50);
    }

    void turnTool_scalesByItsSquares_andTyped() {
        m_probe->key(Qt::Key_G);
        const QPoint middle = at(kLon, kLat);
        const QPoint way{62, 62};
        const double was = metresBetween({kLon, kLat}, corner(2));
        drag(middle + way, middle + way * 2);
        QVERIFY(std::abs(metresBetween({kLon, kLat}, corner(2)) / was - 2) < 0.05);
        undo();
        type("x 1.5"); // a letter, and no key of another tool
        QCOMPARE(m_probe->map().toolId(), QString{"turn"});
        QVERIFY(std::abs(metresBetween({kLon, kLat}, corner(2)) / was - 1.5) < 1e-6);
        type("200 %");
        QVERIFY(std::abs(metresBetween({kLon, kLat}, corner(2)) / was - 3) < 1e-6);
        QTest::keyClick(&m_probe->map(), Qt::Key_Escape);
        QCOMPARE(m_probe->map().toolId(), QString{"select"});
    }

    void sharedCorners_moveTogether_whereTheSwitchIsOn_andItLasts() {
        auto* together = m_probe->find<QAction>("shareCorners");
        QVERIFY(!together->isChecked());
        const model::Position shared = corners(1)[3]; // its sum is another by a bit than that of West's
        drag(at(shared.lon, shared.lat), at(shared.lon, shared.lat) + QPoint{-20, -30});
        QVERIFY(corners(0)[2] != shared);
        QCOMPARE(corners(1)[3], shared);
        undo();
        together->trigger();
        drag(at(shared.lon, shared.lat), at(shared.lon, shared.lat) + QPoint{-20, -30});
        QVERIFY(corners(0)[2] != shared);
        QCOMPARE(corners(0)[2], corners(1)[3]);
        undo();
        QCOMPARE(corners(1)[3], shared);
        m_probe->show(); // another window, with the same settings
        QVERIFY(m_probe->find<QAction>("shareCorners")->isChecked());
    }

    void menu_addsAndDeletesCorners() {
        QVERIFY(menuAt(kLon - 0.0004, kLat - kHalf).contains("Add corner here"));
        choose("Add corner here");
        QCOMPARE(corners(0).size(), std::size_t{5});
        QVERIFY(std::abs(corner(1).lat - (kLat - kHalf)) < 1e-9);
        const QStringList words = menuAt(corner(1).lon, corner(1).lat);
        QVERIFY(words.contains("Delete corner") && !words.contains("Add corner here"));
        choose("Delete corner");
        QCOMPARE(corners(0).size(), std::size_t{4});
        QVERIFY(!menuAt(kLon, kLat).contains("Delete corner"));
        menu()->close();
    }

    void keysPage_listsTheNudges() {
        m_probe->key(Qt::Key_F1);
        auto* dialog = m_probe->waitForDialog<QDialog>("keysDialog");
        QVERIFY(dialog);
        bool found = false;
        for (auto* view : dialog->findChildren<QAbstractItemView*>())
            for (int row = 0; row < view->model()->rowCount(); ++row)
                for (int column = 0; column < view->model()->columnCount(); ++column)
                    found =
                        found || view->model()->index(row, column).data().toString() == "Nudge left by 10 m or 10 ft";
        QVERIFY(found);
        dialog->reject();
    }
};

QTEST_MAIN(PlacingWindowTest)
#include "placing_test.moc"
