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

    void enter_afterOneSide_leavesTheOtherWithNone_whereverThePointerRests() {
        CorridorTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(200, 0));
        driver.finish();
        driver.type("40 m left");
        QVERIFY(driver.set.fences.empty());
        driver.hover(metresFrom(100, -75));
        driver.finish();
        const auto& corridor = std::get<model::Corridor>(driver.set.fences[0].shape);
        QCOMPARE(corridor.left.length, Length::metres(40));
        QCOMPARE(corridor.right.length, Length{});
    }

    void shift_setsEachSideByItself() {
        CorridorTool tool;
        ToolDriver driver{tool};
        // To the east: the north is on the left.
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(200, 0));
        driver.finish();
        driver.constrain = true;
        driver.hover(metresFrom(100, 40));
        QCOMPARE(driver.preview().readout, QString{"40.0 m left · 0.0 m right"});
        driver.click(metresFrom(100, 40));
        driver.constrain = false;
        QVERIFY(driver.set.fences.empty());
        QVERIFY2(driver.hint().contains("on the right"), qPrintable(driver.hint()));
        driver.hover(metresFrom(100, -12));
        QCOMPARE(driver.preview().readout, QString{"40.0 m left · 12.0 m right"});
        driver.click(metresFrom(100, -12));
        const auto& corridor = std::get<model::Corridor>(driver.set.fences[0].shape);
        QCOMPARE_LE(std::abs(corridor.left.length.inMetres() - 40.0), 0.01);
        QCOMPARE_LE(std::abs(corridor.right.length.inMetres() - 12.0), 0.01);
        QCOMPARE(driver.steps.size(), std::size_t{1});
        driver.undo();
        QVERIFY(driver.set == model::FenceSet{});
    }

    void aSideSetWrongly_isTakenBack_orSetAnew() {
        CorridorTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(0, 200)); // to the north: the east is on the right
        driver.finish();
        driver.constrain = true;
        driver.click(metresFrom(99, 100)); // meant to be the left one
        driver.send(Kind::StepBack);
        driver.click(metresFrom(-33, 100));
        driver.click(metresFrom(-30, 100)); // the same side once more
        QVERIFY(driver.set.fences.empty());
        driver.finish(); // the pointer is on that side: the other has none
        const auto& corridor = std::get<model::Corridor>(driver.set.fences[0].shape);
        QCOMPARE_LE(std::abs(corridor.left.length.inMetres() - 30.0), 0.01);
        QCOMPARE(corridor.right.length.inMetres(), 0.0);
    }

    void typedWidths_haveSides_data() {
        QTest::addColumn<QString>("typed");
        QTest::addColumn<double>("left");
        QTest::addColumn<double>("right");
        QTest::newRow("both") << "15 m" << 15.0 << 15.0;
        QTest::newRow("left, right") << "10 m left 25 m right" << 10.0 << 25.0;
        QTest::newRow("right, left") << "25 m right, 10 m left" << 10.0 << 25.0;
        QTest::newRow("letters") << "10 l 25 r" << 10.0 << 25.0;
        QTest::newRow("two") << "10 25" << 10.0 << 25.0;
        QTest::newRow("two with units") << "10 m 50 ft" << 10.0 << 15.24;
        QTest::newRow("two with a fraction") << "1/4 mi 0" << 402.336 << 0.0;
        QTest::newRow("a fraction") << "1 1/2 m" << 1.5 << 1.5;
        QTest::newRow("zero on one side") << "0 m left 25 m right" << 0.0 << 25.0;
    }
    void typedWidths_haveSides() {
        QFETCH(QString, typed);
        QFETCH(double, left);
        QFETCH(double, right);
        CorridorTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(200, 0));
        driver.finish();
        driver.send(Kind::Typing, {}, typed.toStdString());
        const auto draft = std::get<model::Corridor>(driver.preview().draft->shape);
        driver.type(typed.toStdString());
        const auto& corridor = std::get<model::Corridor>(driver.set.fences[0].shape);
        QCOMPARE(corridor.left.length.inMetres(), left);
        QCOMPARE(corridor.right.length.inMetres(), right);
        QCOMPARE(draft.left, corridor.left);
        QCOMPARE(draft.right, corridor.right);
    }

    void typedSides_oneAfterTheOther_andRefused() {
        CorridorTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(200, 0));
        driver.finish();
        driver.type("25 m right");
        QVERIFY(driver.set.fences.empty());
        for (const char* wrong : {"10 m left 5 m left", "10 m left 5 m", "-5 m left", "left", "0 left 0 right", "x y"})
            QVERIFY_EXCEPTION_THROWN(driver.type(wrong), Fault);
        QVERIFY(driver.set.fences.empty());
        driver.type("10 m left");
        const auto& corridor = std::get<model::Corridor>(driver.set.fences[0].shape);
        QCOMPARE(QString::fromStdString(corridor.left.asWritten), QString{"10 m"});
        QCOMPARE(QString::fromStdString(corridor.right.asWritten), QString{"25 m"});
    }

    void sides_atBendsAndEnds() {
        // East, then north: a turn to the left, whose outer side is the right.
        const model::LineString line{metresFrom(0, 0), metresFrom(200, 0), metresFrom(200, 150)};
        const auto right = [&](double east, double north) { return besideLine(line, metresFrom(east, north)).onRight; };
        QVERIFY(right(210, -20) && right(220, -5) && right(100, -5) && right(230, 100));
        QVERIFY(!right(180, 20) && !right(100, 5) && !right(150, 100));
        QVERIFY(right(-20, -5) && !right(-20, 5)); // before the beginning
        QVERIFY(right(205, 170) && !right(195, 170));
        QCOMPARE_LE(std::abs(besideLine(line, metresFrom(203, -4)).distance.inMetres() - 5.0), 0.01);
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
