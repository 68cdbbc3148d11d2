#include "desktop/tools/line_entry.h"

#include "app/desktop/tools/tool_driver.h"
#include "desktop/tools/corridor_tool.h"
#include "desktop/tools/hole_tool.h"
#include "desktop/tools/measure_tool.h"
#include "desktop/tools/polygon_tool.h"
#include "desktop/tools/rectangle_tool.h"
#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;
using model::LineString;

namespace {

/// 400 m wide; its northern side runs in a bow of corners from the north-west to the north-east.
const LineString kNeighbour{metresFrom(0, 0),    metresFrom(0, -200), metresFrom(400, -200), metresFrom(400, 0),
                            metresFrom(300, 25), metresFrom(200, 30), metresFrom(100, 25)};
constexpr std::size_t kNorthWest = 0, kNorthEast = 3;
const LineString kBow{kNeighbour[6], kNeighbour[5], kNeighbour[4]};

/// The same with a bow that strays from the straight line by millimetres.
LineString nearlyStraight() {
    LineString corners = kNeighbour;
    const double heights[] = {0.003, 0.006, -0.004};
    for (std::size_t i = 0; i < 3; ++i) {
        const double along = 0.75 - 0.25 * double(i);
        corners[4 + i] = {corners[0].lon + along * (corners[3].lon - corners[0].lon),
                          corners[0].lat + along * (corners[3].lat - corners[0].lat) + heights[i] / 111'000.0};
    }
    return corners;
}

} // namespace

/// What all tools share that draw lines: legs along what is there.
class LineEntryTest : public QObject {
    Q_OBJECT

private slots:
    void follow_takesAllCornersBetween_exactlyAsTheyAre() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.set.fences.append(drawnFence("Mill field", kNeighbour));
        driver.click(kNeighbour[kNorthWest]);
        QVERIFY2(driver.hint().contains("W follows Mill field"), qPrintable(driver.hint()));
        driver.send(Kind::Follow, kNeighbour[kNorthWest]);
        driver.hover(kNeighbour[kNorthEast]);
        // Seen before it is set, with its length: 2 sqrt(100^2 + 25^2) + 2 sqrt(100^2 + 5^2) m.
        QCOMPARE(driver.preview().line.size(), std::size_t{5});
        QVERIFY2(driver.preview().readout.startsWith("406.4 m along Mill field · 3 corners between"),
                 qPrintable(driver.preview().readout));
        driver.click(kNeighbour[kNorthEast]);
        driver.click(metresFrom(200, 300));
        driver.finish();
        LineString expected{kNeighbour[kNorthWest]};
        expected.insert(expected.end(), kBow.begin(), kBow.end());
        expected.push_back(kNeighbour[kNorthEast]);
        expected.push_back(metresFrom(200, 300));
        QVERIFY(cornersOf(driver.set.fences[1]) == expected);
        QCOMPARE(driver.steps.size(), std::size_t{1});
        driver.undo();
        QCOMPARE(driver.set.fences.size(), std::size_t{1});
    }

    void follow_endsWhereTheBoundaryIsNearestToThePointer() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.set.fences.append(drawnFence("Mill field", kNeighbour));
        driver.click(kNeighbour[kNorthWest]);
        driver.send(Kind::Follow);
        driver.hover(metresFrom(400, -50));
        const LineString line = driver.preview().line;
        QCOMPARE(line.size(), std::size_t{6}); // past the whole bow and its corner
        QVERIFY(geodesy::inverse(line.back(), metresFrom(400, -50)).length < Length::metres(1e-3));
        driver.hover(metresFrom(470, -50)); // a geodesic that begins eastwards: some millimetres south of the parallel
        QVERIFY(geodesy::inverse(driver.preview().line.back(), metresFrom(400, -50)).length < Length::metres(0.02));
    }

    void keyAgain_goesTheOtherWayRound_thenStraight() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.set.fences.append(drawnFence("Mill field", kNeighbour));
        driver.click(kNeighbour[kNorthWest]);
        driver.send(Kind::Follow, kNeighbour[kNorthEast]);
        driver.send(Kind::Follow, kNeighbour[kNorthEast]);
        QVERIFY(
            (driver.preview().line == LineString{kNeighbour[0], kNeighbour[1], kNeighbour[2], kNeighbour[kNorthEast]}));
        driver.send(Kind::Follow, kNeighbour[kNorthEast]);
        QVERIFY((driver.preview().line == LineString{kNeighbour[0], kNeighbour[kNorthEast]}));
        QVERIFY2(driver.hint().contains("does not run straight here"), qPrintable(driver.hint()));
    }

    void stepBack_takesTheWholeStretch_asOneStep() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.set.fences.append(drawnFence("Mill field", kNeighbour));
        driver.click(metresFrom(-100, 50));
        driver.click(kNeighbour[kNorthWest]);
        driver.send(Kind::Follow);
        driver.click(kNeighbour[kNorthEast]);
        QCOMPARE(driver.preview().handles.size(), std::size_t{6});
        driver.send(Kind::StepBack);
        QVERIFY((driver.preview().handles == LineString{metresFrom(-100, 50), kNeighbour[kNorthWest]}));
        // And is ready to follow again; Backspace first lets go of the following itself.
        driver.send(Kind::Follow);
        driver.hover(kNeighbour[kNorthEast]);
        QCOMPARE(driver.preview().line.size(), std::size_t{6});
        driver.send(Kind::StepBack);
        QCOMPARE(driver.preview().line.size(), std::size_t{3});
        QCOMPARE(driver.preview().handles.size(), std::size_t{2});
    }

    void typedLength_goesThatFarAlong_typedPlacesMustLieOnIt() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.set.fences.append(drawnFence("Mill field", kNeighbour));
        driver.click(kNeighbour[kNorthWest]);
        driver.send(Kind::Follow, kNeighbour[kNorthEast]);
        QVERIFY_EXCEPTION_THROWN(driver.type("120 m 45"), Fault);
        QVERIFY_EXCEPTION_THROWN(driver.type("46.3 N 8.7 W"), Fault);
        QVERIFY_EXCEPTION_THROWN(driver.type("5 km"), Fault);
        QCOMPARE(driver.preview().handles.size(), std::size_t{1});
        driver.send(Kind::Typing, {}, "150 m");
        QCOMPARE(driver.preview().line.size(), std::size_t{3});
        driver.type("150 m");
        const LineString line = driver.preview().handles;
        QCOMPARE(line.size(), std::size_t{3});
        QVERIFY(line[1] == kBow[0]);
        const double metres = geodesy::lengthOf(line).inMetres();
        QVERIFY2(std::abs(metres - 150.0) < 1e-4, qPrintable(QString::number(metres, 'f', 6)));
    }

    void follow_offTheBoundary_isRefused() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.set.fences.append(drawnFence("Mill field", kNeighbour));
        driver.click(metresFrom(-100, 50));
        QVERIFY(!driver.hint().contains("W follows"));
        QVERIFY_EXCEPTION_THROWN(driver.send(Kind::Follow), Fault);
    }

    void ring_closesAlongTheBoundary() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.set.fences.append(drawnFence("Mill field", kNeighbour));
        driver.click(kNeighbour[kNorthWest]);
        driver.click(metresFrom(200, 300));
        driver.click(kNeighbour[kNorthEast]);
        driver.send(Kind::Follow);
        driver.click(kNeighbour[kNorthWest]);
        QCOMPARE(driver.set.fences.size(), std::size_t{2});
        LineString expected{kNeighbour[kNorthWest], metresFrom(200, 300), kNeighbour[kNorthEast]};
        expected.insert(expected.end(), kBow.rbegin(), kBow.rend());
        QVERIFY(cornersOf(driver.set.fences[1]) == expected);
    }

    void straightLeg_alongABoundaryOfMoreCorners_takesThemOver() {
        const LineString corners = nearlyStraight();
        for (const bool closing : {false, true}) {
            PolygonTool tool{model::FenceKind::KeepOut};
            ToolDriver driver{tool};
            driver.set.fences.append(drawnFence("Mill field", corners));
            const LineString clicks = closing ? LineString{corners[0], metresFrom(200, 300), corners[3]}
                                              : LineString{corners[0], corners[3], metresFrom(200, 300)};
            driver.click(clicks[0]);
            driver.hover(clicks[1]);
            QCOMPARE(driver.preview().line.size(), std::size_t(closing ? 2 : 5)); // what is seen is what will be
            for (std::size_t i = 1; i < 3; ++i)
                driver.click(clicks[i]);
            driver.finish();
            const LineString expected =
                closing ? LineString{corners[0], clicks[1], corners[3], corners[4], corners[5], corners[6]}
                        : LineString{corners[0], corners[6], corners[5], corners[4], corners[3], clicks[2]};
            QVERIFY(cornersOf(driver.set.fences[1]) == expected);
            QVERIFY(!driver.hint().contains("does not run straight"));
        }
    }

    void straightLeg_fartherFromTheBoundary_staysAsItWasDrawn() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.set.fences.append(drawnFence("Mill field", kNeighbour));
        driver.click(kNeighbour[kNorthWest]);
        driver.hover(kNeighbour[kNorthEast]);
        QVERIFY2(driver.hint().startsWith("W follows Mill field, which does not run straight here."),
                 qPrintable(driver.hint()));
        driver.click(kNeighbour[kNorthEast]);
        driver.click(metresFrom(200, 300));
        driver.finish();
        QCOMPARE(cornersOf(driver.set.fences[1]).size(), std::size_t{3});
    }

    void allToolsThatDrawLines_follow() {
        {
            CorridorTool tool;
            ToolDriver driver{tool};
            driver.set.fences.append(drawnFence("Mill field", kNeighbour));
            driver.click(kNeighbour[kNorthWest]);
            QVERIFY(driver.hint().contains("W follows"));
            driver.send(Kind::Follow);
            driver.click(kNeighbour[kNorthEast]);
            driver.finish();
            driver.type("15 m");
            QCOMPARE(std::get<model::Corridor>(driver.set.fences[1].shape).line.size(), std::size_t{5});
        }
        {
            MeasureTool tool;
            ToolDriver driver{tool};
            driver.set.fences.append(drawnFence("Mill field", kNeighbour));
            driver.click(kNeighbour[kNorthWest]);
            QVERIFY(driver.hint().contains("W follows"));
            driver.send(Kind::Follow);
            driver.click(kNeighbour[kNorthEast]);
            driver.finish();
            QVERIFY2(driver.copied().endsWith("406.4 m in all"), qPrintable(driver.copied()));
        }
        {
            HoleTool tool;
            ToolDriver driver{tool};
            driver.set.fences.append(drawnFence("Mill field", kNeighbour, model::FenceKind::KeepOut));
            driver.set.fences.append(drawnFence("All around", {metresFrom(-900, -900), metresFrom(900, -900),
                                                               metresFrom(900, 900), metresFrom(-900, 900)}));
            driver.click(kNeighbour[kNorthWest]);
            QVERIFY(driver.hint().contains("W follows"));
            driver.send(Kind::Follow);
            driver.click(kNeighbour[kNorthEast]);
            driver.click(metresFrom(200, 300));
            driver.finish();
            const auto& drawn = std::get<model::DrawnPolygon>(driver.set.fences[1].shape);
            QCOMPARE(drawn.polygon.holes.size(), std::size_t{1});
            QCOMPARE(drawn.polygon.holes[0].corners.size(), std::size_t{6});
        }
    }

    void rectangle_takesCornersOver_whereItsSideRunsAlongThem_andFollowsNothing() {
        const LineString corners = nearlyStraight();
        RectangleTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(drawnFence("Mill field", corners));
        driver.click(corners[0]);
        driver.send(Kind::Follow);
        driver.click(corners[3]);
        driver.click(metresFrom(400, 100));
        QCOMPARE(driver.set.fences.size(), std::size_t{2});
        QCOMPARE(cornersOf(driver.set.fences[1]).size(), std::size_t{7});
    }

    void follow_acrossTheAntimeridian_runsOn() {
        PolygonTool tool{model::FenceKind::KeepOut};
        ToolDriver driver{tool};
        driver.set.fences.append(
            drawnFence("Atoll", {{179.9, -17.0}, {180.0, -16.98}, {180.1, -17.0}, {180.1, -17.1}, {179.9, -17.1}}));
        driver.click({-179.9, -17.0}); // on the turn beside the fence's
        driver.send(Kind::Follow);
        driver.click({-180.1, -17.0});
        driver.click({-180.0, -16.9});
        driver.finish();
        const LineString& corners = cornersOf(driver.set.fences[1]);
        QCOMPARE(corners.size(), std::size_t{4});
        QCOMPARE_LE(std::abs(corners[1].lon - -180.0), 1e-9);
        QCOMPARE(corners[1].lat, -16.98);
    }
};

QTEST_GUILESS_MAIN(LineEntryTest)
#include "line_entry_test.moc"
