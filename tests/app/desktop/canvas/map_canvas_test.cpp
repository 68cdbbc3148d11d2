#include "desktop/canvas/map_canvas.h"

#include "app/desktop/tools/tool_driver.h"
#include "desktop/canvas/near_plane.h"
#include "desktop/palette.h"
#include "fault.h"
#include "geodesy/crs_transform.h"
#include "support/made_raster.h"

#include <QApplication>
#include <QContextMenuEvent>
#include <QGestureEvent>
#include <QLineEdit>
#include <QMouseEvent>
#include <QNativeGestureEvent>
#include <QPainter>
#include <QPinchGesture>
#include <QPointingDevice>
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

    /// An orthophoto in UTM zone 29 under the view, and wait for it.
    void addOrthophoto() {
        const model::Position middle = map().toEarth({450, 350});
        const auto at = geodesy::CrsTransform{"EPSG:25829"}.fromWgs84(std::span{&middle, 1}).front();
        const QString path = m_bench->folder.filePath("photo.tif");
        test::MadeRaster raster;
        raster.width = raster.height = 400;
        raster.crs = "EPSG:25829";
        raster.geotransform = {at->x - 800, 4, 0, at->y + 800, 0, -4};
        raster.value = [](int, int x, int y) { return (x / 20 + y / 20) % 2 * 200.0 + 20.0; };
        test::make(raster, path.toStdString());
        model::Source source;
        source.id = model::freshId<model::Source>();
        source.name = "Photo";
        source.path = path.toStdString();
        m_bench->document.push(model::addSource(set(), source));
        QTRY_VERIFY(!map().plane().crs.empty());
    }

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

    void otherButtons_whileACornerIsHeld_doNothing() {
        const auto id = addFence(square(), model::FenceKind::KeepOut);
        map().chooseTool("select");
        click({450, 350});
        const QRectF before = QRectF{map().toWidget({-8.74, 46.2}), map().toWidget({-8.72, 46.21})};
        QSignalSpy menus{&map(), &MapCanvas::menuRequested};
        grab({600, 200}, {650, 160});
        QTest::mousePress(&map(), Qt::MiddleButton, {}, {650, 160});
        move({700, 120}, Qt::LeftButton | Qt::MiddleButton);
        QTest::mouseRelease(&map(), Qt::MiddleButton, {}, {700, 120});
        QContextMenuEvent menu{QContextMenuEvent::Mouse, {700, 120}, map().mapToGlobal(QPoint{700, 120})};
        QApplication::sendEvent(&map(), &menu);
        QVERIFY(menus.isEmpty());
        move({710, 110}, Qt::LeftButton);
        QTest::mouseRelease(&map(), Qt::LeftButton, {}, {710, 110});
        QCOMPARE((QRectF{map().toWidget({-8.74, 46.2}), map().toWidget({-8.72, 46.21})}), before);
        QVERIFY(map().selection() == Selection{id});
        QCOMPARE(undo().count(), 2);
        QCOMPARE_LE(distanceBetween(map().toWidget(cornersOf(set().fences[0])[1]), {710, 110}), 0.01);
        QApplication::sendEvent(&map(), &menu);
        QCOMPARE(menus.size(), 1);
    }

    /// A window that comes up amid a drag may swallow the release: the map is not dead then.
    void aPress_afterALostRelease_takesHoldAnew() {
        addFence(square(), model::FenceKind::KeepOut);
        map().chooseTool("select");
        click({450, 350});
        grab({600, 200}, {650, 160});
        QTest::mousePress(&map(), Qt::LeftButton, {}, {300, 200});
        move({280, 180}, Qt::LeftButton);
        move({250, 150}, Qt::LeftButton);
        QTest::mouseRelease(&map(), Qt::LeftButton, {}, {250, 150});
        QCOMPARE_LE(distanceBetween(map().toWidget(cornersOf(set().fences[0])[0]), {250, 150}), 0.01);
    }

    /// A button closes the entry: what was typed and not entered means nothing any more.
    void aButton_dropsWhatIsBeingTyped() {
        map().chooseTool("corridor");
        click({200, 350});
        click({500, 350});
        QTest::keyClick(&map(), Qt::Key_Return);
        move({350, 300});
        QTest::keyClick(&map(), Qt::Key_9);
        QLineEdit* entry = map().findChild<QLineEdit*>();
        QVERIFY(entry && entry->isVisible());
        QTest::mouseClick(&map(), Qt::MiddleButton, {}, {350, 300});
        QVERIFY(!entry->isVisible());
        QTest::keyClick(&map(), Qt::Key_Return);
        const auto* corridor = std::get_if<model::Corridor>(&set().fences[0].shape);
        QVERIFY(corridor);
        QCOMPARE_LE(std::abs(corridor->left.length.inMetres() / (50 * map().metresPerPixel()) - 1.0), 0.02);
    }

    void delete_whileAnAreaIsChosenForASetback_letsGoOfIt_andDeletesNothing() {
        const auto id = addFence(square(), model::FenceKind::KeepOut);
        model::Site site;
        site.id = model::freshId<model::Site>();
        site.geometry =
            model::Polygon{{{map().toEarth({700, 100}), map().toEarth({800, 100}), map().toEarth({750, 180})}}, {}};
        m_bench->document.push(model::addSite(set(), site));
        map().select(Selection{id});
        map().chooseTool("setback");
        click({750, 120});
        map().deleteSelected();
        QCOMPARE(set().fences.size(), std::size_t{1});
        map().deleteSelected();
        QCOMPARE(set().fences.size(), std::size_t{0});
    }

    void snappedCorner_isTheVerySame_andControlHoldsItOff() {
        addFence(square(), model::FenceKind::KeepIn);
        const model::Position corner = cornersOf(set().fences[0])[0];
        map().chooseTool("keepout");
        click({303, 204});
        click({150, 150});
        click({303, 204}, Qt::ControlModifier);
        QTest::keyClick(&map(), Qt::Key_Return);
        const auto& drawn = cornersOf(set().fences[1]);
        QVERIFY(drawn[0] == corner);
        QVERIFY(drawn[2] != corner);
        m_bench->settings.setSnapsOff({"corner", "edge"});
        map().chooseTool("keepout");
        click({303, 204});
        click({100, 150});
        click({100, 250});
        QTest::keyClick(&map(), Qt::Key_Return);
        QVERIFY(cornersOf(set().fences[2])[0] != corner);
    }

    void equals_opensTheEntryEmpty_forWhatBeginsWithALetter() {
        map().chooseTool("keepout");
        move({300, 300});
        QTest::keyClick(&map(), Qt::Key_Equal);
        auto* entry = map().findChild<QLineEdit*>();
        QVERIFY(entry && entry->isVisible());
        QVERIFY(entry->text().isEmpty());
        QTest::keyClicks(entry, "N 46.205 W 8.735");
        QTest::keyClick(entry, Qt::Key_Return);
        QTest::keyEvent(QTest::Click, &map(), '<');
        QVERIFY(entry->isVisible());
        QTest::keyClicks(entry, "90");
        QTest::keyClick(entry, Qt::Key_Return);
        click({700, 100}); // far beside: the direction holds
        QTest::keyClick(&map(), Qt::Key_1);
        QTest::keyClicks(entry, "00 m 90 right");
        QTest::keyClick(entry, Qt::Key_Return);
        QTest::keyClick(&map(), Qt::Key_Return);
        QCOMPARE(set().fences.size(), std::size_t{1});
        const auto& corners = cornersOf(set().fences[0]);
        QVERIFY((corners[0] == model::Position{-8.735, 46.205}));
        QCOMPARE_LE(std::abs(geodesy::inverse(corners[0], corners[1]).azimuthAtStart.inDegrees() - 90.0), 1e-9);
        const auto second = geodesy::inverse(corners[1], corners[2]);
        QCOMPARE_LE(std::abs(second.azimuthAtStart.inDegrees() - 180.0), 0.1); // the meridians converge
        QCOMPARE_LE(std::abs(second.length.inMetres() - 100.0), 1e-6);
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
        map().deleteSelected();
        QCOMPARE(cornersOf(set().fences[0]).size(), std::size_t{3});
        QSignalSpy refused{&map(), &MapCanvas::refused};
        click({300, 200});
        map().deleteSelected(); // a third-last corner
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
        map().step(Qt::LeftArrow);
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

    void turned_clicksAndDragsFindTheSameCorner_data() {
        QTest::addColumn<bool>("inCrs");
        QTest::addColumn<double>("up");
        for (const double up : {0.0, 37.0, 90.0, 180.0}) {
            QTest::addRow("local, %g", up) << false << up;
            QTest::addRow("UTM, %g", up) << true << up;
        }
    }
    void turned_clicksAndDragsFindTheSameCorner() {
        QFETCH(bool, inCrs);
        QFETCH(double, up);
        if (inCrs)
            addOrthophoto();
        QCOMPARE(!map().plane().crs.empty(), inCrs);
        const auto id = addFence(square(), model::FenceKind::KeepOut);
        const model::LineString corners = cornersOf(*set().fences.find(id));
        map().setTrueUpAzimuth(up);
        QCOMPARE_LE(std::abs(std::remainder(map().trueUpAzimuth() - up, 360.0)), 0.01);
        const auto pixel = [&](const model::Position& place) { return map().toWidget(place).toPoint(); };

        // A click within selects, a click at a corner and deleting removes just that corner.
        map().chooseTool("select");
        click(QPoint{450, 350});
        QVERIFY(map().selection() == Selection{id});
        click(pixel(corners[1]));
        map().deleteSelected();
        QCOMPARE(cornersOf(*set().fences.find(id)), (model::LineString{corners[0], corners[2], corners[3]}));
        undo().undo();

        // A corner is dragged to where the pointer goes.
        click(QPoint{450, 350});
        const QPoint to = pixel(corners[2]) + QPoint{31, 23};
        const model::Position there = map().toEarth(to);
        drag(pixel(corners[2]), to);
        const model::Position now = cornersOf(*set().fences.find(id))[2];
        QCOMPARE_LE(geodesy::inverse(now, there).length.inMetres(), 2.0 * map().metresPerPixel());
        QVERIFY(cornersOf(*set().fences.find(id))[1] == corners[1]);

        // Drawing snaps to the very same numbers.
        map().chooseTool("keepout");
        click(pixel(corners[3]) + QPoint{3, -2});
        click(QPoint{60, 60});
        click(QPoint{120, 640});
        QTest::keyClick(&map(), Qt::Key_Return);
        QVERIFY(cornersOf(set().fences[1])[0] == corners[3]);
    }

    void turning_byTwoFingers_keepsWhatLiesBetweenThem() {
        const QPointF middle{300, 250};
        const model::Position under = map().toEarth(middle);
        const double before = map().trueUpAzimuth();
        QPinchGesture fingers;
        fingers.setCenterPoint(map().mapToGlobal(middle));
        fingers.setLastCenterPoint(fingers.centerPoint());
        fingers.setScaleFactor(1.0);
        for (int degrees = 2; degrees <= 40; degrees += 2) {
            fingers.setLastRotationAngle(degrees - 2);
            fingers.setRotationAngle(degrees);
            QGestureEvent event{{&fingers}};
            QApplication::sendEvent(&map(), &event);
        }
        // The picture is carried along, the plane not yet changed.
        QCOMPARE_LE(std::abs(std::remainder(map().trueUpAzimuth() - before, 360.0)), 0.01);
        // Clockwise, less the first six degrees, which tell a turn from a zoom.
        QTRY_VERIFY(std::abs(std::remainder(map().trueUpAzimuth() - before + 34.0, 360.0)) < 0.1);
        QCOMPARE_LE(distanceBetween(map().toWidget(under), middle), 0.1);
    }

    void turning_byTrackpad_settlesWhenItRests() {
        const model::Position under = map().toEarth({300, 200});
        const auto* device = QPointingDevice::primaryPointingDevice();
        for (int i = 0; i < 9; ++i) {
            QNativeGestureEvent turn{Qt::RotateNativeGesture,
                                     device,
                                     2,
                                     {300, 200},
                                     {300, 200},
                                     map().mapToGlobal(QPointF{300, 200}),
                                     10.0,
                                     {}};
            QApplication::sendEvent(&map(), &turn);
        }
        QVERIFY(std::abs(std::remainder(map().trueUpAzimuth(), 360.0)) < 1.0);
        QTRY_VERIFY(std::abs(map().trueUpAzimuth() - 270.0) < 1.0); // ninety clockwise: west is up
        QCOMPARE_LE(distanceBetween(map().toWidget(under), {300, 200}), 0.1);
        // East, which lay to the right, lies below.
        const model::Position east{under.lon + 0.001, under.lat};
        QVERIFY(map().toWidget(east).y() > 210 && std::abs(map().toWidget(east).x() - 300) < 3);
    }

    void turning_byDragWithShift_followsThePointer() {
        const QPointF middle = QRectF{map().rect()}.center();
        const QPoint from = (middle + QPointF{200, 0}).toPoint(), to = (middle + QPointF{0, 200}).toPoint();
        const model::Position held = map().toEarth(from);
        move(from);
        QTest::mousePress(&map(), Qt::MiddleButton, Qt::ShiftModifier, from);
        for (int step = 1; step <= 30; ++step) {
            const double angle = step * 3.0 * M_PI / 180.0;
            move(middle + 200.0 * QPointF{std::cos(angle), std::sin(angle)}, Qt::MiddleButton, Qt::ShiftModifier);
        }
        QTest::mouseRelease(&map(), Qt::MiddleButton, Qt::ShiftModifier, to);
        QCOMPARE_LE(distanceBetween(map().toWidget(held), to), 2.0);
        QCOMPARE_LE(std::abs(map().trueUpAzimuth() - 270.0), 1.0);
    }

    void northArrow_doubleClicked_bringsNorthUp_andIsNoPlaceToDraw() {
        map().turnBy(-50.0);
        QCOMPARE_LE(std::abs(map().trueUpAzimuth() - 50.0), 0.1);
        map().chooseTool("keepout");
        const QPoint arrow{map().width() - 33, 33};
        QTest::mouseClick(&map(), Qt::LeftButton, {}, arrow);
        QTest::mouseDClick(&map(), Qt::LeftButton, {}, arrow);
        QCOMPARE_LE(std::abs(std::remainder(map().trueUpAzimuth(), 360.0)), 0.1);
        // Three corners make a fence, and no fourth was set under the arrow.
        click({200, 200});
        click({500, 220});
        click({450, 480});
        QTest::keyClick(&map(), Qt::Key_Return);
        QCOMPARE(cornersOf(set().fences[0]).size(), std::size_t{3});
    }

    void northArrow_pointsToTrueNorth() {
        // The arrow's dark half is looked for on the ray from its middle to where north lies.
        for (const double up : {0.0, 60.0, 135.0, 240.0}) {
            map().setTrueUpAzimuth(up);
            const QImage picture = map().grab().toImage();
            const QPointF middle{map().width() - 33.0, 33.0};
            const double angle = -up * M_PI / 180.0; // of north, clockwise from up
            const QPointF along{std::sin(angle), -std::cos(angle)}, right{std::cos(angle), std::sin(angle)};
            const auto isInk = [&](const QPointF& at) {
                return picture.pixelColor(int(std::floor(at.x())), int(std::floor(at.y()))).lightness() < 150;
            };
            QVERIFY(isInk(middle + along * 4.0 + right * 1.0));
            QVERIFY(!isInk(middle - along * 14.0));
            QVERIFY(!isInk(middle + along * 2.0 + right * 8.0));
            QVERIFY(!isInk(middle + along * 2.0 - right * 8.0));
        }
    }

    /// Names that find no place are not waited for: nothing is painted any more when all is there.
    void crowdedNames_comeToRest() {
        model::FenceSet crowded = set();
        const auto corner = [&](double x, double y) { return map().toEarth({x, y}); };
        for (int i = 0; i < 560; ++i) { // so near to each other that every other name has no room
            const double x = 20.0 + i % 28 * 31.0, y = 20.0 + i / 28 * 33.0;
            crowded.fences.append(
                drawnFence("Fence " + std::to_string(i),
                           {corner(x, y), corner(x + 28, y), corner(x + 28, y + 28), corner(x, y + 28)},
                           model::FenceKind::KeepOut));
        }
        m_bench->document.take(std::move(crowded), {}, false);
        struct Counting : QObject {
            int painted = 0;
            bool eventFilter(QObject*, QEvent* event) override {
                painted += event->type() == QEvent::Paint;
                return false;
            }
        } counting;
        map().installEventFilter(&counting);
        const auto paintedIn = [&](int milliseconds) {
            counting.painted = 0;
            QTest::qWait(milliseconds);
            return counting.painted;
        };
        QTRY_VERIFY_WITH_TIMEOUT(m_bench->jobs.running().empty() && m_bench->audit.isCurrent(), 60'000);
        int last = 1;
        for (int i = 0; i < 30 && last > 0; ++i)
            last = paintedIn(500);
        QCOMPARE(last, 0);
    }

    void accessibleName_isThere() { QCOMPARE(map().accessibleName(), QString{"Map"}); }
};

QTEST_MAIN(MapCanvasTest)
#include "map_canvas_test.moc"
