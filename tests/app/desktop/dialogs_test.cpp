#include "desktop/dialogs/deed_dialog.h"
#include "desktop/dialogs/delivery_dialog.h"
#include "desktop/dialogs/delivery_result_dialog.h"
#include "desktop/dialogs/import_dialog.h"
#include "desktop/dialogs/recovery_dialog.h"
#include "desktop/dialogs/summary_dialog.h"
#include "desktop/dialogs/table_dialog.h"
#include "desktop/dialogs/words_dialog.h"

#include <QtTest>
#include <QtWidgets>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

exchange::VectorDescription described(const std::string& crs, std::size_t layers = 1) {
    exchange::VectorDescription description{"/data/parcels.gpkg", "GeoPackage", {}};
    for (std::size_t i = 0; i < layers; ++i)
        description.layers.push_back(
            {"layer" + std::to_string(i), "Polygon", 12, crs, {"fid", "parcel_no", "owner", "name"}});
    return description;
}

} // namespace

class DialogsTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;
    std::unique_ptr<session::Settings> m_settings;

private slots:
    void init() { m_settings = std::make_unique<session::Settings>(m_folder.filePath("settings.ini")); }

    void import_asksForCoordinates_onlyWhereTheFileIsSilent() {
        ImportDialog spoken{ImportPurpose::Reference, described("ETRS89 / UTM zone 29N"), *m_settings, nullptr};
        spoken.show();
        QVERIFY(!spoken.findChild<QLineEdit*>("importCrs")->isVisible());
        QVERIFY(spoken.findChild<QPushButton*>("importGo")->isEnabled());
        QCOMPARE(spoken.choices().crs, std::string{});

        ImportDialog silent{ImportPurpose::Reference, described(""), *m_settings, nullptr};
        silent.show();
        silent.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&silent));
        auto* crs = silent.findChild<QLineEdit*>("importCrs");
        auto* go = silent.findChild<QPushButton*>("importGo");
        QVERIFY(crs->isVisible());
        QVERIFY(!go->isEnabled());
        crs->setFocus();
        QTest::keyClicks(crs, "EPSG:999999");
        QVERIFY(!go->isEnabled());
        QVERIFY(!silent.findChild<QLabel*>("importRefusal")->text().isEmpty());
        crs->selectAll();
        QTest::keyClicks(crs, "EPSG:25829");
        QVERIFY(go->isEnabled());
        QCOMPARE(silent.choices().crs, std::string{"EPSG:25829"});
    }

    void import_guessesTheParcelNumber_andOffersLayers() {
        ImportDialog dialog{ImportPurpose::Reference, described("WGS 84", 2), *m_settings, nullptr};
        dialog.show();
        QCOMPARE(dialog.choices().numberField, std::string{"parcel_no"});
        auto* layer = dialog.findChild<QComboBox*>("importLayer");
        QVERIFY(layer->isVisible());
        layer->setFocus();
        QTest::keyClick(layer, Qt::Key_Down);
        QCOMPARE(dialog.choices().layer, std::string{"layer1"});
    }

    void import_readsASetback_andRefusesWhatIsNone() {
        ImportDialog dialog{ImportPurpose::Sites, described("WGS 84"), *m_settings, nullptr};
        dialog.show();
        dialog.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&dialog));
        auto* setback = dialog.findChild<QLineEdit*>("importSetback");
        QVERIFY(!dialog.choices().setback);
        setback->setFocus();
        QTest::keyClicks(setback, "far");
        QVERIFY(!dialog.findChild<QPushButton*>("importGo")->isEnabled());
        setback->selectAll();
        QTest::keyClicks(setback, "1/3 mi");
        QVERIFY(dialog.findChild<QPushButton*>("importGo")->isEnabled());
        QVERIFY(std::abs(dialog.choices().setback->length.inMetres() - 536.448) < 1e-9); // 1760 ft of 0.3048 m
        QCOMPARE(dialog.choices().nameField, std::string{"name"});
    }

    void import_acceptsAFilter_asItWasTried() {
        ImportDialog dialog{ImportPurpose::Reference, described("WGS 84", 2), *m_settings, nullptr};
        std::vector<ImportChoices> tried;
        std::function<void(const QString&)> answer;
        dialog.setTrial([&](const ImportChoices& choices, std::function<void(const QString&)> done) {
            tried.push_back(choices);
            answer = std::move(done);
        });
        dialog.show();
        dialog.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&dialog));
        auto* where = dialog.findChild<QLineEdit*>("importWhere");
        auto* go = dialog.findChild<QPushButton*>("importGo");
        where->setFocus();
        QTest::keyClicks(where, "ownr = 'farm'");
        QTest::keyClick(where, Qt::Key_Return);
        QCOMPARE(tried.size(), std::size_t{1});
        answer("No such column.");
        QCOMPARE(dialog.findChild<QLabel*>("importRefusal")->text(), QString{"No such column."});
        QVERIFY(where->hasFocus() && go->isEnabled());

        where->selectAll();
        QTest::keyClicks(where, "owner = 'farm'");
        QTest::keyClick(where, Qt::Key_Return);
        QCOMPARE(tried.size(), std::size_t{2});
        // A hand that goes on typing, and Enter once more, reach nothing.
        for (const Qt::Key key : {Qt::Key_X, Qt::Key_Return, Qt::Key_Down})
            QTest::keyClick(dialog.focusWidget() ? dialog.focusWidget() : &dialog, key);
        for (const char* name : {"importWhere", "importName", "importNumber", "importLayer"}) {
            auto* field = dialog.findChild<QWidget*>(name);
            QVERIFY2(!field->isEnabled(), name);
            QTest::keyClick(field, Qt::Key_Down);
        }
        QTest::keyClicks(where, " OR 1 = 1");
        QVERIFY(dialog.isVisible());
        QCOMPARE(tried.size(), std::size_t{2});
        answer({});
        QCOMPARE(dialog.result(), int(QDialog::Accepted));
        QCOMPARE(dialog.choices().where, std::string{"owner = 'farm'"});
        QCOMPARE(dialog.choices().layer, tried[1].layer);
        QCOMPARE(dialog.choices().nameField, tried[1].nameField);
    }

    void table_keepsItsDoor_whileItIsKnockedAt() {
        // A reader that waits for its sign and then fails.
        const QString gate = m_folder.filePath("gate");
        QFile reader{m_folder.filePath("reader")};
        QVERIFY(reader.open(QIODevice::WriteOnly));
        reader.write("#!/bin/sh\nwhile [ ! -e '" + gate.toUtf8() + "' ]; do sleep 0.02; done\nexit 1\n");
        reader.close();
        QVERIFY(reader.setPermissions(QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner));
        session::BackgroundJobs jobs;
        TableDialog dialog{jobs, reader.fileName(), nullptr};
        dialog.show();
        dialog.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&dialog));
        auto* address = dialog.findChild<QLineEdit*>("tableAddress");
        auto* password = dialog.findChild<QLineEdit*>("tablePassword");
        address->setFocus();
        QTest::keyClicks(address, "postgresql://one.example/land");
        password->setFocus();
        QTest::keyClicks(password, "of one");
        QTest::keyClick(password, Qt::Key_Return);
        QCOMPARE(jobs.running().size(), std::size_t{1});
        for (const Qt::Key key : {Qt::Key_X, Qt::Key_Return})
            QTest::keyClick(dialog.focusWidget() ? dialog.focusWidget() : &dialog, key);
        for (QLineEdit* edit : {address, password, dialog.findChild<QLineEdit*>("tableUser")}) {
            QTest::keyClicks(edit, "two");
            QVERIFY2(!edit->isEnabled(), qPrintable(edit->objectName()));
        }
        QVERIFY(dialog.isVisible());
        QCOMPARE(jobs.running().size(), std::size_t{1});

        QFile sign{gate};
        QVERIFY(sign.open(QIODevice::WriteOnly));
        QTRY_VERIFY(jobs.running().empty());
        QVERIFY(!dialog.findChild<QLabel*>("tableDoorRefusal")->text().isEmpty());
        QCOMPARE(address->text(), QString{"postgresql://one.example/land"});
        QCOMPARE(dialog.password(), QString{"of one"});
        QVERIFY(address->isEnabled() && password->hasFocus());
        QVERIFY(!dialog.findChild<QTreeWidget*>("tableList")->isEnabled());
    }

    void delivery_followsTheFormat_andRefusesAFolderThatIsNotThere() {
        DeliveryDialog dialog{m_folder.filePath("set"), 3, 1, nullptr};
        dialog.show();
        dialog.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&dialog));
        auto* format = dialog.findChild<QComboBox*>("deliveryFormat");
        auto* go = dialog.findChild<QPushButton*>("deliveryGo");
        QVERIFY(dialog.path().endsWith("set.geojson"));
        format->setFocus();
        QTest::keyClick(format, Qt::Key_Down);
        QVERIFY(dialog.path().endsWith("set.kml"));
        QVERIFY(dialog.options().format == exchange::DeliveryFormat::Kml);
        QVERIFY(go->isEnabled());
        auto* path = dialog.findChild<QLineEdit*>("deliveryPath");
        path->setFocus();
        path->selectAll();
        QTest::keyClicks(path, "/no/such/folder/set.kml");
        QVERIFY(!go->isEnabled());
        DeliveryDialog nothing{m_folder.filePath("set"), 0, 0, nullptr};
        QVERIFY(!nothing.findChild<QPushButton*>("deliveryGo")->isEnabled());
    }

    void deliveryResult_saysPlainlyWhetherItIsConfirmed() {
        exchange::DeliveryReport report;
        report.path = "/tmp/set.kml";
        report.confirmed = true;
        report.fences = 5;
        report.corners = 120;
        report.keepOutAdded = Area::squareMetres(12.3);
        report.cautions = {"One confidential site was left out."};
        report.checksum = std::string(64, 'a');
        DeliveryResultDialog good{report, units::System::Metric, lightPalette(), nullptr};
        QVERIFY(good.findChild<QLabel*>("deliveryVerdict")->text().startsWith("Confirmed"));
        QCOMPARE(good.findChild<QLabel*>("deliveryWritten")->text(), QString{"5 fences, 120 corners"});
        QVERIFY(good.findChild<QLabel*>("deliveryCost")->text().contains("12.3 m²"));
        QVERIFY(good.findChild<QPlainTextEdit*>("deliveryCautions")->toPlainText().contains("confidential"));
        report.confirmed = false;
        DeliveryResultDialog bad{report, units::System::Metric, lightPalette(), nullptr};
        QVERIFY(bad.findChild<QLabel*>("deliveryVerdict")->text().startsWith("Not confirmed"));
    }

    void summary_listsWhatWasLeftOut_andWhy() {
        exchange::VectorContent content;
        content.path = "/data/parcels.gpkg";
        content.featuresLeftOut = 1;
        content.notes = {{exchange::ReadNote::Kind::LeftOut, "feature 12", "It has no place."},
                         {exchange::ReadNote::Kind::Changed, "feature 3", "The ring was closed."}};
        SummaryDialog dialog{"Import", "3 fences added", content, {}, nullptr};
        auto* notes = dialog.findChild<QTableWidget*>("summaryNotes");
        QCOMPARE(notes->rowCount(), 2);
        QCOMPARE(notes->item(0, 0)->text(), QString{"feature 12"});
        QCOMPARE(notes->item(0, 1)->text(), QString{"left out"});
        QCOMPARE(notes->item(0, 2)->text(), QString{"It has no place."});
        QVERIFY(readingWords(content).contains("1 left out"));
    }

    void recovery_givesTheChosenCopy() {
        store::RecoveryCopy copy{"/tmp/copy", "/data/set.gpkg", std::chrono::system_clock::now()};
        RecoveryDialog dialog{{copy}, nullptr};
        std::string recovered;
        connect(&dialog, &RecoveryDialog::recoverRequested, this,
                [&](const store::RecoveryCopy& one) { recovered = one.file; });
        dialog.show();
        QTest::mouseClick(dialog.findChild<QPushButton*>("recoveryRecover"), Qt::LeftButton);
        QCOMPARE(recovered, std::string{"/tmp/copy"});
        QVERIFY(!dialog.isVisible());
    }

    void recovery_throwsAwayOnlyWhenToldTwice() {
        const store::RecoveryCopy copy{"/tmp/copy", "/data/set.gpkg", std::chrono::system_clock::now()};
        RecoveryDialog dialog{{copy}, nullptr};
        QStringList thrown;
        connect(&dialog, &RecoveryDialog::discardRequested, this,
                [&](const store::RecoveryCopy& one) { thrown << QString::fromStdString(one.file); });
        dialog.show();
        const auto answer = [&](const char* name) {
            QTest::mouseClick(dialog.findChild<QPushButton*>("recoveryDiscard"), Qt::LeftButton);
            auto* sure = dialog.findChild<QMessageBox*>("recoverySure");
            QVERIFY(sure && sure->isVisible());
            QVERIFY(sure->informativeText().contains("set.gpkg"));
            QTest::mouseClick(sure->findChild<QPushButton*>(name), Qt::LeftButton);
            QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
        };
        answer("recoverySureKeep");
        QVERIFY(thrown.isEmpty() && dialog.isVisible());
        answer("recoverySureAway");
        QCOMPARE(thrown, QStringList{"/tmp/copy"});
        QVERIFY(!dialog.isVisible());
    }

    void deed_showsHowWellItCloses_andMakesAPolygon() {
        // J. Mahun, Open Access Surveying Library, Traverse Computations: misclosure 0.111 ft, 1 : 12 100.
        DeedDialog dialog{"46.208844 N 8.733936 W", units::System::Us, nullptr};
        dialog.show();
        dialog.activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(&dialog));
        auto* go = dialog.findChild<QPushButton*>("deedGo");
        auto* closure = dialog.findChild<QLabel*>("deedClosure");
        auto* refusal = dialog.findChild<QLabel*>("deedRefusal");
        QVERIFY(!go->isEnabled());
        auto* courses = dialog.findChild<QPlainTextEdit*>("deedCourses");
        QTest::keyClicks(courses, "S 68-05-35 W 472.68 ft");
        QTest::keyClick(courses, Qt::Key_Return);
        QVERIFY(refusal->isVisible()); // one course encloses nothing
        QTest::keyClicks(courses, "N 19-46-00 W 216.13 ft");
        QTest::keyClick(courses, Qt::Key_Return);
        QTest::keyClicks(courses, "N 45-55-20 E 276.52 ft");
        QTest::keyClick(courses, Qt::Key_Return);
        QTest::keyClicks(courses, "S 54-59-15 E 382.24 ft");
        QVERIFY(go->isEnabled());
        QVERIFY(!refusal->isVisible());
        QVERIFY2(closure->text().contains("1 : 12100"), qPrintable(closure->text()));
        QVERIFY2(closure->text().contains("0.111 ft"), qPrintable(closure->text()));
        QVERIFY2(closure->text().contains("1347.570 ft"), qPrintable(closure->text()));
        QCOMPARE(dialog.shape()->polygon.shell.corners.size(), std::size_t{5});
        QTest::mouseClick(dialog.findChild<QCheckBox*>("deedAdjust"), Qt::LeftButton, {}, QPoint{8, 8});
        QCOMPARE(dialog.shape()->polygon.shell.corners.size(), std::size_t{4}); // it closes on its start
        QTest::keyClick(courses, Qt::Key_Return);
        QTest::keyClicks(courses, "towards the oak");
        QVERIFY(!dialog.shape());
        QVERIFY2(refusal->text().contains("line 5"), qPrintable(refusal->text()));
        QVERIFY(!go->isEnabled());
    }

    void about_carriesTheCautions() { QVERIFY(aboutPage().contains("does not replace")); }
};

QTEST_MAIN(DialogsTest)
#include "dialogs_test.moc"
