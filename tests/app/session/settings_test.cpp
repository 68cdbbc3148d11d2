#include "session/settings.h"

#include <QSignalSpy>
#include <QTemporaryDir>
#include <QtTest>

using namespace fencewright;
using session::Settings;
using session::Theme;

class SettingsTest : public QObject {
    Q_OBJECT

private slots:
    void values_last() {
        QTemporaryDir folder;
        const QString file = folder.filePath("settings.ini");
        {
            Settings settings{file};
            QCOMPARE(settings.unitSystem(), units::System::Metric);
            QSignalSpy changed{&settings, &Settings::changed};
            settings.setUnitSystem(units::System::Us);
            settings.setNotation(geodesy::Notation::Mgrs);
            settings.setTheme(Theme::Dark);
            QCOMPARE(settings.mapGrid(), session::MapGrid::None);
            settings.setMapGrid(session::MapGrid::Utm);
            QCOMPARE(changed.count(), 4);
        }
        const Settings settings{file};
        QCOMPARE(settings.unitSystem(), units::System::Us);
        QCOMPARE(settings.notation(), geodesy::Notation::Mgrs);
        QCOMPARE(settings.theme(), Theme::Dark);
        QCOMPARE(settings.mapGrid(), session::MapGrid::Utm);
    }

    void recentDocuments_areNewestFirst_andOnlyThoseThatExist() {
        QTemporaryDir folder;
        Settings settings{folder.filePath("settings.ini")};
        QStringList paths;
        for (int i = 0; i < 12; ++i) {
            paths.prepend(folder.filePath(QString{"%1.gpkg"}.arg(i)));
            QFile file{paths.front()};
            QVERIFY(file.open(QFile::WriteOnly));
            settings.addRecentDocument(paths.front());
        }
        QCOMPARE(settings.recentDocuments(), paths.mid(0, 10));
        settings.addRecentDocument(paths[5]);
        QCOMPARE(settings.recentDocuments().front(), paths[5]);
        QVERIFY(QFile::remove(paths[5]));
        QVERIFY(!settings.recentDocuments().contains(paths[5]));
    }
};

QTEST_GUILESS_MAIN(SettingsTest)
#include "settings_test.moc"
