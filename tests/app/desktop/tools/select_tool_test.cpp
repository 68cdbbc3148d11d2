#include "desktop/tools/select_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

class SelectToolTest : public QObject {
    Q_OBJECT

    SelectTool m_tool;
    std::unique_ptr<ToolDriver> m_driver;
    model::FenceId m_large, m_small, m_circle;
    model::SiteId m_site;
    model::HomeId m_home;

    const model::Fence& fence(const model::FenceId& id) { return *m_driver->set.fences.find(id); }

private slots:
    void init() {
        m_tool = SelectTool{};
        m_driver = std::make_unique<ToolDriver>(m_tool);
        const auto large = drawnFence(
            "Land", {metresFrom(-500, -500), metresFrom(500, -500), metresFrom(500, 500), metresFrom(-500, 500)},
            model::FenceKind::KeepIn);
        const auto small = drawnFence("School", {metresFrom(0, 0), metresFrom(100, 0), metresFrom(100, 100)});
        auto circle = drawnFence("Store", {});
        circle.shape = model::Circle{metresFrom(-200, -200), {Length::metres(80), "80 m"}};
        model::Site site;
        site.id = m_site = model::freshId<model::Site>();
        site.name = "Nest";
        site.geometry = metresFrom(-200, 200);
        auto setback = drawnFence("Nest", {});
        setback.shape = model::Setback{m_site, {Length::metres(50), "50 m"}};
        model::Home home;
        home.id = m_home = model::freshId<model::Home>();
        home.name = "Home";
        home.place = metresFrom(300, 300);
        m_large = large.id;
        m_small = small.id;
        m_circle = circle.id;
        m_driver->set.fences.append(large);
        m_driver->set.fences.append(small);
        m_driver->set.fences.append(circle);
        m_driver->set.fences.append(setback);
        m_driver->set.sites.append(site);
        m_driver->set.homes.append(home);
    }

    void click_choosesTheSmallestUnderThePointer() {
        m_driver->click(metresFrom(80, 40));
        QVERIFY(m_driver->selection == Selection{m_small});
        m_driver->click(metresFrom(-400, 0));
        QVERIFY(m_driver->selection == Selection{m_large});
        m_driver->click(metresFrom(300, 303));
        QVERIFY(m_driver->selection == Selection{m_home});
        m_driver->click(metresFrom(-203, 200));
        QVERIFY(m_driver->selection == Selection{m_site});
        m_driver->click(metresFrom(900, 900));
        QVERIFY(m_driver->selection == Selection{});
        QVERIFY(m_driver->steps.empty());
    }

    void click_onTheBoundaryWithinTheTolerance_chooses() {
        m_driver->click(metresFrom(0, -505)); // 5 m outside; the tolerance is 6 m
        QVERIFY(m_driver->selection == Selection{m_large});
        m_driver->click(metresFrom(0, -510));
        QVERIFY(m_driver->selection == Selection{});
    }

    void drag_movesACornerInOneStep() {
        const model::FenceSet before = m_driver->set;
        m_driver->selection = m_small;
        m_driver->drag({metresFrom(100, 100), metresFrom(110, 110), metresFrom(130, 120), metresFrom(150, 150)});
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        QVERIFY(cornersOf(fence(m_small))[2] == metresFrom(150, 150));
        QVERIFY(cornersOf(fence(m_small))[0] == metresFrom(0, 0));
        m_driver->undo();
        QVERIFY(m_driver->set == before);
    }

    void cornersOfWhatIsNotSelected_areNotHeld() {
        m_driver->send(Kind::Press, metresFrom(100, 100));
        QVERIFY(!m_tool.holds());
        m_driver->selection = m_small;
        m_driver->send(Kind::Press, metresFrom(100, 100));
        QVERIFY(m_tool.holds());
    }

    void escape_inADrag_putsItBack() {
        const model::FenceSet before = m_driver->set;
        m_driver->selection = m_small;
        m_driver->grab({metresFrom(100, 100), metresFrom(110, 110), metresFrom(150, 150)});
        QVERIFY(m_driver->set != before);
        m_driver->escape();
        QVERIFY(m_driver->set == before);
        QVERIFY(!m_tool.holds());
        m_driver->send(Kind::Drag, metresFrom(170, 170));
        QVERIFY(m_driver->set == before);
    }

    void midpoint_clicked_becomesACorner() {
        m_driver->selection = m_small;
        m_driver->click(metresFrom(50, 0));
        QCOMPARE(cornersOf(fence(m_small)).size(), std::size_t{4});
        QCOMPARE_LE(geodesy::inverse(cornersOf(fence(m_small))[1], metresFrom(50, 0)).length.inMetres(), 0.01);
        QVERIFY(m_driver->preview().activeCorner == (Corner{m_small, 0, 1}));
    }

    void midpoint_dragged_becomesACornerThere_inOneStep() {
        m_driver->selection = m_small;
        m_driver->drag({metresFrom(50, 0), metresFrom(50, -20), metresFrom(55, -60)});
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        QCOMPARE(cornersOf(fence(m_small)).size(), std::size_t{4});
        QVERIFY(cornersOf(fence(m_small))[1] == metresFrom(55, -60));
    }

    void midpointOfTheClosingEdge_isInsertedAtTheEnd() {
        m_driver->selection = m_small;
        m_driver->click(metresFrom(50, 50));
        QCOMPARE(cornersOf(fence(m_small)).size(), std::size_t{4});
        QVERIFY(cornersOf(fence(m_small))[0] == metresFrom(0, 0));
        QCOMPARE_LE(geodesy::inverse(cornersOf(fence(m_small))[3], metresFrom(50, 50)).length.inMetres(), 0.01);
    }

    void delete_removesTheChosenCorner_thenRefusesTheThirdLast_thenTheFence() {
        m_driver->selection = m_large;
        m_driver->click(metresFrom(500, 500));
        m_driver->send(Kind::Delete);
        QCOMPARE(cornersOf(fence(m_large)).size(), std::size_t{3});
        m_driver->click(metresFrom(500, -500));
        QVERIFY_EXCEPTION_THROWN(m_driver->send(Kind::Delete), Fault);
        QCOMPARE(cornersOf(fence(m_large)).size(), std::size_t{3});
        m_driver->escape(); // lets go of the corner
        m_driver->send(Kind::Delete);
        QVERIFY(!m_driver->set.fences.find(m_large));
        QVERIFY(m_driver->selection == Selection{});
    }

    void delete_ofASite_takesItsSetbackAlong_andUndoBringsBothBack() {
        const model::FenceSet before = m_driver->set;
        m_driver->selection = m_site;
        m_driver->send(Kind::Delete);
        QVERIFY(m_driver->set.sites.empty());
        QCOMPARE(m_driver->set.fences.size(), std::size_t{3});
        m_driver->undo();
        QVERIFY(m_driver->set == before);
    }

    void rim_dragged_changesTheRadius() {
        m_driver->selection = m_circle;
        m_driver->drag({metresFrom(-120, -200), metresFrom(-100, -200), metresFrom(-75, -200)});
        const auto& circle = std::get<model::Circle>(fence(m_circle).shape);
        QCOMPARE_LE(std::abs(circle.radius.length.inMetres() - 125.0), 0.01);
        QVERIFY(circle.radius.asWritten.empty());
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
    }

    void rim_draggedConstrained_takesWholeTens() {
        m_driver->selection = m_circle;
        m_driver->constrain = true;
        m_driver->drag({metresFrom(-120, -200), metresFrom(-100, -200), metresFrom(-77, -200)});
        const auto& circle = std::get<model::Circle>(fence(m_circle).shape);
        QCOMPARE(circle.radius.length.inMetres(), 120.0);
        QCOMPARE(QString::fromStdString(circle.radius.asWritten), QString{"120 m"});
    }

    void centre_dragged_movesTheCircle() {
        m_driver->selection = m_circle;
        m_driver->drag({metresFrom(-200, -200), metresFrom(-220, -200), metresFrom(-250, -210)});
        const auto& circle = std::get<model::Circle>(fence(m_circle).shape);
        QVERIFY(circle.centre == metresFrom(-250, -210));
        QCOMPARE(circle.radius.length.inMetres(), 80.0);
    }

    void site_dragged_movesItsSetbackLive() {
        m_driver->grab({metresFrom(-200, 200), metresFrom(-210, 200), metresFrom(-260, 200)});
        // Still held, and the keep-out lies around the new place already: of the outlines, the setback's is the last.
        const auto& surface = m_driver->scene().outlined.back()->surface;
        for (const model::Position& corner : surface.parts.front().shell.corners)
            QCOMPARE_LE(std::abs(geodesy::inverse(corner, metresFrom(-260, 200)).length.inMetres() - 50.0), 0.1);
        m_driver->send(Kind::Drop, metresFrom(-260, 200));
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        QVERIFY(m_driver->selection == Selection{m_site});
    }

    void home_dragged_moves_andEscapeWhileIdleClearsTheSelection() {
        m_driver->drag({metresFrom(300, 300), metresFrom(310, 300), metresFrom(330, 320)});
        QVERIFY(m_driver->set.homes[0].place == metresFrom(330, 320));
        QVERIFY(m_driver->selection == Selection{m_home});
        m_driver->escape();
        QVERIFY(m_driver->selection == Selection{});
    }

    void snapping_isForCornersOnly_andLeavesTheirOwnFenceOut() {
        m_driver->selection = m_small;
        QVERIFY(!m_tool.wantsSnap());
        m_driver->grab({metresFrom(100, 100), metresFrom(110, 110)});
        QVERIFY(m_tool.wantsSnap());
        QVERIFY(m_tool.unsnapped() == Selection{m_small});
        m_driver->send(Kind::Drop, metresFrom(110, 110));
        m_driver->grab({metresFrom(300, 300), metresFrom(310, 300)});
        QVERIFY(!m_tool.wantsSnap());
    }

    void inside_ofTheSelectedFence_movesItAll_inOneStep() {
        const model::FenceSet before = m_driver->set;
        const model::LineString was = cornersOf(fence(m_small));
        m_driver->selection = m_small;
        m_driver->drag({metresFrom(70, 30), metresFrom(75, 30), metresFrom(500, 430)});
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        QCOMPARE(m_driver->steps.back().title.english(), std::string{"Move School"});
        const auto way = geodesy::inverse(metresFrom(70, 30), metresFrom(500, 430));
        for (std::size_t i = 0; i < was.size(); ++i) {
            const auto moved = geodesy::inverse(was[i], cornersOf(fence(m_small))[i]);
            QVERIFY(std::abs((moved.length - way.length).inMetres()) < 0.01);
            QVERIFY(std::abs((moved.azimuthAtStart - way.azimuthAtStart).inDegrees()) < 0.01);
        }
        m_driver->undo();
        QVERIFY(m_driver->set == before);
    }

    void inside_ofAFenceThatIsNotSelected_pans() {
        m_driver->send(Kind::Press, metresFrom(70, 30));
        QVERIFY(!m_tool.holds());
        m_driver->selection = m_large;
        m_driver->send(Kind::Press, metresFrom(70, 30)); // within the selected one, on a smaller one
        QVERIFY(!m_tool.holds());
        m_driver->send(Kind::Press, metresFrom(-400, 0));
        QVERIFY(m_tool.holds());
    }

    void inside_ofWhatReachesOutOfTheView_pans_butItsBoundaryHolds() {
        m_driver->selection = m_large;
        m_driver->sees = [](const geometry::Box&) { return false; };
        m_driver->send(Kind::Press, metresFrom(-400, 0));
        QVERIFY(!m_tool.holds());
        m_driver->send(Kind::Press, metresFrom(-300, -502));
        QVERIFY(m_tool.holds());
    }

    void aMove_isSnappedByTheCornerNearestToThePress() {
        m_driver->selection = m_small;
        m_driver->snapsTo = metresFrom(-100, 250);
        m_driver->drag({metresFrom(90, 75), metresFrom(80, 75), metresFrom(-110, 220)});
        QVERIFY(cornersOf(fence(m_small))[2] == metresFrom(-100, 250)); // to the last bit
        QVERIFY(m_driver->preview().readout.isEmpty());
    }

    void aMove_withShift_keepsToWholeBearings_andSaysHowFar() {
        const model::Position was = cornersOf(fence(m_small))[1];
        m_driver->selection = m_small;
        m_driver->constrain = true;
        m_driver->grab({metresFrom(70, 30), metresFrom(75, 30), metresFrom(270, 38)});
        QVERIFY(m_driver->preview().readout.endsWith(QStringLiteral("90.0°")));
        const auto way = geodesy::inverse(was, cornersOf(fence(m_small))[1]);
        QVERIFY(std::abs(way.azimuthAtStart.inDegrees() - 90.0) < 1e-6);
    }

    void aMove_escaped_isPutBack() {
        const model::FenceSet before = m_driver->set;
        m_driver->selection = Selection{std::vector<Thing>{m_small, m_circle, m_home}};
        m_driver->grab({metresFrom(70, 30), metresFrom(75, 30), metresFrom(270, 38)});
        QVERIFY(m_driver->set.homes[0].place != before.homes[0].place);
        m_driver->escape();
        QVERIFY(m_driver->set == before);
        QVERIFY(!m_tool.holds());
    }

    void everyFrameOfADrag_isWorkedOutFromThePress() {
        const model::FenceSet before = m_driver->set;
        m_driver->selection = m_small;
        m_driver->grab({metresFrom(70, 30), metresFrom(75, 30)});
        for (int i = 0; i < 1000; ++i)
            m_driver->send(Kind::Drag, metresFrom(70 + i % 7, 30 + i % 11));
        m_driver->send(Kind::Drag, metresFrom(70, 30));
        m_driver->send(Kind::Drop, metresFrom(70, 30));
        QVERIFY(m_driver->set == before); // to the last bit
    }

    void severalThings_areMovedTogether_aSetbackWithItsSite() {
        const auto setback = m_driver->set.fences[3].id;
        m_driver->selection = Selection{std::vector<Thing>{m_small, m_site, setback, m_home}};
        const model::Position home = m_driver->set.homes[0].place;
        m_driver->drag({metresFrom(300, 300), metresFrom(310, 300), metresFrom(400, 300)});
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        QCOMPARE(m_driver->selection.size(), std::size_t{4});
        QVERIFY(std::abs(geodesy::inverse(home, m_driver->set.homes[0].place).length.inMetres() - 100) < 0.01);
        QVERIFY(
            std::abs(geodesy::inverse(metresFrom(-200, 200), std::get<model::Position>(m_driver->set.sites[0].geometry))
                         .length.inMetres() -
                     100) < 0.01);
        QVERIFY(std::abs(geodesy::inverse(metresFrom(0, 0), cornersOf(fence(m_small))[0]).length.inMetres() - 100) <
                0.01);
    }

    void aSetback_alone_isRefused_andLetGo() {
        const model::FenceSet before = m_driver->set;
        m_driver->selection = m_driver->set.fences[3].id;
        ToolDriver& driver = *m_driver;
        driver.send(Kind::Press, metresFrom(-200, 230));
        QVERIFY(m_tool.holds());
        QVERIFY_THROWS_EXCEPTION(Fault, driver.send(Kind::Drag, metresFrom(-200, 260)));
        driver.send(Kind::Drag, metresFrom(-200, 270)); // said once
        QVERIFY(driver.set == before);
    }

    void figures_afterADrag_mendIt_inTheSameStep() {
        const model::FenceSet before = m_driver->set;
        m_driver->selection = m_small;
        QVERIFY(m_tool.typedPrompt().isEmpty());
        m_driver->drag({metresFrom(70, 30), metresFrom(75, 30), metresFrom(270, 38)});
        QVERIFY(!m_tool.typedPrompt().isEmpty());
        m_driver->send(Kind::Typing, {}, "20 m 45");
        QCOMPARE(m_driver->preview().readout, QStringLiteral("20.0 m · 45.0°"));
        m_driver->type("20 m 45");
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        const auto way = geodesy::inverse(metresFrom(100, 0), cornersOf(fence(m_small))[1]);
        QVERIFY(std::abs(way.length.inMetres() - 20.0) < 1e-5);
        QVERIFY(std::abs(way.azimuthAtStart.inDegrees() - 45.0) < 1e-4);
        m_driver->type("30 m"); // in the direction of the drag
        QVERIFY(std::abs(geodesy::inverse(metresFrom(100, 0), cornersOf(fence(m_small))[1]).length.inMetres() - 30.0) <
                1e-5);
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        QVERIFY_THROWS_EXCEPTION(Fault, m_driver->type("much"));
        m_driver->undo();
        QVERIFY(m_driver->set == before);
        m_driver->hover(metresFrom(800, 800));
        QVERIFY(m_tool.typedPrompt().isEmpty()); // it stands no longer
    }

    void figures_duringADrag_endIt() {
        m_driver->selection = m_small;
        m_driver->grab({metresFrom(100, 100), metresFrom(110, 110)});
        m_driver->type("50 m 0");
        m_driver->send(Kind::Drag, metresFrom(400, 400));
        m_driver->send(Kind::Drop, metresFrom(400, 400));
        const auto way = geodesy::inverse(metresFrom(100, 100), cornersOf(fence(m_small))[2]);
        QVERIFY(std::abs(way.length.inMetres() - 50.0) < 1e-6);
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
    }

    void figures_moveTheChosenCorner_andCoordinatesPutIt() {
        m_driver->selection = m_small;
        m_driver->click(metresFrom(100, 100));
        m_driver->type("10 m 90");
        QVERIFY(std::abs(geodesy::inverse(metresFrom(100, 100), cornersOf(fence(m_small))[2]).length.inMetres() -
                         10.0) < 1e-6);
        QVERIFY_THROWS_EXCEPTION(Fault, m_driver->type("10 m")); // whither?
        m_driver->type("46.21, -8.73");
        QVERIFY(cornersOf(fence(m_small))[2] == (model::Position{-8.73, 46.21}));
        QCOMPARE(m_driver->steps.size(), std::size_t{2});
    }

    void figures_setTheRadius() {
        m_driver->selection = m_circle;
        m_driver->drag({metresFrom(-120, -200), metresFrom(-110, -200), metresFrom(-75, -200)});
        m_driver->type("1/8 mi");
        const auto& circle = std::get<model::Circle>(fence(m_circle).shape);
        QCOMPARE(circle.radius, (StatedLength{Length::statuteMiles(0.125), "1/8 mi"}));
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
    }

    void edge_withAlt_movesParallel() {
        const model::FenceSet before = m_driver->set;
        const model::LineString was = cornersOf(fence(m_large));
        m_driver->selection = m_large;
        m_driver->parallel = true;
        m_driver->grab({metresFrom(-300, -500), metresFrom(-290, -510), metresFrom(-250, -520)});
        QCOMPARE(m_driver->preview().readout, QStringLiteral("20.0 m outward"));
        QVERIFY(m_driver->preview().activeEdge == (Edge{{m_large, 0, 0}}));
        m_driver->send(Kind::Drop, metresFrom(-250, -520));
        const model::LineString& is = cornersOf(fence(m_large));
        for (const std::size_t i : {0U, 1U}) {
            const auto way = geodesy::inverse(was[i], is[i]);
            QVERIFY(std::abs(way.length.inMetres() - 20.0) < 0.02);
            QVERIFY(std::abs(way.azimuthAtStart.inDegrees() - 180.0) < 0.02);
        }
        QVERIFY(is[2] == was[2] && is[3] == was[3]);
        QVERIFY(std::abs((geodesy::inverse(is[0], is[1]).length - geodesy::inverse(was[0], was[1]).length).inMetres()) <
                1e-4);
        m_driver->type("12 m inward");
        QVERIFY(std::abs(geodesy::inverse(was[0], cornersOf(fence(m_large))[0]).length.inMetres() - 12.0) < 1e-6);
        QVERIFY(cornersOf(fence(m_large))[0].lat > was[0].lat);
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        m_driver->undo();
        QVERIFY(m_driver->set == before);
    }

    void edge_chosenByASecondClick_isDraggedAndTyped_butNotDeleted() {
        m_driver->click(metresFrom(-300, -500));
        QVERIFY(m_driver->selection == Selection{m_large});
        m_driver->click(metresFrom(-300, -500));
        QVERIFY(m_driver->preview().activeEdge == (Edge{{m_large, 0, 0}}));
        QVERIFY_THROWS_EXCEPTION(Fault, m_driver->send(Kind::Delete));
        const model::Position was = cornersOf(fence(m_large))[0];
        m_driver->type("5 m");
        QVERIFY(std::abs(geodesy::inverse(was, cornersOf(fence(m_large))[0]).length.inMetres() - 5.0) < 1e-6);
        QVERIFY(cornersOf(fence(m_large))[0].lat < was.lat); // outward
        m_driver->drag({metresFrom(-300, -505), metresFrom(-300, -495), metresFrom(-300, -485)});
        QVERIFY(std::abs(geodesy::inverse(was, cornersOf(fence(m_large))[0]).length.inMetres() - 15.0) < 0.05);
        QCOMPARE(m_driver->steps.size(), std::size_t{2});
        m_driver->escape();
        QVERIFY(!m_driver->preview().activeEdge);
        QVERIFY(m_driver->selection == Selection{m_large});
    }

    void edge_escaped_isPutBack() {
        const model::FenceSet before = m_driver->set;
        m_driver->selection = m_large;
        m_driver->parallel = true;
        m_driver->grab({metresFrom(500, -300), metresFrom(510, -300), metresFrom(560, -300)});
        QVERIFY(m_driver->set != before);
        m_driver->escape();
        QVERIFY(m_driver->set == before);
    }

    void nudges_inARow_areOneStep() {
        const model::FenceSet before = m_driver->set;
        m_driver->selection = m_small;
        m_driver->beginsNudging();
        for (int i = 0; i < 5; ++i)
            m_driver->nudge(1, 0);
        m_driver->nudge(0, -10);
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        for (std::size_t i = 0; i < 3; ++i) {
            const auto way = geodesy::inverse(cornersOf(*before.fences.find(m_small))[i], cornersOf(fence(m_small))[i]);
            QVERIFY(std::abs(way.length.inMetres() - std::hypot(5, 10)) < 1e-3);
        }
        m_driver->undo();
        QVERIFY(m_driver->set == before);
    }

    void nudge_ofAChosenCorner_movesThatCorner() {
        m_driver->selection = m_small;
        m_driver->click(metresFrom(100, 100));
        m_driver->beginsNudging();
        m_driver->nudge(0, 1);
        const model::LineString& corners = cornersOf(fence(m_small));
        QVERIFY(std::abs(geodesy::inverse(metresFrom(100, 100), corners[2]).length.inMetres() - 1.0) < 1e-6);
        QVERIFY(corners[0] == metresFrom(0, 0) && corners[1] == metresFrom(100, 0));
        QVERIFY(m_driver->preview().activeCorner == (Corner{m_small, 0, 2}));
    }

    /// The line has another count of corners now: the index of the chosen one means another, and Delete would take it.
    void aChosenCorner_isTheSameOne_whenTheLineHasGotMoreCorners() {
        m_driver->selection = m_small;
        m_driver->click(metresFrom(50, 0)); // a midpoint becomes a corner
        QCOMPARE(cornersOf(fence(m_small)).size(), std::size_t{4});
        m_driver->click(metresFrom(100, 100));
        QCOMPARE(m_tool.chosenCorner()->index, std::size_t{3});
        m_driver->undo();
        QCOMPARE(m_driver->preview().activeCorner->index, std::size_t{2});
        m_driver->hover(metresFrom(800, 800));
        QCOMPARE(m_tool.chosenCorner()->index, std::size_t{2});
        // The corner that was chosen is moved, and no other.
        m_driver->type("10 m 90");
        QVERIFY(cornersOf(fence(m_small))[0] == metresFrom(0, 0));
        QVERIFY(cornersOf(fence(m_small))[1] == metresFrom(100, 0));
        QVERIFY(cornersOf(fence(m_small))[2] != metresFrom(100, 100));
    }
    void aChosenCorner_thatIsGone_isChosenNoLonger() {
        m_driver->selection = m_small;
        m_driver->click(metresFrom(50, 0));
        QVERIFY(m_tool.chosenCorner().has_value());
        m_driver->undo();
        QVERIFY(!m_driver->preview().activeCorner);
        m_driver->send(Kind::Delete); // the fence, and not a corner of it
        QVERIFY(!m_driver->set.fences.find(m_small));
    }
    void aChosenEdge_isTheSameOne_whenTheLineHasGotMoreCorners() {
        m_driver->selection = m_small;
        m_driver->click(metresFrom(50, 0));
        m_driver->click(metresFrom(100, 30));
        const std::optional<Edge> edge = m_driver->preview().activeEdge;
        QVERIFY(edge.has_value());
        QCOMPARE(edge->from.index, std::size_t{2});
        m_driver->undo();
        m_driver->send(Kind::Typing); // not a hover: that shows the edge under the pointer
        QCOMPARE(m_driver->preview().activeEdge->from.index, std::size_t{1});
    }
    void aChosenCorner_staysTheSame_amongTheHolesOfItsFence() {
        auto land = fence(m_large);
        auto& polygon = std::get<model::DrawnPolygon>(land.shape).polygon;
        for (const double west : {-300.0, 200.0})
            polygon.holes.push_back(
                {{metresFrom(west, -300), metresFrom(west + 60, -300), metresFrom(west + 60, -240)}});
        m_driver->set.fences.replace(0, std::make_shared<const model::Fence>(land));
        m_driver->selection = m_large;
        m_driver->click(metresFrom(260, -240));
        QCOMPARE(m_tool.chosenCorner()->line, std::size_t{2});
        polygon.holes.erase(polygon.holes.begin());
        m_driver->set.fences.replace(0, std::make_shared<const model::Fence>(land));
        m_driver->hover(metresFrom(800, 800));
        QVERIFY(m_tool.chosenCorner() == (Corner{m_large, 1, 2}));
    }
    /// What is typed mends the drag only while the corner that was dragged is the one that is chosen.
    void figures_areForTheCornerThatIsChosenElsewhere_andNotForTheLastDrag() {
        m_driver->selection = m_small;
        m_driver->drag({metresFrom(100, 100), metresFrom(110, 110), metresFrom(120, 120)});
        m_tool.chooseCorner(Corner{m_small, 0, 0});
        m_driver->type("10 m 180");
        const auto way = geodesy::inverse(metresFrom(0, 0), cornersOf(fence(m_small))[0]);
        QCOMPARE_LE(std::abs(way.length.inMetres() - 10.0), 1e-6);
        QVERIFY(cornersOf(fence(m_small))[2] == metresFrom(120, 120));
    }
    void figures_areNotForTheLastDrag_onceSomethingElseIsSelected() {
        m_driver->selection = m_small;
        m_driver->drag({metresFrom(100, 100), metresFrom(110, 110), metresFrom(120, 120)});
        m_driver->selection = m_circle;
        const model::FenceSet before = m_driver->set;
        m_driver->type("10 m 180");
        QVERIFY(m_driver->set == before);
    }
    void rim_draggedConstrained_saysTheWholeTensThatItTakes() {
        m_driver->selection = m_circle;
        m_driver->constrain = true;
        m_driver->grab({metresFrom(-120, -200), metresFrom(-113, -200)});
        QCOMPARE(m_driver->preview().readout, QStringLiteral("90.0 m"));
    }
    void offers_areForCornersAndEdgesOfTheSelectedFence() {
        const auto offers = [&](double east, double north) {
            ToolEvent event;
            event.pointer = event.place = metresFrom(east, north);
            event.tolerance = Length::metres(6);
            return m_tool.offersAt(event, m_driver->scene());
        };
        QVERIFY(offers(500, 500).empty());
        m_driver->selection = m_large;
        QCOMPARE(offers(500, 500).size(), std::size_t{1});
        QCOMPARE(offers(500, 500)[0].words, QStringLiteral("Delete corner"));
        m_driver->take(offers(500, 500)[0].take(m_driver->scene()));
        QCOMPARE(cornersOf(fence(m_large)).size(), std::size_t{3});
        m_driver->undo();
        QCOMPARE(offers(-300, -503)[0].words, QStringLiteral("Add corner here"));
        m_driver->take(offers(-300, -503)[0].take(m_driver->scene()));
        QCOMPARE(cornersOf(fence(m_large)).size(), std::size_t{5});
        // On the edge, and not where the pointer was beside it.
        QVERIFY(geodesy::inverse(cornersOf(fence(m_large))[1], metresFrom(-300, -500)).length.inMetres() < 0.05);
        QVERIFY(offers(0, 0).empty());
    }
};

QTEST_GUILESS_MAIN(SelectToolTest)
#include "select_tool_test.moc"
