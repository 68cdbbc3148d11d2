#include "exchange/database_address.h"
#include "fault.h"
#include "reference/layer_builder.h"
#include "reference/table_layer.h"
#include "support/database.h"

#include <QDir>
#include <QTemporaryDir>
#include <QtTest>

#include <sys/stat.h>

#include <cstring>

using namespace fencewright;
using exchange::ReadRequest;
using reference::TableLayer;
using support::TestServer;

namespace {

const std::string kThisProgram = "/proc/self/exe";

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

} // namespace

class TableLayerTest : public QObject {
    Q_OBJECT

private:
    TestServer m_server;
    ReadRequest m_request;

    TableLayer open(const QTemporaryDir& folder, const ReadRequest& request) const {
        return reference::openTableLayer(kThisProgram, request, {folder.path().toStdString()}, {}, {});
    }
    /// Where a layer is made anew, another file takes its name.
    static ino_t fileOf(const QTemporaryDir& folder) {
        const QFileInfoList files = QDir{folder.path()}.entryInfoList(QDir::Files);
        struct stat state {};
        return files.size() == 1 && ::stat(files[0].filePath().toUtf8().constData(), &state) == 0 ? state.st_ino : 0;
    }

private slots:
    void initTestCase() {
        m_server = TestServer::ofRun();
        if (m_server.address.empty()) {
            if (TestServer::isRequired())
                QFAIL("FENCEWRIGHT_TEST_DATABASE names no server");
            QSKIP("no server: tests/run.sh starts one");
        }
        m_request.path = m_server.freshDatabase("keeping");
        m_request.password = m_server.password;
        m_request.layer = "public.parcels";
    }
    void init() {
        m_server.run("keeping", "DROP TABLE IF EXISTS parcels CASCADE;"
                                "CREATE TABLE parcels (id int PRIMARY KEY, number text, geom geometry(Polygon, 4326));"
                                "INSERT INTO parcels SELECT i, 'P' || i, ST_MakeEnvelope(i, 0, i + 1, 1, 4326) "
                                "FROM generate_series(1, 50) i;");
    }

    void unchanged_isNotReadAgain_changed_is() {
        const QTemporaryDir folder;
        const TableLayer first = open(folder, m_request);
        QCOMPARE(first.layer->size(), std::size_t{50});
        QVERIFY(first.whyKept.empty());
        const ino_t file = fileOf(folder);
        QVERIFY(file != 0);
        const TableLayer second = open(folder, m_request);
        QCOMPARE(fileOf(folder), file);
        QCOMPARE(second.readAt, first.readAt);
        QVERIFY(second.whyKept.empty());
        m_server.run("keeping", "UPDATE parcels SET number = 'new' WHERE id = 7");
        const TableLayer third = open(folder, m_request);
        QVERIFY(fileOf(folder) != file);
        QCOMPARE(third.layer->search(*third.layer->column("number"), "new", 5).size(), std::size_t{1});
    }

    void view_isReadEachTime() {
        m_server.run("keeping", "CREATE VIEW seen AS SELECT * FROM parcels WHERE id < 10");
        const QTemporaryDir folder;
        ReadRequest request = m_request;
        request.layer = "public.seen";
        QCOMPARE(open(folder, request).layer->size(), std::size_t{9});
        m_server.run("keeping", "DELETE FROM parcels WHERE id = 1");
        QCOMPARE(open(folder, request).layer->size(), std::size_t{8});
    }

    void filters_areKeptApart() {
        const QTemporaryDir folder;
        ReadRequest request = m_request;
        request.where = "id <= 3";
        QCOMPARE(open(folder, request).layer->size(), std::size_t{3});
        QCOMPARE(open(folder, m_request).layer->size(), std::size_t{50});
        request.where = "nix = 3";
        QVERIFY_EXCEPTION_THROWN((void)open(folder, request), exchange::FilterFault);
    }

    void whenTheServerIsAway_theKeptOneIsShown_withWords() {
        const QTemporaryDir folder;
        support::OwnServer own;
        own.server().run("land", "CREATE TABLE parcels (id int, geom geometry(Point, 4326));"
                                 "INSERT INTO parcels VALUES (1, ST_SetSRID(ST_MakePoint(1, 2), 4326))");
        ReadRequest request;
        request.path = own.server().address;
        request.password = own.server().password;
        request.layer = "public.parcels";
        const TableLayer fresh = open(folder, request);
        own.halt();
        const TableLayer kept = open(folder, request);
        QCOMPARE(kept.layer->size(), std::size_t{1});
        QCOMPARE(kept.readAt, fresh.readAt);
        QVERIFY2(has(kept.whyKept.english(), "cannot be reached"), kept.whyKept.english().c_str());
        const TableLayer silent =
            reference::keptTableLayer(request, {folder.path().toStdString()}, "The server was not asked.");
        QCOMPARE(silent.whyKept.english(), std::string{"The server was not asked."});
        const QTemporaryDir empty;
        QVERIFY_EXCEPTION_THROWN((void)open(empty, request), Fault);
        QVERIFY_EXCEPTION_THROWN((void)reference::keptTableLayer(request, {empty.path().toStdString()}, "x"), Fault);
    }

    void damaged_isReadAnew() {
        const QTemporaryDir folder;
        (void)open(folder, m_request);
        const QFileInfo info = QDir{folder.path()}.entryInfoList(QDir::Files).at(0);
        QFile file{info.filePath()};
        QVERIFY(file.open(QIODevice::ReadWrite));
        QVERIFY(file.seek(info.size() - 20));
        file.write("xxxx");
        file.close();
        QCOMPARE(open(folder, m_request).layer->size(), std::size_t{50});
    }

    void thePassword_standsInNoFile() {
        const QTemporaryDir folder;
        (void)open(folder, m_request);
        for (const QFileInfo& info : QDir{folder.path()}.entryInfoList(QDir::Files)) {
            QFile file{info.filePath()};
            QVERIFY(file.open(QIODevice::ReadOnly));
            QVERIFY(!file.readAll().contains(QByteArray::fromStdString(m_server.password)));
        }
    }
};

int main(int argc, char** argv) {
    if (argc == 2 && std::strcmp(argv[1], "foreign") == 0)
        return exchange::answerForeignRequest(reference::answerWithLayer);
    QCoreApplication application{argc, argv};
    TableLayerTest test;
    return QTest::qExec(&test, argc, argv);
}
#include "table_layer_test.moc"
