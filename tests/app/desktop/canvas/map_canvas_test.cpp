#include "desktop/canvas/map_canvas.h"

#include "app/desktop/tools/tool_driver.h"
#include "desktop/canvas/near_plane.h"
#include "desktop/palette.h"
#include "fault.h"

#include <QApplication>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPainter>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QWheelEvent>
#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;

/// A real map in a real window, driven with mouse and keys.
class MapCanvasTest : public QObject {
    Q_OBJECT

    struct Bench {
        Bench() {
            map.resize(900, 700);
            map.show();
        }
        QTemporaryDir folder;
        session::OpenDocument document;
        session::BackgroundJobs jobs;
        session::OutlineCache outlines;
        session::Settings settings{folder.filePath("settings.ini")};
        session::LiveAudit audit{document, jobs};
        session::SourceLibrary sources{document, jobs, {}};
        MapCanvas map{document, outlines, audit, sources, settings};
    };
    std::unique_ptr<Bench> m_bench;

    MapCanvas& map() { return m_bench->map; }
    const model::FenceSet& set() { return m_bench->document.set(); }
    QUndoStack& undo() { return m_bench->document.undoStack(); }

    void move(const QPointF& to, Qt::MouseButtons buttons = {}, Qt::KeyboardModifiers modifiers = {}) {
        QMouseEvent event{QEvent::MouseMove, to,       map().mapToGlobal(to), buttons ? Qt::NoButton : Qt::NoButton,
                          buttons,           modifiers};
        QApplication::sendEvent(&map(), &event);
    }
    void click(const QPoint& at, Qt::KeyboardModifiers modifiers = {}) {
        move(at, {}, modifiers);
        QTest::mouseClick(&map(), Qt::LeftButton, modifiers, at);
    }
    void drag(const QPoint& from, const QPoint& to) {
        grab(from, to);
        QTest::mouseRelease(&map(), Qt::LeftButton, {}, to);
    }
    void grab(const QPoint& from, const QPoint& to) {
        move(from);
        QTest::mousePress(&map(), Qt::LeftButton, {}, from);
        for (int step = 1; step <= 5; ++step)
            move(QPointF{from} + QPointF{to - from} * (step / 5.0), Qt::LeftButton);
    }
    /// A fence whose corners lie at those pixels of the present view.
    model::FenceId addFence(const std::vector<QPointF>& pixels, model::FenceKind kind, bool enabled = true) {
        model::LineString corners;
        for (const QPointF& pixel : pixels)
            corners.push_back(map().toEarth(pixel));
        model::Fence fence = drawnFence("Fence", corners, kind);
        fence.enabled = enabled;
        const model::FenceId id = fence.id;
        m_bench->document.push(model::addFence(set(), std::move(fence)));
        return id;
    }
    static std::vector<QPointF> square() { return {{300, 200}, {600, 200}, {600, 500}, {300, 500}}; }

    /// Pixels of that colour along a line of the picture.
    static int count(const QImage& picture, const QPoint& from, const QPoint& to, QRgb wanted) {
        int found = 0;
        const QPoint way = to - from;
        const int steps = std::max(std::abs(way.x()), std::abs(way.y()));
        for (int i = 0; i <= steps; ++i) {
            const QColor colour{picture.pixel(from + way * i / std::max(steps, 1))};
            const QColor like{wanted};
            if (std::abs(colour.red() - like.red()) + std::abs(colour.green() - like.green()) +
                    std::abs(colour.blue() - like.blue()) <
                180)
                ++found;
        }
        return found;
    }

private slots:
    void init() {
        m_bench = std::make_unique<Bench>();
        QVERIFY(QTest::qWaitForWindowExposed(&map()));
        map().zoomTo({-8.74, 46.2, -8.72, 46.21});
    }
    void cleanup() { m_bench.reset(); }

    void polygon_isDrawnWithTheMouse_andUndone() {
        map().chooseTool("keepout");
        const QPoint corners[] = {{200, 200}, {500, 220}, {450, 480}};
        for (const QPoint& corner : corners)
            click(corner);
        QTest::keyClick(&map(), Qt::Key_Return);
        QCOMPARE(set().fences.size(), std::size_t{1});
        const model::LineString& drawn = cornersOf(set().fences[0]);
        QCOMPARE(drawn.size(), std::size_t{3});
        for (std::size_t i = 0; i < 3; ++i)
            QCOMPARE_LE(distanceBetween(map().toWidget(drawn[i]), corners[i]), 0.01);
        QVERIFY(map().selection() == Selection{set().fences[0].id});
        QCOMPARE(undo().count(), 1);
        undo().undo();
        QVERIFY(set() == model::FenceSet{});
        QVERIFY(map().selection() == Selection{});
        undo().redo();
        QVERIFY(cornersOf(set().fences[0]) == drawn);
    }

    void doubleClick_finishes() {
        map().chooseTool("keepin");
        click({200, 200});
        click({500, 220});
        click({450, 480});
        QTest::mouseDClick(&map(), Qt::LeftButton, {}, QPoint{450, 480});
        QCOMPARE(set().fences.size(), std::size_t{1});
        QCOMPARE(cornersOf(set().fences[0]).size(), std::size_t{3});
        QCOMPARE(set().fences[0].kind, model::FenceKind::KeepIn);
    }

    void corner_isDragged_inOneStep_andUndoIsExact() {
        const auto id = addFence(square(), model::FenceKind::KeepOut);
        const model::FenceSet before = set();
        map().chooseTool("select");
        click({450, 350});
        QVERIFY(map().selection() == Selection{id});
        drag({600, 200}, {700, 120});
        QCOMPARE(undo().count(), 2);
        QCOMPARE_LE(distanceBetween(map().toWidget(cornersOf(set().fences[0])[1]), {700, 120}), 0.01);
        undo().undo();
        QVERIFY(set() == before);
    }

    void escape_inADrag_leavesNoStep() {
        addFence(square(), model::FenceKind::KeepOut);
        const model::FenceSet before = set();
        click({450, 350});
        grab({600, 200}, {700, 120});
        QVERIFY(set() != before);
        QTest::keyClick(&map(), Qt::Key_Escape);
        QVERIFY(set() == before);
        QCOMPARE(undo().count(), 1);
        move({720, 100}, Qt::LeftButton);
        QTest::mouseRelease(&map(), Qt::LeftButton, {}, QPoint{720, 100});
        QVERIFY(set() == before);
        QVERIFY(map().selection() == Selection{set().fences[0].id});
    }

    void delete_removesTheCorner_thenTheFence() {
        addFence(square(), model::FenceKind::KeepOut);
        click({450, 350});
        click({600, 200});
        QTest::keyClick(&map(), Qt::Key_Delete);
        QCOMPARE(cornersOf(set().fences[0]).size(), std::size_t{3});
        QSignalSpy refused{&map(), &MapCanvas::refused};
        click({300, 200});
        QTest::keyClick(&map(), Qt::Key_Delete); // a third-last corner
        QCOMPARE(refused.count(), 1);
        QTest::keyClick(&map(), Qt::Key_Escape);
        map().deleteSelected();
        QVERIFY(set().fences.empty());
    }

    void emptyGround_dragged_movesTheMap_andNothingElse() {
        const auto id = addFence(square(), model::FenceKind::KeepOut);
        click({450, 350});
        const model::Position under = map().toEarth({100, 600});
        drag({100, 600}, {250, 560});
        QCOMPARE_LE(distanceBetween(map().toWidget(under), {250, 560}), 1.0);
        QVERIFY(map().selection() == Selection{id});
        QCOMPARE(undo().count(), 1);
    }

    void whileDrawing_aDragMovesTheMap_andAClickStillDraws() {
        map().chooseTool("keepout");
        click({200, 200});
        const model::Position first = map().toEarth({200, 200});
        drag({400, 400}, {450, 430});
        click({600, 300});
        click({500, 600});
        QTest::keyClick(&map(), Qt::Key_Return);
        QCOMPARE(cornersOf(set().fences[0]).size(), std::size_t{3});
        QCOMPARE_LE(distanceBetween(map().toWidget(cornersOf(set().fences[0])[0]), map().toWidget(first)), 0.01);
    }

    void middleButton_spaceAndArrows_move() {
        model::Position under = map().toEarth({400, 400});
        move({400, 400});
        QTest::mousePress(&map(), Qt::MiddleButton, {}, QPoint{400, 400});
        move({420, 370}, Qt::MiddleButton);
        QTest::mouseRelease(&map(), Qt::MiddleButton, {}, QPoint{420, 370});
        QCOMPARE_LE(distanceBetween(map().toWidget(under), {420, 370}), 1.0);

        map().chooseTool("keepout");
        under = map().toEarth({400, 400});
        QTest::keyPress(&map(), Qt::Key_Space);
        drag({400, 400}, {300, 450});
        QTest::keyRelease(&map(), Qt::Key_Space);
        QCOMPARE_LE(distanceBetween(map().toWidget(under), {300, 450}), 1.0);

        under = map().toEarth({400, 400});
        QTest::keyClick(&map(), Qt::Key_Left);
        QVERIFY(map().toWidget(under).x() > 450);
    }

    void wheel_zoomsAboutThePointer() {
        const model::Position under = map().toEarth({123, 456});
        const double before = map().metresPerPixel();
        QWheelEvent wheel{
            {123, 456}, map().mapToGlobal(QPointF{123, 456}), {}, {0, 240}, Qt::NoButton, {}, Qt::NoScrollPhase, false};
        QApplication::sendEvent(&map(), &wheel);
        QTRY_VERIFY(std::abs(map().metresPerPixel() * 1.25 * 1.25 / before - 1.0) < 1e-6);
        QCOMPARE_LE(distanceBetween(map().toWidget(under), {123, 456}), 0.1);
        QTest::keyClick(&map(), Qt::Key_Minus);
        QTRY_VERIFY(std::abs(map().metresPerPixel() * 1.25 / before - 1.0) < 1e-6);
    }

    void typedFigures_placeTheNextCorner() {
        map().chooseTool("keepout");
        click({400, 400});
        QTest::keyClick(&map(), Qt::Key_1);
        auto* entry = map().findChild<QLineEdit*>();
        QVERIFY(entry && entry->isVisible());
        QCOMPARE(entry->text(), QString{"1"});
        QTest::keyClicks(entry, "20 m 400");
        QSignalSpy refused{&map(), &MapCanvas::refused};
        QTest::keyClick(entry, Qt::Key_Return);
        QCOMPARE(refused.count(), 1);
        QVERIFY(entry->isVisible()); // to be mended
        entry->clear();
        QTest::keyClicks(entry, "120 m 45");
        QTest::keyClick(entry, Qt::Key_Return);
        QVERIFY(!entry->isVisible());
        QTest::keyClick(&map(), Qt::Key_9);
        QTest::keyClicks(entry, "0 180");
        QTest::keyClick(entry, Qt::Key_Return);
        QTest::keyClick(&map(), Qt::Key_Return);
        const model::LineString& corners = cornersOf(set().fences[0]);
        QCOMPARE(corners.size(), std::size_t{3});
        QCOMPARE_LE(std::abs(geodesy::inverse(corners[0], corners[1]).length.inMetres() - 120.0), 1e-6);
        QCOMPARE_LE(std::abs(geodesy::inverse(corners[0], corners[1]).azimuthAtStart.inDegrees() - 45.0), 1e-6);
        QCOMPARE_LE(std::abs(geodesy::inverse(corners[1], corners[2]).length.inMetres() - 90.0), 1e-6);
    }

    void cornersSnap_toTheVerySameNumbers_unlessAltIsHeld() {
        const auto id = addFence(square(), model::FenceKind::KeepIn);
        map().chooseTool("keepout");
        click({604, 203});
        click({700, 300});
        click({650, 120}, Qt::AltModifier);
        QTest::keyClick(&map(), Qt::Key_Return);
        const model::LineString& corners = cornersOf(set().fences[1]);
        QVERIFY(corners[0] == cornersOf(*set().fences.find(id))[1]);
        map().chooseTool("keepout");
        click({604, 203}, Qt::AltModifier);
        click({700, 300});
        click({650, 620});
        QTest::keyClick(&map(), Qt::Key_Return);
        QCOMPARE_LE(distanceBetween(map().toWidget(cornersOf(set().fences[2])[0]), {604, 203}), 0.01);
    }

    void setback_isTypedOnANewSite_andFollowsItWhenDragged() {
        map().chooseTool("setback");
        click({450, 350});
        QTest::keyClick(&map(), Qt::Key_1);
        auto* entry = map().findChild<QLineEdit*>();
        QTest::keyClicks(entry, "50 ft");
        QTest::keyClick(entry, Qt::Key_Return);
        QCOMPARE(set().sites.size(), std::size_t{1});
        QCOMPARE(std::get<model::Setback>(set().fences[0].shape).distance.length.inMetres(), 45.72);
        map().chooseTool("select");
        drag({450, 350}, {250, 300});
        QCOMPARE(undo().count(), 2);
        const auto& surface = m_bench->outlines.outlined(set())[0]->surface;
        const auto nest = std::get<model::Position>(set().sites[0].geometry);
        QCOMPARE_LE(distanceBetween(map().toWidget(nest), {250, 300}), 0.01);
        for (const model::Position& corner : surface.parts.front().shell.corners)
            QCOMPARE_GE(geodesy::inverse(corner, nest).length.inMetres(), 45.72);
    }

    void keys_goBackToSelecting() {
        map().chooseTool("circle");
        click({450, 350});
        QTest::keyClick(&map(), Qt::Key_Escape);
        QCOMPARE(map().toolId(), QString{"circle"});
        QSignalSpy changed{&map(), &MapCanvas::toolChanged};
        QTest::keyClick(&map(), Qt::Key_Escape);
        QCOMPARE(map().toolId(), QString{"select"});
        QCOMPARE(changed.count(), 1);
    }

    void comb_standsWhereTheAircraftMayNotBe_data() {
        QTest::addColumn<int>("kind");
        QTest::addColumn<bool>("enabled");
        QTest::newRow("keep-out: inside") << int(model::FenceKind::KeepOut) << true;
        QTest::newRow("keep-in: outside") << int(model::FenceKind::KeepIn) << true;
        QTest::newRow("not in force: none") << int(model::FenceKind::KeepOut) << false;
    }
    void comb_standsWhereTheAircraftMayNotBe() {
        QFETCH(int, kind);
        QFETCH(bool, enabled);
        const bool keepOut = kind == int(model::FenceKind::KeepOut);
        addFence(square(), model::FenceKind(kind), enabled);
        map().select({});
        const QImage picture = map().grab().toImage();
        const QRgb colour = keepOut ? kMapKeepOut : kMapKeepIn;
        // Five pixels off each edge, clear of line and casing, well within the ticks' seven.
        const auto beside = [&](int off) {
            return count(picture, {320, 200 + off}, {580, 200 + off}, colour) +
                   count(picture, {320, 500 - off}, {580, 500 - off}, colour) +
                   count(picture, {300 + off, 220}, {300 + off, 480}, colour) +
                   count(picture, {600 - off, 220}, {600 - off, 480}, colour);
        };
        const int inside = beside(5), outside = beside(-5);
        const int ticks = 4 * 260 / 10; // one in ten pixels
        if (!enabled) {
            QCOMPARE(inside, 0);
            QCOMPARE(outside, 0);
            return;
        }
        QCOMPARE_GE(keepOut ? inside : outside, ticks * 8 / 10);
        QCOMPARE(keepOut ? outside : inside, 0);
    }

    void retainedPicture_afterManyMoves_isTheSameAsAFreshOne() {
        addFence(square(), model::FenceKind::KeepOut);
        addFence({{100, 100}, {250, 120}, {240, 300}}, model::FenceKind::KeepIn);
        addFence({{650, 550}, {800, 560}, {700, 650}}, model::FenceKind::KeepOut, false);
        // Something in every strip that comes into sight.
        addFence({{-400, 350}, {1300, 330}, {1300, 420}, {-400, 440}}, model::FenceKind::KeepOut);
        addFence({{420, -400}, {470, -400}, {460, 1100}, {410, 1100}}, model::FenceKind::KeepIn);
        map().select({});
        (void)map().grab();
        for (const QPoint& way : {QPoint{37, 11}, QPoint{-90, 45}, QPoint{12, -70}, QPoint{3, 2}}) {
            drag({20, 680}, QPoint{20, 680} + way);
            (void)map().grab();
        }
        undo().undo();                           // and a change that repaints a part
        QTRY_VERIFY(m_bench->audit.isCurrent()); // or its marks would come in between
        const QImage moved = map().grab().toImage();
        map().resize(901, 700); // another size: nothing of the old picture is kept
        (void)map().grab();
        map().resize(900, 700);
        const QImage fresh = map().grab().toImage();
        int different = 0;
        for (int y = 0; y < fresh.height(); ++y)
            for (int x = 0; x < fresh.width(); ++x) {
                const QColor a{moved.pixel(x, y)}, b{fresh.pixel(x, y)};
                if (std::abs(a.red() - b.red()) + std::abs(a.green() - b.green()) + std::abs(a.blue() - b.blue()) > 60)
                    ++different;
            }
        QCOMPARE_LE(different, 20); // rounding of smoothed edges where strips meet
    }

    void preview_showsARepair_withoutTakingIt() {
        const auto id = addFence(square(), model::FenceKind::KeepOut);
        map().select({});
        QTRY_VERIFY(m_bench->audit.isCurrent());
        const QImage before = map().grab().toImage();
        model::Fence moved = *set().fences.find(id);
        std::get<model::DrawnPolygon>(moved.shape).polygon.shell.corners[2] = map().toEarth({800, 650});
        const model::FenceSet untouched = set();
        map().setPreview(model::replaceFence(set(), moved, "Repair"));
        QVERIFY(map().grab().toImage() != before);
        QVERIFY(set() == untouched);
        map().setPreview({});
        QVERIFY(map().grab().toImage() == before);
    }

    void oddSets_arePaintedWithoutFault() {
        addFence({}, model::FenceKind::KeepOut);
        addFence({{1, 1}}, model::FenceKind::KeepIn);
        addFence({{100, 100}, {300, 300}, {300, 100}, {100, 300}}, model::FenceKind::KeepOut);
        model::Fence bad = drawnFence("bad", {{1e6, 1e6}, {std::nan(""), 3}, {5, 95}});
        m_bench->document.push(model::addFence(set(), bad));
        model::Fence circle = drawnFence("circle", {});
        circle.shape = model::Circle{{0, 89.9}, {Length::metres(-5), ""}};
        const auto circleId = circle.id;
        m_bench->document.push(model::addFence(set(), circle));
        model::Home home;
        home.id = model::freshId<model::Home>();
        home.place = {500, -95};
        m_bench->document.push(model::addHome(set(), home));
        for (const model::Fence& fence : set().fences) {
            map().select(fence.id);
            QVERIFY(!map().grab().isNull());
            move({200, 200});
        }
        map().select(circleId);
        map().zoomToSelection();
        map().zoomToAll();
        QVERIFY(!map().grab().isNull());
    }

    void accessibleName_isThere() { QCOMPARE(map().accessibleName(), QString{"Map"}); }
};

QTEST_MAIN(MapCanvasTest)
#include "map_canvas_test.moc"
