#include "desktop/tools/rectangle_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

class RectangleToolTest : public QObject {
    Q_OBJECT

private slots:
    void threeClicks_makeARectangle() {
        RectangleTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(300, 100));
        driver.hover(metresFrom(200, 200));
        QVERIFY(driver.preview().draft.has_value());
        driver.click(metresFrom(100, 300));
        const auto& corners = cornersOf(driver.set.fences[0]);
        QCOMPARE(corners.size(), std::size_t{4});
        // Right angles and equal opposite sides, by geodesics: over some hundred metres the earth bends that by less.
        for (std::size_t i = 0; i < 4; ++i) {
            const auto in = geodesy::inverse(corners[i], corners[(i + 1) % 4]);
            const auto out = geodesy::inverse(corners[(i + 1) % 4], corners[(i + 2) % 4]);
            const double turn = std::remainder(out.azimuthAtStart.inDegrees() - in.azimuthAtEnd.inDegrees(), 360.0);
            QCOMPARE_LE(std::abs(turn + 90.0), 1e-4); // to the left all along
        }
        QCOMPARE_LE(
            std::abs(geodesy::inverse(corners[0], corners[1]).length / geodesy::inverse(corners[2], corners[3]).length -
                     1.0),
            1e-7);
        driver.undo();
        QVERIFY(driver.set == model::FenceSet{});
    }

    void typed_hasItsMeasures() {
        RectangleTool tool;
        ToolDriver driver{tool};
        driver.type("46.208844 N 8.733936 W");
        driver.type("120 m 37.5");
        driver.hover(metresFrom(500, -500)); // to the right of the side
        driver.type("200 ft");
        const auto& corners = cornersOf(driver.set.fences[0]);
        const auto side = geodesy::inverse(corners[0], corners[1]), depth = geodesy::inverse(corners[1], corners[2]);
        QCOMPARE_LE(std::abs(side.length.inMetres() - 120.0), 1e-6);
        QCOMPARE_LE(std::abs(side.azimuthAtStart.inDegrees() - 37.5), 1e-6);
        QCOMPARE_LE(std::abs(depth.length.inMetres() - 60.96), 1e-6);
        QCOMPARE_LE(std::abs(depth.azimuthAtStart.inDegrees() - 127.5), 1e-3);
    }

    void bothSides_areTypedAtOnce() {
        RectangleTool tool;
        ToolDriver driver{tool};
        driver.type("46.208844 N 8.733936 W");
        QVERIFY_EXCEPTION_THROWN(driver.type("120 x 0"), Fault);
        driver.type("120 m x 200 ft 37.5");
        const auto& corners = cornersOf(driver.set.fences[0]);
        const auto side = geodesy::inverse(corners[0], corners[1]), depth = geodesy::inverse(corners[1], corners[2]);
        QCOMPARE_LE(std::abs(side.length.inMetres() - 120.0), 1e-6);
        QCOMPARE_LE(std::abs(side.azimuthAtStart.inDegrees() - 37.5), 1e-6);
        QCOMPARE_LE(std::abs(depth.length.inMetres() - 60.96), 1e-6);
        QCOMPARE_LE(std::abs(depth.azimuthAtStart.inDegrees() - 127.5), 1e-3); // to the right
        driver.undo();
        QVERIFY(driver.set.fences.empty());
    }

    void stepBack_setsTheSideAnew() {
        RectangleTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(999, 999));
        driver.send(Kind::StepBack);
        driver.click(metresFrom(200, 0));
        driver.click(metresFrom(200, 100));
        const auto& corners = cornersOf(driver.set.fences[0]);
        QVERIFY(corners[0] == metresFrom(0, 0));
        QVERIFY(corners[1] == metresFrom(200, 0));
    }

    void noDepth_isRefused() {
        RectangleTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(200, 0));
        QVERIFY_EXCEPTION_THROWN(driver.type("0 m"), Fault);
        QVERIFY(driver.set.fences.empty());
        driver.hover(metresFrom(0, 10));
        driver.type("30 m");
        QCOMPARE(driver.set.fences.size(), std::size_t{1});
    }

    void escape_dropsIt_thenLeaves() {
        RectangleTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(200, 0));
        driver.escape();
        QVERIFY(driver.preview().handles.empty());
        QVERIFY(!driver.left);
        driver.escape();
        QVERIFY(driver.left);
    }
};

QTEST_GUILESS_MAIN(RectangleToolTest)
#include "rectangle_tool_test.moc"
