#include "desktop/tools/home_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

class HomeToolTest : public QObject {
    Q_OBJECT

private slots:
    void firstIsTheHome_thenAlternates() {
        HomeTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(100, 0));
        driver.type("46.5 -8.7");
        QCOMPARE(driver.set.homes.size(), std::size_t{3});
        QCOMPARE(driver.set.homes[0].kind, model::HomeKind::Home);
        QCOMPARE(QString::fromStdString(driver.set.homes[0].name), QString{"Home"});
        QCOMPARE(driver.set.homes[1].kind, model::HomeKind::Alternate);
        QCOMPARE(QString::fromStdString(driver.set.homes[1].name), QString{"Alternate 1"});
        QCOMPARE(QString::fromStdString(driver.set.homes[2].name), QString{"Alternate 2"});
        QVERIFY(driver.set.homes[2].place == (model::Position{-8.7, 46.5}));
        QCOMPARE(driver.steps.size(), std::size_t{3});
        driver.undo();
        QCOMPARE(driver.set.homes.size(), std::size_t{2});
    }

    void otherKind_isForTheNextOne() {
        HomeTool tool;
        ToolDriver driver{tool};
        driver.hover(metresFrom(0, 0));
        driver.send(Kind::OtherKind);
        QCOMPARE(driver.preview().home->kind, model::HomeKind::Alternate);
        driver.click(metresFrom(0, 0));
        QCOMPARE(driver.set.homes[0].kind, model::HomeKind::Alternate);
        driver.click(metresFrom(10, 0));
        QCOMPARE(driver.set.homes[1].kind, model::HomeKind::Home);
    }

    void longitudeOfALonePlace_liesOnTheFirstTurn() {
        HomeTool tool;
        ToolDriver driver{tool};
        driver.click({180.5, -17.0});
        QCOMPARE_LE(std::abs(driver.set.homes[0].place.lon + 179.5), 1e-9);
    }

    void nonsense_isRefused_andEscapeLeaves() {
        HomeTool tool;
        ToolDriver driver{tool};
        QVERIFY_EXCEPTION_THROWN(driver.type("over there"), Fault);
        driver.escape();
        QVERIFY(driver.left);
        QVERIFY(driver.set.homes.empty());
    }
};

QTEST_GUILESS_MAIN(HomeToolTest)
#include "home_tool_test.moc"
