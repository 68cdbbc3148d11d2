#include "app/desktop/held_jobs.h"
#include "app/desktop/window_probe.h"
#include "support/made_raster.h"

#include "store/document_file.h"
#include "store/recovery.h"

#include <csignal>

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

/// As a tool would: one more keep-in, one step.
void addFence(WindowProbe& probe, const std::string& name) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name = name;
    fence.shape = model::Circle{{-8.7, 46.2}, {Length::metres(100), ""}};
    probe.document().push(model::addFence(probe.set(), fence));
}

/// A document of one fence, in a file.
QString saved(WindowProbe& probe, const QString& name) {
    addFence(probe, name.toStdString());
    const QString path = probe.folder.filePath(name);
    probe.document().save(path);
    return path;
}

std::size_t fencesIn(const QString& path) { return store::openDocument(path.toStdString()).set.fences.size(); }

void answer(QMessageBox* question, QMessageBox::StandardButton button) {
    QTest::mouseClick(question->button(button), Qt::LeftButton);
}

bool isIdle(WindowProbe& probe) {
    return QTest::qWaitFor([&] { return probe.window->jobs().running().empty(); }, 30'000);
}

/// Files cannot grow beyond a kilobyte while it lives, as on a full disk.
class FullDisk {
public:
    FullDisk() {
        std::signal(SIGXFSZ, SIG_IGN);
        getrlimit(RLIMIT_FSIZE, &m_before);
        const rlimit little{1024, m_before.rlim_max};
        setrlimit(RLIMIT_FSIZE, &little);
    }
    ~FullDisk() { setrlimit(RLIMIT_FSIZE, &m_before); }
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;

private:
    rlimit m_before{};
};

} // namespace

/// What is done in the background while the document changes or another takes its place.
class DocumentFlowTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_cache;

private slots:
    void initTestCase() { qputenv("XDG_CACHE_HOME", m_cache.path().toUtf8()); }

    void save_thatEndsInAnotherDocument_leavesThatOneItsOwnFile() {
        WindowProbe probe;
        const QString path = saved(probe, "first.gpkg");
        addFence(probe, "Second");
        QVERIFY(probe.settle());
        HeldJobs held{probe.window->jobs()};
        probe.key(Qt::Key_S, Qt::ControlModifier);
        probe.document().startNew();
        addFence(probe, "Of another document");
        held.letAllGo();
        QVERIFY(isIdle(probe));
        QCOMPARE(fencesIn(path), std::size_t{2});
        QCOMPARE(probe.document().path(), QString{});
        QVERIFY(probe.document().isModified());
    }

    void savingForClosing_asksAgain_whenMoreWasDoneMeanwhile() {
        WindowProbe probe;
        const QString path = saved(probe, "set.gpkg");
        addFence(probe, "Second");
        QVERIFY(probe.settle());
        QVERIFY(!probe.window->close());
        auto* question = probe.waitForDialog<QMessageBox>("unsavedQuestion");
        QVERIFY(question);
        HeldJobs held{probe.window->jobs()};
        answer(question, QMessageBox::Save);
        addFence(probe, "Third");
        held.letAllGo();
        question = probe.waitForDialog<QMessageBox>("unsavedQuestion");
        QVERIFY(question);
        QVERIFY(probe.window->isVisible());
        QCOMPARE(fencesIn(path), std::size_t{2});
        answer(question, QMessageBox::Save);
        QTRY_VERIFY_WITH_TIMEOUT(!probe.window->isVisible(), 10'000);
        QCOMPARE(fencesIn(path), std::size_t{3});
    }

    void givingUp_isAboutTheWorkThatWasThereWhenItWasAsked() {
        WindowProbe probe;
        addFence(probe, "First");
        probe.window->findChild<QAction*>("new")->trigger();
        auto* question = probe.waitForDialog<QMessageBox>("unsavedQuestion");
        QVERIFY(question);
        addFence(probe, "Brought in meanwhile");
        answer(question, QMessageBox::Discard);
        QTRY_VERIFY(probe.dialog() && probe.dialog() != question);
        QCOMPARE(probe.set().fences.size(), std::size_t{2});
        answer(probe.waitForDialog<QMessageBox>("unsavedQuestion"), QMessageBox::Discard);
        QTRY_COMPARE(probe.set().fences.size(), std::size_t{0});
    }

    void reopening_whatIsBeingSaved_readsWhatWasSaved() {
        WindowProbe probe;
        const QString path = saved(probe, "set.gpkg");
        addFence(probe, "Second");
        QVERIFY(probe.settle());
        HeldJobs held{probe.window->jobs()};
        probe.key(Qt::Key_S, Qt::ControlModifier);
        probe.window->open(path);
        auto* question = probe.waitForDialog<QMessageBox>("unsavedQuestion");
        QVERIFY(question);
        answer(question, QMessageBox::Discard);
        for (const session::BackgroundJob* job : probe.window->jobs().running())
            QVERIFY2(!job->title().contains("Opening"), "it would be read while it is being written");
        const int before = probe.document().serial();
        held.letAllGo();
        QTRY_VERIFY_WITH_TIMEOUT(probe.document().serial() != before, 10'000);
        QCOMPARE(probe.set().fences.size(), std::size_t{2});
        QVERIFY(!probe.document().isModified());
    }

    void reopening_readsAgain_whenTheFileWasSavedAfterItWasRead() {
        WindowProbe probe;
        const QString path = saved(probe, "set.gpkg");
        QVERIFY(probe.settle());
        HeldJobs held{probe.window->jobs()};
        probe.window->open(path);
        addFence(probe, "Second");
        probe.key(Qt::Key_S, Qt::ControlModifier);
        held.letOneGo(); // first it is read, then written
        auto* question = probe.waitForDialog<QMessageBox>("unsavedQuestion");
        QVERIFY(question);
        QTRY_VERIFY_WITH_TIMEOUT(!probe.document().isModified(), 10'000);
        held.letAllGo();
        const int before = probe.document().serial();
        answer(question, QMessageBox::Discard);
        QTRY_VERIFY_WITH_TIMEOUT(probe.document().serial() != before, 10'000);
        QCOMPARE(probe.set().fences.size(), std::size_t{2});
    }

    void opening_waitsForADialogToBeClosed() {
        WindowProbe probe;
        const QString other = saved(probe, "other.gpkg");
        probe.document().startNew();
        QVERIFY(probe.settle());
        HeldJobs held{probe.window->jobs()};
        probe.window->open(other);
        probe.key(Qt::Key_M, Qt::ControlModifier);
        auto* dialog = probe.waitForDialog<QDialog>("marginDialog");
        QVERIFY(dialog);
        const int before = probe.document().serial();
        held.letAllGo();
        QVERIFY(isIdle(probe));
        QTest::qWait(200);
        QCOMPARE(probe.document().serial(), before);
        dialog->reject();
        QTRY_VERIFY_WITH_TIMEOUT(probe.document().serial() != before, 10'000);
        QCOMPARE(probe.document().path(), other);
    }

    void fileName_isForTheDocumentItWasAskedFor() {
        WindowProbe probe;
        addFence(probe, "First");
        probe.key(Qt::Key_S, Qt::ControlModifier);
        QVERIFY(QTest::qWaitFor([&] { return qobject_cast<QFileDialog*>(probe.dialog()); }, 5000));
        probe.document().startNew();
        const QString path = probe.folder.filePath("set.gpkg");
        QVERIFY(probe.answerFile(path));
        QVERIFY(isIdle(probe));
        QVERIFY(!QFileInfo::exists(path));
        QCOMPARE(probe.document().path(), QString{});
    }

    void import_isLeftOut_ofAnotherDocument_data() {
        QTest::addColumn<bool>("chosen");
        QTest::newRow("replaced while the file is looked at") << false;
        QTest::newRow("replaced while the file is read") << true;
    }
    void import_isLeftOut_ofAnotherDocument() {
        QFETCH(bool, chosen);
        WindowProbe probe;
        QFile file{probe.folder.filePath("sites.geojson")};
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(R"({"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"name":"North"},"geometry":{"type":"Point","coordinates":[-8.70,46.21]}}]})");
        file.close();
        QVERIFY(probe.settle());
        std::optional<HeldJobs> held;
        if (!chosen)
            held.emplace(probe.window->jobs());
        probe.window->findChild<QAction*>("importSites")->trigger();
        QVERIFY(probe.answerFile(file.fileName()));
        if (chosen) {
            auto* dialog = probe.waitForDialog<QDialog>("importDialog");
            QVERIFY2(dialog, qPrintable(probe.message()));
            held.emplace(probe.window->jobs());
            probe.clickIn(dialog, "importGo");
        }
        probe.document().startNew();
        held->letAllGo();
        QVERIFY(isIdle(probe));
        QVERIFY2(probe.message().contains("sites.geojson was left out"), qPrintable(probe.message()));
        QVERIFY(!probe.dialog());
        QVERIFY(probe.set() == model::FenceSet{});
    }

    void referenceLayer_isLeftOut_ofAnotherDocument() {
        WindowProbe probe;
        QFile file{probe.folder.filePath("parcels.geojson")};
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(R"({"type":"Feature","properties":{"parcel":"4711"},"geometry":{"type":"Polygon","coordinates":
[[[-8.7,46.2],[-8.69,46.2],[-8.69,46.21],[-8.7,46.21],[-8.7,46.2]]]}})");
        file.close();
        probe.window->findChild<QAction*>("addReference")->trigger();
        QVERIFY(probe.answerFile(file.fileName()));
        auto* dialog = probe.waitForDialog<QDialog>("importDialog");
        QVERIFY2(dialog, qPrintable(probe.message()));
        probe.document().startNew();
        probe.clickIn(dialog, "importGo");
        QTRY_VERIFY2(probe.message().contains("parcels.geojson was left out"), qPrintable(probe.message()));
        QVERIFY(probe.set() == model::FenceSet{});
    }

    void imagery_isLeftOut_ofAnotherDocument_data() {
        QTest::addColumn<bool>("nowhere");
        QTest::newRow("replaced while the file is read") << false;
        QTest::newRow("replaced while its coordinates are asked for") << true;
    }
    void imagery_isLeftOut_ofAnotherDocument() {
        QFETCH(bool, nowhere);
        WindowProbe probe;
        test::MadeRaster made;
        made.width = made.height = 16;
        made.crs = "EPSG:25829";
        const double east = nowhere ? 1e15 : 520000; // no place on Earth: it must be another CRS
        made.geotransform = {east, 1, 0, 5117000, 0, -1};
        made.value = [](int, int x, int) { return double(x); };
        const QString path = probe.folder.filePath("photo.tif");
        test::make(made, path.toStdString());
        QVERIFY(probe.settle());
        std::optional<HeldJobs> held;
        if (!nowhere)
            held.emplace(probe.window->jobs());
        probe.window->findChild<QAction*>("addImagery")->trigger();
        QVERIFY(probe.answerFile(path));
        if (nowhere) {
            auto* dialog = probe.waitForDialog<QInputDialog>("crsDialog");
            QVERIFY2(dialog, qPrintable(probe.message()));
            probe.document().startNew();
            dialog->setTextValue("EPSG:25829");
            dialog->accept();
        } else {
            probe.document().startNew();
            held->letAllGo();
        }
        QVERIFY(isIdle(probe));
        QVERIFY2(probe.message().contains("photo was left out"), qPrintable(probe.message()));
        QVERIFY(probe.set() == model::FenceSet{});
    }

    void recoveredWork_keepsItsOnlyCopy_whileNoOtherCanBeWritten() {
        WindowProbe probe;
        const std::string recovery = probe.folder.filePath("recovery").toStdString();
        QVERIFY(QDir{probe.folder.path()}.mkdir("recovery"));
        model::FenceSet lost;
        model::Site nest;
        nest.id = model::freshId<model::Site>();
        nest.name = "Nest";
        nest.geometry = model::Position{-8.7, 46.2};
        lost.sites.append(nest);
        const pid_t child = fork();
        if (child == 0) {
            try {
                store::keepRecoveryCopy(recovery, "lost", {}, lost);
            } catch (...) {
            }
            _exit(0);
        }
        int status = 0;
        waitpid(child, &status, 0);
        if (store::leftBehind(recovery).empty())
            QSKIP("the copy could not be written in a forked child");
        probe.options.recoveryFolder = QString::fromStdString(recovery);
        probe.show();
        QVERIFY(probe.settle());
        probe.window->offerRecovery();
        auto* dialog = probe.waitForDialog<QDialog>("recoveryDialog");
        QVERIFY(dialog);
        {
            const FullDisk disk;
            probe.clickIn(dialog, "recoveryRecover");
            QTRY_VERIFY_WITH_TIMEOUT(probe.set() == lost, 10'000);
            QVERIFY(!probe.message().isEmpty());
        }
        QCOMPARE(store::leftBehind(recovery).size(), std::size_t{1});
        // It goes once there is another.
        probe.window->offerRecovery();
        dialog = probe.waitForDialog<QDialog>("recoveryDialog");
        QVERIFY(dialog);
        const int before = probe.document().serial();
        probe.clickIn(dialog, "recoveryRecover");
        answer(probe.waitForDialog<QMessageBox>("unsavedQuestion"), QMessageBox::Discard);
        QTRY_VERIFY_WITH_TIMEOUT(probe.document().serial() != before, 10'000);
        QVERIFY(probe.set() == lost);
        QVERIFY(store::leftBehind(recovery).empty());
    }
};

QTEST_MAIN(DocumentFlowTest)
#include "document_flow_test.moc"
