#include "desktop/tools/shared_corners.h"

#include "app/desktop/tools/tool_driver.h"
#include "desktop/tools/select_tool.h"
#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

/// West and east share two corners, one of them bit by bit, the other half a centimetre apart; a corridor ends at one;
/// a near one misses it by two centimetres.
class SharedCornersTest : public QObject {
    Q_OBJECT

    SelectTool m_tool;
    std::unique_ptr<ToolDriver> m_driver;
    model::FenceId m_west, m_east, m_corridor, m_near;

    const model::LineString& corners(const model::FenceId& id) { return cornersOf(*m_driver->set.fences.find(id)); }
    const model::LineString& line() {
        return std::get<model::Corridor>(m_driver->set.fences.find(m_corridor)->shape).line;
    }

private slots:
    void init() {
        m_tool = SelectTool{};
        m_driver = std::make_unique<ToolDriver>(m_tool);
        const auto west =
            drawnFence("West", {metresFrom(-100, 0), metresFrom(0, 0), metresFrom(0, 100), metresFrom(-100, 100)});
        const auto east =
            drawnFence("East", {metresFrom(0.005, 100), metresFrom(0, 0), metresFrom(100, 0), metresFrom(100, 100)});
        auto corridor = drawnFence("Track", {});
        corridor.shape = model::Corridor{
            {metresFrom(-50, 300), metresFrom(0, 100)}, {Length::metres(5), "5 m"}, {Length::metres(5), "5 m"}};
        const auto nearly = drawnFence("Near", {metresFrom(0, 99.98), metresFrom(40, 200), metresFrom(0, 200)});
        m_west = west.id;
        m_east = east.id;
        m_corridor = corridor.id;
        m_near = nearly.id;
        for (const auto& one : {west, east, corridor, nearly})
            m_driver->set.fences.append(one);
        m_driver->selection = m_west;
        m_driver->sharesCorners = true;
    }

    void aSharedCorner_movesAll_inOneStep() {
        const model::FenceSet before = m_driver->set;
        m_driver->drag({metresFrom(0, 100), metresFrom(5, 105), metresFrom(20, 130)});
        QVERIFY(corners(m_west)[2] == metresFrom(20, 130));
        QVERIFY(corners(m_east)[0] == metresFrom(20, 130));
        QVERIFY(line()[1] == metresFrom(20, 130));
        QVERIFY(corners(m_near)[0] == metresFrom(0, 99.98));
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        m_driver->undo();
        QVERIFY(m_driver->set == before);
    }

    void whatMoves_isNotSnappedTo() {
        m_driver->grab({metresFrom(0, 100), metresFrom(5, 105)});
        for (const auto& id : {m_west, m_east, m_corridor})
            QVERIFY(m_tool.unsnapped().contains(id));
        QVERIFY(!m_tool.unsnapped().contains(m_near));
    }

    void switchedOff_itMovesAlone() {
        m_driver->sharesCorners = false;
        m_driver->drag({metresFrom(0, 0), metresFrom(5, 5), metresFrom(20, 30)});
        QVERIFY(corners(m_west)[1] == metresFrom(20, 30));
        QVERIFY(corners(m_east)[1] == metresFrom(0, 0));
    }

    void escaped_allAreBack() {
        const model::FenceSet before = m_driver->set;
        m_driver->grab({metresFrom(0, 0), metresFrom(5, 5), metresFrom(20, 30)});
        QVERIFY(corners(m_east)[1] != metresFrom(0, 0));
        m_driver->escape();
        QVERIFY(m_driver->set == before);
    }

    void typed_allMove() {
        m_driver->click(metresFrom(0, 0));
        m_driver->type("10 m 180");
        QVERIFY(corners(m_west)[1] == corners(m_east)[1]);
        QVERIFY(std::abs(geodesy::inverse(metresFrom(0, 0), corners(m_east)[1]).length.inMetres() - 10) < 1e-6);
    }

    void nudged_allMove() {
        m_driver->click(metresFrom(0, 0));
        m_driver->beginsNudging();
        m_driver->nudge(1, 0);
        QVERIFY(corners(m_west)[1] == corners(m_east)[1]);
        QVERIFY(corners(m_west)[1] != metresFrom(0, 0));
    }

    void aCornerInASharedEdge_comesIntoBoth() {
        const model::FenceSet before = m_driver->set;
        m_driver->drag({metresFrom(0, 50), metresFrom(5, 50), metresFrom(12, 55)});
        QCOMPARE(corners(m_west).size(), std::size_t{5});
        QCOMPARE(corners(m_east).size(), std::size_t{5});
        QVERIFY(corners(m_west)[2] == metresFrom(12, 55));
        QVERIFY(corners(m_east)[1] == metresFrom(12, 55)); // between the same two
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        m_driver->undo();
        QVERIFY(m_driver->set == before);
        m_driver->click(metresFrom(0, 50));
        QCOMPARE(corners(m_east).size(), std::size_t{5});
        QVERIFY(corners(m_east)[1] == corners(m_west)[2]);
    }

    void aCornerInAnotherEdge_comesIntoOne() {
        m_driver->click(metresFrom(-50, 0));
        QCOMPARE(corners(m_west).size(), std::size_t{5});
        QCOMPARE(corners(m_east).size(), std::size_t{4});
    }

    void insertedInTheClosingEdge_ofTheNeighbour() {
        // The same ring begun at another corner: the shared edge is the one that closes it.
        auto east = *m_driver->set.fences.find(m_east);
        auto& ring = std::get<model::DrawnPolygon>(east.shape).polygon.shell.corners;
        std::rotate(ring.begin(), ring.begin() + 1, ring.end());
        m_driver->set = model::applied(m_driver->set, model::replaceFence(m_driver->set, east, {}));
        m_driver->click(metresFrom(0, 50));
        QCOMPARE(corners(m_east).size(), std::size_t{5});
        QVERIFY(corners(m_east)[4] == corners(m_west)[2]);
    }

    void deleted_allGo_unlessOneWouldHaveTooFew() {
        const model::FenceSet before = m_driver->set;
        m_driver->click(metresFrom(0, 0));
        m_driver->send(Kind::Delete);
        QCOMPARE(corners(m_west).size(), std::size_t{3});
        QCOMPARE(corners(m_east).size(), std::size_t{3});
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        m_driver->undo();
        QVERIFY(m_driver->set == before);
        m_driver->click(metresFrom(0, 100)); // the corridor's last but one
        QVERIFY_THROWS_EXCEPTION(Fault, m_driver->send(Kind::Delete));
        QVERIFY(m_driver->set == before);
    }

    void anEdge_movesTheNeighboursCornersAlong() {
        m_driver->parallel = true;
        m_driver->drag({metresFrom(0, 30), metresFrom(5, 30), metresFrom(10, 30)});
        QVERIFY(corners(m_west)[1] == corners(m_east)[1]);
        QVERIFY(corners(m_west)[2] == corners(m_east)[0]);
        QVERIFY(std::abs(geodesy::inverse(metresFrom(0, 0), corners(m_east)[1]).length.inMetres() - 10) < 0.01);
    }

    void onAnotherTurnOfLongitude_theyAreStillTogether() {
        auto east = *m_driver->set.fences.find(m_east);
        for (auto& corner : std::get<model::DrawnPolygon>(east.shape).polygon.shell.corners)
            corner.lon += 360.0;
        m_driver->set = model::applied(m_driver->set, model::replaceFence(m_driver->set, east, {}));
        m_driver->drag({metresFrom(0, 0), metresFrom(5, 5), metresFrom(20, 30)});
        QVERIFY(std::abs(corners(m_east)[1].lon - 360.0 - metresFrom(20, 30).lon) < 1e-12);
    }
};

QTEST_GUILESS_MAIN(SharedCornersTest)
#include "shared_corners_test.moc"
