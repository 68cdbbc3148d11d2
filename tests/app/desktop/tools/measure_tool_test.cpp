#include "desktop/tools/measure_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

class MeasureToolTest : public QObject {
    Q_OBJECT

private slots:
    void length_matchesAPublishedLine() {
        // Karney's geodesic test lines, WGS 84: OSGeo/PROJ src/tests/geodtest.c, testcases[0]: 8935244.56 m from
        // 35.60777 N 139.44815 W to 11.17491 S 69.95921 W, leaving at 111.0987 degrees. MIT licence.
        MeasureTool tool;
        ToolDriver driver{tool};
        driver.type("35.60777 N 139.44815 W");
        driver.hover({-69.95921, -11.17491});
        QCOMPARE(driver.preview().readout, QString{"8935.2 km · 111.1°"});
        QVERIFY(driver.steps.empty());
    }

    void legs_addUp_andEnterEndsTheLine() {
        MeasureTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.type("300 m 90");
        driver.type("400 m 180");
        driver.hover(metresFrom(0, 0));
        driver.finish();
        const ToolPreview preview = driver.preview();
        QCOMPARE(preview.line.size(), std::size_t{3});
        QVERIFY(preview.readout.isEmpty());
        QCOMPARE(preview.labels.size(), std::size_t{3});
        QCOMPARE(preview.labels[0].second, QString{"300.0 m · 90.0°"});
        QCOMPARE(preview.labels[1].second, QString{"400.0 m · 180.0°"});
        QCOMPARE(preview.labels[2].second, QString{"700.0 m in all"});
        driver.click(metresFrom(50, 50)); // begins another
        QCOMPARE(driver.preview().handles.size(), std::size_t{1});
        QVERIFY(driver.steps.empty());
    }

    void ring_matchesAPublishedPolygon() {
        // Karney's planimeter tests, WGS 84, the diamond (source and data: tests/reference/geodesics_test.cpp):
        // perimeter 627598.2731 m, area 24619419146 m2.
        MeasureTool tool;
        ToolDriver driver{tool};
        for (const model::Position& place : {model::Position{-1, 0}, {0, -1}, {1, 0}, {0, 1}})
            driver.click(place);
        driver.hover({-1, 0});
        driver.click({-1, 0}); // the first again
        const ToolPreview preview = driver.preview();
        QCOMPARE(preview.line.size(), std::size_t{5});
        QCOMPARE(preview.labels.back().second, QString{"627.6 km around · 24619.42 km²"});
        QVERIFY(driver.copied().endsWith("627.6 km around · 24619.42 km²"));
        QCOMPARE(driver.copied().split('\n').size(), qsizetype{5});
        QVERIFY(!preview.closed);         // a measured ring forbids nothing: no comb
        driver.click(metresFrom(50, 50)); // begins another
        QCOMPARE(driver.preview().handles.size(), std::size_t{1});
    }

    void doubleClick_endsALineOfTwo() {
        MeasureTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(0, 120));
        driver.send(Kind::DoubleClick, metresFrom(0, 120));
        QVERIFY(!driver.preview().follows);
        QCOMPARE(driver.copied(), QString{"120.0 m · 0.0°\n120.0 m in all"});
    }

    void stepBack_takesTheLastPlaceBack() {
        MeasureTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(100, 0));
        driver.send(Kind::StepBack);
        QCOMPARE(driver.preview().handles.size(), std::size_t{1});
    }

    void escape_clears_thenLeaves() {
        MeasureTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.escape();
        QVERIFY(!driver.left);
        QVERIFY(driver.preview().line.empty());
        driver.escape();
        QVERIFY(driver.left);
    }

    void bearing_nearNorth_isNeverThreeHundredAndSixty() {
        MeasureTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.type("100 m 359.98");
        driver.finish();
        QCOMPARE(driver.preview().labels[0].second, QString{"100.0 m · 0.0°"});
    }
};

QTEST_GUILESS_MAIN(MeasureToolTest)
#include "measure_tool_test.moc"
