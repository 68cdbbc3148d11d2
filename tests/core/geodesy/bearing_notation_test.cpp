#include <QtTest>

#include "fault.h"
#include "geodesy/bearing_notation.h"

#include <random>

using namespace fencewright;
using geodesy::BearingNotation;

class BearingNotationTest : public QObject {
    Q_OBJECT

private slots:
    void parseBearing_readsWhatDeedsWrite_data() {
        // Quadrant bearings and azimuths: the rule (north or south first, up to 90 degrees, then east or west) is
        // common practice, no published source; the first row's angle is of the traverse in tests/reference.
        QTest::addColumn<QString>("text");
        QTest::addColumn<double>("azimuth");
        const double ab = 180.0 + 68.0 + 5.0 / 60.0 + 35.0 / 3600.0;
        QTest::newRow("signs") << "S 68°05'35\" W" << ab;
        QTest::newRow("no spaces") << "S68°05'35\"W" << ab;
        QTest::newRow("dashes") << "S 68-05-35 W" << ab;
        QTest::newRow("typographic marks") << "S 68° 05′ 35″ W" << ab;
        QTest::newRow("spaces only") << "S 68 05 35 W" << ab;
        QTest::newRow("words") << "South 68 deg 05 min 35 sec West" << ab;
        QTest::newRow("small letters") << "s 68d05'35''w" << ab;
        QTest::newRow("decimal") << "N 45.5 E" << 45.5;
        QTest::newRow("decimal degrees with sign") << "N 45.5° W" << 314.5;
        QTest::newRow("degrees only") << "S 12 E" << 168.0;
        QTest::newRow("degrees and minutes") << "N 26°10' E" << 26.0 + 10.0 / 60.0;
        QTest::newRow("degrees and minutes, bare") << "N 26 10 E" << 26.0 + 10.0 / 60.0;
        QTest::newRow("decimal minutes") << "N 26°10.5' E" << 26.175;
        QTest::newRow("due north") << "due north" << 0.0;
        QTest::newRow("due west") << "Due West" << 270.0;
        QTest::newRow("east") << "East" << 90.0;
        QTest::newRow("north") << "North" << 0.0;
        QTest::newRow("S") << "S" << 180.0;
        QTest::newRow("N. 5 E.") << "N. 5 E." << 5.0;
        QTest::newRow("limit of the quadrant") << "N 90 E" << 90.0;
        QTest::newRow("azimuth with marks") << "248°05'35\"" << ab;
        QTest::newRow("azimuth with dashes") << "248-05-35" << ab;
        QTest::newRow("azimuth") << "248.0931" << 248.0931;
        QTest::newRow("named azimuth") << "azimuth 12.5" << 12.5;
        QTest::newRow("full turn") << "360" << 0.0;
    }
    void parseBearing_readsWhatDeedsWrite() {
        QFETCH(QString, text);
        QFETCH(double, azimuth);
        const double read = geodesy::parseBearing(text.toStdString()).inDegrees();
        QVERIFY2(std::abs(read - azimuth) < 1e-12, qPrintable(QString::number(read, 'g', 15)));
    }

    void parseBearing_refusesWithWords_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<QString>("words");
        QTest::newRow("nothing") << ""
                                 << "not a direction";
        QTest::newRow("over 90") << "N 91 E"
                                 << "over 90";
        QTest::newRow("sixty minutes") << "N 45°60' E"
                                       << "60 minutes";
        QTest::newRow("sixty seconds") << "N 45°10'60\" E"
                                       << "60 seconds";
        QTest::newRow("no side") << "N 45°10'"
                                 << "E or W";
        QTest::newRow("beyond a turn") << "361"
                                       << "beyond 360";
        QTest::newRow("rest") << "N 45 E 12 m"
                              << "cannot be read";
        QTest::newRow("words") << "towards the oak"
                               << "not a direction";
        QTest::newRow("due what") << "due 12"
                                  << "north, south";
    }
    void parseBearing_refusesWithWords() {
        QFETCH(QString, text);
        QFETCH(QString, words);
        try {
            const Angle read = geodesy::parseBearing(text.toStdString());
            QFAIL(qPrintable(QString::number(read.inDegrees())));
        } catch (const Fault& fault) {
            QVERIFY2(QString::fromStdString(fault.problem()).contains(words), fault.what());
            QVERIFY(!fault.remedy().empty());
        }
    }

    void formatBearing_readsBackAsTheSame() {
        constexpr unsigned seed = 20261125;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> anywhere{0.0, 360.0};
        for (int i = 0; i < 2'000; ++i) {
            // Every eighth at a boundary, where a quadrant or a minute turns over.
            const double degrees =
                i % 8 == 0 ? 90.0 * (i / 8 % 4) + (i % 16 == 0 ? 1e-7 : 359.9999999) : anywhere(random);
            for (const auto notation : {BearingNotation::Azimuth, BearingNotation::Quadrant}) {
                const std::string text = geodesy::formatBearing(Angle::degrees(degrees), notation, 3);
                const double back = geodesy::parseBearing(text).inDegrees();
                const double off = std::abs(std::remainder(back - degrees, 360.0));
                QVERIFY2(off <= 0.00051 / 3600.0, (text + " seed " + std::to_string(seed)).c_str());
                QVERIFY2(text.find("′60") == std::string::npos && text.find("°60") == std::string::npos, text.c_str());
            }
        }
    }
    void formatBearing_writesQuadrants() {
        const auto words = [](double degrees) {
            return QString::fromStdString(geodesy::formatBearing(Angle::degrees(degrees), BearingNotation::Quadrant));
        };
        QCOMPARE(words(0.0), QString{"N 0°00′00″ E"});
        QCOMPARE(words(45.0), QString{"N 45°00′00″ E"});
        QCOMPARE(words(135.5), QString{"S 44°30′00″ E"});
        QCOMPARE(words(225.25), QString{"S 45°15′00″ W"});
        QCOMPARE(words(314.5), QString{"N 45°30′00″ W"});
        QCOMPARE(QString::fromStdString(geodesy::formatBearing(Angle::degrees(359.99999), BearingNotation::Azimuth)),
                 QString{"0°00′00″"});
    }
};

QTEST_APPLESS_MAIN(BearingNotationTest)
#include "bearing_notation_test.moc"
