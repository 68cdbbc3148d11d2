#include "store/document_file.h"

#include "fault.h"
#include "store/detail/checksum.h"
#include "support/another_process.h"
#include "support/memory_folder.h"
#include "support/random_sets.h"

#include <QtTest>

#include <csignal>
#include <gdal/gdal.h>
#include <gdal/ogr_api.h>
#include <sqlite3.h>
#include <sys/resource.h>
#include <sys/stat.h>

using namespace fencewright;

namespace {

/// A connection of another program's kind.
class Sqlite {
public:
    explicit Sqlite(const std::string& path) { sqlite3_open(path.c_str(), &m_handle); }
    ~Sqlite() { sqlite3_close(m_handle); }
    Sqlite(const Sqlite&) = delete;
    Sqlite& operator=(const Sqlite&) = delete;

    bool run(const std::string& statements) {
        return sqlite3_exec(m_handle, statements.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK;
    }
    /// All values of all rows.
    QStringList values(const std::string& query) {
        QStringList values;
        sqlite3_stmt* statement = nullptr;
        sqlite3_prepare_v2(m_handle, query.c_str(), -1, &statement, nullptr);
        while (sqlite3_step(statement) == SQLITE_ROW)
            for (int column = 0; column < sqlite3_column_count(statement); ++column)
                values << QString::fromUtf8(reinterpret_cast<const char*>(sqlite3_column_text(statement, column)));
        sqlite3_finalize(statement);
        return values;
    }

private:
    sqlite3* m_handle = nullptr;
};

model::FenceSet smallSet(const std::string& title, int fences = 3) {
    model::FenceSet set;
    set.title = title;
    model::Site site;
    site.id.value = "0123456789abcdef0123456789abcdef";
    site.name = "Nest";
    site.geometry = model::Position{-8.7, 46.2};
    set.sites.append(site);
    for (int i = 0; i < fences; ++i) {
        model::Fence fence;
        fence.id = model::freshId<model::Fence>();
        fence.name = "Fence " + std::to_string(i);
        const double east = -8.7 + 0.01 * i;
        fence.shape = model::DrawnPolygon{{{{{east, 46.2}, {east + 0.005, 46.2}, {east, 46.205}}}, {}}};
        set.fences.append(fence);
    }
    model::Home home;
    home.id = model::freshId<model::Home>();
    home.place = {-8.7, 46.21};
    set.homes.append(home);
    return set;
}

QByteArray bytesOf(const QString& path) {
    QFile file{path};
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray{};
}

void writeBytes(const QString& path, const QByteArray& bytes) {
    QFile file{path};
    QVERIFY(file.open(QIODevice::WriteOnly));
    file.write(bytes);
}

/// The fault's words, or nothing where there was none.
QString refusal(const std::function<void()>& work) {
    try {
        work();
    } catch (const Fault& fault) {
        return QString::fromStdString(fault.what());
    }
    return {};
}
QString openingOf(const QString& path) {
    return refusal([&] { (void)store::openDocument(path.toStdString()); });
}
QString savingTo(const QString& path) {
    return refusal([&] { store::saveDocument(smallSet("new"), path.toStdString()); });
}

} // namespace

#define VERIFY_SAYS(said, words) QVERIFY2((said).contains(words, Qt::CaseInsensitive), qPrintable(said))

class DocumentFileTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder{test::memoryFolder()};
    QString at(const QString& name) const { return m_folder.filePath(name); }

    /// A good document to spoil.
    QString saved(const QString& name) const {
        store::saveDocument(smallSet("old"), at(name).toStdString());
        return at(name);
    }
    QStringList files() const { return QDir{m_folder.path()}.entryList(QDir::Files | QDir::Hidden); }

private slots:
    void openDocument_refusesWhatIsNoDocument() {
        VERIFY_SAYS(openingOf(at("none.gpkg")), "does not exist");
        VERIFY_SAYS(openingOf(at("none.gpkg")), "none.gpkg");
        VERIFY_SAYS(openingOf(m_folder.path()), "folder");
        VERIFY_SAYS(openingOf("/dev/zero"), "device");
        writeBytes(at("empty.gpkg"), {});
        VERIFY_SAYS(openingOf(at("empty.gpkg")), "empty");
        for (const QByteArray& bytes : {QByteArray{"x"}, QByteArray{"hello"}.repeated(1000), QByteArray{"PK\3\4"},
                                        QByteArray{"SQLite format 3\0", 16}, QByteArray(5000, '\0')}) {
            writeBytes(at("other.gpkg"), bytes);
            VERIFY_SAYS(openingOf(at("other.gpkg")), "not a GeoPackage");
        }
        {
            Sqlite plain{at("plain.gpkg").toStdString()};
            QVERIFY(plain.run("CREATE TABLE fencewright_document (id, version, value, checksum)"));
        }
        VERIFY_SAYS(openingOf(at("plain.gpkg")), "not a GeoPackage");
    }

    void openDocument_refusesAnotherProgramsGeoPackage() {
        GDALAllRegister();
        const GDALDatasetH dataset =
            GDALCreate(GDALGetDriverByName("GPKG"), at("foreign.gpkg").toUtf8(), 0, 0, 0, GDT_Unknown, nullptr);
        QVERIFY(GDALDatasetCreateLayer(dataset, "parcels", nullptr, wkbPolygon, nullptr));
        GDALClose(dataset);
        VERIFY_SAYS(openingOf(at("foreign.gpkg")), "not a document");
        VERIFY_SAYS(openingOf(at("foreign.gpkg")), "import");
    }

    void openDocument_refusesANewerOne() {
        const QString path = saved("newer.gpkg");
        QVERIFY(Sqlite{path.toStdString()}.run("UPDATE fencewright_document SET version = 4"));
        VERIFY_SAYS(openingOf(path), "newer");
        QVERIFY(Sqlite{path.toStdString()}.run("UPDATE fencewright_document SET version = 0"));
        VERIFY_SAYS(openingOf(path), "damaged");
    }

    void openDocument_namesTableRowAndMember_data() {
        QTest::addColumn<QByteArray>("sql");
        QTest::addColumn<QString>("words");
        QTest::newRow("no table") << QByteArray{"DROP TABLE fencewright_sites"} << "fencewright_sites is missing";
        QTest::newRow("a view") << QByteArray{"ALTER TABLE fencewright_fences RENAME TO f; CREATE VIEW "
                                              "fencewright_fences AS SELECT * FROM f"}
                                << "fencewright_fences is missing";
        QTest::newRow("an endless view") << QByteArray{"DROP TABLE fencewright_fences; CREATE VIEW fencewright_fences "
                                                       "AS WITH RECURSIVE n(id, value, checksum) AS (VALUES (1, '', "
                                                       "'') UNION ALL SELECT id + 1, '', '' FROM n) SELECT * FROM n"}
                                         << "fencewright_fences is missing";
        QTest::newRow("row missing") << QByteArray{"DELETE FROM fencewright_fences WHERE id = 2"}
                                     << "fencewright_fences, row 2";
        QTest::newRow("last row missing") << QByteArray{"DELETE FROM fencewright_fences WHERE id = 3"} << "2 rows";
        QTest::newRow("row more")
            << QByteArray{"INSERT INTO fencewright_homes SELECT 2, version, value, checksum FROM fencewright_homes"}
            << "fencewright_homes has more rows";
        QTest::newRow("rows swapped")
            << QByteArray{"UPDATE fencewright_fences SET id = id + 100; UPDATE fencewright_fences SET id = 104 - id"}
            << "fencewright_fences, row 1";
        QTest::newRow("a digit changed")
            << QByteArray{"UPDATE fencewright_fences SET value = replace(value, '46.205', '46.215') WHERE id = 2"}
            << "fencewright_fences, row 2 does not agree with its checksum";
        QTest::newRow("null")
            << QByteArray{"CREATE TABLE t AS SELECT * FROM fencewright_homes; DROP TABLE fencewright_homes; ALTER "
                          "TABLE t RENAME TO fencewright_homes; UPDATE fencewright_homes SET value = NULL"}
            << "fencewright_homes, row 1";
        QTest::newRow("blob") << QByteArray{"UPDATE fencewright_homes SET value = x'00ff'"}
                              << "fencewright_homes, row 1";
        QTest::newRow("no head") << QByteArray{"DELETE FROM fencewright_document"} << "damaged";
    }
    void openDocument_namesTableRowAndMember() {
        QFETCH(QByteArray, sql);
        QFETCH(QString, words);
        const QString path = saved("spoilt.gpkg");
        QVERIFY(Sqlite{path.toStdString()}.run(sql.toStdString()));
        const QString said = openingOf(path);
        VERIFY_SAYS(said, words);
        VERIFY_SAYS(said, "damaged");
        VERIFY_SAYS(said, "spoilt.gpkg");
    }

    void openDocument_namesTheMemberEvenWithARightChecksum() {
        const QString path = saved("member.gpkg");
        Sqlite other{path.toStdString()};
        QString value = other.values("SELECT value FROM fencewright_fences WHERE id = 2").first();
        value.replace("\"closureAssumed\":false", "\"closureAssumed\":0");
        const std::string checksum = store::crc64Text("fencewright_fences 2 " + value.toStdString());
        QVERIFY(other.run("UPDATE fencewright_fences SET value = '" + value.toStdString() + "', checksum = '" +
                          checksum + "' WHERE id = 2"));
        VERIFY_SAYS(
            openingOf(path),
            "table fencewright_fences, row 2, member shape.polygon.shell.closureAssumed is neither true nor false");
    }

    void openDocument_findsWhatIsCutOff() {
        const QString path = saved("whole.gpkg");
        const QByteArray whole = bytesOf(path);
        for (qsizetype size = 1; size < whole.size(); size += whole.size() / 97) {
            writeBytes(at("cut.gpkg"), whole.left(size));
            QVERIFY2(!openingOf(at("cut.gpkg")).isEmpty(), qPrintable(QString::number(size)));
        }
    }

    // Every byte of the file may flip: the result is a fault, or the very same set; never another one.
    void openDocument_neverGivesAChangedSet() {
        const model::FenceSet set = smallSet("flip", 5);
        store::saveDocument(set, at("flip.gpkg").toStdString());
        const QByteArray whole = bytesOf(at("flip.gpkg"));
        constexpr unsigned seed = 8;
        std::mt19937_64 random{seed};
        int refused = 0;
        for (int round = 0; round < 1500; ++round) {
            QByteArray bytes = whole;
            for (int flips = round % 3; flips >= 0; --flips) {
                const auto position = static_cast<qsizetype>(random() % static_cast<std::uint64_t>(whole.size()));
                bytes[position] = static_cast<char>(bytes[position] ^ static_cast<char>(1 << (random() % 8)));
            }
            writeBytes(at("flipped.gpkg"), bytes);
            try {
                QVERIFY2(store::openDocument(at("flipped.gpkg").toStdString()).set == set,
                         qPrintable(QString{"seed %1 round %2"}.arg(seed).arg(round)));
            } catch (const Fault&) {
                ++refused;
            }
        }
        QVERIFY(refused > 20);
    }

    void openDocument_saysWhenItIsLocked() {
        const QString path = saved("locked.gpkg");
        Sqlite other{path.toStdString()};
        QVERIFY(other.run("BEGIN EXCLUSIVE"));
        VERIFY_SAYS(openingOf(path), "locked");
        QVERIFY(other.run("ROLLBACK"));
        QVERIFY(openingOf(path).isEmpty());
    }

    void openDocument_readsBesideAReader() {
        const QString path = saved("shared.gpkg");
        Sqlite other{path.toStdString()};
        QVERIFY(other.run("BEGIN; SELECT count(*) FROM fences"));
        QVERIFY(openingOf(path).isEmpty());
    }

    void openDocument_changesNothing() {
        const QString path = saved("still.gpkg");
        const QByteArray before = bytesOf(path);
        const QStringList filesBefore = files();
        (void)store::openDocument(path.toStdString());
        QCOMPARE(bytesOf(path), before);
        QCOMPARE(files(), filesBefore);
    }

    void rights_areRespected() {
        if (!test::canBeWithoutRights())
            QSKIP("this person cannot give up rights");
        QTemporaryDir folder{test::memoryFolder()};
        const QString path = folder.filePath("a.gpkg");
        store::saveDocument(smallSet("old"), path.toStdString());
        const QByteArray before = bytesOf(path);
        // Read-only for others: the folder and the file.
        ::chmod(folder.path().toUtf8(), 0755);
        ::chmod(path.toUtf8(), 0644);
        QVERIFY(test::inAnotherProcess([&] { return store::openDocument(path.toStdString()).readOnly; },
                                       test::Person::WithoutRights));
        QVERIFY(
            test::inAnotherProcess([&] { return savingTo(path).contains("read-only"); }, test::Person::WithoutRights));
        QVERIFY(
            test::inAnotherProcess([&] { return savingTo(folder.filePath("b.gpkg")).contains("cannot be written"); },
                                   test::Person::WithoutRights));
        ::chmod(path.toUtf8(), 0600);
        QVERIFY(test::inAnotherProcess([&] { return openingOf(path).contains("may not be read"); },
                                       test::Person::WithoutRights));
        ::chmod(folder.path().toUtf8(), 0700);
        QVERIFY(test::inAnotherProcess([&] { return openingOf(path).contains("cannot be reached"); },
                                       test::Person::WithoutRights));
        QCOMPARE(bytesOf(path), before);
        QCOMPARE(QDir{folder.path()}.entryList(QDir::Files | QDir::Hidden), QStringList{"a.gpkg"});
    }

    void saveDocument_refusesWhereItCannotWrite() {
        VERIFY_SAYS(savingTo(at("no/such/folder.gpkg")), "folder does not exist");
        VERIFY_SAYS(savingTo(m_folder.path()), "name of a folder");
        VERIFY_SAYS(savingTo("/dev/null"), "device");
        QVERIFY(!savingTo("").isEmpty());
        QVERIFY(!savingTo("/proc/none.gpkg").isEmpty());
        QVERIFY(!savingTo(at(QString(300, 'x'))).isEmpty());
        writeBytes(at("file"), "x");
        QVERIFY(!savingTo(at("file/inside.gpkg")).isEmpty());
    }

    void saveDocument_waitsForNobodyButSaysSo() {
        const QString path = saved("busy.gpkg");
        const QByteArray before = bytesOf(path);
        const QStringList filesBefore = files();
        Sqlite other{path.toStdString()};
        for (const char* lock : {"BEGIN EXCLUSIVE", "BEGIN IMMEDIATE"}) {
            QVERIFY(other.run(lock));
            VERIFY_SAYS(savingTo(path), "locked");
            QVERIFY(other.run("ROLLBACK"));
            QCOMPARE(bytesOf(path), before);
            QCOMPARE(files(), filesBefore);
        }
        QVERIFY(savingTo(path).isEmpty());
    }

    void saveDocument_leavesTheOldFileWhenTheDiskIsFull() {
        const QString path = saved("full.gpkg");
        const QByteArray before = bytesOf(path);
        const QStringList filesBefore = files();
        QVERIFY(test::inAnotherProcess([&] {
            std::signal(SIGXFSZ, SIG_IGN); // else the limit ends the process instead of failing the write
            const rlimit limit{40'000, 40'000};
            ::setrlimit(RLIMIT_FSIZE, &limit);
            return !savingTo(path).isEmpty();
        }));
        QCOMPARE(bytesOf(path), before);
        QCOMPARE(files(), filesBefore);
    }

    void saveDocument_canBeCancelled() {
        const QString path = saved("cancel.gpkg");
        const QByteArray before = bytesOf(path);
        const QStringList filesBefore = files();
        for (const double stop : {0.0, 0.05, 0.3, 0.75, 0.95}) {
            const Progress progress{[&](double fraction, std::string_view) { return fraction < stop; }};
            QVERIFY_EXCEPTION_THROWN(store::saveDocument(smallSet("new"), path.toStdString(), progress), Cancelled);
            QCOMPARE(bytesOf(path), before);
            QCOMPARE(files(), filesBefore);
        }
    }

    void saveDocument_followsLinksAndKeepsRights() {
        const QString path = saved("real.gpkg");
        ::chmod(path.toUtf8(), 0640);
        QVERIFY(QFile::link(path, at("link.gpkg")));
        QVERIFY(savingTo(at("link.gpkg")).isEmpty());
        QVERIFY(QFileInfo{at("link.gpkg")}.isSymLink());
        QCOMPARE(store::openDocument(path.toStdString()).set.title, "new");
        struct stat rights {};
        ::stat(path.toUtf8(), &rights);
        QCOMPARE(rights.st_mode & 07777, mode_t{0640});
    }

    void saveDocument_overwritesWhatIsNoDatabase() {
        writeBytes(at("text.gpkg"), "some text");
        QVERIFY(savingTo(at("text.gpkg")).isEmpty());
        QCOMPARE(store::openDocument(at("text.gpkg").toStdString()).set.title, "new");
    }

    // A journal of the old file would be played into the new one by the next program that opens it.
    void saveDocument_leavesNoJournalBeside() {
        const QString path = saved("wal.gpkg");
        QVERIFY(Sqlite{path.toStdString()}.run("PRAGMA journal_mode = WAL; CREATE TABLE t (a)"));
        QVERIFY(test::inAnotherProcess([&] {
                    Sqlite other{path.toStdString()};
                    other.run("INSERT INTO t VALUES (1)");
                    ::kill(::getpid(), SIGKILL); // leaves its write-ahead log
                    return true;
                }) == false);
        QVERIFY(QFile::exists(path + "-wal"));
        QVERIFY2(savingTo(path).isEmpty(), qPrintable(savingTo(path)));
        QVERIFY(!QFile::exists(path + "-wal"));
        QCOMPARE(store::openDocument(path.toStdString()).set.title, "new");

        const QString spoilt = saved("journal.gpkg");
        writeBytes(spoilt, "no database any more");
        writeBytes(spoilt + "-journal", "left over");
        QVERIFY(savingTo(spoilt).isEmpty());
        QVERIFY(!QFile::exists(spoilt + "-journal"));
        // One that cannot be settled.
        QVERIFY(QDir{m_folder.path()}.mkdir("journal.gpkg-journal"));
        VERIFY_SAYS(savingTo(spoilt), "unfinished work");
    }

    // Killed at any instant, the document is the one before or the one after, and the next saving tidies up.
    void saveDocument_survivesAKillAtAnyInstant() {
        QTemporaryDir folder{test::memoryFolder()};
        const QString path = folder.filePath("kill.gpkg");
        const model::FenceSet even = smallSet("even", 12);
        const model::FenceSet odd = smallSet("odd", 40);
        store::saveDocument(even, path.toStdString());
        constexpr unsigned seed = 9;
        std::mt19937_64 random{seed};
        int evens = 0;
        int odds = 0;
        int strays = 0;
        for (int round = 0; round < 120; ++round) {
            {
                test::RunningProcess process{[&] {
                    for (int i = 0; i < 1000; ++i)
                        store::saveDocument(i % 2 == 0 ? odd : even, path.toStdString());
                }};
                QTest::qSleep(1 + static_cast<int>(random() % 60));
                process.end();
            }
            strays +=
                static_cast<int>(QDir{folder.path()}.entryList({"*.saving-*"}, QDir::Files | QDir::Hidden).size());
            const model::FenceSet set = store::openDocument(path.toStdString()).set;
            QVERIFY2(set == even || set == odd, qPrintable(QString{"seed %1 round %2"}.arg(seed).arg(round)));
            ++(set == even ? evens : odds);
        }
        QVERIFY(evens > 0 && odds > 0);
        QVERIFY2(strays > 0, "no kill came in the middle of a saving");
        store::saveDocument(even, path.toStdString());
        QCOMPARE(QDir{folder.path()}.entryList(QDir::Files | QDir::Hidden), QStringList{"kill.gpkg"});
    }

    void saveDocument_doesNotDisturbAnotherSaving() {
        QTemporaryDir folder{test::memoryFolder()};
        const QString path = folder.filePath("two.gpkg");
        const auto saveOften = [&](const std::string& title) {
            return [&folder, &path, title] {
                (void)folder;
                for (int i = 0; i < 40; ++i)
                    store::saveDocument(smallSet(title, 10), path.toStdString());
            };
        };
        store::saveDocument(smallSet("first"), path.toStdString());
        test::RunningProcess a{saveOften("a")};
        test::RunningProcess b{saveOften("b")};
        for (int i = 0; i < 40; ++i)
            QVERIFY2(openingOf(path).isEmpty(), qPrintable(openingOf(path)));
        a.wait();
        b.wait();
        const std::string title = store::openDocument(path.toStdString()).set.title;
        QVERIFY(title == "a" || title == "b");
        QCOMPARE(QDir{folder.path()}.entryList(QDir::Files | QDir::Hidden), QStringList{"two.gpkg"});
    }
};

QTEST_APPLESS_MAIN(DocumentFileTest)
#include "document_file_test.moc"
