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
        QVERIFY(m_tool.unsnapped() == std::optional{m_small});
        m_driver->send(Kind::Drop, metresFrom(110, 110));
        m_driver->grab({metresFrom(300, 300), metresFrom(310, 300)});
        QVERIFY(!m_tool.wantsSnap());
    }
};

QTEST_GUILESS_MAIN(SelectToolTest)
#include "select_tool_test.moc"
