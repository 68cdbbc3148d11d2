#include "desktop/tools/corridor_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

class CorridorToolTest : public QObject {
    Q_OBJECT

private slots:
    void clicks_makeACorridor() {
        CorridorTool tool;
        ToolDriver driver{tool};
        const model::LineString line{metresFrom(0, 0), metresFrom(200, 0), metresFrom(200, 150)};
        for (const auto& place : line)
            driver.click(place);
        driver.finish(); // the line
        QVERIFY(driver.set.fences.empty());
        driver.hover(metresFrom(100, 25));
        QCOMPARE(driver.preview().readout, QString{"25.0 m to each side"});
        QVERIFY(driver.preview().draft.has_value());
        driver.click(metresFrom(100, -30));
        const auto& corridor = std::get<model::Corridor>(driver.set.fences[0].shape);
        QVERIFY(corridor.line == line);
        QCOMPARE_LE(std::abs(corridor.left.length.inMetres() - 30.0), 0.01);
        QCOMPARE(corridor.right, corridor.left);
        QCOMPARE(driver.steps.size(), std::size_t{1});
        driver.undo();
        QVERIFY(driver.set == model::FenceSet{});
    }

    void typedWidth_keepsItsWords() {
        CorridorTool tool;
        ToolDriver driver{tool};
        driver.type("46.5 -8.7");
        driver.type("1/4 mi 90");
        driver.finish();
        driver.send(Kind::Typing, {}, "50 ft");
        QCOMPARE(std::get<model::Corridor>(driver.preview().draft->shape).left.length.inMetres(), 15.24);
        driver.type("50 ft");
        const auto& corridor = std::get<model::Corridor>(driver.set.fences[0].shape);
        QCOMPARE(QString::fromStdString(corridor.right.asWritten), QString{"50 ft"});
        // The international mile is 1609.344 m.
        QCOMPARE_LE(std::abs(geodesy::inverse(corridor.line[0], corridor.line[1]).length.inMetres() - 402.336), 1e-6);
    }

    void stepBack_fromTheWidth_goesOnWithTheLine() {
        CorridorTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(999, 0));
        driver.finish();
        driver.send(Kind::StepBack); // no width yet: back to the line
        driver.send(Kind::StepBack); // and its last place
        driver.click(metresFrom(200, 0));
        driver.finish();
        driver.type("10 m");
        const auto& corridor = std::get<model::Corridor>(driver.set.fences[0].shape);
        QVERIFY(corridor.line == (model::LineString{metresFrom(0, 0), metresFrom(200, 0)}));
    }

    void otherKind_turnsItIntoAKeepIn() {
        CorridorTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(200, 0));
        driver.finish();
        driver.send(Kind::OtherKind);
        driver.type("10 m");
        QCOMPARE(driver.set.fences[0].kind, model::FenceKind::KeepIn);
    }

    void onePlace_orNoWidth_isRefused() {
        CorridorTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        QVERIFY_EXCEPTION_THROWN(driver.finish(), Fault);
        driver.click(metresFrom(200, 0));
        driver.finish();
        QVERIFY_EXCEPTION_THROWN(driver.type("0 m"), Fault);
        QVERIFY(driver.set.fences.empty());
        driver.type("5 m");
        QCOMPARE(driver.set.fences.size(), std::size_t{1});
    }

    void escape_dropsAll_thenLeaves() {
        CorridorTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(200, 0));
        driver.finish();
        driver.escape();
        QVERIFY(!driver.left);
        QVERIFY(driver.preview().handles.empty());
        driver.escape();
        QVERIFY(driver.left);
    }
};

QTEST_GUILESS_MAIN(CorridorToolTest)
#include "corridor_tool_test.moc"
