#include "desktop/tools/polygon_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "fault.h"
#include "geodesy/coordinate_notation.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

class PolygonToolTest : public QObject {
    Q_OBJECT

private slots:
    void clicks_makeOneFenceOfThatKindInOneStep() {
        PolygonTool tool{model::FenceKind::KeepIn};
        ToolDriver driver{tool};
        const model::LineString corners{metresFrom(0, 0), metresFrom(200, 0), metresFrom(200, 150)};
        for (const auto& corner : corners)
            driver.click(corner);
        QVERIFY(driver.set.fences.empty());
        driver.finish();
        QCOMPARE(driver.set.fences.size(), std::size_t{1});
        QCOMPARE(driver.steps.size(), std::size_t{1});
        const model::Fence& fence = driver.set.fences[0];
        QCOMPARE(fence.kind, model::FenceKind::KeepIn);
        QVERIFY(cornersOf(fence) == corners);
        QCOMPARE(QString::fromStdString(fence.name), QString{"Keep-in 1"});
        QVERIFY(driver.selection == Selection{fence.id});
        driver.undo();
        QVERIFY(driver.set == model::FenceSet{});
    }

    void name_isOneMoreThanTheHighest() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.set.fences.append(drawnFence("Keep-out 7", {}));
        driver.set.fences.append(drawnFence("Keep-out of the school", {}));
        for (const auto& corner : {metresFrom(0, 0), metresFrom(200, 0), metresFrom(200, 150)})
            driver.click(corner);
        driver.finish();
        QCOMPARE(QString::fromStdString(driver.set.fences[2].name), QString{"Keep-out 8"});
    }

    void firstCorner_clickedAgain_closes() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        for (const auto& corner : {metresFrom(0, 0), metresFrom(200, 0), metresFrom(200, 150), metresFrom(2, 2)})
            driver.click(corner);
        QCOMPARE(driver.set.fences.size(), std::size_t{1});
        QCOMPARE(cornersOf(driver.set.fences[0]).size(), std::size_t{3});
    }

    void doubleClick_closesWithTheCornerOfItsFirstClick() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        for (const auto& corner : {metresFrom(0, 0), metresFrom(200, 0), metresFrom(200, 150)})
            driver.click(corner);
        driver.send(Kind::DoubleClick, metresFrom(200, 150));
        QCOMPARE(driver.set.fences.size(), std::size_t{1});
        QCOMPARE(cornersOf(driver.set.fences[0]).size(), std::size_t{3});
    }

    void stepBack_takesTheLastCornerBack() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        for (const auto& corner : {metresFrom(0, 0), metresFrom(200, 0), metresFrom(999, 999)})
            driver.click(corner);
        driver.send(Kind::StepBack);
        driver.click(metresFrom(200, 150));
        driver.finish();
        QVERIFY(cornersOf(driver.set.fences[0]) ==
                (model::LineString{metresFrom(0, 0), metresFrom(200, 0), metresFrom(200, 150)}));
    }

    void stepBack_toTheStart_isIdle() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        const QString idle = driver.hint();
        driver.click(metresFrom(0, 0));
        QVERIFY(driver.hint() != idle);
        driver.send(Kind::StepBack);
        QCOMPARE(driver.hint(), idle);
        QVERIFY(driver.preview().line.empty());
    }

    void typedTraverse_closesOnItsStart() {
        // The corner after each leg is checked with the inverse problem, whose error is tested against published lines
        // (tests/core/geodesy/geodesic_test.cpp).
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.type("46.208844 N 8.733936 W");
        driver.type("120 m 45");
        driver.type("1/4 mi 135.5");
        driver.type("0.1 km 270°");
        driver.finish();
        const model::LineString& corners = cornersOf(driver.set.fences[0]);
        QCOMPARE(corners.size(), std::size_t{4});
        const double metres[] = {120.0, 402.336, 100.0};
        const double degrees[] = {45.0, 135.5, 270.0};
        for (std::size_t i = 0; i < 3; ++i) {
            const geodesy::Segment leg = geodesy::inverse(corners[i], corners[i + 1]);
            QCOMPARE_LE(std::abs(leg.length.inMetres() - metres[i]), 1e-6);
            QCOMPARE_LE(std::abs(leg.azimuthAtStart.inDegrees() - degrees[i]), 1e-6);
        }
    }

    void typing_showsTheLegBeforeItIsEntered() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.type("46.208844 N 8.733936 W");
        const model::Position start = driver.preview().line.front();
        driver.send(ToolEvent::Kind::Typing, {}, "120 m 45");
        const geodesy::Segment leg = geodesy::inverse(start, driver.preview().line.back());
        QCOMPARE_LE(std::abs(leg.length.inMetres() - 120.0), 1e-6);
        QCOMPARE_LE(std::abs(leg.azimuthAtStart.inDegrees() - 45.0), 1e-6);
        driver.send(ToolEvent::Kind::Typing, {}, {});
        QVERIFY(driver.preview().line.back() == start); // given up: the line follows the pointer again
    }

    void typedDistance_aloneGoesTowardsThePointer() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.units = units::System::Us;
        driver.click(metresFrom(0, 0));
        driver.hover(metresFrom(500, 0));
        driver.type("1000");
        const model::LineString line = driver.preview().line;
        const geodesy::Segment leg = geodesy::inverse(line[0], line[1]);
        QCOMPARE_LE(std::abs(leg.length.inMetres() - 304.8), 1e-6);
        QCOMPARE_LE(std::abs(leg.azimuthAtStart.inDegrees() - 90.0), 0.01);
    }

    void typedNonsense_isRefusedAndChangesNothing_data() {
        QTest::addColumn<QString>("text");
        QTest::newRow("words") << "about that far";
        QTest::newRow("zero") << "0 m 45";
        QTest::newRow("bearing beyond a turn") << "120 m 400";
        QTest::newRow("no such unit") << "12 parsecs 45";
    }
    void typedNonsense_isRefusedAndChangesNothing() {
        QFETCH(QString, text);
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        const model::LineString before = driver.preview().line;
        QVERIFY_EXCEPTION_THROWN(driver.type(text.toStdString()), Fault);
        QVERIFY(driver.preview().line == before);
    }

    void finish_withTwoCorners_isRefused() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(100, 0));
        QVERIFY_EXCEPTION_THROWN(driver.finish(), Fault);
        QVERIFY(driver.set.fences.empty());
        driver.click(metresFrom(100, 100));
        driver.finish();
        QCOMPARE(driver.set.fences.size(), std::size_t{1});
    }

    void escape_dropsWhatWasBegun_thenLeaves() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(100, 0));
        driver.escape();
        QVERIFY(!driver.left);
        QVERIFY(driver.preview().line.empty());
        driver.escape();
        QVERIFY(driver.left);
        QVERIFY(driver.set.fences.empty());
    }

    void ringThatCrossesItself_mayBeFinished() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        for (const auto& corner : {metresFrom(0, 0), metresFrom(100, 100), metresFrom(100, 0), metresFrom(0, 100)})
            driver.click(corner);
        driver.finish();
        QCOMPARE(cornersOf(driver.set.fences[0]).size(), std::size_t{4});
    }

    void constrained_keepsToWholeBearings() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.constrain = true;
        driver.click(metresFrom(100, 52)); // 62.5 degrees: the nearest multiple of 15 is 60
        const model::LineString line = driver.preview().line;
        QCOMPARE_LE(std::abs(geodesy::inverse(line[0], line[1]).azimuthAtStart.inDegrees() - 60.0), 1e-6);
    }

    void acrossTheAntimeridian_longitudesRunOn() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.click({179.9, -17.0});
        driver.click({-179.9, -17.0});
        driver.click({-179.9, -17.1});
        driver.finish();
        const model::LineString& corners = cornersOf(driver.set.fences[0]);
        QCOMPARE(corners[0].lon, 179.9);
        QCOMPARE_LE(std::abs(corners[1].lon - 180.1), 1e-9);
        QCOMPARE_LE(std::abs(corners[2].lon - 180.1), 1e-9);
    }

    void typedDirection_holds_untilTheLegIsSet() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        const model::Position first = metresFrom(0, 0);
        driver.click(first);
        driver.type("<30");
        driver.hover(metresFrom(200, 200));
        const auto line = driver.preview().line;
        QCOMPARE_LE(std::abs(geodesy::inverse(first, line.back()).azimuthAtStart.inDegrees() - 30.0), 1e-9);
        QVERIFY(driver.preview().readout.contains("direction held"));
        driver.send(Kind::StepBack); // lets go of the direction, and of no corner
        driver.hover(metresFrom(200, 200));
        QVERIFY(driver.preview().line.back() == metresFrom(200, 200));
        driver.type("<30");
        driver.type("100 m");
        driver.type("80 m 90 right");
        driver.type("50 m 90 right");
        driver.finish();
        const auto& corners = cornersOf(driver.set.fences[0]);
        QCOMPARE(corners.size(), std::size_t{4});
        const double azimuths[] = {30.0, 120.0, 210.0}, lengths[] = {100.0, 80.0, 50.0};
        for (std::size_t i = 0; i < 3; ++i) {
            const auto leg = geodesy::inverse(corners[i], corners[i + 1]);
            QCOMPARE_LE(std::abs(leg.azimuthAtStart.inDegrees() - azimuths[i]), 1e-2); // the meridians converge
            QCOMPARE_LE(std::abs(leg.length.inMetres() - lengths[i]), 1e-6);
        }
    }

    void typedCoordinates_areTakenInAnyNotation_amidTheLine() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.type("46.208844 N 8.733936 W");
        driver.type("46°12'40\"N 8°44'00\"W");
        driver.type("29T 520800 5117466");
        driver.type("46.2080, -8.7345");
        driver.finish();
        const auto& corners = cornersOf(driver.set.fences[0]);
        QCOMPARE(corners.size(), std::size_t{4});
        QCOMPARE_LE(std::abs(corners[1].lat - (46.0 + 12.0 / 60.0 + 40.0 / 3600.0)), 1e-12);
        QCOMPARE_LE(std::abs(corners[1].lon + (8.0 + 44.0 / 60.0)), 1e-12);
        QVERIFY(corners[2] == geodesy::fromUtm({29, true, 'T', 520800.0, 5117466.0}));
        QVERIFY((corners[3] == model::Position{-8.7345, 46.2080}));
    }

    void turn_withoutALastLeg_isRefused() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        QVERIFY_EXCEPTION_THROWN(driver.type("90 right"), Fault);
        QCOMPARE(driver.preview().handles.size(), std::size_t{1});
    }

    void constrained_takesRightAnglesOfTheLastLegToo() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.type("100 m 37");
        driver.constrain = true;
        const model::Position from = driver.preview().handles.back();
        driver.hover(geodesy::direct(from, Angle::degrees(128.5), Length::metres(60)));
        const auto leg = geodesy::inverse(from, driver.preview().line.back());
        QCOMPARE_LE(std::abs(leg.azimuthAtStart.inDegrees() - 127.0), 1e-3);
    }

    void readout_tellsTheAreaSoFar() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(100, 0));
        driver.hover(metresFrom(100, 100));
        // Half a square of 100 m: 0.5 ha, and 341.4 m around.
        QVERIFY2(driver.preview().readout.contains("0.50 ha, 341.4 m around"), qPrintable(driver.preview().readout));
        QVERIFY(driver.preview().readout.contains("left 90.0°"));
    }
};

QTEST_GUILESS_MAIN(PolygonToolTest)
#include "polygon_tool_test.moc"
