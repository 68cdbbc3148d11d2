// UTM and MGRS against the published examples of GeographicLib's GeoConvert manual, and against its classes.

#include "geodesy/coordinate_notation.h"
#include "geodesy/geodesic.h"

#include <GeographicLib/MGRS.hpp>
#include <GeographicLib/UTMUPS.hpp>

#include <QtTest>

#include <random>

using namespace fencewright;
using geodesy::Notation;
using model::Position;

namespace {

double metresApart(Position a, Position b) { return geodesy::inverse(a, b).length.inMetres(); }

QByteArray at(Position place, unsigned seed, int round) {
    return QString{"seed %1 round %2: %3 %4"}
        .arg(seed)
        .arg(round)
        .arg(place.lat, 0, 'g', 17)
        .arg(place.lon, 0, 'g', 17)
        .toUtf8();
}

/// Random places, many of them at the edges of zones and bands, where the exceptions are.
Position somewhere(std::mt19937_64& random, int round) {
    std::uniform_real_distribution<double> unit{-1.0, 1.0};
    Position place{180.0 * unit(random), 2.0 + 82.0 * unit(random)};
    if (round % 3 == 1) { // Norway and Svalbard
        place.lon = 21.0 + 25.0 * unit(random);
        place.lat = 70.0 + 14.0 * unit(random);
    }
    const double hair = 1e-9 * (1.0 + std::abs(unit(random))) * (unit(random) > 0 ? 1.0 : -1.0);
    if (round % 7 == 0)
        place.lat = std::round(place.lat / 8.0) * 8.0 + hair;
    if (round % 5 == 0)
        place.lon = std::round(place.lon / 3.0) * 3.0 + hair;
    place.lat = std::clamp(place.lat, -80.0, 84.0);
    return place;
}

} // namespace

class GridNotationTest : public QObject {
    Q_OBJECT

private slots:
    // GeographicLib 2.1.2, manual page of GeoConvert.
    void utm_matchesThePublishedExamples() {
        const geodesy::UtmPlace place = geodesy::toUtm({44.4, 33.3});
        QCOMPARE(place.zone, 38);
        QVERIFY(place.north);
        QVERIFY(std::abs(place.easting - 444140.54) <= 0.005);
        QVERIFY(std::abs(place.northing - 3684706.36) <= 0.005);
        QCOMPARE(geodesy::format({44.4, 33.3}, Notation::Utm), "38S 444141 3684706");

        const Position square = geodesy::parsePosition("38SMB4488"); // its centre
        QVERIFY(std::abs(square.lat - 33.33424) <= 0.5e-5 && std::abs(square.lon - 44.40363) <= 0.5e-5);
        QVERIFY(metresApart(square, geodesy::parsePosition("38n 444500 3688500")) < 1e-6);
        QVERIFY(metresApart(square, geodesy::parsePosition("33:20:03.25N 044:24:13.06E")) < 0.3);
        const std::string reference = geodesy::format(geodesy::parsePosition("E44d24 N33d20"), Notation::Mgrs);
        QCOMPARE(reference.substr(0, 8), "38S MB 4");
        QCOMPARE(QString::fromStdString(reference).section(' ', 2, 2).left(2), "44");
        QCOMPARE(QString::fromStdString(reference).section(' ', 3, 3).left(2), "88");
    }

    void fiveWaysOfWriting_areOnePlace() {
        // The same page: "33.3 44.4", "E44.4 N33.3", "33d18'N 44d24'E", "44d24 33d18N", "33:18 +44:24".
        for (const char* text : {"33.3 44.4", "E44.4 N33.3", "33d18'N 44d24'E", "44d24 33d18N", "33:18 +44:24"}) {
            const Position place = geodesy::parsePosition(text);
            QVERIFY2(std::abs(place.lon - 44.4) < 1e-12 && std::abs(place.lat - 33.3) < 1e-12, text);
        }
    }

    void zones_haveTheirExceptions() {
        // Recomputed with GeoConvert 2.1.2; the exceptions themselves: NGA.STND.0037.
        const geodesy::UtmPlace norway = geodesy::toUtm({5.0, 60.5});
        QCOMPARE(norway.zone, 32);
        QVERIFY(std::abs(norway.easting - 280356) <= 0.5 && std::abs(norway.northing - 6713774) <= 0.5);
        const geodesy::UtmPlace svalbard = geodesy::toUtm({20.0, 78.0});
        QCOMPARE(svalbard.zone, 33);
        QVERIFY(std::abs(svalbard.easting - 615915) <= 0.5 && std::abs(svalbard.northing - 8663320) <= 0.5);
    }

    void squareOf100Kilometres_isLargerOnTheGround() {
        // GeographicLib manual, Planimeter: MGRS square 18SWK.
        model::Ring ring;
        for (const auto& [easting, northing] : {std::pair{5e5, 4.4e6}, {6e5, 4.4e6}, {6e5, 4.5e6}, {5e5, 4.5e6}})
            ring.corners.push_back(geodesy::fromUtm({18, true, 'S', easting, northing}));
        const auto measured = geodesy::measure(ring, geodesy::EdgeMeaning::Geodesic);
        QVERIFY(std::abs(measured.perimeter.inMetres() - 400139.532959) <= 1e-5);
        QVERIFY(std::abs(measured.area.inSquareMetres() - 10007388597.2) <= 0.2);
        QVERIFY(metresApart(geodesy::parsePosition("18SWK"), geodesy::fromUtm({18, true, 'S', 550000, 4450000})) <
                1e-6);
    }

    void utm_matchesGeographicLib() {
        constexpr unsigned seed = 37;
        std::mt19937_64 random{seed};
        for (int round = 0; round < 1500; ++round) {
            const Position place = somewhere(random, round);
            int zone = 0;
            bool north = false;
            double x = 0;
            double y = 0;
            GeographicLib::UTMUPS::Forward(place.lat, place.lon, zone, north, x, y);
            const geodesy::UtmPlace ours = geodesy::toUtm(place);
            if (place.lat == 84.0) // GeographicLib gives 84 N itself to UPS
                continue;
            QVERIFY2(ours.zone == zone && ours.north == north, at(place, seed, round));
            QVERIFY2(std::hypot(ours.easting - x, ours.northing - y) < 1e-6, at(place, seed, round));
            double lat = 0;
            double lon = 0;
            GeographicLib::UTMUPS::Reverse(zone, north, x, y, lat, lon);
            QVERIFY2(metresApart(geodesy::fromUtm({zone, north, 'N', x, y}), {lon, lat}) < 1e-6,
                     at(place, seed, round));
        }
    }

    void utm_worksInTheNeighboursZone() {
        constexpr unsigned seed = 38;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> unit{-1.0, 1.0};
        for (int round = 0; round < 1000; ++round) {
            const int zone = 1 + static_cast<int>(59.0 * std::abs(unit(random)));
            const double x = 5e5 + 4e5 * unit(random);
            const double y = 9e6 * std::abs(unit(random));
            double lat = 0;
            double lon = 0;
            GeographicLib::UTMUPS::Reverse(zone, true, x, y, lat, lon);
            QVERIFY(metresApart(geodesy::fromUtm({zone, true, 'N', x, y}), {lon, lat}) < 1e-6);
        }
    }

    void mgrs_matchesGeographicLib() {
        constexpr unsigned seed = 39;
        std::mt19937_64 random{seed};
        int compared = 0;
        for (int round = 0; round < 1800; ++round) {
            const Position place = somewhere(random, round);
            if (place.lat >= 84.0)
                continue;
            int zone = 0;
            bool north = false;
            double x = 0;
            double y = 0;
            GeographicLib::UTMUPS::Forward(place.lat, place.lon, zone, north, x, y);
            // Truncation is a matter of luck within a nanometre of a whole metre.
            if (std::abs(x - std::round(x)) < 1e-6 || std::abs(y - std::round(y)) < 1e-6)
                continue;
            std::string theirs;
            GeographicLib::MGRS::Forward(zone, north, x, y, place.lat, 5, theirs);
            QString ours = QString::fromStdString(geodesy::format(place, Notation::Mgrs));
            ours.remove(' ');
            QVERIFY2(ours.toStdString() == theirs, at(place, seed, round) + ours.toUtf8() + " " + theirs.c_str());
            for (const int digits : {5, 4, 2, 0}) {
                std::string text;
                GeographicLib::MGRS::Forward(zone, north, x, y, place.lat, digits, text);
                int backZone = 0;
                bool backNorth = false;
                double backX = 0;
                double backY = 0;
                int precision = 0;
                GeographicLib::MGRS::Reverse(text, backZone, backNorth, backX, backY, precision);
                double lat = 0;
                double lon = 0;
                GeographicLib::UTMUPS::Reverse(backZone, backNorth, backX, backY, lat, lon);
                const auto read = geodesy::tryParsePosition(text);
                QVERIFY2(read && metresApart(*read, {lon, lat}) < 1e-6, at(place, seed, round) + text.c_str());
            }
            ++compared;
        }
        QVERIFY(compared > 1200);
    }

    // Every pair of letters: what one library takes, the other takes, and for the same square.
    void mgrsLetters_areTakenOrRefusedAsByGeographicLib() {
        int taken = 0;
        int refused = 0;
        for (const int zone : {1, 2, 3, 60})
            for (const char band : std::string{"CDKMNPSTVWX"})
                for (char column = 'A'; column <= 'Z'; ++column)
                    for (char row = 'A'; row <= 'Z'; ++row) {
                        const std::string text = (zone < 10 ? "0" : "") + std::to_string(zone) + band + column + row;
                        std::optional<Position> theirs;
                        try {
                            int theirZone = 0;
                            bool north = false;
                            double x = 0;
                            double y = 0;
                            int precision = 0;
                            GeographicLib::MGRS::Reverse(text, theirZone, north, x, y, precision);
                            Position place;
                            GeographicLib::UTMUPS::Reverse(theirZone, north, x, y, place.lat, place.lon);
                            theirs = place;
                        } catch (const GeographicLib::GeographicErr&) {
                        }
                        const auto ours = geodesy::tryParsePosition(text);
                        // It takes squares wholly beyond 80 S and 84 N too, where UTM has ended.
                        if (!ours && theirs && (theirs->lat < -80.0 || theirs->lat > 84.0))
                            continue;
                        QVERIFY2(ours.has_value() == theirs.has_value(), text.c_str());
                        if (ours)
                            QVERIFY2(metresApart(*ours, *theirs) < 1e-5, text.c_str());
                        ++(ours ? taken : refused);
                    }
        QVERIFY(taken > 500 && refused > 10000);
    }
};

QTEST_APPLESS_MAIN(GridNotationTest)
#include "grid_notation_test.moc"
