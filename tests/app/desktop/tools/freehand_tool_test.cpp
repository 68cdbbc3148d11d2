#include "desktop/tools/freehand_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "fault.h"
#include "geometry/containment.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

class FreehandToolTest : public QObject {
    Q_OBJECT

    /// A wavy ring as a hand draws it.
    static model::LineString sweep(double radius, int places, double turns = 1.0) {
        model::LineString line;
        for (int i = 0; i < places; ++i) {
            const double angle = 2.0 * M_PI * turns * i / places;
            const double r = radius * (1.0 + 0.05 * std::sin(9.0 * angle));
            line.push_back(metresFrom(r * std::cos(angle), r * std::sin(angle)));
        }
        return line;
    }

private slots:
    void sweep_makesAFence_onTheSafeSide_data() {
        QTest::addColumn<bool>("keepIn");
        QTest::newRow("keep-out grows") << false;
        QTest::newRow("keep-in shrinks") << true;
    }
    void sweep_makesAFence_onTheSafeSide() {
        QFETCH(bool, keepIn);
        FreehandTool tool;
        ToolDriver driver{tool};
        if (keepIn)
            driver.send(Kind::OtherKind);
        const model::LineString line = sweep(300, 400);
        driver.drag(line);
        QCOMPARE(driver.set.fences.size(), std::size_t{1});
        const auto& corners = cornersOf(driver.set.fences[0]);
        QVERIFY2(corners.size() < 120, qPrintable(QString::number(corners.size())));
        const model::MultiPolygon drawn{{{{line}, {}}}}, made{{{{corners}, {}}}};
        QVERIFY(keepIn ? geometry::contains(drawn, made) : geometry::contains(made, drawn));
        QCOMPARE(driver.set.fences[0].kind, keepIn ? model::FenceKind::KeepIn : model::FenceKind::KeepOut);
        driver.undo();
        QVERIFY(driver.set == model::FenceSet{});
    }

    void sweepThatCrossesItsBeginning_isOneArea() {
        FreehandTool tool;
        ToolDriver driver{tool};
        driver.drag(sweep(300, 440, 1.1));
        QCOMPARE(driver.set.fences.size(), std::size_t{1});
    }

    void escape_amidTheSweep_dropsIt() {
        FreehandTool tool;
        ToolDriver driver{tool};
        driver.grab(sweep(300, 400));
        QVERIFY(!driver.preview().line.empty());
        driver.escape();
        QVERIFY(driver.preview().line.empty());
        driver.send(Kind::Drop, metresFrom(0, 0));
        QVERIFY(driver.set.fences.empty());
        driver.escape();
        QVERIFY(driver.left);
    }

    void clickAlone_isExplained() {
        FreehandTool tool;
        ToolDriver driver{tool};
        QVERIFY_EXCEPTION_THROWN(driver.click(metresFrom(0, 0)), Fault);
        QVERIFY(!tool.holds());
    }

    void shortSweep_isRefused() {
        FreehandTool tool;
        ToolDriver driver{tool};
        QVERIFY_EXCEPTION_THROWN(driver.drag({metresFrom(0, 0), metresFrom(10, 0)}), Fault);
        QVERIFY(driver.set.fences.empty());
        driver.drag(sweep(300, 100)); // and the tool goes on
        QCOMPARE(driver.set.fences.size(), std::size_t{1});
    }
};

QTEST_GUILESS_MAIN(FreehandToolTest)
#include "freehand_tool_test.moc"
