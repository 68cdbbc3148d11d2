#include "desktop/tools/setback_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

class SetbackToolTest : public QObject {
    Q_OBJECT

    static model::SiteId addNest(ToolDriver& driver) {
        model::Site site;
        site.id = model::freshId<model::Site>();
        site.name = "Osprey nest";
        site.geometry = metresFrom(0, 0);
        driver.set.sites.append(site);
        return site.id;
    }

private slots:
    void site_thenTypedDistance_makesAKeepOutThatFollows() {
        SetbackTool tool;
        ToolDriver driver{tool};
        const model::SiteId nest = addNest(driver);
        const model::FenceSet before = driver.set;
        driver.click(metresFrom(3, 0)); // within the tolerance of 6 m
        driver.send(Kind::Typing, {}, "1/4 mi");
        QVERIFY(driver.preview().draft.has_value());
        driver.type("1/4 mi");
        const model::Fence& fence = driver.set.fences[0];
        QCOMPARE(fence.kind, model::FenceKind::KeepOut);
        QCOMPARE(QString::fromStdString(fence.name), QString{"Osprey nest"});
        const auto& setback = std::get<model::Setback>(fence.shape);
        QVERIFY(setback.site == nest);
        QCOMPARE(setback.distance.length.inMetres(), 402.336);
        QCOMPARE(QString::fromStdString(setback.distance.asWritten), QString{"1/4 mi"});
        driver.undo();
        QVERIFY(driver.set == before);
    }

    void chosenSite_isShown_whateverItsShape() {
        SetbackTool tool;
        ToolDriver driver{tool};
        model::Site site;
        site.id = model::freshId<model::Site>();
        const model::LineString ring{metresFrom(0, 0), metresFrom(100, 0), metresFrom(100, 100)};
        site.geometry = model::Polygon{{ring}, {}};
        driver.set.sites.append(site);
        driver.click(metresFrom(80, 40));
        QVERIFY(driver.preview().handles == ring);
        site.geometry = ring;
        driver.set.sites.replace(0, std::make_shared<const model::Site>(site));
        QVERIFY(driver.preview().handles == ring);
    }

    void emptyGround_placesASiteToo_inOneStep() {
        SetbackTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(500, 0));
        QVERIFY(driver.set.sites.empty()); // nothing is done before Enter
        QCOMPARE(driver.preview().draftSites.size(), std::size_t{1});
        driver.type("150 ft");
        QCOMPARE(driver.set.sites.size(), std::size_t{1});
        QCOMPARE(driver.set.fences.size(), std::size_t{1});
        QCOMPARE(QString::fromStdString(driver.set.sites[0].name), QString{"Site 1"});
        QCOMPARE(driver.steps.size(), std::size_t{1});
        driver.undo();
        QVERIFY(driver.set == model::FenceSet{});
    }

    void enterAlone_placesTheSiteAlone() {
        SetbackTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(500, 0));
        driver.finish();
        QCOMPARE(driver.set.sites.size(), std::size_t{1});
        QVERIFY(driver.set.fences.empty());
        QVERIFY(driver.selection == Selection{driver.set.sites[0].id});
    }

    void enterAlone_onASite_isRefused_asAreZeroAndNonsense() {
        SetbackTool tool;
        ToolDriver driver{tool};
        addNest(driver);
        driver.click(metresFrom(0, 0));
        QVERIFY_EXCEPTION_THROWN(driver.finish(), Fault);
        QVERIFY_EXCEPTION_THROWN(driver.type("0 m"), Fault);
        QVERIFY_EXCEPTION_THROWN(driver.type("far"), Fault);
        QVERIFY(driver.set.fences.empty());
        driver.type("100 m");
        QCOMPARE(driver.set.fences.size(), std::size_t{1});
    }

    void siteThatIsGone_isForgotten() {
        SetbackTool tool;
        ToolDriver driver{tool};
        const model::SiteId nest = addNest(driver);
        driver.click(metresFrom(0, 0));
        driver.set = model::applied(driver.set, model::removeSite(driver.set, nest));
        QVERIFY(driver.preview().handles.empty());
        driver.finish();
        QVERIFY(driver.set.fences.empty());
    }

    void escape_dropsTheSite_thenLeaves() {
        SetbackTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(500, 0));
        driver.escape();
        QVERIFY(!driver.left);
        QVERIFY(driver.preview().draftSites.empty());
        driver.escape();
        QVERIFY(driver.left);
        QVERIFY(driver.set == model::FenceSet{});
    }
};

QTEST_GUILESS_MAIN(SetbackToolTest)
#include "setback_tool_test.moc"
