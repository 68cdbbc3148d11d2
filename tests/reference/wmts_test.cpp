// Web Map Tile Services against the OGC's schema (OGC 07-057r7, wmtsGetCapabilities_response.xsd, by xmllint), and
// against what an independent server, MapProxy 1.15.1, says of itself: see data/wmts/SOURCE.md.

#include "raster/dataset.h"
#include "raster/tile_server.h"
#include "support/loopback_server.h"
#include "support/made_raster.h"
#include "support/wmts_service.h"

#include <GeographicLib/TransverseMercator.hpp>

#include <QtTest>

#include <cmath>

using namespace fencewright;
using test::LoopbackServer;
using test::WmtsService;

namespace {

const QString kData = FENCEWRIGHT_TEST_DATA "/wmts";

/// What the schema has against the document; empty: nothing.
QString schemaFaults(const std::string& xml) {
    QTemporaryFile file;
    if (!file.open() || file.write(xml.data(), qint64(xml.size())) != qint64(xml.size()) || !file.flush())
        return "the document could not be written";
    QProcess xmllint;
    xmllint.setProcessChannelMode(QProcess::MergedChannels);
    xmllint.start("xmllint", {"--nonet", "--noout", "--schema",
                              kData + "/xsd/wmts/1.0/wmtsGetCapabilities_response.xsd", file.fileName()});
    if (!xmllint.waitForFinished(60'000) || xmllint.exitStatus() != QProcess::NormalExit)
        return "xmllint did not run: " + xmllint.errorString();
    return xmllint.exitCode() == 0 ? QString{} : QString::fromUtf8(xmllint.readAll());
}

std::string published(const char* name) {
    QFile file{kData + "/" + name};
    return file.open(QIODevice::ReadOnly) ? file.readAll().toStdString() : std::string{};
}

} // namespace

class WmtsTest : public QObject {
    Q_OBJECT

private slots:
    // The services that the tests of reading speak to are such as the schema allows: what is read from them may come.
    void servicesOfTheTests_areAsTheSchemaSays_data() {
        QTest::addColumn<bool>("restful");
        QTest::addColumn<QByteArray>("key");
        QTest::newRow("by key and value") << false << QByteArray{};
        QTest::newRow("with a key of its own") << false << QByteArray{"token=abc"};
        QTest::newRow("RESTful") << true << QByteArray{};
    }
    void servicesOfTheTests_areAsTheSchemaSays() {
        QFETCH(bool, restful);
        QFETCH(QByteArray, key);
        WmtsService service;
        service.encoding = restful ? WmtsService::Encoding::Restful : WmtsService::Encoding::KeyValue;
        service.keyParameter = key.toStdString();
        const std::string xml = test::capabilitiesOf("http://localhost", service);
        QCOMPARE(schemaFaults(xml), QString{});
        // It does look: what the schema does not know is a fault.
        std::string wrong = xml;
        wrong.replace(wrong.find("<Contents>"), 10, "<Contents><Fence/>");
        QVERIFY(schemaFaults(wrong).contains("Fence"));
    }

    void capabilitiesOfAnotherServer_areUnderstood_data() {
        QTest::addColumn<QByteArray>("document");
        QTest::addColumn<QString>("tile"); // of the grid utm32, as that server's own address of it goes
        QTest::newRow("RESTful") << QByteArray{"restful.xml"} << "/wmts/ortho/utm32/11/3/5.png";
        QTest::newRow("by key and value")
            << QByteArray{"key-value.xml"}
            << "/service TILEMATRIXSET=utm32 TILEMATRIX=11 TILECOL=3 TILEROW=5 LAYER=ortho STYLE=default";
    }
    void capabilitiesOfAnotherServer_areUnderstood() {
        QFETCH(QByteArray, document);
        QFETCH(QString, tile);
        const std::string xml = published(document);
        QCOMPARE(schemaFaults(xml), QString{});
        std::string own;
        QMutex mutex;
        QStringList tiles;
        const LoopbackServer server{[&](const LoopbackServer::Request& request) {
            LoopbackServer::Answer answer;
            const auto value = [&](const char* name) {
                const auto at = request.query.find(name);
                return at == request.query.end() ? QString{} : QString::fromStdString(at->second);
            };
            if (request.path == "/capabilities.xml" || value("REQUEST") == "GetCapabilities") {
                answer.type = "application/xml";
                answer.body =
                    QString::fromStdString(xml).replace("http://localhost", QString::fromStdString(own)).toStdString();
                return answer;
            }
            QString asked = QString::fromStdString(request.path);
            for (const char* name : {"TILEMATRIXSET", "TILEMATRIX", "TILECOL", "TILEROW", "LAYER", "STYLE"})
                if (!value(name).isEmpty())
                    asked += QString{" %1=%2"}.arg(name, value(name));
            const QMutexLocker lock{&mutex};
            tiles << asked;
            answer.body = test::tilePng(11, 3, 5);
            return answer;
        }};
        own = server.address();
        const auto access = std::make_shared<raster::ServerAccess>();
        access->allow(own);
        const auto found = raster::describeServer(own + "/capabilities.xml", *access);
        QCOMPARE(found.title, std::string{"Imagery of Alder Reach"});
        QCOMPARE(found.layers.size(), std::size_t{1});
        const auto& layer = found.layers[0];
        QCOMPARE(layer.title, std::string{"Orthophoto 2026"});
        QVERIFY2(layer.reason.english().empty(), layer.reason.english().c_str());
        QStringList grids;
        for (const auto& grid : layer.grids)
            grids << QString::fromStdString(grid.name);
        QCOMPARE(grids, (QStringList{"GLOBAL_WEBMERCATOR", "utm32"}));

        // Twelve levels from one tile of 256 km in UTM zone 32, as mapproxy.yaml says.
        const raster::Dataset dataset{raster::layerAddress(found.address, layer, layer.styles.at(0).name, "utm32"),
                                      {.servers = access}};
        constexpr int side = 256 << 11;
        QCOMPARE(dataset.description().width, side);
        QCOMPARE(dataset.description().height, side);
        QCOMPARE(dataset.description().crsDefinition, std::string{"EPSG:25832"});
        // On the central meridian, whose easting is 500 km by definition: the left border. Northing by GeographicLib.
        const auto place = [](double easting, double northing) {
            const GeographicLib::TransverseMercator grs80{6378137.0, 1 / 298.257222101, 0.9996};
            model::Position at;
            grs80.Reverse(9.0, easting - 500'000.0, northing, at.lat, at.lon);
            return at;
        };
        const auto pixels = dataset.toPixels(
            {place(500'000, 5'456'000), place(756'000, 5'200'000), place(500'000 + 3.5 * 125, 5'456'000 - 5.25 * 125)});
        const double expected[][2] = {{0, 0}, {side, side}, {3.5 * 256, 5.25 * 256}};
        for (std::size_t i = 0; i < 3; ++i) {
            QVERIFY(pixels[i]);
            QVERIFY2(
                std::abs(pixels[i]->x - expected[i][0]) < 1e-3 && std::abs(pixels[i]->y - expected[i][1]) < 1e-3,
                qPrintable(QString("%1: %2, %3").arg(i).arg(pixels[i]->x, 0, 'f', 6).arg(pixels[i]->y, 0, 'f', 6)));
        }
        (void)dataset.read({3 * 256.0, 5 * 256.0, 256, 256}, 256, 256);
        QCOMPARE(tiles, QStringList{tile});
    }
};

QTEST_GUILESS_MAIN(WmtsTest)
#include "wmts_test.moc"
