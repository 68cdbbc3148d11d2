#include "geodesy/geodesic.h"
#include "support/made_raster.h"
#include "window_probe.h"

#include <QInputDialog>

using namespace fencewright;
using namespace fencewright::desktop;

class SourcesTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_cache;

    // Four bands of sixteen bits whose values run from 100 * number to 100 * number + 63.
    static QString orthophoto(const QString& path) {
        test::MadeRaster made;
        made.width = made.height = 64;
        made.bands = 4;
        made.type = "UInt16";
        made.crs = "EPSG:25829";
        made.geotransform = {520000, 1, 0, 5117000, 0, -1};
        made.colours = {"Red", "Green", "Blue", "Undefined"};
        made.value = [](int band, int x, int) { return 100.0 * (band + 1) + x; };
        QDir{}.mkpath(QFileInfo{path}.path());
        test::make(made, path.toStdString());
        return path;
    }
    static model::SourceId add(WindowProbe& probe, const QString& path) {
        model::Source source;
        source.id = model::freshId<model::Source>();
        source.name = QFileInfo{path}.completeBaseName().toStdString();
        source.path = path.toStdString();
        probe.document().push(model::addSource(probe.set(), source));
        return source.id;
    }
    static session::LoadedSource::State stateOf(WindowProbe& probe, const model::SourceId& id) {
        return probe.window->sources().find(id)->state;
    }
    static QStringList namesOf(WindowProbe& probe) {
        QStringList names;
        for (const model::Source& source : probe.set().sources)
            names << QString::fromStdString(source.name);
        return names;
    }
    static QRect rowOf(WindowProbe& probe, int row) {
        auto* table = probe.find<QTableView>("ledgerTable");
        return table->visualRect(table->model()->index(row, 0));
    }
    static void chooseRow(WindowProbe& probe, int row) {
        QTest::mouseClick(probe.find<QWidget>("tabSources"), Qt::LeftButton);
        QTest::mouseClick(probe.find<QTableView>("ledgerTable")->viewport(), Qt::LeftButton, {},
                          rowOf(probe, row).center());
    }
    static void pick(WindowProbe& probe, const char* name, int choice) {
        auto* box = probe.find<QComboBox>(name);
        QVERIFY2(box, name);
        box->setFocus();
        QTest::keyClick(box, Qt::Key_Home);
        for (int i = 0; i < choice; ++i)
            QTest::keyClick(probe.find<QComboBox>(name), Qt::Key_Down);
    }

private slots:
    void initTestCase() { qputenv("XDG_CACHE_HOME", m_cache.path().toUtf8()); }

    // Its smaller pictures are built by themselves; the form says how far that is, stops it, and puts them beside the
    // file, which stays as it is.
    void smallerPictures_areStopped_andPutBesideTheFile() {
        WindowProbe probe;
        // A small picture shown large: it takes its time, and no room.
        test::MadeRaster made;
        made.width = made.height = 60;
        made.bands = 1;
        made.value = [](int, int x, int y) { return 3 * x + y; };
        test::make(made, probe.folder.filePath("small.tif").toStdString());
        const QString path = probe.folder.filePath("large.vrt");
        QFile mosaic{path};
        QVERIFY(mosaic.open(QFile::WriteOnly));
        mosaic.write(R"(<VRTDataset rasterXSize="12000" rasterYSize="12000"><SRS>EPSG:25829</SRS>
<GeoTransform>520000, 0.1, 0, 5117000, 0, -0.1</GeoTransform>
<VRTRasterBand dataType="Byte" band="1"><SimpleSource><SourceFilename relativeToVRT="1">small.tif</SourceFilename>
<SourceBand>1</SourceBand><SrcRect xOff="0" yOff="0" xSize="60" ySize="60"/>
<DstRect xOff="0" yOff="0" xSize="12000" ySize="12000"/></SimpleSource></VRTRasterBand></VRTDataset>)");
        mosaic.close();
        const auto bytesOf = [&] {
            QFile file{path};
            return file.open(QFile::ReadOnly) ? file.readAll() : QByteArray{};
        };
        const QByteArray before = bytesOf();
        QVERIFY(!before.isEmpty());
        const auto id = add(probe, path);
        const auto pyramid = [&] { return probe.window->sources().find(id)->pyramid; };
        QTRY_COMPARE(pyramid(), session::PyramidState::Building);
        chooseRow(probe, 0);
        QTRY_VERIFY(probe.find<QPushButton>("sourcePyramidButton"));
        QCOMPARE(probe.find<QPushButton>("sourcePyramidButton")->text(), QString{"Stop"});
        QVERIFY(probe.find<QLabel>("sourcePyramid")->text().contains("being built"));
        QTest::mouseClick(probe.find<QPushButton>("sourcePyramidButton"), Qt::LeftButton);
        QTRY_COMPARE(pyramid(), session::PyramidState::Wanted);
        QTRY_VERIFY(probe.find<QLabel>("sourcePyramid")->text().startsWith("Slow"));
        QTest::qWait(100);
        QCOMPARE(pyramid(), session::PyramidState::Wanted); // it is not begun again behind the person's back

        auto* put = probe.find<QPushButton>("sourcePyramidButton");
        QCOMPARE(put->text(), QString{"Put beside the file"});
        put->setFocus();
        QTest::keyClick(put, Qt::Key_Space);
        QTRY_COMPARE(pyramid(), session::PyramidState::Building);
        QTRY_COMPARE_WITH_TIMEOUT(pyramid(), session::PyramidState::Ready, 60'000);
        QVERIFY(QFile::exists(path + ".ovr"));
        QCOMPARE(bytesOf(), before);
        QTRY_VERIFY(probe.find<QLabel>("sourcePyramid")->text().startsWith("Quick"));
        QCOMPARE_GT(probe.window->sources().find(id)->levels.size(), std::size_t{4});
        QCOMPARE(probe.set().sources.size(), std::size_t{1});
    }

    void bandsAndValues_areChosenAndTyped() {
        WindowProbe probe;
        const auto id = add(probe, orthophoto(probe.folder.filePath("ortho.tif")));
        const auto source = [&] { return *probe.set().sources.find(id); };
        QTRY_COMPARE(stateOf(probe, id), session::LoadedSource::State::Ready);
        chooseRow(probe, 0);
        QTRY_VERIFY(probe.find<QComboBox>("sourceColours"));
        QCOMPARE(probe.find<QLineEdit>("sourceBands")->text(), QString{"1, 2, 3"});

        // Colour infrared: near infrared, red and green as red, green and blue (common practice of aerial surveys).
        const auto* colours = probe.find<QComboBox>("sourceColours");
        const int infrared = colours->findText("infrared", Qt::MatchStartsWith);
        QCOMPARE_GT(infrared, 0);
        pick(probe, "sourceColours", infrared);
        QCOMPARE(source().bands, (std::optional<std::array<int, 3>>{{4, 1, 2}}));
        QCOMPARE(probe.find<QLineEdit>("sourceBands")->text(), QString{"4, 1, 2"});
        probe.typeAndEnter("sourceBands", "5 1 2");
        QVERIFY(probe.refusal("sourceBands").contains("1 to 4"));
        QCOMPARE(source().bands, (std::optional<std::array<int, 3>>{{4, 1, 2}}));
        probe.typeAndEnter("sourceBands", "3");
        QCOMPARE(source().bands, (std::optional<std::array<int, 3>>{{3, 3, 3}}));

        // Band 3 runs from 300 to 363.
        pick(probe, "sourceStretch", 2);
        QCOMPARE(source().stretch, (std::optional<std::array<double, 2>>{{300, 363}}));
        QCOMPARE(probe.find<QLineEdit>("sourceValues")->text(), QString::fromUtf8("300 – 363"));
        probe.typeAndEnter("sourceValues", "350 310");
        QVERIFY(probe.refusal("sourceValues").contains("no range"));
        probe.typeAndEnter("sourceValues", "310 350");
        QCOMPARE(source().stretch, (std::optional<std::array<double, 2>>{{310, 350}}));
        pick(probe, "sourceStretch", 0);
        QCOMPARE(source().stretch, std::nullopt);
        probe.typeAndEnter("sourceBands", "");
        QCOMPARE(source().bands, std::nullopt);
        probe.document().undoStack().undo();
        QCOMPARE(source().bands, (std::optional<std::array<int, 3>>{{3, 3, 3}}));
    }

    void order_isChangedByKeysAndByDragging() {
        WindowProbe probe;
        for (const char* name : {"a", "b", "c"})
            add(probe, orthophoto(probe.folder.filePath(QString{name} + ".tif")));
        QVERIFY(probe.settle());
        QCOMPARE(namesOf(probe), (QStringList{"a", "b", "c"}));
        chooseRow(probe, 0); // the topmost: c
        auto* table = probe.find<QTableView>("ledgerTable");
        QTest::keyClick(table, Qt::Key_Down, Qt::AltModifier);
        QCOMPARE(namesOf(probe), (QStringList{"a", "c", "b"}));
        QTest::keyClick(table, Qt::Key_Down, Qt::AltModifier);
        QTest::keyClick(table, Qt::Key_Down, Qt::AltModifier); // no farther
        QCOMPARE(namesOf(probe), (QStringList{"c", "a", "b"}));
        QTest::keyClick(table, Qt::Key_Space);
        QVERIFY(!probe.set().sources[0].visible);
        QTest::keyClick(table, Qt::Key_Space);
        QVERIFY(probe.set().sources[0].visible);

        // The lowest row to the top.
        const QPoint from = rowOf(probe, 2).center();
        const QPoint to = rowOf(probe, 0).center();
        QTest::mousePress(table->viewport(), Qt::LeftButton, {}, from);
        for (int step = 1; step <= 4; ++step)
            QTest::mouseMove(table->viewport(), from + (to - from) * step / 4);
        QTest::mouseRelease(table->viewport(), Qt::LeftButton, {}, to);
        QCOMPARE(namesOf(probe), (QStringList{"a", "b", "c"}));
        probe.document().undoStack().undo();
        QCOMPARE(namesOf(probe), (QStringList{"c", "a", "b"}));
    }

    void movedFiles_areFoundTogether_andKeepTheirPlaces() {
        WindowProbe probe;
        QStringList gone;
        std::vector<model::SourceId> ids;
        for (const char* name : {"north", "middle", "south"}) {
            orthophoto(probe.folder.filePath(QString{"moved/"} + name + ".tif"));
            ids.push_back(add(probe, probe.folder.filePath(QString{"was/"} + name + ".tif")));
        }
        QVERIFY(probe.settle());
        for (const auto& id : ids)
            QTRY_COMPARE(stateOf(probe, id), session::LoadedSource::State::Failed);
        chooseRow(probe, 1); // the middle one
        // The ledger says so, with the reason and a mark; so does the form.
        auto* ledger = qobject_cast<LedgerModel*>(probe.find<QTableView>("ledgerTable")->model());
        QVERIFY(ledger);
        const QModelIndex state = ledger->index(1, 2);
        QCOMPARE(state.data().toString(), QString{"missing"});
        QVERIFY2(state.data(Qt::ToolTipRole).toString().contains("was/middle.tif"),
                 qPrintable(state.data(Qt::ToolTipRole).toString()));
        QVERIFY(ledger->rowAt(1).worst == audit::Severity::Doubt);
        QCOMPARE(probe.find<QLabel>("sourceState")->text(), state.data(Qt::ToolTipRole).toString());
        QTest::mouseClick(probe.find<QPushButton>("recordLocate"), Qt::LeftButton);
        QVERIFY(probe.answerFile(probe.folder.filePath("moved/middle.tif")));
        QTRY_COMPARE(stateOf(probe, ids[1]), session::LoadedSource::State::Ready);
        QCOMPARE(namesOf(probe), (QStringList{"north", "middle", "south"}));
        QVERIFY2(probe.message().contains("2 other missing files"), qPrintable(probe.message()));
        QTest::mouseClick(probe.find<QPushButton>("messageAction"), Qt::LeftButton);
        for (const auto& id : ids)
            QTRY_COMPARE(stateOf(probe, id), session::LoadedSource::State::Ready);
        QCOMPARE(namesOf(probe), (QStringList{"north", "middle", "south"}));
        probe.document().undoStack().undo(); // both at once
        QCOMPARE(probe.set().sources.find(ids[0])->path, probe.folder.filePath("was/north.tif").toStdString());
        QCOMPARE(probe.set().sources.find(ids[2])->path, probe.folder.filePath("was/south.tif").toStdString());
    }

    void folder_isAddedAsOnePicture() {
        WindowProbe probe;
        orthophoto(probe.folder.filePath("sheets of 2026/one.tif"));
        probe.key(Qt::Key_K, Qt::ControlModifier);
        auto* search = probe.find<QLineEdit>("commandSearch");
        QTest::keyClicks(search, "add a folder");
        QTest::keyClick(search, Qt::Key_Return);
        QVERIFY(probe.answerFile(probe.folder.filePath("sheets of 2026")));
        QTRY_COMPARE_WITH_TIMEOUT(probe.set().sources.size(), std::size_t{1}, 10'000);
        QCOMPARE(probe.set().sources[0].name, std::string{"sheets of 2026"});
        QTRY_COMPARE(stateOf(probe, probe.set().sources[0].id), session::LoadedSource::State::Ready);
    }

    /// A world file gives places in a system that it does not name.
    void imageWithAWorldFile_isAskedForItsSystem() {
        WindowProbe probe;
        test::MadeRaster made;
        made.driver = "JPEG";
        made.bands = 3;
        made.width = made.height = 64;
        made.crs = "EPSG:25829";
        made.geotransform = {520000, 0.5, 0, 5117000, 0, -0.5};
        made.value = [](int, int x, int y) { return double(x + y); };
        made.options = {"WORLDFILE=YES"};
        const QString path = probe.folder.filePath("photo.jpg");
        test::make(made, path.toStdString());
        QVERIFY(QFile::remove(path + ".aux.xml")); // in which GDAL has left the system
        probe.window->findChild<QAction*>("addImagery")->trigger();
        QVERIFY(probe.answerFile(path));
        auto* dialog = probe.waitForDialog<QInputDialog>("crsDialog");
        QVERIFY2(dialog, qPrintable(probe.message()));
        dialog->setTextValue("EPSG:25829");
        dialog->accept();
        QTRY_COMPARE_WITH_TIMEOUT(probe.set().sources.size(), std::size_t{1}, 10'000);
        const auto id = probe.set().sources[0].id;
        QTRY_COMPARE(stateOf(probe, id), session::LoadedSource::State::Ready);
        const auto& corners = probe.window->sources().find(id)->raster->corners;
        QCOMPARE(corners.size(), std::size_t{4});
        // GeographicLib's GeoConvert, of "29n 520000 5117000".
        constexpr model::Position expected{-8.740744744, 46.206282769};
        QCOMPARE_LE(geodesy::inverse(corners[0], expected).length.inMetres(), 0.01);
    }
};

QTEST_MAIN(SourcesTest)
#include "sources_test.moc"
