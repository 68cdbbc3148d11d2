#include "desktop/tools/hole_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

class HoleToolTest : public QObject {
    Q_OBJECT

    static model::Fence square(const std::string& name, double middle, double half) {
        return drawnFence(name, {metresFrom(middle - half, -half), metresFrom(middle + half, -half),
                                 metresFrom(middle + half, half), metresFrom(middle - half, half)});
    }
    static const model::Polygon& polygonOf(const model::Fence& fence) {
        return std::get<model::DrawnPolygon>(fence.shape).polygon;
    }

private slots:
    void clicks_makeAHoleInTheFenceUnderThem() {
        HoleTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(square("West", -1000, 200));
        driver.set.fences.append(square("East", 1000, 200));
        const model::FenceSet before = driver.set;
        const model::LineString hole{metresFrom(950, 0), metresFrom(1050, 0), metresFrom(1000, 80)};
        for (const auto& corner : hole)
            driver.click(corner);
        QVERIFY(driver.selection == Selection{driver.set.fences[1].id});
        driver.finish();
        QCOMPARE(driver.steps.size(), std::size_t{1});
        QVERIFY(polygonOf(driver.set.fences[0]).holes.empty());
        QCOMPARE(polygonOf(driver.set.fences[1]).holes.size(), std::size_t{1});
        QVERIFY(polygonOf(driver.set.fences[1]).holes[0].corners == hole);
        driver.undo();
        QVERIFY(driver.set == before);
    }

    /// Stored beyond 180°, as a shape that crosses it is; and seen from either side of it.
    void hole_isMade_whereTheFenceIsStoredATurnAway_data() {
        QTest::addColumn<double>("stored");
        QTest::addColumn<double>("seen");
        QTest::newRow("across 180°, seen from the east") << 180.0 << -180.0;
        QTest::newRow("across -180°, seen from the west") << -180.0 << 180.0;
        QTest::newRow("as it is stored") << 180.0 << 180.0;
    }
    void hole_isMade_whereTheFenceIsStoredATurnAway() {
        QFETCH(double, stored);
        QFETCH(double, seen);
        HoleTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(
            drawnFence("Isle", {{stored - 1, -17}, {stored + 1, -17}, {stored + 1, -16}, {stored - 1, -16}}));
        for (const auto& corner : {model::Position{seen - 0.5, -16.8}, {seen + 0.5, -16.8}, {seen, -16.2}})
            driver.click(corner);
        driver.finish();
        const auto& holes = polygonOf(driver.set.fences[0]).holes;
        QCOMPARE(holes.size(), std::size_t{1});
        QVERIFY(holes[0].corners == (model::LineString{{stored - 0.5, -16.8}, {stored + 0.5, -16.8}, {stored, -16.2}}));
    }

    void lockedFence_isRefused_atTheFirstCorner() {
        HoleTool tool;
        ToolDriver driver{tool};
        auto fence = square("Yard", 0, 300);
        fence.locked = true;
        driver.set.fences.append(fence);
        QVERIFY_THROWS_EXCEPTION(Fault, driver.click(metresFrom(0, 0)));
        QVERIFY(driver.preview().line.empty());
    }

    void fenceLockedMeanwhile_isRefused_andWhatWasDrawnIsKept() {
        HoleTool tool;
        ToolDriver driver{tool};
        auto fence = square("Yard", 0, 300);
        driver.set.fences.append(fence);
        for (const auto& corner : {metresFrom(0, 0), metresFrom(50, 0), metresFrom(50, 50)})
            driver.click(corner);
        fence.locked = true;
        driver.set.fences.replace(0, std::make_shared<const model::Fence>(fence));
        QVERIFY_THROWS_EXCEPTION(Fault, driver.finish());
        fence.locked = false;
        driver.set.fences.replace(0, std::make_shared<const model::Fence>(fence));
        driver.finish();
        QCOMPARE(polygonOf(driver.set.fences[0]).holes.size(), std::size_t{1});
    }

    void selectedFence_isTakenWhereSeveralLieOverEachOther() {
        HoleTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(square("Below", 0, 300));
        driver.set.fences.append(square("Above", 0, 200));
        driver.selection = driver.set.fences[0].id;
        for (const auto& corner : {metresFrom(0, 0), metresFrom(50, 0), metresFrom(50, 50)})
            driver.click(corner);
        driver.send(Kind::DoubleClick, metresFrom(50, 50));
        QCOMPARE(polygonOf(driver.set.fences[0]).holes.size(), std::size_t{1});
        QVERIFY(polygonOf(driver.set.fences[1]).holes.empty());
    }

    void typedHole_hasItsLengths() {
        HoleTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(square("Land", 0, 300));
        driver.type("46.208844 -8.733936");
        driver.type("60 m 90");
        driver.type("S 30 E 40 m");
        driver.finish();
        const auto& corners = polygonOf(driver.set.fences[0]).holes.at(0).corners;
        // The inverse problem is held against published lines in tests/reference/geodesics_test.cpp.
        const auto second = geodesy::inverse(corners[1], corners[2]);
        QCOMPARE_LE(std::abs(second.length.inMetres() - 40.0), 1e-6);
        QCOMPARE_LE(std::abs(second.azimuthAtStart.inDegrees() - 150.0), 1e-6);
    }

    void holeOverTheBoundary_isRefused_andCanBeMended() {
        HoleTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(square("Land", 0, 200));
        for (const auto& corner : {metresFrom(0, 0), metresFrom(100, 0), metresFrom(500, 100)})
            driver.click(corner);
        QVERIFY_EXCEPTION_THROWN(driver.finish(), Fault);
        QVERIFY(polygonOf(driver.set.fences[0]).holes.empty());
        driver.send(Kind::StepBack);
        driver.click(metresFrom(100, 100));
        driver.finish();
        QCOMPARE(polygonOf(driver.set.fences[0]).holes.size(), std::size_t{1});
    }

    void holeOverAnother_isRefused() {
        HoleTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(square("Land", 0, 200));
        for (const auto& corner : {metresFrom(-50, -50), metresFrom(50, -50), metresFrom(0, 50)})
            driver.click(corner);
        driver.finish();
        QVERIFY_EXCEPTION_THROWN(driver.click(metresFrom(0, 0)), Fault); // in the hole there is no fence
        for (const auto& corner : {metresFrom(-100, 0), metresFrom(100, 0), metresFrom(100, 10)})
            driver.click(corner);
        QVERIFY_EXCEPTION_THROWN(driver.finish(), Fault);
        QCOMPARE(polygonOf(driver.set.fences[0]).holes.size(), std::size_t{1});
    }

    void firstCornerOverNothing_isRefused() {
        HoleTool tool;
        ToolDriver driver{tool};
        const QString idle = driver.hint();
        QVERIFY_EXCEPTION_THROWN(driver.click(metresFrom(0, 0)), Fault);
        QCOMPARE(driver.hint(), idle);
    }

    void comb_standsWhereTheAircraftMayNotBe() {
        HoleTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(square("Land", 0, 200)); // a keep-out: inside the hole one may fly
        driver.click(metresFrom(0, 0));
        QVERIFY(driver.preview().kind == model::FenceKind::KeepIn);
    }

    void escape_dropsTheHole_thenLeaves() {
        HoleTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(square("Land", 0, 200));
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(50, 0));
        driver.escape();
        QVERIFY(!driver.left);
        QVERIFY(driver.preview().line.empty());
        driver.escape();
        QVERIFY(driver.left);
        QVERIFY(driver.steps.empty());
    }
};

QTEST_GUILESS_MAIN(HoleToolTest)
#include "hole_tool_test.moc"
