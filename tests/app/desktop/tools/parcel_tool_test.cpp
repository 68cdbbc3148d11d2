#include "desktop/tools/parcel_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

class ParcelToolTest : public QObject {
    Q_OBJECT

    static PickableParcel parcel(const std::string& number, double east) {
        return {
            "layer/" + number,
            {number,
             {{{{{metresFrom(east, 0), metresFrom(east + 100, 0), metresFrom(east + 100, 100), metresFrom(east, 100)}},
                {}}}}}};
    }
    static void pick(ToolDriver& driver, const PickableParcel& one) {
        driver.parcels = {one};
        driver.click({});
    }

private slots:
    void enter_makesAKeepInOfTheUnion_withoutClosing() {
        ParcelTool tool;
        ToolDriver driver{tool};
        pick(driver, parcel("17", 0));
        pick(driver, parcel("18", 100));
        QCOMPARE(driver.preview().readout, QString{"2 parcels · 2.0 ha"});
        driver.finish();
        const model::Fence& fence = driver.set.fences[0];
        QCOMPARE(fence.kind, model::FenceKind::KeepIn);
        const auto& shape = std::get<model::ParcelUnion>(fence.shape);
        QCOMPARE(shape.parcels.size(), std::size_t{2});
        QCOMPARE(QString::fromStdString(shape.parcels[1].number), QString{"18"});
        QCOMPARE(shape.closing.length, Length{});
        QVERIFY(driver.selection == Selection{fence.id});
        QVERIFY(!driver.preview().draft);
        driver.undo();
        QVERIFY(driver.set == model::FenceSet{});
    }

    void shiftEnter_makesTheOtherKind() {
        ParcelTool tool;
        ToolDriver driver{tool};
        pick(driver, parcel("17", 0));
        driver.constrain = true;
        driver.finish();
        QCOMPARE(driver.set.fences[0].kind, model::FenceKind::KeepOut);
        QCOMPARE(QString::fromStdString(driver.set.fences[0].name), QString{"Parcel 17"});
    }

    void otherKind_turnsWhatEnterMakes() {
        ParcelTool tool;
        ToolDriver driver{tool};
        pick(driver, parcel("17", 0));
        driver.send(Kind::OtherKind);
        QVERIFY(driver.preview().kind == std::optional{model::FenceKind::KeepOut});
        driver.finish();
        QCOMPARE(driver.set.fences[0].kind, model::FenceKind::KeepOut);
    }

    void secondClick_leavesAParcelOut_andStepBackTheLast() {
        ParcelTool tool;
        ToolDriver driver{tool};
        pick(driver, parcel("17", 0));
        pick(driver, parcel("18", 100));
        pick(driver, parcel("19", 200));
        pick(driver, parcel("17", 0));
        driver.send(Kind::StepBack);
        driver.finish();
        const auto& shape = std::get<model::ParcelUnion>(driver.set.fences[0].shape);
        QCOMPARE(shape.parcels.size(), std::size_t{1});
        QCOMPARE(QString::fromStdString(shape.parcels[0].number), QString{"18"});
    }

    void emptyGround_andEnterWithoutParcels_areRefused() {
        ParcelTool tool;
        ToolDriver driver{tool};
        QVERIFY_EXCEPTION_THROWN(driver.click({}), Fault);
        QVERIFY_EXCEPTION_THROWN(driver.finish(), Fault);
        QVERIFY(driver.set.fences.empty());
    }

    void escape_letsGoOfAllParcels_thenLeaves() {
        ParcelTool tool;
        ToolDriver driver{tool};
        pick(driver, parcel("17", 0));
        driver.escape();
        QVERIFY(!driver.left);
        QVERIFY(!driver.preview().draft);
        driver.escape();
        QVERIFY(driver.left);
    }
};

QTEST_GUILESS_MAIN(ParcelToolTest)
#include "parcel_tool_test.moc"
