#include "exchange/database_address.h"
#include "exchange/vector_reader.h"
#include "fault.h"
#include "reference/layer_builder.h"
#include "support/database.h"
#include "support/reading.h"

#include <QElapsedTimer>
#include <QProcess>
#include <QProcessEnvironment>
#include <QTemporaryDir>
#include <QtTest>

#include <cmath>
#include <cstring>
#include <set>
#include <thread>

using namespace fencewright;
using exchange::ReadRequest;
using exchange::VectorContent;
using support::TestServer;

namespace {

constexpr const char* kDatabase = "reading";
const std::string kThisProgram = "/proc/self/exe";

QByteArray statements(const QString& name) {
    QFile file{QStringLiteral(FENCEWRIGHT_SOURCE "/tests/core/exchange/database_table/") + name};
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray{};
}

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

std::string fieldOf(const VectorContent& content, std::size_t feature, const std::string& name) {
    for (std::size_t i = 0; i < content.fields.size(); ++i)
        if (content.fields[i] == name)
            return content.features[feature].attributes[i];
    return "(no such column)";
}

} // namespace

class DatabaseTableTest : public QObject {
    Q_OBJECT

private:
    TestServer m_server;
    QTemporaryDir m_folder;

    ReadRequest request(const std::string& table, const std::string& where = {}) const {
        ReadRequest request;
        request.path = m_server.addressOf(kDatabase);
        request.password = m_server.password;
        request.layer = table;
        request.where = where;
        return request;
    }
    ReadRequest visitor(const std::string& table) const {
        ReadRequest asked = request(table);
        asked.path = m_server.addressOf(kDatabase, "visitor");
        asked.password = "let me in";
        return asked;
    }
    static std::string state(const ReadRequest& request) {
        return exchange::stateOfTableApart(kThisProgram, request, {}, {});
    }
    std::string victim() const {
        return m_server.run(kDatabase, "SELECT count(*) FROM land.victim").trimmed().toStdString();
    }

private slots:
    void initTestCase() {
        m_server = TestServer::ofRun();
        if (m_server.address.empty()) {
            if (TestServer::isRequired())
                QFAIL("FENCEWRIGHT_TEST_DATABASE names no server");
            QSKIP("no server: tests/run.sh starts one");
        }
        (void)m_server.freshDatabase(kDatabase);
        QVERIFY(!m_server.run(kDatabase, statements("tables.sql")).isEmpty());
    }

    void lonLat_comesAsItIs_withoutEmptyAndNull() {
        const auto read = support::tryReadApart(request("land.lonlat"));
        QVERIFY2(!read.fault, read.words.c_str());
        QCOMPARE(read.content.features.size(), std::size_t{1});
        QCOMPARE(read.content.featuresInFile, std::size_t{3});
        QCOMPARE(read.content.featuresLeftOut, std::size_t{2});
        QVERIFY2(has(read.words, "2 features have no geometry"), read.words.c_str());
        QCOMPARE(read.content.features[0].id, std::string{"1"});
        QCOMPARE(fieldOf(read.content, 0, "name"), std::string{"A"});
        const auto& corners = std::get<model::Polygon>(read.content.features[0].parts[0]).shell.corners;
        QCOMPARE(corners, (std::vector<model::Position>{{-8.7, 46.2}, {-8.6, 46.2}, {-8.6, 46.3}}));
        QCOMPARE(read.content.format, std::string{"PostGIS table"});
        QCOMPARE(read.content.layer, std::string{"land.lonlat"});
    }

    void utm_keepsLongKeysAndNumbers_andParts() {
        const auto read = support::tryReadApart(request("land.utm", "id > 0"));
        QVERIFY2(!read.fault, read.words.c_str());
        QCOMPARE(read.content.features.size(), std::size_t{1});
        // 2^53 + 1: a double does not hold it.
        QCOMPARE(read.content.features[0].id, std::string{"9007199254740993"});
        QCOMPARE(fieldOf(read.content, 0, "id"), std::string{"9007199254740993"});
        QCOMPARE(fieldOf(read.content, 0, "owner"), std::string{"O'Brien \"x\""});
        QCOMPARE(fieldOf(read.content, 0, "area"), std::string{"12.5"});
        QCOMPARE(fieldOf(read.content, 0, "long_number"), std::string{"123456789012345678901234.125"});
        QCOMPARE(fieldOf(read.content, 0, "free"), std::string{"true"});
        QCOMPARE(fieldOf(read.content, 0, "since"), std::string{"2026-05-14"});
        QCOMPARE(fieldOf(read.content, 0, "share"), std::string{"0.1"});
        QVERIFY2(has(read.words, "\"photo\" is not read"), read.words.c_str());
        QCOMPARE(read.content.features[0].parts.size(), std::size_t{2});
        const auto& second = std::get<model::Polygon>(read.content.features[0].parts[1]);
        QCOMPARE(second.holes.size(), std::size_t{1});
        const auto& first = std::get<model::Polygon>(read.content.features[0].parts[0]).shell.corners;
        // On the central meridian of zone 29.
        QVERIFY(std::abs(first[0].lon - -9.0) < 1e-9);
        QVERIFY(first[0].lat > 45.1 && first[0].lat < 45.2);
    }

    void curves_becomeChords() {
        const auto read = support::tryReadApart(request("land.curves"));
        QVERIFY2(!read.fault, read.words.c_str());
        QCOMPARE(read.content.features.size(), std::size_t{1});
        QVERIFY2(has(read.words, "arcs were replaced by chords"), read.words.c_str());
        // Web Mercator: 100 m from the middle at (100, 0), within 1 cm; R = 6378137 m (EPSG Guidance Note 7-2).
        const double degree = 6378137.0 * 3.14159265358979323846 / 180.0;
        const auto& corners = std::get<model::Polygon>(read.content.features[0].parts[0]).shell.corners;
        QVERIFY(corners.size() > 100);
        for (const model::Position& corner : corners) {
            const double radius = std::hypot(corner.lon * degree - 100.0, corner.lat * degree);
            QVERIFY2(std::abs(radius - 100.0) < 0.011, qPrintable(QString::number(radius)));
        }
    }

    void view_isRead_andHasNoState() {
        const auto read = support::tryReadApart(request("land.leases", "\"The Owner\" IS NOT NULL"));
        QVERIFY2(!read.fault, read.words.c_str());
        QCOMPARE(read.content.features.size(), std::size_t{1});
        QCOMPARE(fieldOf(read.content, 0, "The Owner"), std::string{"O'Brien \"x\""});
        QCOMPARE(state(request("land.leases")), std::string{});
    }

    void quotedNames_andChosenGeometry() {
        const std::string table = exchange::text(exchange::TableName{"Odd.Schema", "Par \"cels\" (x)", "g;2"});
        const auto read = support::tryReadApart(request(table, "\"Own er's\" = 'it'"));
        QVERIFY2(!read.fault, read.words.c_str());
        QCOMPARE(read.content.features.size(), std::size_t{1});
        QCOMPARE(std::get<model::Polygon>(read.content.features[0].parts[0]).shell.corners[0], (model::Position{3, 4}));
        const auto first =
            support::tryReadApart(request(exchange::text(exchange::TableName{"Odd.Schema", "Par \"cels\" (x)", ""})));
        QCOMPARE(std::get<model::Position>(first.content.features.at(0).parts.at(0)), (model::Position{1, 2}));
    }

    void geography_isLonLat() {
        const auto read = support::tryReadApart(request("land.globe"));
        QVERIFY2(!read.fault, read.words.c_str());
        QCOMPARE(std::get<model::Position>(read.content.features.at(0).parts.at(0)), (model::Position{179.5, 10}));
    }

    void unknownCrs_isAskedFor_data() {
        QTest::addColumn<QString>("table");
        QTest::newRow("no SRID") << "land.unknown";
        QTest::newRow("an SRID without definition") << "land.own_srid";
    }
    void unknownCrs_isAskedFor() {
        QFETCH(QString, table);
        ReadRequest asked = request(table.toStdString());
        QVERIFY_EXCEPTION_THROWN((void)exchange::readVectorApart(kThisProgram, asked, {}, {}), exchange::MissingCrs);
        QVERIFY2(has(support::tryReadApart(asked).words, "SRID"), support::tryReadApart(asked).words.c_str());
        asked.crs = "EPSG:25829";
        const auto read = support::tryReadApart(asked);
        QVERIFY2(!read.fault, read.words.c_str());
        QVERIFY(std::abs(std::get<model::Position>(read.content.features.at(0).parts.at(0)).lon - -9.0) < 1e-9);
    }

    void severalSystems_areRefused_andReadByAFilter() {
        const auto refused = support::tryReadApart(request("land.mixed"));
        QVERIFY(refused.fault);
        QVERIFY2(has(refused.words, "several coordinate systems") && has(refused.words, "3857"), refused.words.c_str());
        QCOMPARE(support::tryReadApart(request("land.mixed", "ST_SRID(geom) = 4326")).content.features.size(),
                 std::size_t{1});
    }

    void filters_selectOnTheServer() {
        QCOMPARE(support::tryReadApart(request("land.lonlat", "name = 'A' OR name = 'C'")).content.featuresInFile,
                 std::size_t{2});
        QCOMPARE(support::tryReadApart(request("land.lonlat", "false")).content.features.size(), std::size_t{0});
    }

    void filters_thatDoMoreThanLook_areRefused_data() {
        QTest::addColumn<QString>("where");
        QTest::newRow("second statement") << "true; DELETE FROM land.victim";
        QTest::newRow("after a bracket") << "true); DELETE FROM land.victim; SELECT (1=1";
        QTest::newRow("ends the transaction") << "true; COMMIT; SET default_transaction_read_only = off; "
                                                 "DELETE FROM land.victim";
        QTest::newRow("comment") << "true -- ";
        QTest::newRow("function that writes") << "query_to_xml('DELETE FROM land.victim RETURNING 1', true, true, '') "
                                                 "IS NOT NULL";
        QTest::newRow("sleep") << "pg_sleep(60) IS NULL";
    }
    void filters_thatDoMoreThanLook_areRefused() {
        QFETCH(QString, where);
        QElapsedTimer clock;
        clock.start();
        QVERIFY_EXCEPTION_THROWN(
            (void)exchange::readVectorApart(kThisProgram, request("land.lonlat", where.toStdString()), {}, {}),
            exchange::FilterFault);
        QVERIFY(clock.elapsed() < 30'000);
        QCOMPARE(victim(), std::string{"1"});
    }

    void filters_thatMeanNothing_sayTheServersWords_data() {
        QTest::addColumn<QString>("where");
        QTest::addColumn<QString>("words");
        QTest::newRow("no such column") << "ownr = 'x'"
                                        << "column \"ownr\" does not exist";
        QTest::newRow("no condition") << "name"
                                      << "must be type boolean";
        QTest::newRow("syntax") << "name = = 'x'"
                                << "syntax error";
        QTest::newRow("types") << "name = 3"
                               << "operator does not exist";
    }
    void filters_thatMeanNothing_sayTheServersWords() {
        QFETCH(QString, where);
        QFETCH(QString, words);
        const ReadRequest asked = request("land.lonlat", where.toStdString());
        try {
            exchange::checkFilterApart(kThisProgram, asked, {}, {});
            QFAIL("was taken");
        } catch (const exchange::FilterFault& fault) {
            QVERIFY2(has(fault.what(), words.toStdString()), fault.what());
        }
        exchange::checkFilterApart(kThisProgram, request("land.lonlat", "name = 'nobody'"), {}, {});
    }

    void anErrorHalfWay_isAFault_notHalfATable() {
        const auto read = support::tryReadApart(request("land.numbers", "words::int > 0"));
        QVERIFY2(read.fault, read.words.c_str());
        QVERIFY2(has(read.words, "broke off") && has(read.words, "invalid input syntax"), read.words.c_str());
    }

    void rights_areTold() {
        const auto whole = support::tryReadApart(visitor("land.secret"));
        QVERIFY(whole.fault);
        QVERIFY2(has(whole.words, "may not read") && has(whole.words, "GRANT SELECT"), whole.words.c_str());
        const auto part = support::tryReadApart(visitor("land.utm"));
        QVERIFY2(!part.fault, part.words.c_str());
        QCOMPARE(part.content.fields, std::vector<std::string>{"id"});
        QVERIFY2(has(part.words, "\"owner\" is not read: the user has no right"), part.words.c_str());
        QVERIFY(!support::tryReadApart(visitor("land.lonlat")).fault);
    }

    void faultsOfTheDoor_areTold_data() {
        QTest::addColumn<QString>("change");
        QTest::addColumn<QString>("words");
        QTest::newRow("wrong password") << "password"
                                        << "does not accept the name \"keeper\" with this password";
        QTest::newRow("no password") << "none"
                                     << "asks \"keeper\" for a password";
        QTest::newRow("no such user") << "user"
                                      << "does not accept the name \"nobody here\"";
        QTest::newRow("no such database") << "database"
                                          << "There is no database \"nix\"";
        QTest::newRow("nobody listens") << "port"
                                        << "cannot be reached";
        QTest::newRow("no such table") << "table"
                                       << "There is no table land.nix";
        QTest::newRow("no geometry") << "words"
                                     << "no geometry in the table";
        QTest::newRow("no PostGIS") << "postgres"
                                    << "no PostGIS";
    }
    void faultsOfTheDoor_areTold() {
        QFETCH(QString, change);
        QFETCH(QString, words);
        ReadRequest asked = request("land.lonlat");
        const std::string secret = change == "password" ? "pa55 word!" : asked.password;
        if (change == "password")
            asked.password = secret;
        else if (change == "none")
            asked.password.clear();
        else if (change == "user")
            asked.path = m_server.addressOf(kDatabase, "nobody here");
        else if (change == "database")
            asked.path = m_server.addressOf("nix");
        else if (change == "postgres")
            asked.path = m_server.addressOf("postgres");
        else if (change == "port")
            asked.path = "postgresql://keeper@127.0.0.1:1/land";
        else
            asked.layer = change == "table" ? "land.nix" : "land.texts";
        const auto read = support::tryReadApart(asked);
        QVERIFY(read.fault);
        QVERIFY2(has(read.words, words.toStdString()), read.words.c_str());
        QVERIFY2(!has(read.words, secret), "the password is in the words");
    }

    void description_listsTables() {
        ReadRequest asked = request("");
        const auto description = exchange::describeDatabaseApart(kThisProgram, asked, {}, {});
        QCOMPARE(description.format, std::string{"PostGIS table"});
        const auto find = [&](const std::string& name) {
            for (const auto& layer : description.layers)
                if (layer.name == name)
                    return layer;
            return exchange::LayerDescription{};
        };
        const auto utm = find("land.utm");
        QCOMPARE(utm.geometry, std::string{"Polygon"});
        QCOMPARE(utm.features, std::optional<std::size_t>{2});
        // EPSG registry: 25829 is ETRS89 / UTM zone 29N.
        QCOMPARE(utm.crs, std::string{"ETRS89 / UTM zone 29N"});
        QVERIFY(std::find(utm.fields.begin(), utm.fields.end(), "owner") != utm.fields.end());
        QCOMPARE(find("land.leases").crs, std::string{"WGS 84"});
        QVERIFY2(has(find("land.own_srid").remark.english(), "990001"), find("land.own_srid").remark.english().c_str());
        QCOMPARE(find("\"Odd.Schema\".\"Par \"\"cels\"\" (x)\"(g;2)").geometry, std::string{"Polygon"});
        QCOMPARE(find("land.texts").name, std::string{});
        asked.path = visitor("").path;
        asked.password = visitor("").password;
        for (const auto& layer : exchange::describeDatabaseApart(kThisProgram, asked, {}, {}).layers)
            QCOMPARE(layer.remark.english() == "no right to read it",
                     layer.name != "land.lonlat" && layer.name != "land.utm");
    }

    void state_changesWithEachChange() {
        m_server.run(kDatabase, "CREATE TABLE land.changing (id int, words text, geom geometry(Point, 4326));"
                                "INSERT INTO land.changing SELECT i, 'x', ST_SetSRID(ST_MakePoint(1, 2), 4326) "
                                "FROM generate_series(1, 100) i;");
        const ReadRequest asked = request("land.changing");
        std::set<std::string> states{state(asked)};
        QVERIFY(!states.contains(""));
        QCOMPARE(state(asked), *states.begin());
        for (const char* change :
             {"UPDATE land.changing SET words = 'x' WHERE id = 7", "DELETE FROM land.changing WHERE id = 8",
              "INSERT INTO land.changing VALUES (8, 'x', NULL)", "ALTER TABLE land.changing ADD COLUMN more int",
              "BEGIN; DELETE FROM land.changing WHERE id = 9; INSERT INTO land.changing VALUES (9, 'x', NULL); COMMIT",
              "TRUNCATE land.changing"}) {
            m_server.run(kDatabase, change);
            QVERIFY2(states.insert(state(asked)).second, change);
        }
        // Reading and cleaning up change nothing.
        m_server.run(kDatabase, "SELECT * FROM land.changing; ANALYZE land.changing; VACUUM (FREEZE) land.changing");
        QVERIFY(states.contains(state(asked)));
        QVERIFY_EXCEPTION_THROWN((void)state(request("land.changing", "nix = 1")), exchange::FilterFault);
    }

    void thisProcess_speaksToNoServer() {
        const auto read = support::tryRead(request("land.lonlat"));
        QVERIFY(read.fault);
        QVERIFY2(has(read.words, "does not speak to servers"), read.words.c_str());
    }

    void hundredThousandParcels_areAsThroughAGeoPackage() {
        QVERIFY(!m_server.run(kDatabase, statements("many.sql")).isEmpty());
        const QString file = m_folder.filePath("many.gpkg");
        QProcess copy;
        QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
        environment.insert("PGPASSWORD", QString::fromStdString(m_server.password));
        copy.setProcessEnvironment(environment);
        copy.start("ogr2ogr", {"-f", "GPKG", file, "PG:" + QString::fromStdString(m_server.addressOf(kDatabase)),
                               "land.many", "-nln", "many", "-preserve_fid"});
        QVERIFY(copy.waitForFinished(120'000));
        QVERIFY2(copy.exitCode() == 0, copy.readAllStandardError().constData());

        VectorContent table = exchange::readVectorApart(kThisProgram, request("land.many"), {}, {});
        ReadRequest ofFile;
        ofFile.path = file.toStdString();
        VectorContent package = exchange::readVectorApart(kThisProgram, ofFile, {}, {});
        QCOMPARE(table.features.size(), std::size_t{100'000});
        QCOMPARE(package.features.size(), table.features.size());
        const auto byId = [](const exchange::Feature& a, const exchange::Feature& b) {
            return std::stoll(a.id) < std::stoll(b.id);
        };
        std::sort(table.features.begin(), table.features.end(), byId);
        std::sort(package.features.begin(), package.features.end(), byId);
        QCOMPARE(table.crs, package.crs);
        QCOMPARE(table.extent, package.extent);
        // The key is the identity of a row; the package shows it as nothing else.
        QCOMPARE(table.fields.at(0), std::string{"fid"});
        for (std::size_t i = 0; i < table.features.size(); ++i) {
            const exchange::Feature& a = table.features[i];
            const exchange::Feature& b = package.features[i];
            QVERIFY2(
                a.id == b.id && a.parts == b.parts &&
                    std::equal(a.attributes.begin() + 1, a.attributes.end(), b.attributes.begin(), b.attributes.end()),
                qPrintable(QString{"feature %1"}.arg(QString::fromStdString(a.id))));
        }
    }

    void aServerThatStopsHalfWay_isAFault() {
        support::OwnServer own;
        QVERIFY(!own.server().address.empty());
        own.server().run("land", "CREATE TABLE slow (id int, geom geometry(Point, 4326));"
                                 "INSERT INTO slow SELECT i, ST_SetSRID(ST_MakePoint(1, 2), 4326) FROM "
                                 "generate_series(1, 1000000) i;");
        ReadRequest asked;
        asked.path = own.server().address;
        asked.password = own.server().password;
        asked.layer = "public.slow";
        bool halted = false;
        const Progress progress{[&](double fraction, std::string_view) {
            if (fraction > 0.02 && !halted) {
                halted = true;
                own.halt();
            }
            return true;
        }};
        try {
            own.server().run("land", "ANALYZE slow");
            (void)exchange::readVectorApart(kThisProgram, asked, {}, progress);
            QFAIL("half a table was taken for a whole one");
        } catch (const Fault& fault) {
            QVERIFY2(has(fault.what(), "broke off"), fault.what());
        }
        QVERIFY(halted);
        const auto again = support::tryReadApart(asked);
        QVERIFY2(again.fault && has(again.words, "cannot be reached"), again.words.c_str());
    }

    void thePassword_standsInNoCommandLineOrEnvironment() {
        m_server.run(kDatabase, "CREATE VIEW land.lingering AS SELECT id, geom FROM land.lonlat, "
                                "LATERAL (SELECT pg_sleep(1)) AS wait");
        std::thread reading{[&] { (void)support::tryReadApart(request("land.lingering")); }};
        QByteArray seen;
        int looks = 0;
        for (int i = 0; i < 60 && looks < 10; ++i) {
            QThread::msleep(25);
            for (const QString& number : QDir{"/proc"}.entryList({"[0-9]*"}, QDir::Dirs)) {
                QFile line{"/proc/" + number + "/cmdline"};
                if (!line.open(QIODevice::ReadOnly))
                    continue;
                const QByteArray words = line.readAll();
                if (!words.endsWith(QByteArray{"foreign"} + '\0'))
                    continue;
                ++looks;
                QFile environment{"/proc/" + number + "/environ"};
                if (environment.open(QIODevice::ReadOnly))
                    seen += environment.readAll();
                seen += words;
            }
        }
        reading.join();
        QVERIFY(looks > 0);
        QVERIFY(!seen.contains(QByteArray::fromStdString(m_server.password)));
    }
};

int main(int argc, char** argv) {
    if (argc == 2 && std::strcmp(argv[1], "foreign") == 0)
        return exchange::answerForeignRequest(reference::answerWithLayer);
    QCoreApplication application{argc, argv};
    DatabaseTableTest test;
    return QTest::qExec(&test, argc, argv);
}
#include "database_table_test.moc"
