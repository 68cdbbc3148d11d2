#include "desktop/tools/running_along.h"

#include "app/desktop/tools/tool_driver.h"
#include "desktop/tools/corridor_tool.h"
#include "desktop/tools/cut_tool.h"
#include "desktop/tools/hole_tool.h"
#include "desktop/tools/polygon_tool.h"
#include "desktop/tools/rectangle_tool.h"
#include "desktop/tools/select_tool.h"

#include <QtTest>

#include <algorithm>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;
using model::LineString;
using model::Position;

namespace {

/// A row of five fields on a street: their northern sides are one line to the eye, but their records stray from it by
/// millimetres, and some have corners of their own on it.
class Street {
public:
    Street() {
        const double heights[] = {0.0, 0.004, -0.003, 0.006, -0.005, 0.0};
        for (std::size_t i = 0; i < 6; ++i)
            m_front.push_back(on(0.2 * double(i), heights[i]));
        m_own = {on(0.3, 0.002), on(0.5, 0.004), on(0.55, 0.001)};
    }
    std::vector<model::Fence> fields() const {
        std::vector<model::Fence> all;
        for (std::size_t i = 0; i < 5; ++i) {
            const double west = 100.0 * double(i);
            LineString ring{m_front[i], metresFrom(west, -80), metresFrom(west + 100.0, -80), m_front[i + 1]};
            if (i == 1)
                ring.push_back(m_own[0]);
            if (i == 2)
                ring.insert(ring.end(), {m_own[2], m_own[1]});
            all.push_back(drawnFence("Field " + std::to_string(i + 1), ring));
        }
        return all;
    }
    Position west() const { return m_front.front(); }
    Position east() const { return m_front.back(); }
    /// What lies between the two ends, from the west.
    LineString between() const {
        LineString all{m_front.begin() + 1, m_front.end() - 1};
        all.insert(all.end(), m_own.begin(), m_own.end());
        std::sort(all.begin(), all.end(), [](const Position& a, const Position& b) { return a.lon < b.lon; });
        return all;
    }

private:
    static Position on(double along, double height) {
        const Position a = metresFrom(0, 0), b = metresFrom(500, 0);
        return {a.lon + along * (b.lon - a.lon), a.lat + along * (b.lat - a.lat) + height / 111'000.0};
    }

    LineString m_front, m_own;
};

/// Whether all of them stand in the line, one right after another, in this order or the opposite.
bool hasRun(const LineString& line, const LineString& run, bool closed) {
    LineString twice = line;
    if (closed)
        twice.insert(twice.end(), line.begin(), line.end());
    LineString back{run.rbegin(), run.rend()};
    return std::search(twice.begin(), twice.end(), run.begin(), run.end()) != twice.end() ||
           std::search(twice.begin(), twice.end(), back.begin(), back.end()) != twice.end();
}
LineString whole(const Street& street) {
    LineString run{street.west()};
    const LineString between = street.between();
    run.insert(run.end(), between.begin(), between.end());
    run.push_back(street.east());
    return run;
}

} // namespace

/// Whatever makes edges takes over the corners of boundaries along which they run, also of several in a row: no sliver
/// is left between.
class RunningAlongTest : public QObject {
    Q_OBJECT

    Street m_street;

    void addFields(ToolDriver& driver) {
        for (const model::Fence& field : m_street.fields())
            driver.set.fences.append(field);
    }
    const model::Fence& last(ToolDriver& driver) { return driver.set.fences[driver.set.fences.size() - 1]; }

private slots:
    void polygon_onALegOrItsClosingEdge() {
        for (const bool closing : {false, true}) {
            PolygonTool tool{model::FenceKind::KeepOut};
            ToolDriver driver{tool};
            addFields(driver);
            driver.click(m_street.east());
            if (closing)
                driver.click(metresFrom(250, 200));
            driver.click(m_street.west());
            if (!closing)
                driver.click(metresFrom(250, 200));
            driver.finish();
            QVERIFY(hasRun(cornersOf(last(driver)), whole(m_street), true));
        }
    }

    void polygon_fartherOff_staysStraight() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        auto fields = m_street.fields();
        std::get<model::DrawnPolygon>(fields[2].shape).polygon.shell.corners.back().lat += 0.02 / 111'000.0;
        for (const model::Fence& field : fields)
            driver.set.fences.append(field);
        driver.click(m_street.east());
        driver.click(m_street.west());
        driver.click(metresFrom(250, 200));
        driver.finish();
        QCOMPARE(cornersOf(last(driver)).size(), std::size_t{3});
    }

    void hole() {
        HoleTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(drawnFence(
            "Land", {metresFrom(-500, -500), metresFrom(900, -500), metresFrom(900, 500), metresFrom(-500, 500)}));
        const model::FenceId land = driver.set.fences[0].id;
        addFields(driver);
        driver.selection = land;
        driver.click(m_street.west());
        driver.click(m_street.east());
        driver.click(metresFrom(250, 200));
        driver.finish();
        const auto& drawn = std::get<model::DrawnPolygon>(driver.set.fences.find(land)->shape);
        QCOMPARE(drawn.polygon.holes.size(), std::size_t{1});
        QVERIFY(hasRun(drawn.polygon.holes[0].corners, whole(m_street), true));
    }

    void corridor() {
        CorridorTool tool;
        ToolDriver driver{tool};
        addFields(driver);
        driver.click(m_street.west());
        driver.click(m_street.east());
        driver.finish();
        driver.type("15 m");
        QVERIFY(std::get<model::Corridor>(last(driver).shape).line == whole(m_street));
    }

    void cut() {
        CutTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(
            drawnFence("Land", {m_street.west(), metresFrom(250, -300), m_street.east(), metresFrom(250, 300)}));
        const model::FenceId land = driver.set.fences[0].id;
        addFields(driver);
        driver.selection = land;
        driver.click(m_street.west());
        driver.click(m_street.east());
        driver.finish();
        QCOMPARE(driver.set.fences.size(), std::size_t{7});
        for (const model::Fence& fence : driver.set.fences)
            if (fence.name.starts_with("Land"))
                QVERIFY(hasRun(cornersOf(fence), m_street.between(), true));
    }

    void rectangle() {
        RectangleTool tool;
        ToolDriver driver{tool};
        addFields(driver);
        driver.click(m_street.west());
        driver.click(m_street.east());
        driver.click(metresFrom(250, 60));
        QVERIFY(hasRun(cornersOf(last(driver)), whole(m_street), true));
        QCOMPARE(cornersOf(last(driver)).size(), whole(m_street).size() + 2);
    }

    void draggedCorner_getsTheCornersOfItsEdges_onceItIsLetGo() {
        SelectTool tool;
        ToolDriver driver{tool};
        addFields(driver);
        const auto barn = drawnFence("Barn", {m_street.west(), metresFrom(420, 70), metresFrom(0, 90)});
        driver.set.fences.append(barn);
        driver.selection = barn.id;
        const model::FenceSet before = driver.set;
        driver.grab({metresFrom(420, 70), metresFrom(450, 30), m_street.east()});
        QCOMPARE(cornersOf(*driver.set.fences.find(barn.id)).size(), std::size_t{3});
        driver.send(Kind::Drop, m_street.east());
        const LineString& corners = cornersOf(*driver.set.fences.find(barn.id));
        QVERIFY(hasRun(corners, whole(m_street), true));
        QCOMPARE(driver.steps.size(), std::size_t{1}); // one step with the drag
        // The corner that is chosen is the one that was dragged.
        QVERIFY(tool.chosenCorner() && corners[tool.chosenCorner()->index] == m_street.east());
        driver.undo();
        QVERIFY(driver.set == before);
    }

    void draggedCorner_isMendedByFigures_meantExactly() {
        SelectTool tool;
        ToolDriver driver{tool};
        addFields(driver);
        const auto barn = drawnFence("Barn", {m_street.west(), metresFrom(420, 70), metresFrom(0, 90)});
        driver.set.fences.append(barn);
        driver.selection = barn.id;
        driver.drag({metresFrom(420, 70), m_street.east()});
        driver.type("40 m 0");
        const LineString& corners = cornersOf(*driver.set.fences.find(barn.id));
        QCOMPARE(corners.size(), std::size_t{3});
        QCOMPARE_LE(std::abs(geodesy::inverse(metresFrom(420, 70), corners[1]).length.inMetres() - 40.0), 1e-6);
        QCOMPARE(tool.chosenCorner()->index, std::size_t{1});
    }

    void draggedEdge_andDraggedMidpoint() {
        SelectTool tool;
        ToolDriver driver{tool};
        addFields(driver);
        // The edge is parallel to the street, 40 m north of it.
        const auto up = [](Position place, double metres) {
            return geodesy::direct(place, Angle::degrees(0), Length::metres(metres));
        };
        const auto barn = drawnFence("Barn", {up(m_street.west(), 40), up(m_street.east(), 40), metresFrom(250, 200)});
        driver.set.fences.append(barn);
        driver.selection = barn.id;
        driver.parallel = true;
        const Position& a = cornersOf(barn)[0];
        const Position& b = cornersOf(barn)[1];
        driver.drag({{(a.lon + b.lon) / 2.0, (a.lat + b.lat) / 2.0}, up(m_street.west(), 20), m_street.west()});
        driver.parallel = false;
        const LineString moved = cornersOf(*driver.set.fences.find(barn.id));
        QVERIFY(hasRun(moved, m_street.between(), true));
        QVERIFY(!tool.chosenCorner());
        driver.undo();
        // A midpoint, dragged to a place in the street: both edges at it.
        const auto shed = drawnFence("Shed", {m_street.west(), m_street.east(), metresFrom(250, 150)});
        driver.set.fences.append(shed);
        driver.selection = shed.id;
        const Position middle{(m_street.west().lon + m_street.east().lon) / 2.0,
                              (m_street.west().lat + m_street.east().lat) / 2.0};
        const Position corner = m_street.between()[3];
        driver.drag({middle, metresFrom(250, 30), corner});
        QVERIFY(hasRun(cornersOf(*driver.set.fences.find(shed.id)), whole(m_street), true));
    }

    void neighboursEditedTogether_getTheSameCorners() {
        SelectTool tool;
        ToolDriver driver{tool};
        addFields(driver);
        // Two that share the edge which comes to lie on the street, and go along it in opposite directions.
        const auto north = drawnFence("North", {m_street.west(), metresFrom(420, 70), metresFrom(0, 90)});
        const auto south = drawnFence("South", {metresFrom(420, 70), m_street.west(), metresFrom(200, -300)});
        driver.set.fences.append(north);
        driver.set.fences.append(south);
        driver.selection = north.id;
        driver.sharesCorners = true;
        driver.drag({metresFrom(420, 70), m_street.east()});
        QVERIFY(hasRun(cornersOf(*driver.set.fences.find(north.id)), whole(m_street), true));
        QVERIFY(hasRun(cornersOf(*driver.set.fences.find(south.id)), whole(m_street), true));
        QCOMPARE(driver.steps.size(), std::size_t{1});
    }
};

QTEST_GUILESS_MAIN(RunningAlongTest)
#include "running_along_test.moc"
