#include "exchange/atomic_file.h"

#include "fault.h"

#include <QtTest>

#include <functional>

#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace fencewright;
using exchange::AtomicFile;

namespace {

QByteArray contentOf(const QString& path) {
    QFile file{path};
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray{};
}

void put(const QString& path, const QByteArray& content) {
    QFile file{path};
    QVERIFY(file.open(QIODevice::WriteOnly));
    file.write(content);
}

QString faultOf(const std::function<void()>& act) {
    try {
        act();
    } catch (const Fault& fault) {
        return QString::fromUtf8(fault.what());
    }
    return {};
}

/// The text of the fault that the work ends with in a process of its own, in which it may spoil its limits and rights.
QString faultApart(const std::function<void()>& work) {
    int ends[2];
    if (::pipe(ends) != 0)
        return "no pipe";
    const pid_t child = ::fork();
    if (child == 0) {
        const QByteArray text = faultOf(work).toUtf8();
        const bool written = ::write(ends[1], text.constData(), static_cast<std::size_t>(text.size())) == text.size();
        ::_exit(written ? 0 : 1);
    }
    ::close(ends[1]);
    QByteArray text;
    char block[4096];
    for (ssize_t read; (read = ::read(ends[0], block, sizeof block)) > 0;)
        text.append(block, static_cast<qsizetype>(read));
    ::close(ends[0]);
    int status = 0;
    ::waitpid(child, &status, 0);
    return status == 0 ? QString::fromUtf8(text) : QString{"the child died with status %1"}.arg(status);
}

QStringList namesIn(const QString& folder) {
    return QDir{folder}.entryList(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot);
}

} // namespace

class AtomicFileTest : public QObject {
    Q_OBJECT

private slots:
    void commit_putsTheWholeFileInPlace() {
        QTemporaryDir folder;
        const QString path = folder.filePath("out.geojson");
        {
            AtomicFile file{path.toStdString()};
            file.write("one ");
            file.write("two");
            QCOMPARE(file.content(), "one two");
            QVERIFY(!QFile::exists(path));
            file.commit();
        }
        QCOMPARE(contentOf(path), QByteArray{"one two"});
        QCOMPARE(namesIn(folder.path()), QStringList{"out.geojson"});
    }

    void withoutCommit_nothingIsLeft() {
        QTemporaryDir folder;
        const QString path = folder.filePath("out.geojson");
        put(path, "old");
        {
            AtomicFile file{path.toStdString()};
            file.write("new");
        }
        QCOMPARE(contentOf(path), QByteArray{"old"});
        QCOMPARE(namesIn(folder.path()), QStringList{"out.geojson"});
    }

    void replacing_keepsPermissionsAndFollowsLinks() {
        QTemporaryDir folder;
        const QString path = folder.filePath("real.kml");
        put(path, "old");
        QVERIFY(::chmod(qPrintable(path), 0640) == 0);
        QVERIFY(QFile::link(path, folder.filePath("link.kml")));
        AtomicFile file{folder.filePath("link.kml").toStdString()};
        file.write("new");
        file.commit();
        QVERIFY(QFileInfo{folder.filePath("link.kml")}.isSymLink());
        QCOMPARE(contentOf(path), QByteArray{"new"});
        struct stat now {};
        QVERIFY(::stat(qPrintable(path), &now) == 0);
        QCOMPARE(now.st_mode & 0777U, 0640U);
    }

    void badPlaces_areRefused_data() {
        QTest::addColumn<QString>("path");
        QTest::addColumn<QString>("words");
        QTest::newRow("no name") << ""
                                 << "No file is named";
        QTest::newRow("folder") << "here"
                                << "folder";
        QTest::newRow("folder with a slash") << "here/"
                                             << "folder";
        QTest::newRow("missing folder") << "missing/out.kml"
                                        << "missing/out.kml";
        QTest::newRow("under a file") << "file/out.kml"
                                      << "file/out.kml";
        QTest::newRow("link to nowhere") << "nowhere"
                                         << "link";
        QTest::newRow("pipe") << "pipe"
                              << "not an ordinary file";
        QTest::newRow("name too long") << QString(300, 'x') << "xxx";
    }
    void badPlaces_areRefused() {
        QFETCH(QString, path);
        QFETCH(QString, words);
        QTemporaryDir folder;
        QVERIFY(QDir{folder.path()}.mkdir("here"));
        put(folder.filePath("file"), "x");
        QVERIFY(QFile::link(folder.filePath("gone"), folder.filePath("nowhere")));
        QVERIFY(::mkfifo(qPrintable(folder.filePath("pipe")), 0600) == 0);
        const QStringList before = namesIn(folder.path());
        const std::string full = path.isEmpty() ? std::string{} : folder.filePath(path).toStdString();
        const QString fault = faultOf([&] {
            AtomicFile file{full};
            file.write("x");
            file.commit();
        });
        QVERIFY2(fault.contains(words), qPrintable(fault));
        QCOMPARE(namesIn(folder.path()), before);
        QVERIFY(namesIn(folder.filePath("here")).isEmpty());
    }

    void fullDisk_isNoticedAndLeavesTheOldFile() {
        QTemporaryDir folder;
        const QString path = folder.filePath("out.geojson");
        put(path, "old");
        const QString fault = faultApart([&] {
            ::signal(SIGXFSZ, SIG_IGN);
            const rlimit limit{1000, 1000}; // writes beyond it fail, as on a full disk
            ::setrlimit(RLIMIT_FSIZE, &limit);
            AtomicFile file{path.toStdString()};
            file.write(std::string(5000, 'x'));
            file.commit();
        });
        QVERIFY2(fault.contains("could not be written") && fault.contains("Make room"), qPrintable(fault));
        QVERIFY(fault.contains(path));
        QCOMPARE(contentOf(path), QByteArray{"old"});
        QCOMPARE(namesIn(folder.path()), QStringList{"out.geojson"});
    }

    void readOnlyPlaces_areRefused() {
        QTemporaryDir folder;
        QVERIFY(::chmod(qPrintable(folder.path()), 0755) == 0);
        const QString path = folder.filePath("out.geojson");
        put(path, "old");
        QVERIFY(::chmod(qPrintable(path), 0444) == 0);
        QVERIFY(QDir{folder.path()}.mkdir("closed"));
        QVERIFY(::chmod(qPrintable(folder.filePath("closed")), 0555) == 0);
        const auto tryAs = [&](const QString& target) {
            return faultApart([&, target] {
                // To root everything is writable.
                if (::geteuid() == 0 && ::setuid(65534) != 0)
                    ::_exit(2);
                AtomicFile file{target.toStdString()};
                file.write("new");
                file.commit();
            });
        };
        const QString onFile = tryAs(path);
        QVERIFY2(onFile.contains("read-only"), qPrintable(onFile));
        const QString inFolder = tryAs(folder.filePath("closed/out.geojson"));
        QVERIFY2(inFolder.contains("Choose a folder in which you may write"), qPrintable(inFolder));
        QCOMPARE(contentOf(path), QByteArray{"old"});
        QVERIFY(namesIn(folder.filePath("closed")).isEmpty());
    }
};

QTEST_APPLESS_MAIN(AtomicFileTest)
#include "atomic_file_test.moc"
