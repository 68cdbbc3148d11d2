#include "units/measure_notation.h"

#include "fault.h"

#include <QtTest>

using namespace fencewright;
using units::System;

class MeasureNotationTest : public QObject {
    Q_OBJECT

private slots:
    void parseLength_readsNumbersFractionsAndUnits_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<double>("metres");
        // Definitions: international foot 0.3048 m (1959), statute mile 5280 ft, nautical mile 1852 m, chain 66 ft,
        // US survey foot 1200/3937 m (NIST, retired 2023).
        QTest::newRow("metres") << "402.336 m" << 402.336;
        QTest::newRow("a quarter mile") << "1/4 mi" << 402.336;
        QTest::newRow("a third of a mile, exactly") << "1/3 mi" << 536.448;
        QTest::newRow("0.33 mi is not a third") << "0.33 mi" << 0.33 * 1609.344;
        QTest::newRow("mixed fraction") << "1 1/2 nmi" << 2778.0;
        QTest::newRow("thousands and a unit") << "1,320.5 ft" << 1320.5 * 0.3048;
        QTest::newRow("thousands, two groups") << "1,000,000 ft" << 304800.0;
        QTest::newRow("decimal comma") << "0,5 km" << 500.0;
        QTest::newRow("decimal comma, three digits") << "0,234 m" << 0.234;
        QTest::newRow("survey feet") << "3937 ftUS" << 1200.0;
        QTest::newRow("chains") << "80 ch" << 1609.344;
        QTest::newRow("foot mark") << "100'" << 30.48;
        QTest::newRow("without unit") << "25" << 25.0;
        QTest::newRow("spaces") << "  12   m " << 12.0;
    }
    void parseLength_readsNumbersFractionsAndUnits() {
        QFETCH(QString, text);
        QFETCH(double, metres);
        const auto stated = units::parseLength(text.toStdString(), System::Metric);
        QVERIFY2(std::abs(stated.length.inMetres() - metres) <= 1e-9,
                 qPrintable(QString::number(stated.length.inMetres(), 'g', 17)));
        QVERIFY(!stated.asWritten.empty());
    }

    // A thousand and more to one person, one and a bit to another: a keep-out must not shrink to a thousandth.
    void parseLength_guessesNoComma() {
        for (const auto system : {System::Us, System::Metric})
            for (const char* text : {"1,320", "1,320 ft", "1,234 m", "12,500 m"})
                QVERIFY_EXCEPTION_THROWN((void)units::parseLength(text, system), Fault);
        QCOMPARE(units::parseLength("1,32 km", System::Us).length, Length::metres(1320));
    }

    void parseLength_refusesWhatIsNoLength_data() {
        QTest::addColumn<QString>("text");
        for (const char* text :
             {"", "m", "abc", "1/0 mi", "12 parsecs", "1//2 mi", "nan m", "1e999 m", "1.2.3 m", "--4 m"})
            QTest::newRow(text) << QString{text};
    }
    void parseLength_refusesWhatIsNoLength() {
        QFETCH(QString, text);
        QVERIFY_EXCEPTION_THROWN((void)units::parseLength(text.toStdString(), System::Metric), Fault);
    }

    void formatLength_showsBothSystems() {
        QCOMPARE(units::formatLength(Length::metres(200), System::Metric), "200.0 m");
        QCOMPARE(units::formatLength(Length::metres(1210), System::Metric), "1.21 km");
        QCOMPARE(units::formatLength(Length::metres(200), System::Us), "656 ft");
        QCOMPARE(units::formatLengthExact(Length::metres(402.336), System::Us), "1320.000 ft");
        QCOMPARE(units::formatArea(Area::hectares(61.4), System::Metric), "61.4 ha");
        // 1/4 mile circle: 508 543 m2 = 125.66 acre (by the definitions of mile and acre).
        QCOMPARE(units::formatArea(Area::squareMetres(508543), System::Us), "125.7 ac");
    }
};

QTEST_APPLESS_MAIN(MeasureNotationTest)
#include "measure_notation_test.moc"
