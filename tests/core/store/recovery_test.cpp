#include "store/recovery.h"

#include "fault.h"
#include "support/another_process.h"
#include "support/memory_folder.h"

#include <QtTest>

#include <chrono>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

using namespace fencewright;
using namespace std::chrono_literals;

namespace {

model::FenceSet titled(const std::string& title) {
    model::FenceSet set;
    set.title = title;
    model::Home home;
    home.id = model::freshId<model::Home>();
    set.homes.append(home);
    return set;
}

bool runSql(const QString& path, const char* statements) {
    sqlite3* handle = nullptr;
    sqlite3_open(path.toUtf8(), &handle);
    const bool good = sqlite3_exec(handle, statements, nullptr, nullptr, nullptr) == SQLITE_OK;
    sqlite3_close(handle);
    return good;
}

/// A program that keeps a copy and then dies.
void keepAndDie(const std::string& folder, const std::string& key, const std::string& document,
                const model::FenceSet& set) {
    QVERIFY(test::inAnotherProcess([&] {
        store::keepRecoveryCopy(folder, key, document, set);
        return true;
    }));
}

} // namespace

class RecoveryTest : public QObject {
    Q_OBJECT

private slots:
    void leftBehind_listsTheWorkOfDeadPrograms() {
        QTemporaryDir folder{test::memoryFolder()};
        const std::string path = folder.path().toStdString();
        QVERIFY(store::leftBehind(path).empty());
        const model::FenceSet older = titled("older");
        const model::FenceSet newer = titled("newer");
        const auto before = std::chrono::system_clock::now();
        keepAndDie(path, "doc-1", "/home/set.gpkg", older);
        QTest::qSleep(5);
        keepAndDie(path, "doc-2", "", newer);
        const auto copies = store::leftBehind(path);
        QCOMPARE(copies.size(), std::size_t{2});
        QCOMPARE(copies[0].documentPath, "");
        QCOMPARE(copies[1].documentPath, "/home/set.gpkg");
        QVERIFY(copies[0].written > copies[1].written);
        QVERIFY(copies[1].written >= before - 1s && copies[0].written <= std::chrono::system_clock::now() + 1s);
        QVERIFY(store::readRecoveryCopy(copies[0]) == newer);
        QVERIFY(store::readRecoveryCopy(copies[1]) == older);

        store::discardRecoveryCopy(copies[0]);
        store::discardRecoveryCopy(copies[0]);
        QCOMPARE(store::leftBehind(path).size(), std::size_t{1});
        store::discardRecoveryCopy(path, "doc-1");
        store::discardRecoveryCopy(path, "doc-1");
        QVERIFY(QDir{folder.path()}.isEmpty());
    }

    void leftBehind_leavesRunningProgramsAlone() {
        QTemporaryDir folder{test::memoryFolder()};
        const std::string path = folder.path().toStdString();
        store::keepRecoveryCopy(path, "mine", "", titled("mine"));
        QVERIFY(store::leftBehind(path).empty());
        const QString theirs = folder.filePath("theirs.recovery");
        test::RunningProcess process{[&] {
            store::keepRecoveryCopy(path, "theirs", "", titled("theirs"));
            ::pause();
        }};
        QTRY_VERIFY(QFile::exists(theirs));
        QVERIFY(store::leftBehind(path).empty());
        process.end();
        const auto copies = store::leftBehind(path);
        QCOMPARE(copies.size(), std::size_t{1});
        QCOMPARE(store::readRecoveryCopy(copies[0]).title, "theirs");
        store::discardRecoveryCopy(path, "mine");
    }

    void leftBehind_tellsAnotherStartOfTheMachine() {
        QTemporaryDir folder{test::memoryFolder()};
        const std::string path = folder.path().toStdString();
        const QString file = folder.filePath("a.recovery");
        // The number and start of a running program, but of before the machine was started anew.
        store::keepRecoveryCopy(path, "a", "", titled("a"));
        QVERIFY(runSql(file, "UPDATE fencewright_recovery SET boot = 'an earlier one'"));
        QCOMPARE(store::leftBehind(path).size(), std::size_t{1});
        // A later program with the same number.
        store::keepRecoveryCopy(path, "a", "", titled("a"));
        QVERIFY(runSql(file, "UPDATE fencewright_recovery SET started = started - 1"));
        QCOMPARE(store::leftBehind(path).size(), std::size_t{1});
        // Another machine that shares the folder: it may well be running.
        QVERIFY(runSql(file, "UPDATE fencewright_recovery SET machine = 'another'"));
        QVERIFY(store::leftBehind(path).empty());
    }

    void keepRecoveryCopy_replacesTheLastOne() {
        QTemporaryDir folder{test::memoryFolder()};
        const std::string path = folder.filePath("not/yet/there").toStdString();
        for (int i = 0; i < 20; ++i)
            keepAndDie(path, "doc", "", titled(std::to_string(i)));
        const auto copies = store::leftBehind(path);
        QCOMPARE(copies.size(), std::size_t{1});
        QCOMPARE(store::readRecoveryCopy(copies[0]).title, "19");
        struct stat rights {};
        ::stat(copies[0].file.c_str(), &rights);
        QCOMPARE(rights.st_mode & 07777, mode_t{0600}); // unsaved work is nobody else's
    }

    void keepRecoveryCopy_survivesAKillAtAnyInstant() {
        QTemporaryDir folder{test::memoryFolder()};
        const std::string path = folder.path().toStdString();
        std::mt19937 random{3};
        for (int round = 0; round < 60; ++round) {
            {
                test::RunningProcess process{[&] {
                    for (int i = 0; i < 1000; ++i)
                        store::keepRecoveryCopy(path, "doc", "", titled("work"));
                }};
                QTest::qSleep(1 + static_cast<int>(random() % 30));
                process.end();
            }
            for (const auto& copy : store::leftBehind(path))
                QCOMPARE(store::readRecoveryCopy(copy).title, "work");
        }
        QCOMPARE(store::leftBehind(path).size(), std::size_t{1});
    }

    void leftBehind_listsDamagedCopiesAndNothingElse() {
        QTemporaryDir folder{test::memoryFolder()};
        const std::string path = folder.path().toStdString();
        QVERIFY(store::leftBehind(path + "/none").empty());
        for (const char* name : {"notes.txt", "a.gpkg", "x.recovery.saving-01234567"}) {
            QFile file{folder.filePath(name)};
            QVERIFY(file.open(QIODevice::WriteOnly));
        }
        QDir{folder.path()}.mkdir("folder.recovery");
        QVERIFY(store::leftBehind(path).empty());
        QFile damaged{folder.filePath("b.recovery")};
        QVERIFY(damaged.open(QIODevice::WriteOnly));
        damaged.write("not a database");
        damaged.close();
        const auto copies = store::leftBehind(path);
        QCOMPARE(copies.size(), std::size_t{1});
        QVERIFY_EXCEPTION_THROWN((void)store::readRecoveryCopy(copies[0]), Fault);
    }

    void keys_nameNoOtherFolder() {
        QTemporaryDir folder{test::memoryFolder()};
        for (const char* key : {"", "..", "a/b", "../up", "a b", "a.b"})
            QVERIFY_EXCEPTION_THROWN(store::keepRecoveryCopy(folder.path().toStdString(), key, "", {}), Fault);
        QVERIFY_EXCEPTION_THROWN(store::keepRecoveryCopy("/proc/none", "a", "", {}), Fault);
    }
};

QTEST_APPLESS_MAIN(RecoveryTest)
#include "recovery_test.moc"
