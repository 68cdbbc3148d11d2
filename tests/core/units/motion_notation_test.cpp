#include "units/motion_notation.h"

#include "fault.h"

#include <QtTest>

using namespace fencewright;
using units::System;

class MotionNotationTest : public QObject {
    Q_OBJECT

private slots:
    // By definition: knot 1852 m/h, mile 1609.344 m, foot 0.3048 m; standard gravity 9.80665 m/s² (3rd CGPM, 1901).
    void parseSpeed_readsNumbersAndUnits_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<double>("metresPerSecond");
        QTest::newRow("metres") << "15 m/s" << 15.0;
        QTest::newRow("kilometres") << "54 km/h" << 15.0;
        QTest::newRow("knots") << "36 kn" << 18.52;
        QTest::newRow("knots in words") << "36 knots" << 18.52;
        QTest::newRow("miles") << "25 mph" << 11.176;
        QTest::newRow("feet") << "10 ft/s" << 3.048;
        QTest::newRow("decimal comma") << "7,5 m/s" << 7.5;
        QTest::newRow("no space, capitals") << "54KM/H" << 15.0;
    }
    void parseSpeed_readsNumbersAndUnits() {
        QFETCH(QString, text);
        QFETCH(double, metresPerSecond);
        const auto stated = units::parseSpeed(text.toStdString(), System::Metric);
        QVERIFY(std::abs(stated.speed.inMetresPerSecond() - metresPerSecond) < 1e-12);
        QCOMPARE(QString::fromStdString(stated.asWritten), text);
    }

    void withoutAUnit_itIsThatOfTheSystem_andSaidSo() {
        QCOMPARE(units::parseSpeed("15", System::Metric).asWritten, "15 m/s");
        QCOMPARE(units::parseSpeed("25", System::Us).speed, Speed::milesPerHour(25));
        QCOMPARE(units::parseSpeed("25", System::Us).asWritten, "25 mph");
        QCOMPARE(units::parseAcceleration("3", System::Metric).acceleration, Acceleration::metresPerSecondSquared(3));
        QCOMPARE(units::parseAcceleration("10", System::Us).acceleration, Acceleration::feetPerSecondSquared(10));
    }

    void parseAcceleration_readsItsUnits() {
        QCOMPARE(units::parseAcceleration("3 m/s²", System::Us).acceleration.inMetresPerSecondSquared(), 3.0);
        QCOMPARE(units::parseAcceleration("3 m/s2", System::Us).acceleration.inMetresPerSecondSquared(), 3.0);
        QCOMPARE(units::parseAcceleration("10 ft/s^2", System::Metric).acceleration.inMetresPerSecondSquared(), 3.048);
        QCOMPARE(units::parseAcceleration("0.5 g", System::Metric).acceleration.inMetresPerSecondSquared(), 4.903325);
    }

    void parseSeconds_readsItsUnits() {
        QCOMPARE(units::parseSeconds("1.5 s").count(), 1.5);
        QCOMPARE(units::parseSeconds("1,5").count(), 1.5);
        QCOMPARE(units::parseSeconds("250 ms").count(), 0.25);
        QCOMPARE(units::parseSeconds("2 min").count(), 120.0);
    }

    void whatIsNone_isRefused_data() {
        QTest::addColumn<QString>("text");
        for (const char* text :
             {"", "fast", "15 parsecs", "-3 m/s", "1,320 m/s", "1.2.3 m/s", "1e999 m/s", "m/s", "15 m", "15 s"})
            QTest::newRow(text) << QString{text};
    }
    void whatIsNone_isRefused() {
        QFETCH(QString, text);
        QVERIFY_EXCEPTION_THROWN((void)units::parseSpeed(text.toStdString(), System::Metric), Fault);
        QVERIFY_EXCEPTION_THROWN((void)units::parseAcceleration(text.toStdString(), System::Metric), Fault);
        if (!text.endsWith('s'))
            QVERIFY_EXCEPTION_THROWN((void)units::parseSeconds(text.toStdString()), Fault);
    }

    void whatIsShown_readsBack() {
        const Speed speed = Speed::milesPerHour(33.3);
        QCOMPARE(units::parseSpeed(units::formatSpeed(speed, System::Metric), System::Us).speed, speed);
        const double again =
            units::parseSpeed(units::formatSpeed(speed, System::Us), System::Metric).speed.inMetresPerSecond();
        QVERIFY(std::abs(again - speed.inMetresPerSecond()) < 1e-14);
        const Acceleration braking = Acceleration::feetPerSecondSquared(7.7);
        QCOMPARE(units::parseAcceleration(units::formatAcceleration(braking, System::Metric), System::Us).acceleration,
                 braking);
        QCOMPARE(units::formatSpeed(Speed::metresPerSecond(15), System::Metric), "15 m/s");
        QCOMPARE(units::formatAcceleration(Acceleration::feetPerSecondSquared(10), System::Us), "10 ft/s²");
        QCOMPARE(units::formatSeconds(units::Seconds{1.5}), "1.5 s");
    }
};

QTEST_APPLESS_MAIN(MotionNotationTest)
#include "motion_notation_test.moc"
