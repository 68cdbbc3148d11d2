#include "desktop/tools/circle_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

class CircleToolTest : public QObject {
    Q_OBJECT

private slots:
    void centreThenRim_makesACircle() {
        CircleTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.hover(metresFrom(100, 0));
        QCOMPARE(driver.preview().readout, QString{"radius 100.0 m\n3.1 ha"});
        QVERIFY(driver.preview().draft.has_value());
        driver.click(metresFrom(0, 150));
        const auto& circle = std::get<model::Circle>(driver.set.fences[0].shape);
        QVERIFY(circle.centre == metresFrom(0, 0));
        QCOMPARE_LE(std::abs(circle.radius.length.inMetres() - 150.0), 1e-3);
        QVERIFY(circle.radius.asWritten.empty());
        QCOMPARE(driver.set.fences[0].kind, model::FenceKind::KeepOut);
        driver.undo();
        QVERIFY(driver.set == model::FenceSet{});
    }

    void typedRadius_keepsItsWords() {
        CircleTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.send(Kind::Typing, {}, "1/4");
        driver.send(Kind::Typing, {}, "1/4 mi");
        QCOMPARE(std::get<model::Circle>(driver.preview().draft->shape).radius.length.inMetres(), 402.336);
        driver.type("1/4 mi");
        const auto& circle = std::get<model::Circle>(driver.set.fences[0].shape);
        QCOMPARE(circle.radius.length.inMetres(), 402.336); // the international mile is 1609.344 m
        QCOMPARE(QString::fromStdString(circle.radius.asWritten), QString{"1/4 mi"});
    }

    void typedCentre_thenTypedRadius() {
        CircleTool tool;
        ToolDriver driver{tool};
        driver.type("46.5 -8.7");
        driver.type("150 ft");
        const auto& circle = std::get<model::Circle>(driver.set.fences[0].shape);
        QCOMPARE(circle.centre.lat, 46.5);
        QCOMPARE(circle.centre.lon, -8.7);
        QCOMPARE(circle.radius.length.inMetres(), 45.72);
    }

    void otherKind_turnsItIntoAKeepIn() {
        CircleTool tool;
        ToolDriver driver{tool};
        QVERIFY(driver.hint().startsWith("Keep-out"));
        driver.click(metresFrom(0, 0));
        driver.send(Kind::OtherKind);
        QVERIFY(driver.hint().startsWith("Keep-in"));
        driver.type("50 m");
        QCOMPARE(driver.set.fences[0].kind, model::FenceKind::KeepIn);
        QCOMPARE(QString::fromStdString(driver.set.fences[0].name), QString{"Keep-in 1"});
    }

    void zeroRadius_isRefused() {
        CircleTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        QVERIFY_EXCEPTION_THROWN(driver.click(metresFrom(0, 0)), Fault);
        QVERIFY_EXCEPTION_THROWN(driver.type("0 m"), Fault);
        QVERIFY(driver.set.fences.empty());
    }

    void escape_dropsTheCentre_thenLeaves() {
        CircleTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.escape();
        QVERIFY(!driver.left);
        QVERIFY(driver.preview().handles.empty());
        driver.escape();
        QVERIFY(driver.left);
    }
};

QTEST_GUILESS_MAIN(CircleToolTest)
#include "circle_tool_test.moc"
