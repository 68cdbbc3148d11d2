#include "command/arguments.h"
#include "command/subcommand_table.h"

#include <nlohmann/json.hpp>

#include <QTemporaryDir>
#include <QtTest>

#include <sstream>

using namespace fencewright;
using namespace fencewright::command;

namespace {

struct Answer {
    int code = 0;
    std::string out;
    std::string err;
};

Answer call(const std::vector<std::string>& words) {
    std::ostringstream out;
    std::ostringstream err;
    Answer answer;
    answer.code = run(words, {out, err});
    answer.out = out.str();
    answer.err = err.str();
    return answer;
}

} // namespace

class SubcommandsTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;

    std::string path(const char* name) const { return m_folder.filePath(name).toStdString(); }

    void write(const char* name, const char* text) const {
        QFile file{m_folder.filePath(name)};
        QVERIFY(file.open(QFile::WriteOnly));
        file.write(text);
    }

private slots:
    void initTestCase() {
        // Two parcels of a hectare or so with 5 cm between them, a nest between the two, a home.
        write("parcels.geojson", R"({"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"parcel":"12","consent":"yes"},"geometry":{"type":"Polygon","coordinates":[[[-8.740,46.200],[-8.735,46.200],[-8.735,46.205],[-8.740,46.205],[-8.740,46.200]]]}},
{"type":"Feature","properties":{"parcel":"13","consent":"yes"},"geometry":{"type":"Polygon","coordinates":[[[-8.7349993,46.200],[-8.730,46.200],[-8.730,46.205],[-8.7349993,46.205],[-8.7349993,46.200]]]}},
{"type":"Feature","properties":{"parcel":"14","consent":"no"},"geometry":{"type":"Polygon","coordinates":[[[-8.730,46.200],[-8.725,46.200],[-8.725,46.205],[-8.730,46.205],[-8.730,46.200]]]}}]})");
        write("sites.csv", "name,category,lon,lat\nOsprey nest,osprey nest,-8.7375,46.2025\n");
        write("homes.csv", "name,lon,lat\nDam crest,-8.7315,46.2045\n");
    }

    void create_audit_deliver_isTheWholeJob() {
        const auto made = call({"create",       path("set.gpkg"),
                                "--title",      "Alder Reach",
                                "--parcels",    path("parcels.geojson"),
                                "--where",      "consent = 'yes'",
                                "--number",     "parcel",
                                "--closing",    "0.25 m",
                                "--name",       "Utility land",
                                "--sites",      path("sites.csv"),
                                "--name-field", "name",
                                "--distance",   "50 m",
                                "--homes",      path("homes.csv")});
        QVERIFY2(made.code == kDone, made.err.c_str());
        QVERIFY2(made.out.find("of 2 parcels") != std::string::npos, made.out.c_str());

        const auto described = call({"describe", "--json", path("set.gpkg")});
        QVERIFY2(described.code == kDone, described.err.c_str());
        const auto json = nlohmann::json::parse(described.out);
        QCOMPARE(json[0]["title"].get<std::string>(), "Alder Reach");
        QCOMPARE(json[0]["fences"].size(), 2u);
        QCOMPARE(json[0]["fences"][0]["name"].get<std::string>(), "Utility land");
        // 0.01 by 0.005 degrees at 46.2 N: 771.9 m by 555.9 m by the WGS 84 series for degree lengths.
        const double area = json[0]["fences"][0]["area_m2"].get<double>();
        QVERIFY2(std::abs(area - 429100) < 1500, qPrintable(QString::number(area)));

        const auto audited = call({"audit", "--json", "--date", "2026-05-14", path("set.gpkg")});
        QVERIFY2(audited.code == kDone, audited.out.c_str());
        const auto findings = nlohmann::json::parse(audited.out);
        QCOMPARE(findings["errors"].get<int>(), 0);
        QVERIFY(findings["operating_area_m2"].get<double>() < area);

        for (const char* name : {"set.geojson", "set.kml"}) {
            const auto delivered = call({"deliver", path("set.gpkg"), path(name)});
            QVERIFY2(delivered.code == kDone, (delivered.out + delivered.err).c_str());
            QVERIFY2(delivered.out.starts_with("delivered and read back"), delivered.out.c_str());
            QVERIFY(QFile::exists(QString::fromStdString(path(name))));
        }
    }

    void create_statesAMargin_andAuditTellsWhatItLeaves() {
        const std::string figures =
            "error 3 m; speed 12 m/s; reaction 1.5 s; deceleration 4 m/s2; basis Manual, edition 3";
        const auto made = call({"create", path("margin.gpkg"), "--margin", figures, "--keep-in",
                                path("parcels.geojson"), "--homes", path("homes.csv")});
        QVERIFY2(made.code == kDone, made.err.c_str());
        const auto audited = nlohmann::json::parse(call({"audit", "--json", path("margin.gpkg")}).out);
        QCOMPARE(audited["margin_m"].get<double>(), 39.0); // 3 + 12 * 1.5 + 12^2 / (2 * 4)
        QVERIFY(audited["clear_area_m2"].get<double>() > 0.0);
        QVERIFY(audited["clear_area_m2"].get<double>() < audited["operating_area_m2"].get<double>());
        const auto words = call({"audit", path("margin.gpkg")}).out;
        QVERIFY2(words.find("with a margin of 39.0 m") != std::string::npos, words.c_str());
        QVERIFY2(words.find("margin.missing") == std::string::npos, words.c_str());

        QCOMPARE(call({"create", path("unstated.gpkg"), "--keep-in", path("parcels.geojson")}).code, int(kDone));
        const auto without = nlohmann::json::parse(call({"audit", "--json", path("unstated.gpkg")}).out);
        QVERIFY(without["margin_m"].is_null() && without["clear_area_m2"].is_null());
        for (const char* wrong :
             {"error 3 m", "error 3 m; error 4 m; speed 1 m/s; reaction 1 s; deceleration 1 m/s2; basis x",
              "wind 3 m/s", "error 3 m; speed 12 m/s; reaction 1 s; deceleration 0 m/s2; basis x",
              "error 3 m; speed fast; reaction 1 s; deceleration 4 m/s2; basis x", ""}) {
            const auto refused = call({"create", path("wrong.gpkg"), "--margin", wrong});
            QCOMPARE(refused.code, int(kUsage));
            QVERIFY(!QFile::exists(QString::fromStdString(path("wrong.gpkg"))));
        }
    }

    void audit_ofASetWithoutHome_saysSoByItsExitCode() {
        QCOMPARE(call({"create", path("bare.gpkg"), "--keep-out", path("parcels.geojson")}).code, int(kDone));
        const auto audited = call({"audit", path("bare.gpkg")});
        QCOMPARE(audited.code, int(kFound));
        QVERIFY2(audited.out.find("error:") != std::string::npos, audited.out.c_str());
    }

    void describe_showsTheRest_whereOneFenceCannotBeComputed() {
        write("pole.geojson", R"({"type":"Polygon","coordinates":[[[0,89.5],[1,89.5],[1,89.6],[0,89.5]]]})");
        QCOMPARE(call({"create", path("pole.gpkg"), "--keep-out", path("pole.geojson"), "--keep-out",
                       path("parcels.geojson")})
                     .code,
                 int(kDone));
        const auto described = call({"describe", "--json", path("pole.gpkg")});
        QVERIFY2(described.code == kDone, described.err.c_str());
        const auto fences = nlohmann::json::parse(described.out)[0]["fences"];
        QCOMPARE(fences.size(), 4u);
        QVERIFY(fences[0]["area_m2"].is_null());
        QVERIFY(fences[1]["area_m2"].get<double>() > 0.0);
    }

    void create_doesNotOverwriteUnlessTold() {
        QCOMPARE(call({"create", path("twice.gpkg")}).code, int(kDone));
        const auto again = call({"create", path("twice.gpkg")});
        QCOMPARE(again.code, int(kFault));
        QVERIFY(again.err.find("exists already") != std::string::npos);
        QCOMPARE(call({"create", path("twice.gpkg"), "--force"}).code, int(kDone));
    }

    void faults_nameTheFile_andLeaveNothing() {
        const auto missing = call({"create", path("none.gpkg"), "--parcels", path("missing.geojson")});
        QCOMPARE(missing.code, int(kFault));
        QVERIFY2(missing.err.find("missing.geojson") != std::string::npos, missing.err.c_str());
        QVERIFY(!QFile::exists(QString::fromStdString(path("none.gpkg"))));
    }

    void usage_isExplained_data() {
        QTest::addColumn<QStringList>("words");
        QTest::addColumn<QString>("says");
        QTest::newRow("no subcommand of that name") << QStringList{"fly"} << "no subcommand";
        QTest::newRow("unknown option") << QStringList{"audit", "--colour", "x.gpkg"} << "not an option";
        QTest::newRow("value missing") << QStringList{"audit", "--date"} << "needs a value";
        QTest::newRow("no date") << QStringList{"audit", "--date", "2026-02-30", "x.gpkg"} << "takes a date";
        QTest::newRow("no file") << QStringList{"describe"} << "at least one file";
        QTest::newRow("no number") << QStringList{"deliver", "--decimals", "x", "a.gpkg", "b.kml"} << "whole number";
        QTest::newRow("no format") << QStringList{"deliver", "a.gpkg", "b.xyz"} << "format";
        QTest::newRow("detail before its source")
            << QStringList{"create", "a.gpkg", "--distance", "5 m"} << "belongs after";
        QTest::newRow("no length") << QStringList{"create", "a.gpkg", "--parcels", "x", "--closing", "wide"}
                                   << "closing";
    }
    void usage_isExplained() {
        QFETCH(QStringList, words);
        QFETCH(QString, says);
        std::vector<std::string> list;
        for (const QString& word : words)
            list.push_back(word == "x"        ? path("parcels.geojson")
                           : word == "a.gpkg" ? path("usage.gpkg")
                                              : word.toStdString());
        const auto answer = call(list);
        QCOMPARE(answer.code, int(kUsage));
        QVERIFY2(QString::fromStdString(answer.err).contains(says), answer.err.c_str());
        QVERIFY(answer.out.empty() || words[0] == "create");
    }

    void help_isThereForEach() {
        for (const Subcommand* one : subcommands()) {
            const auto answer = call({std::string{one->name}, "--help"});
            QCOMPARE(answer.code, int(kDone));
            QVERIFY(answer.out.find("Usage: fencewright-cli " + std::string{one->name}) != std::string::npos);
            QVERIFY(answer.out.find("Exit codes:") != std::string::npos);
        }
    }
};

QTEST_APPLESS_MAIN(SubcommandsTest)
#include "subcommands_test.moc"
