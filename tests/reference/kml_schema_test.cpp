// Our KML against the OGC KML 2.2 schema (ogckml22.xsd, by xmllint) and the abstract test suite of OGC 07-134r2, whose
// rules the schema cannot say. In brackets, the number of the abstract test case.

#include "exchange/delivery.h"
#include "geodesy/vertical_reference.h"
#include "support/delivered_file.h"
#include "support/delivery_sets.h"

#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/GeodesicLine.hpp>

#include <QXmlStreamReader>
#include <QtTest>

#include <algorithm>
#include <cmath>

using namespace fencewright;

namespace {

QByteArray contentOf(const QString& path) {
    QFile file{path};
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray{};
}

/// What the schema has against the file; empty: nothing. The network stays shut: a catalog leads to the local files.
QString schemaFaults(const QString& path) {
    const QString data = FENCEWRIGHT_TEST_DATA "/kml";
    QProcess xmllint;
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    environment.insert("XML_CATALOG_FILES", data + "/catalog.xml");
    xmllint.setProcessEnvironment(environment);
    xmllint.setProcessChannelMode(QProcess::MergedChannels);
    xmllint.start("xmllint", {"--nonet", "--noout", "--schema", data + "/xsd/ogckml22.xsd", path});
    if (!xmllint.waitForFinished(60'000) || xmllint.exitStatus() != QProcess::NormalExit)
        return "xmllint did not run: " + xmllint.errorString();
    return xmllint.exitCode() == 0 ? QString{} : QString::fromUtf8(xmllint.readAll());
}

/// The rules of the abstract test suite that concern what we write.
class AbstractTests {
public:
    static QStringList faultsOf(const QByteArray& text) {
        AbstractTests tests{text};
        tests.run();
        return tests.m_faults;
    }

private:
    explicit AbstractTests(const QByteArray& text) : m_xml{text} {}

    void fault(const QString& words) { m_faults.append(QString{"line %1: "}.arg(m_xml.lineNumber()) + words); }

    void run() {
        if (!m_xml.readNextStartElement() || m_xml.name() != u"kml" ||
            m_xml.namespaceUri() != u"http://www.opengis.net/kml/2.2")
            fault("[1] the root is not kml of 2.2");
        m_path = {"", m_xml.name().toString()};
        while (!m_xml.atEnd()) {
            const auto token = m_xml.readNext();
            if (token == QXmlStreamReader::StartElement)
                start();
            else if (token == QXmlStreamReader::EndElement)
                end();
        }
        if (m_xml.hasError())
            fault(m_xml.errorString());
    }

    void start() {
        const QString name = m_xml.name().toString();
        m_path.append(name);
        if (QStringList{"Point", "LineString", "Polygon"}.contains(name)) {
            m_extruded = m_tessellated = false;
            m_mode = "clampToGround";
            m_outer = 0;
        }
        m_text.clear();
        if (QStringList{"extrude", "tessellate", "altitudeMode", "coordinates"}.contains(name)) {
            m_text = m_xml.readElementText();
            m_path.removeLast();
            value(name);
        }
    }

    void value(const QString& name) {
        if (name == "extrude")
            m_extruded = m_text == "1";
        else if (name == "tessellate")
            m_tessellated = m_text == "1";
        else if (name == "altitudeMode")
            m_mode = m_text;
        else
            coordinates();
        if (name != "coordinates" && m_path.last() == "LinearRing" && m_path[m_path.size() - 2].endsWith("BoundaryIs"))
            fault("[12, 13] " + name + " on a ring inside a polygon");
    }

    void coordinates() {
        const QStringList tuples = m_text.split(QRegularExpression{"\\s+"}, Qt::SkipEmptyParts);
        for (const QString& tuple : tuples) {
            const QStringList numbers = tuple.split(',');
            bool good = numbers.size() == 2 || numbers.size() == 3;
            for (const QString& number : numbers) {
                bool isNumber = false;
                number.toDouble(&isNumber);
                good &= isNumber;
            }
            // KML 2.2, 16.9 (kml:coordinatesType): longitude within 180, latitude within 90 degrees.
            if (!good || std::abs(numbers[0].toDouble()) > 180 || std::abs(numbers[1].toDouble()) > 90)
                fault("a bad tuple: " + tuple);
            if (good && m_mode != "clampToGround" && numbers.size() != 3)
                fault("an altitude mode without altitude: " + tuple);
        }
        const QString& geometry = m_path.last();
        if (geometry == "Point" && tuples.size() != 1)
            fault("[14] a point of other than one tuple");
        if (geometry == "LineString" && tuples.size() < 2)
            fault("[15] a line of fewer than two tuples");
        if (geometry == "LinearRing" && (tuples.size() < 4 || tuples.first() != tuples.last()))
            fault("[16] a ring of fewer than four tuples, or not closed");
        if (geometry == "LinearRing" && m_path[m_path.size() - 2] == "outerBoundaryIs")
            ++m_outer;
    }

    void end() {
        const QString name = m_path.takeLast();
        if (name == "Polygon" && m_outer != 1)
            fault("[17] a polygon without exactly one outer boundary");
        if (QStringList{"Point", "LineString", "Polygon"}.contains(name)) {
            if (m_extruded && m_mode == "clampToGround")
                fault("[12] extruded and clamped to the ground");
            if (m_tessellated && m_mode != "clampToGround")
                fault("[13] tessellated and not clamped to the ground");
        }
    }

    QXmlStreamReader m_xml;
    QStringList m_path;
    QString m_text;
    QString m_mode;
    bool m_extruded = false;
    bool m_tessellated = false;
    int m_outer = 0;
    QStringList m_faults;
};

exchange::DeliveryOptions kmlOptions(int decimals = 7) {
    exchange::DeliveryOptions options;
    options.format = exchange::DeliveryFormat::Kml;
    options.decimals = decimals;
    return options;
}

} // namespace

class KmlSchemaTest : public QObject {
    Q_OBJECT

private slots:
    // Samples of OGC's own suite (tests/data/kml): the schema takes all three, the abstract tests only the first.
    void checkers_knowGoodFromBad() {
        const QString data = FENCEWRIGHT_TEST_DATA "/kml/";
        QCOMPARE(schemaFaults(data + "Document-clean.kml"), QString{});
        const QStringList faults = AbstractTests::faultsOf(contentOf(data + "Document-clean.kml"));
        QVERIFY2(faults.isEmpty(), qPrintable(faults.join("; ")));
        for (const char* sample : {"LinearRingWith1DTuple.kml", "LinearRingWithInvalidLat.kml"}) {
            QCOMPARE(schemaFaults(data + sample), QString{});
            QVERIFY(AbstractTests::faultsOf(contentOf(data + sample)).join("; ").contains("a bad tuple"));
        }
        QTemporaryDir folder;
        QFile wrong{folder.filePath("wrong.kml")};
        QVERIFY(wrong.open(QIODevice::WriteOnly));
        wrong.write("<kml xmlns=\"http://www.opengis.net/kml/2.2\"><Placemark><colour>ff</colour></Placemark></kml>");
        wrong.close();
        QVERIFY(schemaFaults(wrong.fileName()).contains("colour"));
    }

    void deliveries_areValid_data() {
        QTest::addColumn<int>("seed");
        QTest::newRow("every kind of thing") << 0;
        for (int seed = 1; seed <= 12; ++seed)
            QTest::addRow("random %d", seed) << seed;
    }
    void deliveries_areValid() {
        QFETCH(int, seed);
        QTemporaryDir folder;
        const QString path = folder.filePath("out.kml");
        std::mt19937 random{static_cast<unsigned>(seed)};
        const auto set = seed == 0 ? support::deliverySet() : support::randomFenceSet(random);
        QVERIFY(exchange::deliver(set, path.toStdString(), kmlOptions(), {}).confirmed);
        QCOMPARE(schemaFaults(path), QString{});
        const QStringList faults = AbstractTests::faultsOf(contentOf(path));
        QVERIFY2(faults.isEmpty(), qPrintable(faults.join("; ")));
    }

    // KML 2.2: absolute altitudes are above mean sea level by EGM96, relative ones above ground; OGC 07-147r2, 9.20
    // (cited from memory). Expected modes follow from the band of each fence.
    void altitudes_followTheBand_data() {
        QTest::addColumn<QString>("fence");
        QTest::addColumn<QString>("mode");
        QTest::addColumn<bool>("extruded");
        QTest::newRow("keep-in to a height above ground") << "Utility land"
                                                          << "relativeToGround" << true;
        QTest::newRow("keep-in with a floor: a lid") << "Meadows"
                                                     << "absolute" << false;
        QTest::newRow("keep-out without ceiling") << "Protected area 1"
                                                  << "clampToGround" << false;
        QTest::newRow("keep-out to a height above the sea") << "School grounds"
                                                            << "absolute" << true;
        QTest::newRow("keep-out to a height above ground") << "Road strip"
                                                           << "relativeToGround" << true;
        QTest::newRow("keep-out to a height above the ellipsoid") << "Chlorine store"
                                                                  << "absolute" << true;
    }
    void altitudes_followTheBand() {
        QFETCH(QString, fence);
        QFETCH(QString, mode);
        QFETCH(bool, extruded);
        QTemporaryDir folder;
        const QString path = folder.filePath("out.kml");
        (void)exchange::deliver(support::deliverySet(), path.toStdString(), kmlOptions(), {});
        const auto fences = support::fencesOfKml(contentOf(path));
        const auto at = std::find_if(fences.begin(), fences.end(), [&](const auto& each) {
            return each.properties.at("name") == fence.toStdString();
        });
        QVERIFY(at != fences.end());
        QCOMPARE(QString::fromStdString(at->altitudeMode), mode);
        QCOMPARE(at->extruded, extruded);
        QCOMPARE(at->altitudes.empty(), mode == "clampToGround");
    }

    // EGM96 at 50 N 8 E lies about 48 m above the ellipsoid (the published 15-minute grid, read by geoidSeparation and
    // tested there against published values): so much lower must an ellipsoidal ceiling read above the sea.
    void ellipsoidalCeilings_becomeSeaLevelOnesToTheSafeSide() {
        QTemporaryDir folder;
        const QString path = folder.filePath("out.kml");
        const auto set = support::deliverySet();
        (void)exchange::deliver(set, path.toStdString(), kmlOptions(), {});
        int seen = 0;
        for (const auto& fence : support::fencesOfKml(contentOf(path))) {
            const std::string& name = fence.properties.at("name");
            if (name != "Meadows" && name != "Chlorine store")
                continue;
            const bool keepIn = fence.properties.at("kind") == "keep-in";
            const double ceiling = keepIn ? 400 : 350.123;
            QCOMPARE(QString::fromStdString(fence.properties.at("ceiling")).toDouble(), ceiling);
            std::size_t corner = 0;
            for (const model::Polygon& part : fence.surface.parts) {
                for (const model::Position place : part.shell.corners) {
                    const double exact = ceiling - geodesy::geoidSeparation(place).inMetres();
                    const double drawn = fence.altitudes.at(corner++);
                    QVERIFY(keepIn ? drawn <= exact : drawn >= exact);
                    QVERIFY(std::abs(drawn - exact) < 0.5); // the separation hardly changes over a kilometre
                    QVERIFY(std::abs(ceiling - drawn - 48) < 1);
                }
                ++corner; // the repeated one
            }
            ++seen;
        }
        QCOMPARE(seen, 2);
    }

    // Readers draw long edges as geodesics (the design's bound is 0.1 m); GeographicLib's are the reference. Between
    // the ends, a lon/lat edge and the geodesic part most about the middle.
    void edges_partFromGeodesicsByAtMostATenthOfAMetre() {
        model::FenceSet set;
        model::Fence county;
        county.id = model::freshId<model::Fence>();
        county.name = "County";
        county.kind = model::FenceKind::KeepIn;
        county.shape = model::DrawnPolygon{{{{{8, 60}, {9, 60.1}, {9.1, 60.4}, {8, 60.3}}}, {}}};
        set.fences.append(county);
        QTemporaryDir folder;
        const QString path = folder.filePath("out.kml");
        (void)exchange::deliver(set, path.toStdString(), kmlOptions(), {});
        const auto fences = support::fencesOfKml(contentOf(path));
        const auto& corners = fences.at(0).surface.parts.at(0).shell.corners;
        QVERIFY(corners.size() > 20);
        const GeographicLib::Geodesic& earth = GeographicLib::Geodesic::WGS84();
        double largest = 0;
        for (std::size_t i = 0; i < corners.size(); ++i) {
            const model::Position a = corners[i], b = corners[(i + 1) % corners.size()];
            const auto line = earth.InverseLine(a.lat, a.lon, b.lat, b.lon);
            double lat = 0, lon = 0, metres = 0;
            line.Position(line.Distance() / 2, lat, lon);
            // The nearest place of the edge is no farther than that at the same longitude or at the same latitude.
            const double atLongitude = a.lat + (b.lat - a.lat) * (lon - a.lon) / (b.lon - a.lon);
            earth.Inverse(lat, lon, atLongitude, lon, metres);
            if (std::abs(b.lat - a.lat) > std::abs(b.lon - a.lon))
                earth.Inverse(lat, lon, lat, a.lon + (b.lon - a.lon) * (lat - a.lat) / (b.lat - a.lat), metres);
            largest = std::max(largest, metres);
        }
        QVERIFY2(largest <= 0.105 && largest > 0.03, qPrintable(QString::number(largest)));
    }

    // aabbggrr (KML 2.2, kml:colorType); the colours are the design's 0B4F9E and A8116F.
    void colours_areOurs() {
        QTemporaryDir folder;
        const QString path = folder.filePath("out.kml");
        (void)exchange::deliver(support::deliverySet(), path.toStdString(), kmlOptions(), {});
        const QByteArray text = contentOf(path);
        QVERIFY(text.contains("<Style id=\"keep-in\"><LineStyle><color>ff9e4f0b</color>"));
        QVERIFY(text.contains("<Style id=\"keep-out\"><LineStyle><color>ff6f11a8</color>"));
        QVERIFY(!text.contains("href"));
    }
};

QTEST_GUILESS_MAIN(KmlSchemaTest)
#include "kml_schema_test.moc"
