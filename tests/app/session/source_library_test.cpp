#include "session/source_library.h"

#include "model/edit.h"
#include "support/made_raster.h"

#include <QDir>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QtTest>

#include <array>
#include <cstddef>
#include <new>

using namespace fencewright;
using namespace fencewright::session;

class SourceLibraryTest : public QObject {
    Q_OBJECT

    struct Bench {
        QTemporaryDir folder;
        OpenDocument document;
        BackgroundJobs jobs;
        SourceLibrary sources{document, jobs, {}, folder.filePath("layers"), folder.filePath("pyramids")};

        model::SourceId add(const QString& path, const std::string& crs = {}) {
            model::Source source;
            source.id = model::freshId<model::Source>();
            source.name = "Picture";
            source.path = path.toStdString();
            source.crs = crs;
            document.push(model::addSource(document.set(), source));
            return source.id;
        }
        QStringList pyramids() const { return QDir{folder.filePath("pyramids")}.entryList(QDir::Files); }
    };
    std::unique_ptr<Bench> m_bench;

    /// Too large to be looked at as a whole, and without coarser pictures.
    QString large(const std::string& name, const std::string& crs = "EPSG:32629") {
        test::MadeRaster raster;
        raster.width = raster.height = 5000;
        raster.bands = 1;
        raster.crs = crs;
        raster.geotransform = {480'000, 0.5, 0, 5'120'000, 0, -0.5};
        raster.value = [](int, int x, int y) { return (x * 7 + y * 13) % 251; };
        const QString path = m_bench->folder.filePath(QString::fromStdString(name));
        test::make(raster, path.toStdString());
        return path;
    }
    const LoadedSource& loaded(const model::SourceId& id) { return *m_bench->sources.find(id); }

private slots:
    void init() { m_bench = std::make_unique<Bench>(); }
    void cleanup() { m_bench.reset(); }

    void aMissingFile_failsWithWords_andIsReadOnceItIsThere() {
        const auto id = m_bench->add(m_bench->folder.filePath("later.tif"));
        QTRY_COMPARE(loaded(id).state, LoadedSource::State::Failed);
        QVERIFY(loaded(id).words.contains("later.tif"));
        (void)large("later.tif");
        m_bench->sources.retry(id);
        QTRY_COMPARE(loaded(id).state, LoadedSource::State::Ready);
        QVERIFY(loaded(id).raster && !loaded(id).levels.empty() && loaded(id).tilePixels > 0);
        QVERIFY(loaded(id).servesAsPlane); // UTM, in metres, near its meridian
    }

    void aLargeRaster_isUsedAtOnce_andGetsItsPyramidInTheBackground() {
        const QString path = large("large.tif");
        const QByteArray before = [&] {
            QFile file{path};
            return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray{};
        }();
        const auto id = m_bench->add(path);
        QTRY_COMPARE(loaded(id).state, LoadedSource::State::Ready);
        QTRY_COMPARE_WITH_TIMEOUT(loaded(id).pyramid, PyramidState::Ready, 30'000);
        QVERIFY(!loaded(id).opening.pyramid.empty());
        QVERIFY(loaded(id).levels.size() > 2);
        QCOMPARE_LE(loaded(id).levels.back().width, 1024);
        QCOMPARE(m_bench->pyramids().size(), 1);
        // The owner's file is as it was, and nothing stands beside it.
        QFile file{path};
        QVERIFY(file.open(QIODevice::ReadOnly));
        QVERIFY(file.readAll() == before);
        QVERIFY(!QFile::exists(path + ".ovr"));

        // The next time it is there at once.
        m_bench->sources.retry(id);
        QTRY_COMPARE(loaded(id).state, LoadedSource::State::Ready);
        QCOMPARE(loaded(id).pyramid, PyramidState::Ready);
        QVERIFY(m_bench->jobs.running().empty());
        // What it was looked at with is for the first who reads it as the document shows it.
        QVERIFY(loaded(id).spare && !loaded(id).opening.pyramid.empty());
        const auto spare = loaded(id).spare->take(path.toStdString(), loaded(id).opening);
        QVERIFY(spare && spare->levels().size() == loaded(id).levels.size());
        QVERIFY(!loaded(id).spare->take(path.toStdString(), loaded(id).opening));
    }

    void aCancelledPyramid_isNotBegunAgainByItself_butWhenItIsAskedFor() {
        QSignalSpy started{&m_bench->jobs, &BackgroundJobs::started};
        const QString path = large("large.tif");
        const auto id = m_bench->add(path);
        QTRY_COMPARE(loaded(id).pyramid, PyramidState::Building);
        m_bench->sources.cancelPyramid(id);
        QTRY_COMPARE(loaded(id).pyramid, PyramidState::Wanted);
        QCOMPARE(loaded(id).state, LoadedSource::State::Ready);
        QTRY_VERIFY(m_bench->jobs.running().empty());
        QVERIFY(m_bench->pyramids().isEmpty());
        const auto jobs = started.count();

        m_bench->sources.retry(id); // reads it again, and builds nothing
        QTRY_COMPARE(loaded(id).state, LoadedSource::State::Ready);
        QTest::qWait(100);
        QCOMPARE(loaded(id).pyramid, PyramidState::Wanted);
        QCOMPARE(started.count(), jobs + 1);

        m_bench->sources.buildPyramid(id, PyramidPlace::Cache);
        QTRY_COMPARE_WITH_TIMEOUT(loaded(id).pyramid, PyramidState::Ready, 30'000);
    }

    void cancellingTheJob_isTheSame() {
        const auto id = m_bench->add(large("large.tif"));
        QTRY_COMPARE(loaded(id).pyramid, PyramidState::Building);
        QCOMPARE(m_bench->jobs.running().size(), std::size_t{1});
        m_bench->jobs.running().front()->cancel(); // as the window's button does
        QTRY_COMPARE(loaded(id).pyramid, PyramidState::Wanted);
        QTest::qWait(100);
        QCOMPARE(loaded(id).pyramid, PyramidState::Wanted);
    }

    void beside_onlyWhenItIsAskedFor() {
        const QString path = large("large.tif");
        const auto id = m_bench->add(path);
        QTRY_COMPARE(loaded(id).pyramid, PyramidState::Building);
        m_bench->sources.cancelPyramid(id);
        QTRY_COMPARE(loaded(id).pyramid, PyramidState::Wanted);
        m_bench->sources.buildPyramid(id, PyramidPlace::Beside);
        QTRY_COMPARE_WITH_TIMEOUT(loaded(id).pyramid, PyramidState::Ready, 30'000);
        QVERIFY(QFile::exists(path + ".ovr"));
        QVERIFY(loaded(id).levels.size() > 2);
        QVERIFY(m_bench->pyramids().isEmpty());
    }

    void aPyramidThatCannotBeWritten_saysWhy() {
        QFile file{m_bench->folder.filePath("pyramids")}; // a file where the folder should be
        QVERIFY(file.open(QIODevice::WriteOnly));
        const auto id = m_bench->add(large("large.tif"));
        QTRY_COMPARE_WITH_TIMEOUT(loaded(id).pyramid, PyramidState::Failed, 30'000);
        QVERIFY(!loaded(id).pyramidWords.isEmpty());
        QCOMPARE(loaded(id).state, LoadedSource::State::Ready);
    }

    void aRemovedSource_takesItsJobAlong() {
        const auto id = m_bench->add(large("large.tif"));
        QTRY_COMPARE(loaded(id).pyramid, PyramidState::Building);
        m_bench->document.undoStack().undo();
        QVERIFY(!m_bench->sources.find(id));
        QTRY_VERIFY(m_bench->jobs.running().empty());
        // That was no word against it: put back, it is built.
        m_bench->document.undoStack().redo();
        QTRY_COMPARE_WITH_TIMEOUT(loaded(id).pyramid, PyramidState::Ready, 30'000);
    }

    void aPyramid_bringsBackNoFormerCoordinateSystem() {
        const auto id = m_bench->add(large("silent.tif", {}), "EPSG:32629");
        QTRY_COMPARE(loaded(id).pyramid, PyramidState::Building);
        QVERIFY(loaded(id).raster);
        const auto before = loaded(id).raster->corners;
        model::Source changed = *loaded(id).source;
        changed.crs = "EPSG:32630";
        m_bench->document.push(model::replaceSource(m_bench->document.set(), changed, "Another system"));
        QTRY_COMPARE(loaded(id).state, LoadedSource::State::Ready);
        const auto after = loaded(id).raster->corners;
        QVERIFY(after[0].lon - before[0].lon > 5.9); // the next zone of six degrees
        QTRY_VERIFY_WITH_TIMEOUT(m_bench->jobs.running().empty() && loaded(id).pyramid == PyramidState::Ready, 60'000);
        QVERIFY(loaded(id).raster->corners == after);
        QVERIFY(!loaded(id).opening.pyramid.empty());
        QCOMPARE(loaded(id).opening.crs, changed.crs);
        QVERIFY(loaded(id).spare->take(loaded(id).path.toStdString(), loaded(id).opening));
        QCOMPARE(m_bench->pyramids().size(), 1);
    }

    void aLibrary_thatIsGone_isToldNothing() {
        const QTemporaryDir folder;
        const auto write = [&](const char* name, const QByteArray& content) {
            QFile file{folder.filePath(name)};
            return file.open(QIODevice::WriteOnly) && file.write(content) == content.size() &&
                   file.setPermissions(QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
        };
        // A reader that waits for its sign.
        QVERIFY(write("reader", "#!/bin/sh\nwhile [ ! -e '" + folder.filePath("gate").toUtf8() +
                                    "' ]; do sleep 0.02; done\nexec " FENCEWRIGHT_BUILD
                                    "/bin/fencewright-cli \"$@\"\n"));
        QVERIFY(write("parcels.geojson",
                      R"({"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"parcel":"4711"},"geometry":{"type":"Polygon","coordinates":
[[[-8.7,46.2],[-8.69,46.2],[-8.69,46.21],[-8.7,46.21],[-8.7,46.2]]]}}]})"));
        OpenDocument document;
        BackgroundJobs jobs;
        model::Source source;
        source.id = model::freshId<model::Source>();
        source.kind = model::SourceKind::Reference;
        source.name = "Parcels";
        source.path = folder.filePath("parcels.geojson").toStdString();
        document.push(model::addSource(document.set(), source));
        // In memory of our own, so that whoever looks at it afterwards is sure to stumble.
        alignas(SourceLibrary) std::array<std::byte, sizeof(SourceLibrary)> memory;
        auto* library =
            new (memory.data()) SourceLibrary{document, jobs, folder.filePath("reader"), folder.filePath("layers"), {}};
        QCOMPARE(jobs.running().size(), std::size_t{1});
        library->~SourceLibrary();
        memory.fill(std::byte{0xA5});
        QVERIFY(write("gate", {}));
        QTRY_VERIFY_WITH_TIMEOUT(jobs.running().empty(), 30'000);
        QCoreApplication::processEvents();
    }

    void bandsAndStretch_reachTheOpening_withoutReadingAgain() {
        const auto id = m_bench->add(large("large.tif"));
        QTRY_COMPARE(loaded(id).state, LoadedSource::State::Ready);
        model::Source changed = *loaded(id).source;
        changed.bands = {1, 1, 1};
        changed.stretch = {10.0, 90.0};
        m_bench->document.push(model::replaceSource(m_bench->document.set(), changed, "Look"));
        QCOMPARE(loaded(id).state, LoadedSource::State::Ready);
        QVERIFY(loaded(id).opening.appearance.bands == changed.bands);
        QVERIFY(loaded(id).opening.appearance.stretch == changed.stretch);
        m_bench->sources.cancelPyramid(id);
    }
};

QTEST_MAIN(SourceLibraryTest)
#include "source_library_test.moc"
