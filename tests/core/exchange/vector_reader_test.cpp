#include "exchange/vector_reader.h"

#include "geodesy/crs_transform.h"
#include "geodesy/edge_meaning.h"
#include "support/reading.h"

#include <QTemporaryDir>
#include <QtTest>

#include <algorithm>
#include <set>

using namespace fencewright;
using exchange::Feature;
using exchange::ReadNote;
using exchange::ReadRequest;
using exchange::VectorContent;
using support::dataPath;
using support::notesOf;
using support::read;

namespace {

QByteArray collection(const QByteArray& geometry) {
    return R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"Plot"},"geometry":)" +
           geometry + "}]}";
}

const model::Polygon& polygonOf(const VectorContent& content, std::size_t feature = 0, std::size_t part = 0) {
    return std::get<model::Polygon>(content.features.at(feature).parts.at(part));
}

std::vector<model::Position> sorted(std::vector<model::Position> corners) {
    std::sort(corners.begin(), corners.end(),
              [](model::Position a, model::Position b) { return a.lon != b.lon ? a.lon < b.lon : a.lat < b.lat; });
    return corners;
}

bool sameCorners(const std::vector<model::Position>& a, const std::vector<model::Position>& b) {
    // Windings and first corners differ from format to format; a coordinate in decimal text is the same number in each.
    const auto left = sorted(a);
    const auto right = sorted(b);
    return std::equal(left.begin(), left.end(), right.begin(), right.end(), [](model::Position p, model::Position q) {
        return std::abs(p.lon - q.lon) < 1e-12 && std::abs(p.lat - q.lat) < 1e-12;
    });
}

std::string attribute(const VectorContent& content, std::size_t feature, const std::string& field) {
    const auto at = std::find(content.fields.begin(), content.fields.end(), field);
    return at == content.fields.end()
               ? "no such field"
               : content.features.at(feature).attributes.at(static_cast<std::size_t>(at - content.fields.begin()));
}

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

} // namespace

class VectorReaderTest : public QObject {
    Q_OBJECT

private:
    QTemporaryDir m_folder;

    std::string file(const QString& name, const QByteArray& content) {
        return support::writtenFile(m_folder.path(), name, content);
    }

    template <class Call> std::string faultOf(Call call) {
        try {
            call();
        } catch (const Fault& fault) {
            return fault.what();
        }
        return "no fault";
    }

private slots:
    void readVector_readsTheSamePlotsFromEveryFormat_data() {
        QTest::addColumn<QString>("name");
        QTest::addColumn<QString>("crs");
        QTest::addColumn<QString>("nameField");
        for (const char* suffix : {"geojson", "gpkg", "shp", "fgb", "gml", "zip"})
            QTest::newRow(suffix) << QString{"plots.%1"}.arg(suffix) << QString{} << QString{"name"};
        QTest::newRow("csv") << "plots.csv"
                             << "EPSG:4326"
                             << "name";
        QTest::newRow("kml") << "plots.kml" << QString{} << "Name";
        QTest::newRow("kmz") << "plots.kmz" << QString{} << "Name";
        QTest::newRow("shapefile in ISO-8859-7") << "greek.shp" << QString{} << "name";
    }
    void readVector_readsTheSamePlotsFromEveryFormat() {
        QFETCH(QString, name);
        QFETCH(QString, crs);
        QFETCH(QString, nameField);
        const VectorContent content = read(dataPath("vector-formats/" + name.toStdString()), crs.toStdString());
        QCOMPARE(content.features.size(), 3U);
        QCOMPARE(content.featuresInFile, 3U);
        QCOMPARE(content.featuresLeftOut, 0U);
        QCOMPARE(content.crs, "WGS 84");
        // FlatGeobuf keeps its features in the order of a space-filling curve.
        const std::string key = "number";
        std::array<std::size_t, 3> order{};
        for (std::size_t i = 0; i < 3; ++i)
            for (std::size_t at = 0; at < 3; ++at)
                if (attribute(content, at, key) == "00" + std::to_string(i + 1))
                    order[i] = at;
        QCOMPARE(attribute(content, order[0], nameField.toStdString()), "Αγρός");
        QCOMPARE(attribute(content, order[1], nameField.toStdString()), "Νησιά");
        QCOMPARE(attribute(content, order[2], nameField.toStdString()), "");

        // plots.geojson, corner by corner.
        const model::Polygon& first = polygonOf(content, order[0]);
        QVERIFY(sameCorners(first.shell.corners, {{10, 50}, {10.01, 50}, {10.01, 50.01}, {10, 50.01}}));
        QCOMPARE(first.holes.size(), 1U);
        QVERIFY(sameCorners(first.holes[0].corners,
                            {{10.002, 50.002}, {10.002, 50.004}, {10.004, 50.004}, {10.004, 50.002}}));
        QVERIFY(!first.shell.closureAssumed);
        QCOMPARE(content.features[order[1]].parts.size(), 2U);
        QVERIFY(sameCorners(polygonOf(content, order[1], 0).shell.corners, {{11, 50}, {11.01, 50}, {11, 50.01}}));
        QVERIFY(sameCorners(polygonOf(content, order[1], 1).shell.corners, {{11.5, 50}, {11.51, 50}, {11.5, 50.01}}));
        QVERIFY(sameCorners(polygonOf(content, order[2]).shell.corners,
                            {{-12.125, 50.25}, {-12.0625, 50.25}, {-12.0625, 50.3125}}));
        QCOMPARE(content.extent, (geometry::Box{-12.125, 50.0, 11.51, 50.3125}));
    }

    void readVector_readsDrawings() {
        const VectorContent content = read(dataPath("vector-formats/plots.dxf"), "EPSG:4326");
        QCOMPARE(content.features.size(), 3U);
        QVERIFY(sameCorners(polygonOf(content).shell.corners, {{10, 50}, {10.01, 50}, {10.01, 50.01}, {10, 50.01}}));
        // The arc about 20 50: chords part from it by at most r (1 - cos 0.25 deg).
        const auto& arc = std::get<model::LineString>(content.features[2].parts[0]);
        QVERIFY(arc.size() > 100);
        for (std::size_t i = 1; i < arc.size(); ++i) {
            const double radius =
                std::hypot((arc[i].lon + arc[i - 1].lon) / 2 - 20, (arc[i].lat + arc[i - 1].lat) / 2 - 50);
            QVERIFY2(std::abs(radius - 0.01) <= 0.01 * 1e-5, qPrintable(QString::number(radius, 'g', 17)));
        }
        QVERIFY(has(notesOf(content), "half a degree"));
        QVERIFY_EXCEPTION_THROWN(read(dataPath("vector-formats/plots.dxf")), exchange::MissingCrs);
    }

    void readVector_passesWgs84Unchanged() {
        // Doubles that a transformation to radians and back would change in the last place.
        const VectorContent content = read(file(
            "exact.geojson", collection(R"({"type":"Point","coordinates":[-8.733936123456789,46.20884412345678]})")));
        QCOMPARE(std::get<model::Position>(content.features[0].parts[0]),
                 (model::Position{-8.733936123456789, 46.20884412345678}));
    }

    void readVector_asksForAMissingCrs() {
        const std::string path = file("easting.csv", "name,easting,northing\nNest,500000,5540000\n");
        QVERIFY_EXCEPTION_THROWN(read(path), exchange::MissingCrs);
        // EPSG:25832 has false easting 500000 on 9 E: the place is on that meridian.
        const VectorContent content = read(path, "EPSG:25832");
        QVERIFY(std::abs(std::get<model::Position>(content.features[0].parts[0]).lon - 9.0) < 1e-9);
        QCOMPARE(content.crs, "ETRS89 / UTM zone 32N");
    }

    void readVector_overridesTheFilesCrsOnlyWhenForced() {
        ReadRequest request;
        request.path = dataPath("vector-formats/plots.geojson");
        request.crs = "EPSG:3857";
        QCOMPARE(exchange::readVector(request, {}).crs, "WGS 84");
        request.forceCrs = true;
        const VectorContent forced = exchange::readVector(request, {});
        QCOMPARE(forced.crs, "WGS 84 / Pseudo-Mercator");
        QVERIFY(has(notesOf(forced), "as you said"));
        // 50 m north of the equator.
        QVERIFY(forced.extent.maxY < 0.001);
    }

    void readVector_refusesWhatIsNoCrs() {
        ReadRequest request;
        request.path = dataPath("vector-formats/plots.csv");
        request.crs = "EPSG:nonsense";
        request.forceCrs = true;
        QVERIFY(has(faultOf([&] { (void)exchange::readVector(request, {}); }), request.path));
    }

    void readVector_minds_latitudeFirst() {
        // OGC's urn for EPSG:4326 has latitude first (OGC 07-092r3, 7.2): plots.gml is written so, and read above. This
        // is a projected one whose authority says northing first: EPSG:3844 in a CSV comes easting first all the same.
        const VectorContent content = read(file("stereo.csv", "x,y\n500000,600000\n"), "EPSG:3844");
        // EPSG:3844 (Stereo 70): false origin 500000 500000 at 46 N 25 E, so that the place lies 100 km north
        // of it, but for the shift of its datum of some 100 m.
        const auto place = std::get<model::Position>(content.features[0].parts[0]);
        QVERIFY2(std::abs(place.lon - 25.0) < 0.01, qPrintable(QString::number(place.lon)));
        QVERIFY2(std::abs(place.lat - 46.9) < 0.01, qPrintable(QString::number(place.lat)));
    }

    void readVector_saysHowFarTheDatumMayBeOff() {
        // EPSG's "ED50 to WGS 84 (17)", of France and its waters: 2 m.
        const std::string path = file("datum.csv", "x,y\n500000,4600000\n");
        const std::string france = notesOf(read(path, "EPSG:23031"));
        QVERIFY2(has(france, "ED50 / UTM zone 31N to WGS 84 that this machine knows may be off by 2 m"),
                 france.c_str());
        // Far outside of where its datum is related to any other.
        const std::string arctic = notesOf(read(path, "EPSG:27700"));
        QVERIFY2(has(arctic, "does not know how the datum of OSGB36"), arctic.c_str());
        QVERIFY(!has(notesOf(read(path, "EPSG:32631")), "off by"));
    }

    void readVector_readsTables_data() {
        QTest::addColumn<QByteArray>("text");
        QTest::addColumn<QString>("crs");
        QTest::newRow("comma") << QByteArray{"name,lon,lat\nNest,10.5,50.25\n"} << "";
        QTest::newRow("semicolon, decimal comma") << QByteArray{"name;longitude;latitude\nNest;10,5;50,25\n"} << "";
        QTest::newRow("tab") << QByteArray{"name\tLon\tLat\nNest\t10.5\t50.25\n"} << "";
        QTest::newRow("byte order mark") << QByteArray{"\xef\xbb\xbflon,lat,name\n10.5,50.25,Nest\n"} << "";
        QTest::newRow("spaces around names") << QByteArray{"name, Lon , Lat \nNest, 10.5 , 50.25\n"} << "";
        QTest::newRow("degrees and minutes") << QByteArray{"name;lon;lat\nNest;10°30'E;50°15'N\n"} << "";
        QTest::newRow("quoted, line break in text")
            << QByteArray{"name,lon,lat\n\"Nest\nby the lake\",\"10.5\",\"50.25\"\n"} << "";
        QTest::newRow("x and y") << QByteArray{"name,x,y\nNest,10.5,50.25\n"} << "EPSG:4326";
        QTest::newRow("well-known text") << QByteArray{"name,wkt\nNest,POINT (10.5 50.25)\n"} << "EPSG:4326";
        QTest::newRow("web mercator, grouped")
            << QByteArray{"name;easting;northing\nNest;1.168.854,653;6.489.684,536\n"} << "EPSG:3857";
    }
    void readVector_readsTables() {
        QFETCH(QByteArray, text);
        QFETCH(QString, crs);
        const VectorContent content = read(file("table.csv", text), crs.toStdString());
        QVERIFY2(content.features.size() == 1, notesOf(content).c_str());
        const auto place = std::get<model::Position>(content.features[0].parts[0]);
        // Web Mercator of 10.5 50.25, by hand: x = R lon, y = R ln tan(45 + lat / 2), R = 6378137, to the millimetre.
        QVERIFY2(std::abs(place.lon - 10.5) < 1e-8 && std::abs(place.lat - 50.25) < 1e-8,
                 qPrintable(QString::number(place.lat, 'g', 17)));
        QVERIFY(attribute(content, 0, "name").starts_with("Nest"));
    }

    void readVector_saysThatTablesAreTakenForWgs84() {
        QVERIFY(has(notesOf(read(file("lonlat.csv", "lon,lat\n1,2\n"))), "taken to be WGS 84"));
    }

    void readVector_recodesText_data() {
        QTest::addColumn<QString>("name");
        QTest::addColumn<QByteArray>("text");
        QTest::addColumn<QString>("encoding");
        // ISO/IEC 8859-7: alpha is E1, beta E2; Windows-1252: e acute is E9, as in ISO-8859-1.
        QTest::newRow("table, named") << "a.csv" << QByteArray{"name,lon,lat\n\xe1\xe2,1,2\n"} << "ISO-8859-7";
        QTest::newRow("kml, named")
            << "a.kml"
            << QByteArray{"<?xml version=\"1.0\"?><kml "
                          "xmlns=\"http://www.opengis.net/kml/2.2\"><Placemark><name>\xe1\xe2</name>"
                          "<Point><coordinates>1,2</coordinates></Point></Placemark></kml>"}
            << "ISO-8859-7";
        QTest::newRow("kml, declared")
            << "a.kml"
            << QByteArray{"<?xml version=\"1.0\" encoding='ISO-8859-7'?><kml xmlns=\"http://www.opengis.net/kml/2.2\">"
                          "<Placemark><name>\xe1\xe2</name><Point><coordinates>1,2</coordinates></Point></Placemark></"
                          "kml>"}
            << "";
        QTest::newRow("geojson, named") << "a.geojson"
                                        << QByteArray{"{\"type\":\"Feature\",\"properties\":{\"name\":\"\xe1\xe2\"},"
                                                      "\"geometry\":{\"type\":\"Point\","
                                                      "\"coordinates\":[1,2]}}"}
                                        << "ISO-8859-7";
        QTest::newRow("utf-8") << "a.csv" << QByteArray{"name,lon,lat\nαβ,1,2\n"} << "";
    }
    void readVector_recodesText() {
        QFETCH(QString, name);
        QFETCH(QByteArray, text);
        QFETCH(QString, encoding);
        ReadRequest request;
        request.path = file(name, text);
        request.encoding = encoding.toStdString();
        const VectorContent content = exchange::readVector(request, {});
        const bool kml = name.endsWith("kml");
        QCOMPARE(attribute(content, 0, kml ? "Name" : "name"), "αβ");
    }

    void readVector_guessesLatin1AndSaysSo() {
        const VectorContent content = read(file("latin.csv", "name,lon,lat\ncaf\xe9,1,2\nth\xe9,1,2\n"));
        QCOMPARE(attribute(content, 0, "name"), "café");
        QCOMPARE(attribute(content, 1, "name"), "thé");
        QVERIFY(has(notesOf(content), "[record 1] text that is not UTF-8 is read as ISO-8859-1"));
    }

    void readVector_readsUtf16Xml() {
        const QString text = QStringLiteral(
            "<?xml version=\"1.0\" encoding=\"UTF-16\"?><kml xmlns=\"http://www.opengis.net/kml/2.2\"><Placemark>"
            "<name>αβ</name><Point><coordinates>1,2</coordinates></Point></Placemark></kml>");
        QByteArray bytes{"\xff\xfe", 2};
        bytes.append(reinterpret_cast<const char*>(text.utf16()), text.size() * 2);
        QCOMPARE(attribute(read(file("utf16.kml", bytes)), 0, "Name"), "αβ");
    }

    void readVector_keepsAttributesInFull() {
        const VectorContent content = read(file(
            "attributes.geojson",
            R"({"type":"Feature","properties":{"area":0.1234567890123456,"big":9007199254740993,)"
            R"("day":"2026-05-14","yes":true,"none":null,"code":"007"},"geometry":{"type":"Point","coordinates":[1,2]}})"));
        QCOMPARE(attribute(content, 0, "area"), "0.1234567890123456");
        QCOMPARE(attribute(content, 0, "big"), "9007199254740993");
        QCOMPARE(attribute(content, 0, "day"), "2026-05-14");
        QCOMPARE(attribute(content, 0, "yes"), "true");
        QCOMPARE(attribute(content, 0, "none"), "");
        QCOMPARE(attribute(content, 0, "code"), "007");
    }

    void readVector_takesEdgesTheShortWayRound() {
        const VectorContent content = read(
            file("antimeridian.geojson",
                 collection(R"({"type":"Polygon","coordinates":[[[179,10],[-179,10],[-179,11],[179,11],[179,10]]]})")));
        QCOMPARE(polygonOf(content).shell.corners,
                 (std::vector<model::Position>{{179, 10}, {181, 10}, {181, 11}, {179, 11}}));
        QVERIFY(has(notesOf(content), "the short way"));
        // The same written continuously needs no word.
        const VectorContent plain = read(
            file("continuous.geojson",
                 collection(R"({"type":"Polygon","coordinates":[[[179,10],[181,10],[181,11],[179,11],[179,10]]]})")));
        QCOMPARE(polygonOf(plain).shell.corners, polygonOf(content).shell.corners);
        QVERIFY(!has(notesOf(plain), "short way"));
    }

    void readVector_joinsWhatWasCutAtTheAntimeridian() {
        // As RFC 7946, 3.1.9, cuts.
        const VectorContent content = read(file(
            "cut.geojson",
            collection(
                R"({"type":"MultiPolygon","coordinates":[[[[179,10],[180,10],[180,11],[179,11],[179,10]]],[[[-180,10],[-179,10],[-179,11],[-180,11],[-180,10]]]]})")));
        QCOMPARE(polygonOf(content, 0, 1).shell.corners,
                 (std::vector<model::Position>{{180, 10}, {181, 10}, {181, 11}, {180, 11}}));
        QCOMPARE(content.extent, (geometry::Box{179, 10, 181, 11}));
    }

    void readVector_bringsAHoleToItsShell() {
        const VectorContent content = read(file(
            "hole.geojson",
            collection(
                R"({"type":"Polygon","coordinates":[[[179,10],[182,10],[182,11],[179,11],[179,10]],[[-179.5,10.2],[-179.5,10.4],[-179.2,10.4],[-179.5,10.2]]]})")));
        QCOMPARE(polygonOf(content).holes[0].corners,
                 (std::vector<model::Position>{{180.5, 10.2}, {180.5, 10.4}, {180.8, 10.4}}));
    }

    void readVector_keepsTheWholeGlobe() {
        const VectorContent content = read(file(
            "globe.geojson",
            collection(R"({"type":"Polygon","coordinates":[[[-180,-90],[180,-90],[180,90],[-180,90],[-180,-90]]]})")));
        QCOMPARE(polygonOf(content).shell.corners,
                 (std::vector<model::Position>{{-180, -90}, {180, -90}, {180, 90}, {-180, 90}}));
    }

    void readVector_bringsLonePointsIntoRange() {
        const VectorContent content =
            read(file("point.geojson", collection(R"({"type":"MultiPoint","coordinates":[[190,10],[-190,10]]})")));
        QCOMPARE(std::get<model::Position>(content.features[0].parts[0]), (model::Position{-170, 10}));
        QCOMPARE(std::get<model::Position>(content.features[0].parts[1]), (model::Position{170, 10}));
    }

    // An independent way back (PROJ, from WGS 84 into the plane of the source) must find every place of the lon/lat
    // edges on the straight edge of the source, to the millimetre that is promised and a little for the way back.
    void readVector_keepsStraightEdgesStraight_data() {
        QTest::addColumn<QString>("crs");
        QTest::addColumn<double>("west");
        QTest::addColumn<double>("south");
        QTest::addColumn<double>("reach");
        QTest::newRow("UTM 32N, short") << "EPSG:32632" << 300000.0 << 5500000.0 << 2000.0;
        QTest::newRow("UTM 32N, far from its meridian") << "EPSG:32632" << 1000000.0 << 7500000.0 << 100000.0;
        QTest::newRow("UTM 1N, over the antimeridian") << "EPSG:32601" << 100000.0 << 7000000.0 << 200000.0;
        QTest::newRow("Lambert 93") << "EPSG:2154" << 600000.0 << 6500000.0 << 300000.0;
        QTest::newRow("polar stereographic") << "EPSG:3995" << 1000000.0 << 1000000.0 << 200000.0;
    }
    void readVector_keepsStraightEdgesStraight() {
        QFETCH(QString, crs);
        QFETCH(double, west);
        QFETCH(double, south);
        QFETCH(double, reach);
        constexpr int kCases = 1000;
        constexpr unsigned kSeed = 20261125;
        std::mt19937 random{kSeed};
        std::uniform_real_distribution<double> share{0.0, 1.0};
        std::vector<std::array<geodesy::PlanePoint, 2>> edges;
        QByteArray text{"name;wkt\n"};
        for (int i = 0; i < kCases; ++i) {
            // Lengths over four orders of magnitude.
            const double length = reach * std::pow(10.0, -4.0 * share(random));
            const double angle = 6.3 * share(random);
            const geodesy::PlanePoint from{west + reach * share(random), south + reach * share(random)};
            const geodesy::PlanePoint to{from.x + length * std::cos(angle), from.y + length * std::sin(angle)};
            edges.push_back({from, to});
            text += QString{"e;LINESTRING (%1 %2,%3 %4)\n"}
                        .arg(from.x, 0, 'g', 17)
                        .arg(from.y, 0, 'g', 17)
                        .arg(to.x, 0, 'g', 17)
                        .arg(to.y, 0, 'g', 17)
                        .toUtf8();
        }
        const VectorContent content = read(file("edges.csv", text), crs.toStdString());
        QVERIFY2(content.features.size() == kCases, notesOf(content).c_str());
        const geodesy::CrsTransform back{crs.toStdString()};
        std::size_t added = 0;
        for (std::size_t i = 0; i < kCases; ++i) {
            const auto& line = std::get<model::LineString>(content.features[i].parts[0]);
            added += line.size() - 2;
            const auto [from, to] = edges[i];
            const double length = std::hypot(to.x - from.x, to.y - from.y);
            std::vector<model::Position> probes;
            for (std::size_t k = 1; k < line.size(); ++k) {
                QVERIFY(std::abs(line[k].lon - line[k - 1].lon) < 180.0);
                for (const double at : {0.0, 0.21, 0.5, 0.79, 1.0})
                    probes.push_back({line[k - 1].lon + at * (line[k].lon - line[k - 1].lon),
                                      line[k - 1].lat + at * (line[k].lat - line[k - 1].lat)});
            }
            for (const auto& seen : back.fromWgs84(probes)) {
                QVERIFY(seen.has_value());
                const double off =
                    std::abs((seen->x - from.x) * (to.y - from.y) - (seen->y - from.y) * (to.x - from.x)) / length;
                QVERIFY2(off <= 0.00102, qPrintable(QString{"seed %1, case %2: %3 m"}.arg(kSeed).arg(i).arg(off)));
            }
        }
        QVERIFY(added > 0);
        QVERIFY(has(notesOf(content), std::to_string(added) + " corners were added"));
    }

    void readVector_replacesArcsByChordsWithinTheirBound() {
        // A full circle about 10 50, radius 0.01 degrees: chords part from it by at most 1e-7 degrees.
        const VectorContent content =
            read(file("circle.csv", "name;wkt\nPond;CURVEPOLYGON(CIRCULARSTRING(10.01 50,9.99 50,10.01 50))\n"),
                 "EPSG:4326");
        const auto& corners = polygonOf(content).shell.corners;
        QVERIFY(corners.size() > 300);
        for (std::size_t i = 0; i < corners.size(); ++i) {
            const auto& a = corners[i];
            const auto& b = corners[(i + 1) % corners.size()];
            QVERIFY(std::abs(std::hypot(a.lon - 10, a.lat - 50) - 0.01) < 1e-9);
            const double middle = std::hypot((a.lon + b.lon) / 2 - 10, (a.lat + b.lat) / 2 - 50);
            QVERIFY2(0.01 - middle <= 1.0e-7, qPrintable(QString::number(0.01 - middle)));
        }
        QVERIFY(has(notesOf(content), "chords"));
    }

    void readVector_closesOpenRingsAndSaysSo() {
        const VectorContent content = read(dataPath("hostile/ring-left-open.geojson"));
        QVERIFY(polygonOf(content).shell.closureAssumed);
        QCOMPARE(polygonOf(content).shell.corners.size(), 4U);
        QVERIFY(has(notesOf(content), "[feature 1] a ring was not closed"));
    }

    void readVector_flattensCollectionsAndReadsHeights() {
        const VectorContent content = read(file(
            "collection.geojson",
            collection(
                R"({"type":"GeometryCollection","geometries":[{"type":"Point","coordinates":[1,2,30]},{"type":"LineString","coordinates":[[1,2,-5],[3,4,120]]},{"type":"GeometryCollection","geometries":[{"type":"Polygon","coordinates":[[[0,0],[1,0],[1,1],[0,0]]]}]}]})")));
        const Feature& feature = content.features.at(0);
        QCOMPARE(feature.parts.size(), 3U);
        QVERIFY(std::holds_alternative<model::Position>(feature.parts[0]));
        QVERIFY(std::holds_alternative<model::LineString>(feature.parts[1]));
        QVERIFY(std::holds_alternative<model::Polygon>(feature.parts[2]));
        QCOMPARE(feature.lowestZ, std::optional{-5.0});
        QCOMPARE(feature.highestZ, std::optional{120.0});
    }

    void readVector_countsWhatItLeavesOut() {
        QByteArray text{R"({"type":"FeatureCollection","features":[)"};
        for (int i = 0; i < 8; ++i)
            text += R"({"type":"Feature","properties":{},"geometry":null},)";
        text += R"({"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[1,2]}}]})";
        const VectorContent content = read(file("nulls.geojson", text));
        QCOMPARE(content.featuresInFile, 9U);
        QCOMPARE(content.featuresLeftOut, 8U);
        QCOMPARE(content.features.size(), 1U);
        QVERIFY(has(notesOf(content),
                    "[feature 1, feature 2, feature 3, feature 4, feature 5 and others] 8 features have no geometry"));
    }

    void readVector_keepsTheFirstNotesAndCountsTheRest() {
        QByteArray text{"lon,lat\n"};
        for (int i = 0; i < 500; ++i)
            text += "here,there\n";
        const VectorContent content = read(file("words.csv", text));
        QCOMPARE(content.notes.size(), 201U);
        // One note says that the table is taken for WGS 84: 199 of the 500 are told.
        QVERIFY(has(content.notes.back().words.english(), "301 more"));
        QCOMPARE(content.featuresLeftOut, 500U);
    }

    void readVector_filters() {
        ReadRequest request;
        request.path = dataPath("vector-formats/plots.gpkg");
        request.where = "number = '002'";
        const VectorContent content = exchange::readVector(request, {});
        QCOMPARE(content.features.size(), 1U);
        QCOMPARE(content.featuresInFile, 3U);
        QCOMPARE(content.featuresLeftOut, 2U);
        QVERIFY(has(notesOf(content), "2 features do not meet the filter"));
        request.where = "nonsense = = 1";
        QVERIFY(has(faultOf([&] { (void)exchange::readVector(request, {}); }), "nonsense = = 1"));
    }

    void readVector_leavesOutFaultyFeaturesUnderAFilterToo() {
        ReadRequest request;
        request.path = file(
            "filtered.geojson",
            R"({"type":"FeatureCollection","features":[)"
            R"({"type":"Feature","properties":{"k":1},"geometry":{"type":"Point","coordinates":[1,2]}},)"
            R"({"type":"Feature","properties":{"k":2},"geometry":{"type":"Polygon","coordinates":[[[0,0],[9,0],[9,9],[0,0]],[["a",1],[2,1],[2,2],["a",1]]]}},)"
            R"({"type":"Feature","properties":{"k":2},"geometry":{"type":"Point","coordinates":[3,4]}}]})");
        request.where = "k = 2";
        const VectorContent content = exchange::readVector(request, {});
        QCOMPARE(content.features.size(), 1U);
        QCOMPARE(std::get<model::Position>(content.features[0].parts[0]), (model::Position{3, 4}));
    }

    void readVector_keepsItsLimits() {
        ReadRequest request;
        request.path = dataPath("vector-formats/plots.gpkg");
        request.featureLimit = 2;
        QVERIFY(has(faultOf([&] { (void)exchange::readVector(request, {}); }), "more than 2 features"));
        request.featureLimit = 3;
        request.cornerLimit = 10;
        QVERIFY(has(faultOf([&] { (void)exchange::readVector(request, {}); }), "more than 10 corners"));
        request.cornerLimit = 22; // 5 + 5 + 4 + 4 + 4, the repeated ones counted
        QCOMPARE(exchange::readVector(request, {}).features.size(), 3U);
    }

    void readVector_cutsEndlessTexts() {
        const VectorContent content =
            read(file("long.csv", "name,lon,lat\n" + QByteArray{"é"}.repeated(100'000) + ",1,2\n"));
        QCOMPARE(attribute(content, 0, "name").size(), 64U * 1024U);
        QVERIFY(QString::fromStdString(attribute(content, 0, "name")).endsWith("é"));
        QVERIFY(has(notesOf(content), "is cut to 64 KiB"));
    }

    void readVector_choosesTheLayer() {
        ReadRequest request;
        request.path = dataPath("kml/Document-clean.kml");
        QVERIFY(has(notesOf(exchange::readVector(request, {})), "\"Downtown Virtual Tours\""));
        request.layer = "Downtown Virtual Tours";
        const VectorContent tours = exchange::readVector(request, {});
        QCOMPARE(tours.layer, request.layer);
        QCOMPARE(tours.features.size(), 5U);
        request.layer = "Uptown";
        QVERIFY(has(faultOf([&] { (void)exchange::readVector(request, {}); }), "Downtown Virtual Tours"));
    }

    void readVector_isCancelled() {
        ReadRequest request;
        request.path = dataPath("vector-formats/plots.gpkg");
        QVERIFY_EXCEPTION_THROWN(
            (void)exchange::readVector(request, Progress{[](double, std::string_view) { return false; }}), Cancelled);
    }

    void readVector_readsWhatAnotherKmlDriverAloneCanRead() {
        const VectorContent content = read(dataPath("hostile/track-without-when.kml"));
        QVERIFY(content.features.size() >= 1);
        QVERIFY(has(notesOf(content), "1 track is not read"));
    }

    void describeVector_listsLayersAndFields() {
        const auto package = exchange::describeVector(dataPath("vector-formats/plots.gpkg"));
        QCOMPARE(package.format, "GeoPackage");
        QCOMPARE(package.layers.size(), 1U);
        QCOMPARE(package.layers[0].name, "plots");
        QCOMPARE(package.layers[0].crs, "WGS 84");
        QCOMPARE(package.layers[0].fields, (std::vector<std::string>{"number", "name"}));
        QCOMPARE(package.layers[0].features, std::optional<std::size_t>{3});
        const auto shapes = exchange::describeVector(dataPath("vector-formats/plots.shp"));
        QCOMPARE(shapes.layers[0].geometry, "Polygon");
        const auto table = exchange::describeVector(file("described.csv", "name,lon,lat\nNest,1,2\n"));
        QCOMPARE(table.layers[0].geometry, "Point");
        QCOMPARE(table.layers[0].crs, "WGS 84");
        QCOMPARE(exchange::describeVector(dataPath("vector-formats/plots.dxf")).layers[0].crs, "");
        QCOMPARE(exchange::describeVector(dataPath("kml/Document-clean.kml")).layers.size(), 3U);
    }

    void vectorFormats_areNamedOnce() {
        std::set<std::string> suffixes;
        for (const auto& format : exchange::vectorFormats())
            for (const std::string& suffix : format.suffixes) {
                QVERIFY(suffix.starts_with("."));
                QVERIFY2(suffixes.insert(suffix).second, suffix.c_str());
            }
        for (const char* wanted : {".geojson", ".shp", ".gpkg", ".kml", ".kmz", ".gml", ".fgb", ".dxf", ".csv"})
            QVERIFY2(suffixes.contains(wanted), wanted);
    }
};

QTEST_APPLESS_MAIN(VectorReaderTest)
#include "vector_reader_test.moc"
