#include "model/margin.h"

#include "fault.h"

#include <QtTest>

#include <cmath>
#include <limits>
#include <random>

using namespace fencewright;
using model::Margin;

namespace {

Margin marginOf(double error, double speed, double reaction, double deceleration, double allowance) {
    Margin margin;
    margin.positionError = {Length::metres(error), ""};
    margin.speed = {Speed::metresPerSecond(speed), ""};
    margin.reaction = std::chrono::duration<double>{reaction};
    margin.deceleration = {Acceleration::metresPerSecondSquared(deceleration), ""};
    margin.allowance = {Length::metres(allowance), ""};
    return margin;
}

} // namespace

class MarginTest : public QObject {
    Q_OBJECT

private slots:
    // OpenStax, University Physics 1, example 3.10 "Calculating displacement: how far does a car go when coming to a
    // halt?" (from memory): at 30.0 m/s, with 7.00 m/s² on dry and 5.00 m/s² on wet concrete, and half a second to
    // react: 64.3 m and 90.0 m to brake, 15.0 m to react, 79.3 m and 105 m in all.
    void distances_areThoseOfAPublishedExample() {
        const auto dry = model::distances(marginOf(0, 30, 0.5, 7, 0)),
                   wet = model::distances(marginOf(0, 30, 0.5, 5, 0));
        QCOMPARE(dry.reaction, Length::metres(15));
        QVERIFY(std::abs(dry.braking.inMetres() - 64.3) < 0.05);
        QVERIFY(std::abs(dry.total.inMetres() - 79.3) < 0.05);
        QCOMPARE(wet.braking, Length::metres(90));
        QCOMPARE(wet.total, Length::metres(105));
    }

    // In numbers of 64 bits after the point, against which a double is coarse.
    void distances_areNeverLess_andHardlyMore() {
        std::mt19937_64 random{20261130};
        std::uniform_real_distribution<double> metres{0.0, 50.0}, speed{0.0, 80.0}, seconds{0.0, 5.0},
            braking{0.1, 12.0};
        int more = 0;
        for (int round = 0; round < 20'000; ++round) {
            const Margin margin =
                marginOf(metres(random), speed(random), seconds(random), braking(random), metres(random));
            const auto found = model::distances(margin);
            const long double v = margin.speed.speed.inMetresPerSecond(),
                              a = margin.deceleration.acceleration.inMetresPerSecondSquared();
            const long double exact = static_cast<long double>(margin.positionError.length.inMetres()) +
                                      v * static_cast<long double>(margin.reaction.count()) + v * v / (2.0L * a) +
                                      static_cast<long double>(margin.allowance.length.inMetres());
            const long double ours = found.total.inMetres();
            const long double rounding = exact * 4.0L * std::numeric_limits<long double>::epsilon();
            QVERIFY2(ours >= exact - rounding, qPrintable(QString("round %1").arg(round)));
            QVERIFY2(ours <= exact * (1.0L + 1e-15L), qPrintable(QString("round %1").arg(round)));
            more += ours > exact;
        }
        QVERIFY(more > 19'000);
    }

    void distances_ofWhatComesOutEvenAreExact() {
        const auto found = model::distances(marginOf(3, 12, 1.5, 4, 0.25));
        QCOMPARE(found.positionError, Length::metres(3));
        QCOMPARE(found.reaction, Length::metres(18));
        QCOMPARE(found.braking, Length::metres(18));
        QCOMPARE(found.allowance, Length::metres(0.25));
        QCOMPARE(found.total, Length::metres(39.25));
        QCOMPARE(model::distances(marginOf(10, 0, 0, 0, 0)).total, Length::metres(10));
        QCOMPARE(model::distances(Margin{}).total, Length{});
    }

    void distances_refusesWhatNeverStopsAndWhatIsNoNumber() {
        const double nothing = std::numeric_limits<double>::quiet_NaN(), endless = HUGE_VAL;
        for (const Margin& bad :
             {marginOf(1, 10, 1, 0, 0), marginOf(-1, 0, 0, 1, 0), marginOf(0, -1, 0, 1, 0), marginOf(0, 1, -1, 1, 0),
              marginOf(0, 1, 1, -1, 0), marginOf(0, 0, 0, 0, -1), marginOf(nothing, 0, 0, 1, 0),
              marginOf(0, nothing, 0, 1, 0), marginOf(0, 0, nothing, 1, 0), marginOf(0, 0, 0, nothing, 0),
              marginOf(0, 0, 0, 1, nothing), marginOf(endless, 0, 0, 1, 0), marginOf(0, 1e200, 0, 1e-200, 0)})
            QVERIFY_EXCEPTION_THROWN((void)model::distances(bad), Fault);
    }
};

QTEST_APPLESS_MAIN(MarginTest)
#include "margin_test.moc"
