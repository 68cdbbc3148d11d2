#include "command/arguments.h"
#include "command/subcommand_table.h"
#include "store/document_file.h"
#include "support/loopback_server.h"
#include "support/made_raster.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QTemporaryDir>
#include <QtTest>

#include <memory>
#include <sstream>

using namespace fencewright;
using namespace fencewright::command;
using test::LoopbackServer;

namespace {

struct Answer {
    int code = 0;
    std::string out, err;
};

Answer call(const std::vector<std::string>& words) {
    std::ostringstream out, err;
    Answer answer;
    answer.code = run(words, {out, err});
    answer.out = out.str();
    answer.err = err.str();
    return answer;
}

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

LoopbackServer::Answer tile() {
    static const std::string bytes = [] {
        const QTemporaryDir folder;
        test::MadeRaster made;
        made.driver = "PNG";
        made.width = made.height = 256;
        made.placed = false;
        made.value = [](int band, int, int) { return 60 * band; };
        test::make(made, folder.filePath("tile.png").toStdString());
        QFile file{folder.filePath("tile.png")};
        return file.open(QFile::ReadOnly) ? file.readAll().toStdString() : std::string{};
    }();
    return {200, "image/png", bytes, {}, {}, false};
}

} // namespace

class ImagerySourceTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;
    QTemporaryDir m_cache;

    std::string path(const char* name) const { return m_folder.filePath(name).toStdString(); }
    static void write(const QString& at, const LoopbackServer::Answer& answer) {
        QDir{}.mkpath(QFileInfo{at}.path());
        QFile file{at};
        QVERIFY(file.open(QFile::WriteOnly));
        file.write(answer.body.data(), qint64(answer.body.size()));
    }

private slots:
    void initTestCase() { qputenv("XDG_CACHE_HOME", m_cache.path().toUtf8()); }
    void cleanup() { qunsetenv("FENCEWRIGHT_SERVER_KEY"); }

    void addressOfAServer_isAsked_andKept() {
        const LoopbackServer server{[](const auto&) { return tile(); }};
        const std::string address = server.address() + "/{z}/{x}/{y}.png";
        const Answer made = call({"create", path("server.gpkg"), "--imagery", address});
        QVERIFY2(made.code == kDone, made.err.c_str());
        QVERIFY2(has(made.out, address + ": Tiles of a server (XYZ)"), made.out.c_str());
        QVERIFY(!server.asked().empty());
        const auto set = store::openDocument(path("server.gpkg")).set;
        QCOMPARE(set.sources.size(), std::size_t{1});
        QCOMPARE(set.sources[0].kind, model::SourceKind::Imagery);
        QCOMPARE(set.sources[0].path, address);
        QCOMPARE(set.sources[0].name, server.address().substr(server.address().find("://") + 3));
    }

    // It comes from the environment, and goes to the server, but into nothing that stays.
    void key_opensTheServer_andIsKeptNowhere() {
        const std::string secret = "hush-hush-9";
        const LoopbackServer server{[&](const LoopbackServer::Request& request) {
            const auto key = request.query.find("TOKEN");
            return key != request.query.end() && key->second == secret
                       ? tile()
                       : LoopbackServer::Answer{403, "text/plain", "no", {}, {}, false};
        }};
        const std::string address = server.address() + "/{z}/{x}/{y}.png?token={key}";
        const Answer without = call({"create", path("locked.gpkg"), "--imagery", address});
        QCOMPARE(without.code, int(kFault));
        QVERIFY2(has(without.err, "wants a key"), without.err.c_str());
        QVERIFY(!QFile::exists(QString::fromStdString(path("locked.gpkg"))));
        qputenv("FENCEWRIGHT_SERVER_KEY", "wrong");
        const Answer wrong = call({"create", path("locked.gpkg"), "--imagery", address});
        QCOMPARE(wrong.code, int(kFault));
        QVERIFY2(has(wrong.err, "HTTP status 403"), wrong.err.c_str());
        QVERIFY(!QFile::exists(QString::fromStdString(path("locked.gpkg"))));
        qputenv("FENCEWRIGHT_SERVER_KEY", secret.c_str());
        const Answer made = call({"create", path("locked.gpkg"), "--imagery", address});
        QVERIFY2(made.code == kDone, made.err.c_str());
        QVERIFY(!has(made.out + made.err, secret));
        QFile document{QString::fromStdString(path("locked.gpkg"))};
        QVERIFY(document.open(QFile::ReadOnly));
        QVERIFY(!document.readAll().contains(secret.c_str()));
        QCOMPARE(store::openDocument(path("locked.gpkg")).set.sources[0].path, address);
    }

    void deadServer_isAFault_thatNamesIt() {
        auto server = std::make_unique<LoopbackServer>([](const auto&) { return tile(); });
        const std::string address = server->address() + "/{z}/{x}/{y}.png";
        server->stop();
        const Answer answer = call({"create", path("dead.gpkg"), "--imagery", address});
        QCOMPARE(answer.code, int(kFault));
        QVERIFY2(has(answer.err, server->address()), answer.err.c_str());
        QVERIFY(!QFile::exists(QString::fromStdString(path("dead.gpkg"))));
    }

    void folders_areSources_named_andKeptBesideTheDocument() {
        for (int x = 0; x < 2; ++x)
            for (int y = 0; y < 2; ++y)
                write(m_folder.filePath(QStringLiteral("tiles/1/%1/%2.png").arg(x).arg(y)), tile());
        test::MadeRaster made;
        made.width = made.height = 40;
        made.crs = "EPSG:25829";
        made.value = [](int band, int x, int y) { return band * 40 + x + y; };
        QDir{}.mkpath(m_folder.filePath("flight"));
        for (int i = 0; i < 2; ++i) {
            made.geotransform = {520000.0 + 20 * i, 0.5, 0, 5117000, 0, -0.5};
            test::make(made, path(i ? "flight/east.tif" : "flight/west.tif"));
        }
        QDir{}.mkpath(m_folder.filePath("empty"));

        const Answer answer =
            call({"create", path("folders.gpkg"), "--imagery", path("tiles") + "/", "--imagery", path("flight")});
        QVERIFY2(answer.code == kDone, answer.err.c_str());
        QVERIFY2(has(answer.out, "80 x 40 pixels, ETRS89 / UTM zone 29N"), answer.out.c_str());
        const auto set = store::openDocument(path("folders.gpkg")).set;
        QCOMPARE(set.sources.size(), std::size_t{2});
        QCOMPARE(set.sources[0].name, std::string{"tiles"});
        QCOMPARE(set.sources[1].name, std::string{"flight"});
        QCOMPARE(set.sources[1].path, std::string{"flight"});
        for (const model::Source& source : set.sources)
            QVERIFY2(!source.path.starts_with("/"), source.path.c_str());

        const Answer none = call({"create", path("empty.gpkg"), "--imagery", path("empty")});
        QCOMPARE(none.code, int(kFault));
        QVERIFY2(has(none.err, path("empty")), none.err.c_str());
        QVERIFY(!QFile::exists(QString::fromStdString(path("empty.gpkg"))));
    }
};

QTEST_GUILESS_MAIN(ImagerySourceTest)
#include "imagery_source_test.moc"
