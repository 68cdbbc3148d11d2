#include "desktop/tools/cut_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

class CutToolTest : public QObject {
    Q_OBJECT

    static model::Fence square(const std::string& name, double east, double half) {
        return drawnFence(name, {metresFrom(east - half, -half), metresFrom(east + half, -half),
                                 metresFrom(east + half, half), metresFrom(east - half, half)});
    }
    static QStringList names(const model::FenceSet& set) {
        QStringList all;
        for (const auto& fence : set.fences)
            all << QString::fromStdString(fence.name);
        return all;
    }
    static double area(const model::Fence& fence) {
        return geodesy::measure(std::get<model::DrawnPolygon>(fence.shape).polygon).area.inSquareMetres();
    }

private slots:
    void clicks_cutAllThatTheLineCrosses_inOneStep() {
        CutTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(square("West", -300, 100));
        driver.set.fences.append(square("East", 300, 100));
        driver.set.fences.append(square("Far", 2000, 100));
        // The line lies wholly in this one.
        driver.set.fences.append(square("Land", 0, 900));
        const model::FenceSet before = driver.set;
        driver.click(metresFrom(-500, 50));
        driver.click(metresFrom(500, 50));
        driver.finish();
        QCOMPARE(driver.steps.size(), std::size_t{1});
        QCOMPARE(names(driver.set), (QStringList{"West", "West 2", "East", "East 2", "Far", "Land"}));
        QCOMPARE(driver.selection.size(), std::size_t{4});
        QVERIFY(std::abs(area(driver.set.fences[0]) - 200 * 150) < 20);
        QVERIFY(std::abs(area(driver.set.fences[1]) - 200 * 50) < 20);
        driver.undo();
        QVERIFY(driver.set == before);
    }

    void whatIsLocked_orFollowsASite_isCutOnlyWhereItIsChosen() {
        CutTool tool;
        ToolDriver driver{tool};
        model::Site nest;
        nest.id = model::freshId<model::Site>();
        nest.geometry = metresFrom(0, 0);
        driver.set.sites.append(nest);
        model::Fence around = square("Around", 0, 1), locked = square("Locked", 0, 80);
        around.shape = model::Setback{nest.id, {Length::metres(60), "60 m"}};
        locked.locked = true;
        driver.set.fences.append(around);
        driver.set.fences.append(locked);
        driver.set.fences.append(square("Plain", 0, 100));
        const auto cutAcross = [&] {
            driver.click(metresFrom(-500, 0));
            driver.click(metresFrom(500, 0));
            driver.finish();
        };
        cutAcross();
        QCOMPARE(names(driver.set), (QStringList{"Around", "Locked", "Plain", "Plain 2"}));
        driver.selection = around.id;
        cutAcross();
        QCOMPARE(names(driver.set), (QStringList{"Around", "Around 2", "Locked", "Plain", "Plain 2"}));
    }

    void aLockedFence_thatIsChosen_isRefused_andWhatWasDrawnIsKept() {
        CutTool tool;
        ToolDriver driver{tool};
        model::Fence locked = square("Locked", 0, 80);
        locked.locked = true;
        driver.set.fences.append(locked);
        driver.selection = locked.id;
        driver.click(metresFrom(-500, 0));
        driver.click(metresFrom(500, 0));
        QVERIFY_THROWS_EXCEPTION(Fault, driver.finish());
        locked.locked = false;
        driver.set.fences.replace(0, std::make_shared<const model::Fence>(locked));
        driver.finish();
        QCOMPARE(names(driver.set), (QStringList{"Locked", "Locked 2"}));
    }

    void selectedFences_alone_areCut() {
        CutTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(square("Below", 0, 100));
        driver.set.fences.append(square("Above", 0, 50));
        driver.selection = driver.set.fences[1].id;
        QVERIFY(driver.hint().startsWith("Cut Above: "));
        for (const auto& place : {metresFrom(0, -200), metresFrom(10, 0), metresFrom(0, 200)})
            driver.click(place);
        driver.send(Kind::DoubleClick, metresFrom(0, 200));
        QCOMPARE(names(driver.set), (QStringList{"Below", "Above", "Above 2"}));
    }

    void lineThatEndsInside_isRefused_andCanGoOn() {
        CutTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(square("Land", 0, 100));
        driver.selection = driver.set.fences[0].id;
        driver.click(metresFrom(0, -200));
        QVERIFY_EXCEPTION_THROWN(driver.finish(), Fault);
        driver.click(metresFrom(0, 20));
        QVERIFY_EXCEPTION_THROWN(driver.finish(), Fault);
        QCOMPARE(driver.steps.size(), std::size_t{0});
        driver.send(Kind::StepBack);
        driver.click(metresFrom(0, 200));
        driver.finish();
        QCOMPARE(driver.steps.size(), std::size_t{1});
        // Nothing is left of the line.
        driver.escape();
        QVERIFY(driver.left);
    }

    void nothingCrossed_isSaid() {
        CutTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(square("Land", 0, 100));
        driver.click(metresFrom(500, -200));
        driver.click(metresFrom(500, 200));
        QVERIFY_EXCEPTION_THROWN(driver.finish(), Fault);
    }

    void typedLine_cutsAtItsPlace() {
        CutTool tool;
        ToolDriver driver{tool};
        driver.set.fences.append(square("Land", 0, 100));
        driver.type("46.208844 -8.737936"); // some 300 m west of the middle
        driver.type("600 m 90");
        driver.finish();
        QCOMPARE(names(driver.set), (QStringList{"Land", "Land 2"}));
        QVERIFY(std::abs(area(driver.set.fences[0]) - area(driver.set.fences[1])) < 20);
    }
};

QTEST_GUILESS_MAIN(CutToolTest)
#include "cut_tool_test.moc"
