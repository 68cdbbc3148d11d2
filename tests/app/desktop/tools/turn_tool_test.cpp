#include "desktop/tools/turn_tool.h"

#include "app/desktop/tools/tool_driver.h"
#include "desktop/tools/typed_turn.h"
#include "fault.h"

#include <QtTest>

using namespace fencewright;
using namespace fencewright::desktop;
using Kind = ToolEvent::Kind;

/// A square of 200 m and a circle; a pixel is a metre, so that the ring is 62 m from the middle.
class TurnToolTest : public QObject {
    Q_OBJECT

    TurnTool m_tool;
    std::unique_ptr<ToolDriver> m_driver;
    model::FenceId m_square, m_circle;

    const model::Fence& fence(const model::FenceId& id) { return *m_driver->set.fences.find(id); }
    static double metresBetween(const model::Position& a, const model::Position& b) {
        return geodesy::inverse(a, b).length.inMetres();
    }
    /// Where the square's middle is: that of its box.
    static model::Position atAzimuth(double azimuth, double metres) {
        return geodesy::direct(metresFrom(0, 0), Angle::degrees(azimuth), Length::metres(metres));
    }
    bool isAt(std::size_t corner, double azimuth, double metres) {
        return metresBetween(cornersOf(fence(m_square))[corner], atAzimuth(azimuth, metres)) < 0.02;
    }
    static constexpr double kDiagonal = 141.4214;

private slots:
    void init() {
        m_tool = TurnTool{};
        m_driver = std::make_unique<ToolDriver>(m_tool);
        const auto square = drawnFence(
            "Yard", {metresFrom(-100, -100), metresFrom(100, -100), metresFrom(100, 100), metresFrom(-100, 100)});
        auto circle = drawnFence("Store", {});
        circle.shape = model::Circle{metresFrom(400, 0), {Length::metres(80), "80 m"}};
        m_square = square.id;
        m_circle = circle.id;
        m_driver->set.fences.append(square);
        m_driver->set.fences.append(circle);
        m_driver->selection = m_square;
    }

    /// The middle is that of the square where it stands, and not where a step that was undone had put it.
    void middle_followsAnUndo() {
        m_driver->type("100 m 90");
        m_driver->hover(metresFrom(800, 800));
        QCOMPARE_LE(metresBetween(m_driver->preview().dial->middle, metresFrom(100, 0)), 0.02);
        m_driver->undo();
        QCOMPARE_LE(metresBetween(m_driver->preview().dial->middle, metresFrom(0, 0)), 0.02);
        m_driver->hover(metresFrom(800, 800));
        m_driver->type("90 right");
        QVERIFY(isAt(0, 315, kDiagonal));
    }
    void middle_staysPut_whereThePersonPutIt_whateverIsUndone() {
        m_driver->type("100 m 90");
        m_driver->hover(metresFrom(800, 800));
        m_driver->drag({metresFrom(100, 0), metresFrom(120, 0), metresFrom(150, 50)});
        m_driver->undo();
        m_driver->hover(metresFrom(800, 800));
        QCOMPARE_LE(metresBetween(m_driver->preview().dial->middle, metresFrom(150, 50)), 0.02);
    }
    void whatIsHeld_isLetGo_whenSomethingElseIsChosen() {
        m_driver->grab({atAzimuth(90, 62), atAzimuth(100, 62)});
        m_driver->selection = {};
        const model::FenceSet before = m_driver->set;
        m_driver->send(Kind::Drag, atAzimuth(120, 62));
        QVERIFY(m_driver->set == before);
        QVERIFY(!m_tool.holds());
    }

    void withoutAChoice_aClickChooses() {
        m_driver->selection = {};
        m_driver->hover(metresFrom(0, 0));
        QVERIFY(!m_driver->preview().dial);
        QVERIFY(m_driver->hint().startsWith("Click"));
        m_driver->click(metresFrom(20, 20));
        QVERIFY(m_driver->selection == Selection{m_square});
        m_driver->hover(metresFrom(20, 20));
        QVERIFY(m_driver->preview().dial);
        QVERIFY(metresBetween(m_driver->preview().dial->middle, metresFrom(0, 0)) < 0.01);
    }

    void ring_turns_inOneStep() {
        const model::FenceSet before = m_driver->set;
        m_driver->grab({atAzimuth(0, 62), atAzimuth(10, 70), atAzimuth(30, 90)});
        QCOMPARE(m_driver->preview().readout, QStringLiteral("30.0° right"));
        QVERIFY(m_driver->preview().dial->hand);
        m_driver->send(Kind::Drop, atAzimuth(30, 90));
        QVERIFY(isAt(2, 75, kDiagonal));
        QVERIFY(isAt(0, 255, kDiagonal));
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        QCOMPARE(m_driver->steps.back().title.english(), std::string{"Turn Yard"});
        m_driver->undo();
        QVERIFY(m_driver->set == before);
    }

    void ring_withShift_takesWholeTurns() {
        m_driver->constrain = true;
        m_driver->drag({atAzimuth(90, 62), atAzimuth(80, 62), atAzimuth(50, 80)}); // 40 to the left
        QVERIFY(isAt(2, 0, kDiagonal));
    }

    void square_scales() {
        m_driver->grab({atAzimuth(45, 88), atAzimuth(45, 100), atAzimuth(50, 132)});
        QCOMPARE(m_driver->preview().readout, QStringLiteral("× 1.500"));
        m_driver->send(Kind::Drop, atAzimuth(50, 132));
        QVERIFY(isAt(2, 45, 1.5 * kDiagonal));
        QVERIFY(std::abs(metresBetween(cornersOf(fence(m_square))[0], cornersOf(fence(m_square))[1]) - 300) < 0.03);
    }

    void escape_inADrag_putsItBack_thenLeaves() {
        const model::FenceSet before = m_driver->set;
        m_driver->grab({atAzimuth(0, 62), atAzimuth(10, 70), atAzimuth(30, 90)});
        QVERIFY(m_driver->set != before);
        m_driver->escape();
        QVERIFY(m_driver->set == before);
        QVERIFY(!m_driver->left);
        m_driver->escape();
        QVERIFY(m_driver->left);
        QVERIFY(m_driver->selection == Selection{m_square});
    }

    void backToTheStart_isBitByBit() {
        const model::FenceSet before = m_driver->set;
        m_driver->drag({atAzimuth(0, 62), atAzimuth(10, 70), atAzimuth(170, 90), atAzimuth(0, 62)});
        QVERIFY(m_driver->set == before);
    }

    void typed_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<double>("azimuth"); // of the third corner
        QTest::addColumn<double>("metres");
        QTest::newRow("right") << "30 right" << 75.0 << kDiagonal;
        QTest::newRow("left") << "15° left" << 30.0 << kDiagonal;
        QTest::newRow("half a degree") << "0.5 right" << 45.5 << kDiagonal;
        QTest::newRow("x") << "x 1.5" << 45.0 << 1.5 * kDiagonal;
        QTest::newRow("behind") << "2x" << 45.0 << 2 * kDiagonal;
        QTest::newRow("percent") << "150 %" << 45.0 << 1.5 * kDiagonal;
        QTest::newRow("percent, comma") << "12,5%" << 45.0 << 0.125 * kDiagonal;
        QTest::newRow("way") << "20 m 45" << 45.0 << kDiagonal + 20;
    }
    void typed() {
        QFETCH(QString, text);
        QFETCH(double, azimuth);
        QFETCH(double, metres);
        const model::FenceSet before = m_driver->set;
        m_driver->hover(metresFrom(0, 0));
        QVERIFY(!m_tool.typedPrompt().isEmpty());
        m_driver->type(text.toStdString());
        QVERIFY(isAt(2, azimuth, metres));
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
        m_driver->undo();
        QVERIFY(m_driver->set == before);
    }

    void typed_thereAndBack_leadsBack() {
        const model::LineString was = cornersOf(fence(m_square));
        m_driver->hover(metresFrom(0, 0));
        for (int i = 0; i < 20; ++i)
            for (const char* text : {"30 right", "x 2", "30 left", "50 %"})
                m_driver->type(text);
        for (std::size_t i = 0; i < was.size(); ++i)
            QVERIFY(metresBetween(cornersOf(fence(m_square))[i], was[i]) < 1e-6);
        QCOMPARE(m_driver->steps.size(), std::size_t{80});
    }

    void typed_whileTurning_isExact_inOneStep() {
        m_driver->grab({atAzimuth(0, 62), atAzimuth(10, 70), atAzimuth(31, 90)});
        m_driver->type("30 right");
        m_driver->send(Kind::Drag, atAzimuth(100, 90));
        m_driver->send(Kind::Drop, atAzimuth(100, 90));
        QVERIFY(isAt(2, 75, kDiagonal));
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
    }

    void typed_nonsense_isRefused() {
        m_driver->hover(metresFrom(0, 0));
        const model::FenceSet before = m_driver->set;
        for (const char* text : {"much", "30", "x 0", "x -1", "0 %", "20 m", "400 right", "1000000 x"})
            QVERIFY_THROWS_EXCEPTION(Fault, m_driver->type(text));
        QVERIFY(m_driver->set == before);
    }

    void whatIsTyped_isSaidBeforeItIsDone() {
        m_driver->hover(metresFrom(0, 0));
        m_driver->send(Kind::Typing, {}, "30 ri");
        QVERIFY(m_driver->preview().readout.isEmpty());
        m_driver->send(Kind::Typing, {}, "30 right");
        QCOMPARE(m_driver->preview().readout, QStringLiteral("30.0° right"));
        m_driver->send(Kind::Typing, {}, "50 %");
        QCOMPARE(m_driver->preview().readout, QStringLiteral("× 0.500"));
    }

    void middle_dragged_isWhatIsTurnedAbout() {
        m_driver->snapsTo = metresFrom(100, 100);
        m_driver->drag({metresFrom(0, 0), metresFrom(50, 50), metresFrom(98, 97)});
        m_driver->snapsTo.reset();
        QVERIFY(m_driver->steps.empty());
        QVERIFY(m_driver->preview().dial->middle == metresFrom(100, 100));
        m_driver->type("90 right");
        QVERIFY(cornersOf(fence(m_square))[2] == metresFrom(100, 100));
        QVERIFY(metresBetween(cornersOf(fence(m_square))[0], metresFrom(-100, 300)) < 0.05);
    }

    void several_areTurnedAboutTheirCommonMiddle() {
        m_driver->selection = Selection{std::vector<Thing>{m_square, m_circle}};
        m_driver->hover(metresFrom(0, 0));
        // From 100 m west to 480 m east, and from 100 m south to 100 m north.
        QVERIFY(metresBetween(m_driver->preview().dial->middle, metresFrom(190, 0)) < 0.05);
        m_driver->type("180 right");
        const auto& circle = std::get<model::Circle>(fence(m_circle).shape);
        QVERIFY(metresBetween(circle.centre, metresFrom(-20, 0)) < 0.1);
        m_driver->type("200 %");
        QCOMPARE(std::get<model::Circle>(fence(m_circle).shape).radius, (StatedLength{Length::metres(160), ""}));
    }

    void inside_moves_andTheDialComesAlong() {
        m_driver->drag({metresFrom(30, 10), metresFrom(40, 10), metresFrom(330, 10)});
        QVERIFY(metresBetween(cornersOf(fence(m_square))[0], metresFrom(200, -100)) < 0.05);
        QVERIFY(metresBetween(m_driver->preview().dial->middle, metresFrom(300, 0)) < 0.05);
    }

    void nudged_theDialComesAlong() {
        m_driver->hover(metresFrom(0, 0));
        m_driver->beginsNudging();
        m_driver->nudge(1, 0);
        m_driver->nudge(1, 0);
        QVERIFY(metresBetween(cornersOf(fence(m_square))[0], metresFrom(-98, -100)) < 0.01);
        QVERIFY(metresBetween(m_driver->preview().dial->middle, metresFrom(2, 0)) < 0.01);
        QCOMPARE(m_driver->steps.size(), std::size_t{1});
    }

    void emptyGround_isNotHeld() {
        m_driver->send(Kind::Press, metresFrom(250, 250));
        QVERIFY(!m_tool.holds());
        m_driver->send(Kind::Press, metresFrom(400, 0)); // not selected
        QVERIFY(!m_tool.holds());
        m_driver->send(Kind::Press, metresFrom(20, 20));
        QVERIFY(m_tool.holds());
    }
};

QTEST_GUILESS_MAIN(TurnToolTest)
#include "turn_tool_test.moc"
