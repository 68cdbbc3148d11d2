#include "units/number_notation.h"

#include "units/measure_notation.h"
#include "units/motion_notation.h"

#include "fault.h"

#include <QtTest>

using namespace fencewright;

class NumberNotationTest : public QObject {
    Q_OBJECT

private slots:
    void typedNumber_takesCommasThatCanMeanOneThingOnly_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<double>("value");
        QTest::newRow("point") << "1320.5" << 1320.5;
        QTest::newRow("decimal comma") << "7,5" << 7.5;
        QTest::newRow("decimal comma behind a zero") << "0,125" << 0.125;
        QTest::newRow("decimal comma behind four digits") << "1234,567" << 1234.567;
        QTest::newRow("thousands and decimals") << "1,320.5" << 1320.5;
        QTest::newRow("millions") << "1,000,000" << 1e6;
        QTest::newRow("negative") << "-0,5" << -0.5;
    }
    void typedNumber_takesCommasThatCanMeanOneThingOnly() {
        QFETCH(QString, text);
        QFETCH(double, value);
        const auto read = units::readTypedNumber(text.toStdString());
        QVERIFY(std::holds_alternative<double>(read));
        QCOMPARE(std::get<double>(read), value);
    }

    void typedNumber_saysWhyNot() {
        const auto why = [](const char* text) {
            const auto read = units::readTypedNumber(text);
            const auto* words = std::get_if<Wording>(&read);
            return words ? QString::fromStdString(words->english()) : QString{};
        };
        for (const char* text : {"1,320", "12,500", "999,999"})
            QVERIFY2(why(text).startsWith("its comma can stand before thousands"), text);
        for (const char* text : {"", ",", "1.320,5", "1,32,5", "1.2.3", "1e999", "nan", " 1"})
            QCOMPARE(why(text), QString{"\"%1\" is not a number."}.arg(text));
    }

    void everyMeasure_hasTheSameRule() {
        constexpr auto metric = units::System::Metric;
        QCOMPARE(units::parseLength("1,320.5 m", metric).length.inMetres(), 1320.5);
        QCOMPARE(units::parseSpeed("1,320.5 m/s", metric).speed.inMetresPerSecond(), 1320.5);
        const auto words = [](auto parse) {
            try {
                parse();
            } catch (const Fault& fault) {
                return QString::fromStdString(fault.words().problem.english());
            }
            return QString{};
        };
        const QString length = words([] { (void)units::parseLength("1,320 ft", metric); }),
                      speed = words([] { (void)units::parseSpeed("1,320 ft/s", metric); });
        QVERIFY2(length.startsWith("\"1,320 ft\" is not a length: its comma can stand"), qPrintable(length));
        QVERIFY2(speed.startsWith("\"1,320 ft/s\" is not a speed: its comma can stand"), qPrintable(speed));
    }

    void trimmedAndLowered_knowAsciiAlone() {
        QCOMPARE(units::trimmed(" \t\r\n 12 m \v\f"), std::string_view{"12 m"});
        QCOMPARE(units::trimmed(" \n "), std::string_view{});
        QCOMPARE(units::lowered("KM/H Ä²"), std::string{"km/h Ä²"});
    }
};

QTEST_APPLESS_MAIN(NumberNotationTest)
#include "number_notation_test.moc"
