#include "geodesy/coordinate_notation.h"

#include "fault.h"
#include "geodesy/geodesic.h"

#include <QtTest>

#include <random>

using namespace fencewright;
using geodesy::Notation;
using geodesy::parsePosition;
using model::Position;

namespace {

double metresApart(Position a, Position b) { return geodesy::inverse(a, b).length.inMetres(); }

} // namespace

class CoordinateNotationTest : public QObject {
    Q_OBJECT

private slots:
    // Our own convention; the numbers are by hand.
    void format_writesDegrees() {
        const Position place{-8.733936, 46.208844};
        QCOMPARE(geodesy::format(place, Notation::DecimalDegrees), "46.208844° N 8.733936° W");
        QCOMPARE(geodesy::format(place, Notation::DegreesMinutesSeconds), "46°12′31.84″ N 8°44′02.17″ W");
        QCOMPARE(geodesy::format({0, 0}, Notation::DecimalDegrees), "0.000000° N 0.000000° E");
        QCOMPARE(geodesy::format({-1e-9, -1e-9}, Notation::DecimalDegrees), "0.000000° N 0.000000° E");
        QCOMPARE(geodesy::format({-1e-9, -1e-9}, Notation::DegreesMinutesSeconds), "0°00′00.00″ N 0°00′00.00″ E");
        QCOMPARE(geodesy::format({181, -45.5}, Notation::DecimalDegrees), "45.500000° S 179.000000° W");
        QCOMPARE(geodesy::format({180, 0}, Notation::DecimalDegrees), "0.000000° N 180.000000° E");
        // Rounding carries over: never 60 seconds.
        QCOMPARE(geodesy::format({0, 45.9999999}, Notation::DegreesMinutesSeconds), "46°00′00.00″ N 0°00′00.00″ E");
    }

    void formatFinely_writesAllDigits() {
        // By hand; the doubles next to 0.1 are 1.4e-17 apart.
        QCOMPARE(geodesy::formatFinely({-8.733936, 46.208844}, Notation::DecimalDegrees), "46.208844° N 8.733936° W");
        QCOMPARE(geodesy::formatFinely({0.1 + 0.2, -0.0}, Notation::DecimalDegrees), "0° N 0.30000000000000004° E");
        QCOMPARE(geodesy::formatFinely({-1e-9, 0}, Notation::DecimalDegrees), "0° N 0.000000001° W");
        QCOMPARE(geodesy::formatFinely({8.5, 46.25 + 1.0 / 3.6e8}, Notation::DegreesMinutesSeconds),
                 "46°15′00.00001000″ N 8°30′00.00000000″ E");
        QCOMPARE(geodesy::formatFinely({10, 85}, Notation::Utm), "85°00′00.00000000″ N 10°00′00.00000000″ E");
        QVERIFY_EXCEPTION_THROWN((void)geodesy::formatFinely({0, 91}, Notation::DecimalDegrees), Fault);
    }

    void formatFinely_isReadBack_asTheSamePlace() {
        std::mt19937 random{7};
        std::uniform_real_distribution<double> lon{-180.0, 180.0}, lat{-90.0, 90.0}, power{-12.0, 0.0};
        for (int i = 0; i < 20000; ++i) {
            const double small = i % 3 == 0 ? std::pow(10.0, power(random)) : 1.0;
            const Position place{lon(random) * small, lat(random) * small};
            const Position exactly = parsePosition(geodesy::formatFinely(place, Notation::DecimalDegrees));
            QVERIFY2(exactly == place, geodesy::formatFinely(place, Notation::DecimalDegrees).c_str());
            if (i % 40 != 0)
                continue; // grids take long
            for (const Notation notation : {Notation::DegreesMinutesSeconds, Notation::Utm, Notation::Mgrs}) {
                const std::string text = geodesy::formatFinely(place, notation);
                const double apart = metresApart(parsePosition(text), place);
                QVERIFY2(apart <= 2e-6, (text + ": " + std::to_string(apart * 1e6) + " um").c_str());
            }
        }
    }

    void format_fallsBackBeyondUtm() {
        QCOMPARE(geodesy::format({10, 85}, Notation::Utm), "85°00′00.00″ N 10°00′00.00″ E");
        QCOMPARE(geodesy::format({10, -81}, Notation::Mgrs), "81°00′00.00″ S 10°00′00.00″ E");
    }

    void format_refusesWhatIsNoPlace() {
        QVERIFY_EXCEPTION_THROWN((void)geodesy::format({0, 91}, Notation::Utm), Fault);
        QVERIFY_EXCEPTION_THROWN((void)geodesy::format({std::nan(""), 1}, Notation::DecimalDegrees), Fault);
        QVERIFY_EXCEPTION_THROWN((void)geodesy::toUtm({0, 84.1}), Fault);
    }

    void parsePosition_readsDegrees_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        const double lat = 46.0 + 12.0 / 60.0 + 31.84 / 3600.0;
        const double lon = -(8.0 + 44.0 / 60.0 + 2.17 / 3600.0);
        const struct {
            const char* text;
            double lon;
            double lat;
        } rows[] = {
            {"46.5 -8.7", -8.7, 46.5},
            {"46.5,-8.7", -8.7, 46.5},
            {" 46.5 , -8.7 ", -8.7, 46.5},
            {"46.5; -8.7", -8.7, 46.5},
            {"46,5 -8,7", -8.7, 46.5},
            {"46,5, -8,7", -8.7, 46.5},
            {"46, 8", 8, 46},
            {"46,8", 8, 46},
            {"+46.5 +8.7", 8.7, 46.5},
            {"-46.5 \u22128.7", -8.7, -46.5},
            {"N46.5 W8.7", -8.7, 46.5},
            {"n46.5 w8.7", -8.7, 46.5},
            {"46.5N 8.7W", -8.7, 46.5},
            {"46.5 N 8.7 W", -8.7, 46.5},
            {"46.5N,8.7W", -8.7, 46.5},
            {"8.7 W 46.5 N", -8.7, 46.5},
            {"W8.7 N46.5", -8.7, 46.5},
            {"8.7W 46.5", -8.7, 46.5},
            {"46.5° 8.7°", 8.7, 46.5},
            {"46° 8°", 8, 46},
            {"46.5° S 8.7° E", 8.7, -46.5},
            {"46.208844° N 8.733936° W", -8.733936, 46.208844},
            {"46°12'31.84\"N 8°44'02.17\"W", lon, lat},
            {"46°12′31.84″ N 8°44′02.17″ W", lon, lat},
            {"46° 12' 31.84\" N, 8° 44' 02.17\" W", lon, lat},
            {"46°12'31.84''N 8°44'2.17''W", lon, lat},
            {"N 46° 12' 31.84\" W 8° 44' 2.17\"", lon, lat},
            {"46d12'31.84\" -8d44'2.17\"", lon, lat},
            {"46:12:31.84 -8:44:2.17", lon, lat},
            {"46:12:31.84N 8:44:2.17W", lon, lat},
            {"46 12 31.84 N 8 44 2.17 W", lon, lat},
            {"N 46 12 31.84 W 8 44 2.17", lon, lat},
            {"46 30 N 8 42 W", -8.7, 46.5},
            {"46 30.0N 8 42.0W", -8.7, 46.5},
            {"46°30' 8°42'", 8.7, 46.5},
            {"46°30 8°42", 8.7, 46.5},
            {"0 0", 0, 0},
            {"-0.5 .5", 0.5, -0.5},
            {"90 180", 180, 90},
            {"-90 -180", -180, -90},
        };
        for (const auto& row : rows)
            QTest::newRow(row.text) << QString::fromUtf8(row.text) << row.lon << row.lat;
    }
    void parsePosition_readsDegrees() {
        QFETCH(QString, text);
        QFETCH(double, lon);
        QFETCH(double, lat);
        const Position place = parsePosition(text.toStdString());
        QVERIFY2(std::abs(place.lon - lon) < 1e-12 && std::abs(place.lat - lat) < 1e-12,
                 qPrintable(QString{"%1 %2"}.arg(place.lat, 0, 'g', 15).arg(place.lon, 0, 'g', 15)));
    }

    void parsePosition_readsUtm() {
        const Position here = geodesy::fromUtm({38, true, 'S', 444140, 3684706});
        QCOMPARE(parsePosition("38n 444140 3684706"), here);
        QCOMPARE(parsePosition("38N 444140 3684706"), here);
        QCOMPARE(parsePosition("38 north 444140 3684706"), here);
        QCOMPARE(parsePosition("38S 444140 3684706"), here); // the band
        QCOMPARE(parsePosition("38S 444140m, 3684706m"), here);
        const Position south = geodesy::fromUtm({38, false, 'F', 444140, 3684706});
        QVERIFY(south.lat < -50.0);
        QCOMPARE(parsePosition("38s 444140 3684706"), south); // the half of the earth
        QCOMPARE(parsePosition("38south 444140 3684706"), south);
        QCOMPARE(parsePosition("22S 500000 7000000"), geodesy::fromUtm({22, false, 'J', 500000, 7000000}));
        QVERIFY_EXCEPTION_THROWN((void)parsePosition("38T 444140 3684706"), Fault);
        QVERIFY_EXCEPTION_THROWN((void)parsePosition("61n 444140 3684706"), Fault);
        QVERIFY_EXCEPTION_THROWN((void)parsePosition("0n 444140 3684706"), Fault);
        QVERIFY_EXCEPTION_THROWN((void)parsePosition("38I 444140 3684706"), Fault);
        QVERIFY_EXCEPTION_THROWN((void)parsePosition("38n 44414000 3684706"), Fault);
        QVERIFY_EXCEPTION_THROWN((void)parsePosition("38n 444140 36847060"), Fault);
        QVERIFY_EXCEPTION_THROWN((void)parsePosition("38n 444140"), Fault);
    }

    void parsePosition_readsMgrs() {
        const Position centre = geodesy::fromUtm({29, true, 'T', 520533.5, 5117466.5});
        for (const char* text :
             {"29TNM2053317466", "29T NM 20533 17466", "29t nm 20533 17466", "29TNM 2053317466", "29T NM20533 17466"})
            QVERIFY2(metresApart(parsePosition(text), centre) < 1e-6, text);
        // Fewer digits are larger squares, of which the centre is taken.
        QVERIFY(metresApart(parsePosition("29T NM 20 17"), geodesy::fromUtm({29, true, 'T', 520500, 5117500})) < 1e-6);
        QVERIFY(metresApart(parsePosition("29TNM"), geodesy::fromUtm({29, true, 'T', 550000, 5150000})) < 1e-6);
        for (const char* text :
             {"29TNM205331746", "29T NM 2053 17466", "29TNM205331746600", "29TNW 20533 17466", "29TAM 20533 17466",
              "29INM 20533 17466", "29TIM 20533 17466", "61TNM 20533 17466", "29TNM -2053 17466", "00TNM2053317466"})
            QVERIFY2(!geodesy::tryParsePosition(text), text);
    }

    void parsePosition_refusesWhatIsNoPlace_data() {
        QTest::addColumn<QString>("text");
        for (const char* text : {"",
                                 "   ",
                                 "46.5",
                                 "46.5 8.7 1",
                                 "91 0",
                                 "0 181",
                                 "144.4 33.3",
                                 "46.5N 8.7N",
                                 "46.5E 8.7W",
                                 "-46.5N 8.7E",
                                 "46°61' 8°0'",
                                 "46°12'60\" 8°",
                                 "46.5°12' 8°",
                                 "north",
                                 "46.5 x",
                                 "46..5 8",
                                 "1e5 8",
                                 "nan nan",
                                 "inf 0",
                                 "46.5 8.7 E W",
                                 ": :",
                                 "46: 8:",
                                 "46:12: 8:1",
                                 "N W",
                                 "12'N 4'E",
                                 "- -",
                                 "46 12 31 8 44 2",
                                 "46 12 8 44",
                                 "46 12 N 8 44",
                                 "\xff\xfe 12",
                                 "0x10 0x10",
                                 "46.5 8.7W N"})
            QTest::newRow(text) << QString::fromUtf8(text);
        QTest::newRow("long") << QString(100000, '4');
        QTest::newRow("many marks") << QString(199, '\'');
    }
    void parsePosition_refusesWhatIsNoPlace() {
        QFETCH(QString, text);
        QVERIFY(!geodesy::tryParsePosition(text.toStdString()));
        try {
            (void)parsePosition(text.toStdString());
            QFAIL("read");
        } catch (const Fault& fault) {
            QVERIFY(!fault.problem().empty() && !fault.remedy().empty());
        }
    }

    void parsePosition_saysWhichPart() {
        const auto problem = [](const char* text) {
            try {
                (void)parsePosition(text);
            } catch (const Fault& fault) {
                return QString::fromStdString(fault.what());
            }
            return QString{};
        };
        QVERIFY2(problem("46.5 abc").contains("abc"), qPrintable(problem("46.5 abc")));
        QVERIFY2(problem("46.5").contains("latitude and a longitude"), qPrintable(problem("46.5")));
        QVERIFY2(problem("144.4 33.3").contains("144.4"), qPrintable(problem("144.4 33.3")));
        QVERIFY2(problem("-46.5N 8.7E").contains("sign"), qPrintable(problem("-46.5N 8.7E")));
        QVERIFY2(problem("29TNM205331746").contains("digits"), qPrintable(problem("29TNM205331746")));
        QVERIFY2(problem("29T NW 20533 17466").contains("square"), qPrintable(problem("29T NW 20533 17466")));
    }

    // What is written can be read again, to the last digit written.
    void parsePosition_undoesFormat() {
        constexpr unsigned seed = 860;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> unit{-1.0, 1.0};
        for (int round = 0; round < 3000; ++round) {
            Position place{unit(random) * 180.0, unit(random) * 90.0};
            if (round % 6 == 0)
                place.lat = std::round(place.lat / 8.0) * 8.0 + 1e-7 * unit(random); // at a band's edge
            if (round % 5 == 0)
                place.lon = std::round(place.lon / 6.0) * 6.0 + 1e-7 * unit(random); // at a zone's edge
            if (round % 97 == 0)
                place.lon = 180.0;
            place.lat = std::clamp(place.lat, -90.0, 90.0);
            const struct {
                Notation notation;
                double metres;
            } cases[] = {{Notation::DecimalDegrees, 0.08},
                         {Notation::DegreesMinutesSeconds, 0.22},
                         {Notation::Utm, 0.72},
                         {Notation::Mgrs, 0.72}};
            for (const auto& [notation, metres] : cases) {
                const std::string text = geodesy::format(place, notation);
                const auto read = geodesy::tryParsePosition(text);
                QVERIFY2(read && metresApart(*read, place) <= metres,
                         qPrintable(QString{"seed %1 round %2: %3 for %4 %5"}
                                        .arg(seed)
                                        .arg(round)
                                        .arg(QString::fromStdString(text))
                                        .arg(place.lat, 0, 'g', 17)
                                        .arg(place.lon, 0, 'g', 17)));
                // On a grid, the centre of a square may lie beyond the edge of its zone.
                if (notation == Notation::DecimalDegrees || notation == Notation::DegreesMinutesSeconds)
                    QVERIFY2(geodesy::format(*read, notation) == text,
                             qPrintable(QString::fromStdString(text + " is written back as " +
                                                               geodesy::format(*read, notation))));
            }
        }
    }

    void fromUtm_undoesToUtm() {
        constexpr unsigned seed = 32;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> unit{0.0, 1.0};
        for (int round = 0; round < 2000; ++round) {
            const Position place{unit(random) * 720.0 - 360.0, unit(random) * 164.0 - 80.0};
            const Position back = geodesy::fromUtm(geodesy::toUtm(place));
            QVERIFY2(metresApart(place, back) < 1e-6, qPrintable(QString{"seed %1 round %2"}.arg(seed).arg(round)));
            QVERIFY(std::abs(back.lon) <= 180.0);
        }
    }
};

QTEST_APPLESS_MAIN(CoordinateNotationTest)
#include "coordinate_notation_test.moc"
