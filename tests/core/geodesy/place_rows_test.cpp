#include "geodesy/place_rows.h"

#include "fault.h"
#include "geodesy/coordinate_notation.h"

#include <QtTest>

#include <random>

using namespace fencewright;
using namespace fencewright::geodesy;
using model::LineString;
using model::Position;

namespace {

LineString places(const char* text, std::optional<AxisOrder> order = {}) {
    return placesOf(readPlaceRows(text), order);
}

} // namespace

class PlaceRowsTest : public QObject {
    Q_OBJECT

private slots:
    void lettered_areReadInAnyNotation_whereverTheyStand_data() {
        QTest::addColumn<QString>("row");
        QTest::newRow("one cell") << "46.25° N 8.5° W";
        QTest::newRow("as this program copies rows") << "Outline\t1\t46.25° N 8.5° W\t120.000 m\t45.0000°";
        QTest::newRow("a hole of ours") << "Hole 1\t12\t46.25° N 8.5° W\t120.000 m\t45.0000°";
        QTest::newRow("two cells, tabs") << "46.25N\t8.5W";
        QTest::newRow("two cells, the longitude first") << "8.5W\t46.25N";
        QTest::newRow("two cells, semicolons") << "A 1;46°15'00\"N;8°30'00\"W;corner stone";
        QTest::newRow("two cells, commas") << "17, N46.25, W8.5";
        QTest::newRow("quoted") << "\"46.25N, 8.5W\",\"the \"\"old\"\" stone\"";
        QTest::newRow("quoted seconds") << "\"46°15'0\"\"N\";\"8°30'0\"\"W\"";
        QTest::newRow("decimal commas between semicolons") << "46,25 N; 8,5 W";
    }
    void lettered_areReadInAnyNotation_whereverTheyStand() {
        QFETCH(QString, row);
        const LineString read = places(row.toUtf8());
        QCOMPARE(read.size(), std::size_t{1});
        QVERIFY((read[0] == Position{-8.5, 46.25}));
    }

    void grids_areReadInOneCell_orSeveral() {
        const Position utm = parsePosition("29T 520533 5117466"), mgrs = parsePosition("29TNM2053317466");
        QVERIFY((places("1\t29T\t520533\t5117466\n2\t29T 520533 5117466") == LineString{utm, utm}));
        QVERIFY((places("29T,NM,20533,17466\n29TNM2053317466") == LineString{mgrs, mgrs}));
    }

    void barePairs_areAmbiguous_untilTheirOrderIsSaid() {
        const PlaceRows rows = readPlaceRows("46.25\t-8.5\n46.5\t-8.75\n");
        QVERIFY(rows.hasBarePairs());
        QVERIFY(!rows.order);
        QVERIFY_EXCEPTION_THROWN((void)placesOf(rows, {}), Fault);
        QVERIFY((placesOf(rows, AxisOrder::LatitudeFirst) == LineString{{-8.5, 46.25}, {-8.75, 46.5}}));
        QVERIFY((placesOf(rows, AxisOrder::LongitudeFirst) == LineString{{46.25, -8.5}, {46.5, -8.75}}));
    }

    void barePairs_areReadFromAllTables_data() {
        QTest::addColumn<QString>("row");
        QTest::newRow("commas") << "46.25,-8.5";
        QTest::newRow("comma and gap") << "46.25, -8.5";
        QTest::newRow("a gap") << "46.25 -8.5";
        QTest::newRow("decimal commas and a gap") << "46,25 -8,5";
        QTest::newRow("decimal commas and a semicolon") << "46,25;-8,5";
        QTest::newRow("decimal commas and a tab") << "46,25\t−8,5";
        QTest::newRow("signs and degrees") << "+46.25°\t-8.5°";
        QTest::newRow("beside a name") << "corner stone\t46.25\t-8.5";
        QTest::newRow("in one of several cells") << "corner stone\t46.25 -8.5";
    }
    void barePairs_areReadFromAllTables() {
        QFETCH(QString, row);
        QVERIFY((places(row.toUtf8(), AxisOrder::LatitudeFirst) == LineString{{-8.5, 46.25}}));
    }

    void order_isKnown_whereANumberIsBeyond90() {
        const PlaceRows rows = readPlaceRows("46.25,8\n46.5,122.5\n");
        QCOMPARE(rows.order, std::optional{AxisOrder::LatitudeFirst});
        QCOMPARE(readPlaceRows("-122.5,46.5").order, std::optional{AxisOrder::LongitudeFirst});
        QVERIFY_EXCEPTION_THROWN((void)placesOf(rows, AxisOrder::LongitudeFirst), Fault);
    }

    void heading_saysWhichColumnIsWhich() {
        const LineString expected{{-8.5, 46.25}};
        QVERIFY(places("name,lon,lat,height\nP1,-8.5,46.25,312.4") == expected);
        QVERIFY(places("Latitude (WGS 84)\tLongitude (WGS 84)\n46.25\t-8.5") == expected);
        QVERIFY(places("Breite;Länge\n46,25;-8,5") == expected);
        QVERIFY(places("y;x\n46.25;-8.5") == expected);
        QVERIFY(places("lat,lon\n46°15'N,8°30'W") == expected);
        // A heading that does not say it says nothing.
        QVERIFY(readPlaceRows("first,second\n46.25,-8.5").hasBarePairs());
        QVERIFY_EXCEPTION_THROWN((void)places("lon,lat\n46.25"), Fault);
    }

    void badRows_areNamed_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<QString>("row");
        QTest::newRow("no place") << "46.25 N 8.5 W\nnorth of the mill\n"
                                  << "row 2";
        QTest::newRow("empty rows count") << "46.25 N 8.5 W\n\n\nnone\n"
                                          << "row 4";
        QTest::newRow("three numbers") << "1\t46.25\t-8.5"
                                       << "row 1";
        QTest::newRow("one number") << "46.25"
                                    << "row 1";
        QTest::newRow("two places") << "46.25 N 8.5 W\t46.5 N 8.5 W"
                                    << "row 1";
        QTest::newRow("both orders") << "46.25,122.5\n46.25,122.5\n122.5,46.25"
                                     << "row 3";
        QTest::newRow("both beyond 90") << "122.5,122.5"
                                        << "row 1";
        QTest::newRow("metres without a zone") << "x,y\n520533,46"
                                               << "row 2";
        QTest::newRow("a latitude of 91") << "lon,lat\n8,91"
                                          << "row 2";
    }
    void badRows_areNamed() {
        QFETCH(QString, text);
        QFETCH(QString, row);
        try {
            (void)places(text.toUtf8(), AxisOrder::LatitudeFirst);
            QFAIL("was read");
        } catch (const Fault& fault) {
            QVERIFY2(QString{fault.what()}.contains(row + " of the pasted text"), fault.what());
        }
    }

    void nothing_isRefused() {
        QVERIFY_EXCEPTION_THROWN((void)readPlaceRows(""), Fault);
        QVERIFY_EXCEPTION_THROWN((void)readPlaceRows("lon,lat\n\n"), Fault);
    }

    void whatIsWrittenFinely_comesBackExactly() {
        std::mt19937 random{3};
        std::uniform_real_distribution<double> lon{-180.0, 180.0}, lat{-90.0, 90.0};
        LineString written;
        std::string text = "Ring\tCorner\tPlace\r\n";
        for (int i = 0; i < 2000; ++i) {
            written.push_back({lon(random), lat(random)});
            text += "Outline\t" + std::to_string(i + 1) + "\t" +
                    formatFinely(written.back(), Notation::DecimalDegrees) + "\r\n";
        }
        QVERIFY(placesOf(readPlaceRows(text), {}) == written);
    }

    void reading_tellsHowFarItIs_andCanBeStopped() {
        std::string text;
        for (int i = 0; i < 2000; ++i)
            text += "46.2 N 8.7 W\n";
        std::vector<double> told;
        const Progress listening{[&](double fraction, std::string_view) {
            told.push_back(fraction);
            return true;
        }};
        QCOMPARE(readPlaceRows(text, listening).rows.size(), std::size_t{2000});
        QCOMPARE(told.size(), std::size_t{7});
        QVERIFY(std::is_sorted(told.begin(), told.end()));
        QVERIFY(told.front() > 0.1 && told.back() < 0.95);
        QVERIFY_EXCEPTION_THROWN(
            (void)readPlaceRows(text, Progress{[](double fraction, std::string_view) { return fraction < 0.5; }}),
            Cancelled);
    }

    void anyText_isReadOrRefused_andNothingElse() {
        const std::string_view letters = "0123456789.,;\t\n -+NSEW\"°'TLM";
        for (unsigned seed = 0; seed < 5000; ++seed) {
            std::mt19937 random{seed};
            std::string text;
            for (int i = std::uniform_int_distribution{0, 60}(random); i > 0; --i)
                text += letters[std::uniform_int_distribution<std::size_t>{0, letters.size() - 1}(random)];
            try {
                for (const Position& place : placesOf(readPlaceRows(text), AxisOrder::LongitudeFirst))
                    QVERIFY2(std::abs(place.lat) <= 90.0 && std::abs(place.lon) <= 360.0, text.c_str());
            } catch (const Fault&) {
            }
        }
    }
};

QTEST_GUILESS_MAIN(PlaceRowsTest)
#include "place_rows_test.moc"
