#include "desktop/tools/rim_circle_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "fault.h"

#include <QtTest>

#include <random>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

class RimCircleToolTest : public QObject {
    Q_OBJECT

private slots:
    void threePlaces_lieOnTheRim() {
        // Places laid out from a centre by the direct problem (tests/reference/geodesics_test.cpp) must give it back.
        constexpr unsigned seed = 31;
        std::mt19937_64 random{seed};
        const auto between = [&](double low, double high) {
            return std::uniform_real_distribution<double>{low, high}(random);
        };
        for (int i = 0; i < 300; ++i) {
            const model::Position centre{between(-179, 179), between(-80, 80)};
            const Length radius = Length::metres(std::exp(between(std::log(2.0), std::log(5'000.0))));
            const double first = between(0, 360);
            RimCircleTool tool;
            ToolDriver driver{tool};
            for (const double turn : {0.0, between(60, 150), between(200, 300)})
                driver.click(geodesy::direct(centre, Angle::degrees(std::fmod(first + turn, 360.0)), radius));
            const auto& circle = std::get<model::Circle>(driver.set.fences[0].shape);
            const QString words = QString{"seed %1, case %2"}.arg(seed).arg(i);
            QVERIFY2(std::abs(circle.radius.length.inMetres() - radius.inMetres()) < 1e-5 * radius.inMetres() + 1e-6,
                     qPrintable(words));
            QVERIFY2(geodesy::inverse(circle.centre, centre).length.inMetres() < 1e-5 * radius.inMetres() + 1e-6,
                     qPrintable(words));
        }
    }

    void preview_followsThePointer_andUndoTakesItBack() {
        RimCircleTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(-100, 0));
        driver.click(metresFrom(100, 0));
        driver.hover(metresFrom(0, 100));
        QCOMPARE(driver.preview().readout, QString{"radius 100.0 m\n3.1 ha"});
        driver.click(metresFrom(0, 100));
        QCOMPARE(driver.steps.size(), std::size_t{1});
        driver.undo();
        QVERIFY(driver.set == model::FenceSet{});
    }

    void placesOnALine_areRefused_andTheLastCanBeSetAnew() {
        RimCircleTool tool;
        ToolDriver driver{tool};
        driver.type("46.2 -8.7");
        driver.type("100 m 90");
        QVERIFY_EXCEPTION_THROWN(driver.type("100 m 90"), Fault);
        driver.type("100 m 0");
        QCOMPARE(driver.set.fences.size(), std::size_t{1});
        // A right angle: the circle's diameter joins the first and the last.
        const auto& circle = std::get<model::Circle>(driver.set.fences[0].shape);
        QCOMPARE_LE(std::abs(circle.radius.length.inMetres() - 100.0 / std::sqrt(2.0)), 1e-3);
    }

    void stepBackAndEscape() {
        RimCircleTool tool;
        ToolDriver driver{tool};
        driver.click(metresFrom(0, 0));
        driver.click(metresFrom(999, 0));
        driver.send(Kind::StepBack);
        QCOMPARE(driver.preview().handles.size(), std::size_t{1});
        driver.send(Kind::OtherKind);
        QVERIFY(driver.hint().startsWith("Keep-in"));
        driver.escape();
        QVERIFY(!driver.left);
        driver.escape();
        QVERIFY(driver.left);
    }
};

QTEST_GUILESS_MAIN(RimCircleToolTest)
#include "rim_circle_tool_test.moc"
