#include "app/desktop/window_probe.h"

#include "exchange/import.h"
#include "store/document_file.h"
#include "store/recovery.h"
#include "units/measure_notation.h"

#include <sys/wait.h>
#include <unistd.h>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

constexpr double kLon = -8.7;
constexpr double kLat = 46.2;

/// A keep-in with a home inside it and a basis: nothing for the audit to call an error.
void drawSoundSet(WindowProbe& probe) {
    probe.look(kLon, kLat, 0.01);
    probe.square("tool_keepin", kLon, kLat, 0.006);
    QTest::mouseClick(probe.find<QWidget>("tool_home"), Qt::LeftButton);
    probe.clickMap(kLon, kLat);
    QTest::keyClick(&probe.map(), Qt::Key_Escape);
}

model::Site nest() {
    model::Site site;
    site.id = model::freshId<struct model::Site>();
    site.name = "Nest";
    site.geometry = model::Position{kLon, kLat};
    site.positionError = {Length::metres(5), "5 m"};
    return site;
}

} // namespace

class MainWindowTest : public QObject {
    Q_OBJECT

private slots:
    void start_showsThreeSteps_andAToolTakesTheirPlace() {
        WindowProbe probe;
        auto* page = probe.find<QWidget>("startPage");
        QVERIFY(page->isVisible());
        QCOMPARE(page->findChildren<QPushButton*>(QRegularExpression{"^step_"}).size(), 3);
        QVERIFY(probe.find<QPushButton>("link_sample")->isVisible());
        probe.key(Qt::Key_I);
        QCOMPARE(probe.map().toolId(), QString{"keepin"});
        QVERIFY(!page->isVisible());
        probe.key(Qt::Key_S);
        QVERIFY(page->isVisible());
    }

    void polygon_isDrawnByMouse_undoneAndRedoneByKeys() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.01);
        probe.square("tool_keepin", kLon, kLat, 0.005);
        QCOMPARE(probe.set().fences.size(), std::size_t{1});
        const model::FenceSet drawn = probe.set();
        const auto& shape = std::get<model::DrawnPolygon>(drawn.fences[0].shape);
        QCOMPARE(shape.polygon.shell.corners.size(), std::size_t{4});
        QCOMPARE(drawn.fences[0].kind, model::FenceKind::KeepIn);
        // The corners are where the clicks were, to within two pixels.
        const double tolerance = 2 * probe.map().metresPerPixel() / 111'195.0 / std::cos(kLat * 3.14159 / 180);
        QVERIFY(std::abs(shape.polygon.shell.corners[0].lon - (kLon - 0.005)) < tolerance);
        QVERIFY(std::abs(shape.polygon.shell.corners[2].lat - (kLat + 0.005)) < tolerance);
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(probe.set().fences.size(), std::size_t{0});
        probe.key(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
        QVERIFY(probe.set() == drawn);
    }

    void tool_saysWhatItWaitsFor_andItsKeyWorksAfterAnEntryInTheForm() {
        WindowProbe probe;
        drawSoundSet(probe);
        probe.map().select(probe.set().fences[0].id);
        probe.typeAndEnter("fenceName", "Utility land");
        probe.key(Qt::Key_M);
        QCOMPARE(probe.set().fences[0].name, std::string{"Utility land"});
        QCOMPARE(probe.map().toolId(), QString{"measure"});
        QCOMPARE(probe.find<QLabel>("mapHint")->text(), QString{"Click where to measure from."});
    }

    void form_takesTypedValues_oneStepEach_andExplainsWhatItRefuses() {
        WindowProbe probe;
        drawSoundSet(probe);
        probe.map().select(probe.set().fences[0].id);
        const int before = probe.document().undoStack().index();
        probe.typeAndEnter("fenceName", "Utility land");
        QCOMPARE(probe.set().fences[0].name, std::string{"Utility land"});
        QCOMPARE(probe.document().undoStack().index(), before + 1);
        probe.typeAndEnter("fenceCeiling", "400 ft");
        // The international foot is 0.3048 m exactly (1959).
        QVERIFY(std::abs(probe.set().fences[0].band.ceiling->value.length.inMetres() - 121.92) < 1e-9);
        QCOMPARE(probe.find<QLineEdit>("fenceCeiling")->text(), QString{"400 ft"});
        probe.typeAndEnter("fenceSeason", "1 Apr - 31 Aug");
        QVERIFY(probe.set().fences[0].period.season ==
                (model::Season{std::chrono::April / 1, std::chrono::August / 31}));

        const model::FenceSet good = probe.set();
        probe.typeAndEnter("fenceCeiling", "40 parsecs");
        QVERIFY2(probe.refusal("fenceCeiling").contains("parsecs"), qPrintable(probe.refusal("fenceCeiling")));
        QVERIFY(probe.set() == good);
        QTest::keyClick(probe.find<QLineEdit>("fenceCeiling"), Qt::Key_Escape);
        QCOMPARE(probe.find<QLineEdit>("fenceCeiling")->text(), QString{"400 ft"});
        QVERIFY(probe.refusal("fenceCeiling").isEmpty());
        probe.typeAndEnter("fenceName", "");
        QVERIFY(!probe.refusal("fenceName").isEmpty());
        QVERIFY(probe.set() == good);

        auto* kind = probe.find<QComboBox>("fenceKind");
        kind->setFocus();
        QTest::keyClick(kind, Qt::Key_Down);
        QCOMPARE(probe.set().fences[0].kind, model::FenceKind::KeepOut);
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(probe.set() == good);
        QCOMPARE(kind->currentIndex(), 0);
    }

    void site_getsASetback_whichFollowsIt() {
        WindowProbe probe;
        probe.document().push(model::addSite(probe.set(), nest()));
        probe.map().select(probe.set().sites[0].id);
        QVERIFY(probe.find<QPushButton>("tabSites")->isChecked());
        probe.type(probe.window.get(), "siteSetback", "1/4 mi");
        probe.clickIn(probe.window.get(), "siteSetbackButton");
        QCOMPARE(probe.set().fences.size(), std::size_t{1});
        const auto& setback = std::get<model::Setback>(probe.set().fences[0].shape);
        QVERIFY(setback.site == probe.set().sites[0].id);
        // A quarter of a statute mile is 402.336 m (5280 ft of 0.3048 m, over four).
        QVERIFY(std::abs(setback.distance.length.inMetres() - 402.336) < 1e-9);
        QCOMPARE(probe.set().fences[0].kind, model::FenceKind::KeepOut);
        // The ledger shows the area of a circle of 407.336 m: 521 261 m2, a little more for the safe side.
        QTest::mouseClick(probe.find<QPushButton>("tabFences"), Qt::LeftButton);
        auto* table = probe.find<QTableView>("ledgerTable");
        QCOMPARE(table->model()->index(0, 2).data().toString(), QString{"52.2 ha"});
        probe.map().select(probe.set().sites[0].id);
        probe.typeAndEnter("sitePositionError", "105 m");
        QTest::mouseClick(probe.find<QPushButton>("tabFences"), Qt::LeftButton);
        // 507.336 m: 808 627 m2.
        QCOMPARE(table->model()->index(0, 2).data().toString(), QString{"80.9 ha"});
    }

    void save_thenReopen_givesTheSameSet_andAnEntryAmongRecent() {
        WindowProbe probe;
        drawSoundSet(probe);
        QCOMPARE(probe.find<QLabel>("documentState")->text(), QString{"not yet saved"});
        const QString path = probe.folder.filePath("set.gpkg");
        QVERIFY(probe.save(path));
        const model::FenceSet saved = probe.set();
        QCOMPARE(probe.find<QLabel>("documentName")->text(), QString{"set.gpkg"});
        QCOMPARE(probe.find<QLabel>("documentState")->text(), QString{});
        QVERIFY(store::openDocument(path.toStdString()).set == saved);

        probe.show(); // another window with the same settings
        auto* recent = probe.find<QMenu>("recentMenu");
        emit recent->aboutToShow();
        QCOMPARE(recent->actions().front()->text(), QString{"set.gpkg"});
        recent->actions().front()->trigger();
        QTRY_VERIFY(probe.set() == saved);
        QVERIFY(!probe.document().isModified());
    }

    void anotherDocument_isSeenWhole_andWorkedAnew() {
        WindowProbe probe;
        drawSoundSet(probe);
        const QString path = probe.folder.filePath("set.gpkg");
        QVERIFY(probe.save(path));
        probe.document().startNew();
        probe.look(30.0, -20.0, 0.01); // far away
        QTest::mouseClick(probe.find<QWidget>("tool_keepout"), Qt::LeftButton);
        probe.clickMap(30.0, -20.0);
        probe.clickMap(30.001, -20.0);
        QCOMPARE(probe.map().toolId(), QString{"keepout"});
        probe.window->open(path);
        QTRY_COMPARE(probe.set().fences.size(), std::size_t{1});
        QCOMPARE(probe.map().toolId(), QString{"select"});
        QTRY_VERIFY(probe.map().rect().contains(probe.pixel(kLon, kLat)));
        QTRY_VERIFY(probe.map().rect().contains(probe.pixel(kLon + 0.006, kLat + 0.006)));
        QTest::keyClick(&probe.map(), Qt::Key_Return); // what was begun in the other one is gone
        QCOMPARE(probe.set().fences.size(), std::size_t{1});
    }

    void badFile_leavesTheDocumentUntouched_andSaysWhy() {
        WindowProbe probe;
        drawSoundSet(probe);
        QVERIFY(probe.save(probe.folder.filePath("set.gpkg")));
        const model::FenceSet before = probe.set();
        QFile bad{probe.folder.filePath("bad.gpkg")};
        QVERIFY(bad.open(QIODevice::WriteOnly));
        bad.write("this is no GeoPackage");
        bad.close();
        probe.key(Qt::Key_O, Qt::ControlModifier);
        QVERIFY(probe.answerFile(bad.fileName()));
        QTRY_VERIFY(!probe.message().isEmpty());
        auto* bar = probe.find<QWidget>("messageBar");
        bool named = false;
        for (const QLabel* label : bar->findChildren<QLabel*>())
            named = named || label->text().contains("bad.gpkg");
        QVERIFY(named);
        QVERIFY(probe.set() == before);
        QCOMPARE(probe.document().fileName(), QString{"set.gpkg"});
        probe.clickIn(bar, "messageClose");
        QVERIFY(!bar->isVisible());
    }

    void closing_asksAboutUnsavedWork() {
        WindowProbe probe;
        drawSoundSet(probe);
        QVERIFY(!probe.window->close());
        auto* question = probe.waitForDialog<QMessageBox>("unsavedQuestion");
        QVERIFY(question);
        QTest::mouseClick(question->button(QMessageBox::Cancel), Qt::LeftButton);
        QVERIFY(probe.window->isVisible());
        QVERIFY(probe.document().isModified());

        QVERIFY(!probe.window->close());
        question = probe.waitForDialog<QMessageBox>("unsavedQuestion");
        QVERIFY(question);
        QTest::mouseClick(question->button(QMessageBox::Save), Qt::LeftButton);
        const QString path = probe.folder.filePath("kept.gpkg");
        QVERIFY(probe.answerFile(path));
        QTRY_VERIFY(!probe.window->isVisible());
        QVERIFY(QFileInfo::exists(path));
    }

    void closing_discardsWhenAskedTo() {
        WindowProbe probe;
        drawSoundSet(probe);
        QVERIFY(!probe.window->close());
        auto* question = probe.waitForDialog<QMessageBox>("unsavedQuestion");
        QVERIFY(question);
        QTest::mouseClick(question->button(QMessageBox::Discard), Qt::LeftButton);
        QTRY_VERIFY(!probe.window->isVisible());
        QCOMPARE(QDir{probe.folder.path()}.entryList({"*.gpkg"}).size(), 0);
    }

    void findings_appear_areShown_andARepairIsPreviewedBeforeItIsTaken() {
        WindowProbe probe;
        probe.look(kLon, kLat, 0.01);
        // A keep-out whose edges cross: a bow tie.
        probe.draw("tool_keepout", {{kLon - 0.004, kLat - 0.004},
                                    {kLon + 0.004, kLat + 0.004},
                                    {kLon + 0.004, kLat - 0.004},
                                    {kLon - 0.004, kLat + 0.004}});
        QCOMPARE(probe.set().fences.size(), std::size_t{1});
        QVERIFY(probe.settle());
        auto* list = probe.find<QListView>("findingsList");
        QVERIFY(list->model()->rowCount() > 0);
        QVERIFY(probe.find<QLabel>("findingsCount")->text().contains("error"));
        const auto findings = probe.window->audit().result()->findings;
        int repairable = -1;
        for (std::size_t i = 0; i < findings.size(); ++i)
            if (findings[i].repair && repairable < 0)
                repairable = int(i);
        QVERIFY2(repairable >= 0, "a crossing has a safe repair");
        const model::FenceSet before = probe.set();
        const QModelIndex row = list->model()->index(repairable, 0);
        list->scrollTo(row);
        QTest::mouseClick(list->viewport(), Qt::LeftButton, Qt::NoModifier, list->visualRect(row).center());
        QVERIFY(probe.find<QWidget>("repairOffer")->isVisible());
        QVERIFY(probe.set() == before); // only shown
        probe.clickIn(probe.window.get(), "repairTake");
        QVERIFY(!(probe.set() == before));
        QVERIFY(probe.settle());
        for (const audit::Finding& finding : probe.window->audit().result()->findings)
            QVERIFY2(finding.rule != findings[std::size_t(repairable)].rule, finding.words.english().c_str());
        probe.map().setFocus();
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(probe.set() == before);
    }

    void missingSource_isShown_andBlocksNothing() {
        WindowProbe probe;
        model::Source source;
        source.id = model::freshId<struct model::Source>();
        source.name = "Lost photo";
        source.path = probe.folder.filePath("lost.tif").toStdString();
        probe.document().push(model::addSource(probe.set(), source));
        QVERIFY(probe.settle());
        QTest::mouseClick(probe.find<QPushButton>("tabSources"), Qt::LeftButton);
        auto* table = probe.find<QTableView>("ledgerTable");
        QCOMPARE(table->model()->rowCount(), 1);
        QCOMPARE(table->model()->index(0, 2).data().toString(), QString{"missing"});
        QTest::mouseClick(table->viewport(), Qt::LeftButton, Qt::NoModifier,
                          table->visualRect(table->model()->index(0, 0)).center());
        QVERIFY(probe.find<QLabel>("sourceState")->text().contains("lost.tif"));
        QVERIFY(probe.find<QPushButton>("recordLocate")->isVisible());
        drawSoundSet(probe);
        QCOMPARE(probe.set().fences.size(), std::size_t{1});
        QVERIFY(probe.save(probe.folder.filePath("set.gpkg")));
        // The file keeps the way from its own folder; in memory it is whole.
        QCOMPARE(store::openDocument(probe.folder.filePath("set.gpkg").toStdString()).set.sources[0].path,
                 std::string{"lost.tif"});
        QCOMPARE(probe.set().sources[0].path, source.path);
    }

    void deliver_showsTheReadBackConfirmed_data() {
        QTest::addColumn<int>("format");
        QTest::addColumn<QString>("suffix");
        QTest::newRow("GeoJSON") << 0 << ".geojson";
        QTest::newRow("KML") << 1 << ".kml";
    }
    void deliver_showsTheReadBackConfirmed() {
        QFETCH(int, format);
        QFETCH(QString, suffix);
        WindowProbe probe;
        drawSoundSet(probe);
        QVERIFY(probe.settle());
        probe.key(Qt::Key_L, Qt::ControlModifier);
        auto* dialog = probe.waitForDialog<QDialog>("deliveryDialog");
        QVERIFY(dialog);
        auto* formats = dialog->findChild<QComboBox*>("deliveryFormat");
        formats->setFocus();
        for (int i = 0; i < format; ++i)
            QTest::keyClick(formats, Qt::Key_Down);
        const QString path = probe.folder.filePath("handed-out" + suffix);
        QVERIFY(dialog->findChild<QLineEdit*>("deliveryPath")->text().endsWith(suffix));
        probe.type(dialog, "deliveryPath", path);
        probe.clickIn(dialog, "deliveryGo");
        auto* result = probe.waitForDialog<QDialog>("deliveryResult");
        QVERIFY2(result, qPrintable(probe.message()));
        QVERIFY(result->findChild<QLabel*>("deliveryVerdict")->text().startsWith("Confirmed"));
        QVERIFY(result->findChild<QLabel*>("deliveryWritten")->text().startsWith("1 fences, 4 corners"));
        QFile file{path};
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QByteArray bytes = file.readAll();
        const QString sum = QCryptographicHash::hash(bytes, QCryptographicHash::Sha256).toHex();
        QCOMPARE(result->findChild<QLabel*>("deliveryChecksum")->text().remove('\n'), sum);
        if (suffix == ".geojson") {
            // RFC 7946, sections 3.1.6 and 3.3.
            const QJsonObject root = QJsonDocument::fromJson(bytes).object();
            QCOMPARE(root["type"].toString(), QString{"FeatureCollection"});
            QVERIFY(!root.contains("crs"));
        } else {
            // OGC 07-147r2, KML 2.2: the root element and its namespace.
            QXmlStreamReader xml{bytes};
            QVERIFY(xml.readNextStartElement());
            QCOMPARE(xml.name().toString(), QString{"kml"});
            QCOMPARE(xml.namespaceUri().toString(), QString{"http://www.opengis.net/kml/2.2"});
        }
        probe.clickIn(result, "deliveryClose");
    }

    void importOfSites_withASetback_isOneStep_andIsAccountedFor() {
        WindowProbe probe;
        QFile file{probe.folder.filePath("sites.geojson")};
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(R"({"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"name":"North"},"geometry":{"type":"Point","coordinates":[-8.70,46.21]}},
{"type":"Feature","properties":{"name":"South"},"geometry":{"type":"Point","coordinates":[-8.70,46.19]}},
{"type":"Feature","properties":{"name":"Nowhere"},"geometry":null}]})");
        file.close();
        probe.window->findChild<QAction*>("importSites")->trigger();
        QVERIFY(probe.answerFile(file.fileName()));
        auto* dialog = probe.waitForDialog<QDialog>("importDialog");
        QVERIFY2(dialog, qPrintable(probe.message()));
        QCOMPARE(dialog->findChild<QComboBox*>("importName")->currentText(), QString{"name"});
        probe.type(dialog, "importSetback", "100 m");
        probe.clickIn(dialog, "importGo");
        auto* summary = probe.waitForDialog<QDialog>("summaryDialog");
        QVERIFY2(summary, qPrintable(probe.message()));
        QCOMPARE(summary->findChild<QLabel*>("summaryOutcome")->text(), QString{"2 sites added, each with a setback"});
        QVERIFY(summary->findChild<QTableWidget*>("summaryNotes")->rowCount() > 0); // the one without a place
        probe.clickIn(summary, "summaryClose");
        QCOMPARE(probe.set().sites.size(), std::size_t{2});
        QCOMPARE(probe.set().fences.size(), std::size_t{2});
        QCOMPARE(probe.set().sites[0].name, std::string{"North"});
        probe.window->activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(probe.window.get()));
        probe.map().setFocus();
        probe.key(Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(probe.set() == model::FenceSet{});
    }

    void referenceLayer_isAdded_summedUp_andSearchedByParcelNumber() {
        WindowProbe probe;
        QFile file{probe.folder.filePath("parcels.geojson")};
        QVERIFY(file.open(QIODevice::WriteOnly));
        file.write(R"({"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"parcel":"4711"},"geometry":{"type":"Polygon","coordinates":
[[[-8.7,46.2],[-8.69,46.2],[-8.69,46.21],[-8.7,46.21],[-8.7,46.2]]]}}]})");
        file.close();
        probe.window->findChild<QAction*>("addReference")->trigger();
        QVERIFY(probe.answerFile(file.fileName()));
        auto* dialog = probe.waitForDialog<QDialog>("importDialog");
        QVERIFY2(dialog, qPrintable(probe.message()));
        QCOMPARE(dialog->findChild<QComboBox*>("importNumber")->currentText(), QString{"parcel"});
        probe.clickIn(dialog, "importGo");
        QTRY_VERIFY(probe.message().contains("1 features read"));
        QCOMPARE(probe.set().sources.size(), std::size_t{1});
        probe.look(0, 0, 1);
        probe.key(Qt::Key_K, Qt::ControlModifier);
        auto* search = probe.find<QLineEdit>("commandSearch");
        QTest::keyClicks(search, "4711");
        QTest::keyClick(search, Qt::Key_Return);
        const auto middle = probe.map().toEarth(QPointF(probe.map().width() / 2.0, probe.map().height() / 2.0));
        QVERIFY(std::abs(middle.lon - -8.695) < 1e-3 && std::abs(middle.lat - 46.205) < 1e-3);
    }

    void calendar_movesTheDay_byKeysAndMouse() {
        WindowProbe probe;
        drawSoundSet(probe);
        probe.map().select(probe.set().fences[0].id);
        probe.typeAndEnter("fenceSeason", "1 Jun - 30 Sep");
        QCOMPARE(probe.find<QLabel>("ledgerCount")->text(), QString{"0 in force on 14 May 2026"});
        QVERIFY(probe.find<QLabel>("calendarNext")->text().contains("1 June 2026"));
        auto* bars = probe.find<QAbstractScrollArea>("calendarBars");
        bars->setFocus();
        QTest::keyClick(bars, Qt::Key_PageDown);
        QCOMPARE(probe.find<QLineEdit>("calendarDate")->text(), QString{"14 June 2026"});
        QCOMPARE(probe.find<QLabel>("ledgerCount")->text(), QString{"1 in force on 14 June 2026"});
        QTest::keyClick(bars, Qt::Key_Left);
        QCOMPARE(probe.find<QLineEdit>("calendarDate")->text(), QString{"13 June 2026"});
        QTest::mouseClick(bars->viewport(), Qt::LeftButton, Qt::NoModifier, QPoint{bars->viewport()->width() - 9, 40});
        QCOMPARE(probe.find<QLineEdit>("calendarDate")->text(), QString{"31 December 2026"});
        probe.typeAndEnter("calendarDate", "2027-07-01");
        QCOMPARE(probe.window->audit().moment().date, std::chrono::year{2027} / 7 / 1);
    }

    void search_takesCommandsPlacesAndNames() {
        WindowProbe probe;
        drawSoundSet(probe);
        probe.key(Qt::Key_K, Qt::ControlModifier);
        auto* search = probe.find<QLineEdit>("commandSearch");
        QTRY_VERIFY(search->hasFocus());
        QTest::keyClicks(search, "46.5 -8.1");
        QTest::keyClick(search, Qt::Key_Return);
        const auto middle = probe.map().toEarth(QPointF(probe.map().width() / 2.0, probe.map().height() / 2.0));
        QVERIFY(std::abs(middle.lon - -8.1) < 1e-4 && std::abs(middle.lat - 46.5) < 1e-4);
        probe.key(Qt::Key_K, Qt::ControlModifier);
        QTest::keyClicks(search, "measure");
        QTest::keyClick(search, Qt::Key_Return);
        QCOMPARE(probe.map().toolId(), QString{"measure"});
        probe.key(Qt::Key_K, Qt::ControlModifier);
        QTest::keyClicks(search, QString::fromStdString(probe.set().fences[0].name));
        QTest::keyClick(search, Qt::Key_Return);
        QVERIFY(probe.map().selection() == Selection{probe.set().fences[0].id});
        // Letters typed there are no keys of tools.
        QCOMPARE(probe.map().toolId(), QString{"measure"});
    }

    void appearance_changesWhileRunning() {
        WindowProbe probe;
        const auto ground = [] { return QApplication::palette().color(QPalette::Window); };
        QCOMPARE(ground(), lightPalette().ground);
        probe.window->findChild<QAction*>("themeDark")->trigger();
        QCOMPARE(ground(), darkPalette().ground);
        QCOMPARE(probe.window->settings().theme(), session::Theme::Dark);
        probe.window->findChild<QAction*>("themeLight")->trigger();
        QCOMPARE(ground(), lightPalette().ground);
    }

    void everyControl_hasAnAccessibleName() {
        WindowProbe probe;
        drawSoundSet(probe);
        probe.map().select(probe.set().fences[0].id);
        for (const QWidget* widget : probe.window->findChildren<QWidget*>()) {
            if (!widget->isVisible() || !(widget->focusPolicy() & Qt::TabFocus))
                continue;
            const auto* accessible = QAccessible::queryAccessibleInterface(const_cast<QWidget*>(widget));
            QVERIFY(accessible);
            const QString name = accessible->text(QAccessible::Name);
            QVERIFY2(!name.isEmpty(),
                     qPrintable(QString{widget->metaObject()->className()} + " " + widget->objectName()));
        }
    }

    void unsavedWork_ofAnEndedProgram_isOffered() {
        WindowProbe probe;
        const std::string recovery = probe.folder.filePath("recovery").toStdString();
        QVERIFY(QDir{probe.folder.path()}.mkdir("recovery"));
        // A program that ends without its goodbye: a child that is killed after it wrote its copy.
        const std::string document = probe.folder.filePath("was.gpkg").toStdString();
        model::FenceSet lost;
        lost.sites.append(nest());
        const pid_t child = fork();
        if (child == 0) {
            try {
                store::keepRecoveryCopy(recovery, "lost", document, lost);
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
        probe.window->offerRecovery();
        auto* dialog = probe.waitForDialog<QDialog>("recoveryDialog");
        QVERIFY(dialog);
        probe.clickIn(dialog, "recoveryRecover");
        QTRY_VERIFY(probe.set() == lost);
        QVERIFY(probe.document().isModified());
        QCOMPARE(probe.document().fileName(), QString{"was.gpkg"});
    }
};

QTEST_MAIN(MainWindowTest)
#include "main_window_test.moc"
