// What a person may expect of keys that can be changed: from memory, common practice, no published source.
#include "app/desktop/window_probe.h"

#include "desktop/key_book.h"
#include "desktop/panels/word_match.h"
#include "desktop/window_actions.h"

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

QDialog* openKeys(WindowProbe& probe) {
    probe.key(Qt::Key_F1);
    return probe.waitForDialog<QDialog>("keysDialog");
}

/// Marks the row of a command by looking for its words, and gives its field the focus.
void mark(QDialog* page, const QString& words) {
    auto* search = page->findChild<QLineEdit*>("keysSearch");
    search->setFocus();
    search->clear();
    QTest::keyClicks(search, words);
    QTest::keyClick(search, Qt::Key_Return);
    auto* table = page->findChild<QTableView*>("keysTable");
    for (int row = 0; row < table->model()->rowCount(); ++row)
        if (table->model()->index(row, 0).data().toString() == words)
            table->selectRow(row);
    QCOMPARE(page->findChild<QLabel*>("keysWhat")->text(), words);
    page->findChild<QLineEdit*>("keysField")->setFocus();
}

void press(QDialog* page, Qt::Key key, Qt::KeyboardModifiers modifiers = {}) {
    QTest::keyClick(page->findChild<QLineEdit*>("keysField"), key, modifiers);
}

} // namespace

class KeysTest : public QObject {
    Q_OBJECT

private slots:
    void key_isChanged_works_isShownEverywhere_andLasts() {
        WindowProbe probe;
        QDialog* page = openKeys(probe);
        QVERIFY(page);
        mark(page, "Measure");
        press(page, Qt::Key_J);
        QTest::mouseClick(page->findChild<QPushButton*>("keysClose"), Qt::LeftButton);
        QTRY_VERIFY(!probe.dialog());
        probe.map().setFocus();
        probe.key(Qt::Key_M);
        QCOMPARE(probe.map().toolId(), QString{"select"});
        probe.key(Qt::Key_J);
        QCOMPARE(probe.map().toolId(), QString{"measure"});
        auto* button = probe.find<QToolButton>("tool_measure");
        QVERIFY2(button->toolTip().contains("(J)"), qPrintable(button->toolTip()));
        QCOMPARE(probe.find<QAction>("measure")->shortcut(), QKeySequence{Qt::Key_J});
        // The next start.
        probe.window.reset();
        probe.show();
        probe.key(Qt::Key_J);
        QCOMPARE(probe.map().toolId(), QString{"measure"});
        QVERIFY(probe.find<QToolButton>("tool_measure")->toolTip().contains("(J)"));
    }

    void clash_namesTheOther_andThePersonChooses() {
        WindowProbe probe;
        QDialog* page = openKeys(probe);
        QVERIFY(page);
        mark(page, "Measure");
        press(page, Qt::Key_S, Qt::ControlModifier);
        auto* clash = page->findChild<QLabel*>("keysClash");
        QVERIFY2(clash->text().contains("Save"), qPrintable(clash->text()));
        QTest::mouseClick(page->findChild<QPushButton*>("keysLeave"), Qt::LeftButton);
        QCOMPARE(probe.find<QAction>("measure")->shortcut(), QKeySequence{Qt::Key_M});
        QCOMPARE(probe.find<QAction>("save")->shortcut(), QKeySequence{QKeySequence::Save});
        press(page, Qt::Key_S, Qt::ControlModifier);
        QTest::mouseClick(page->findChild<QPushButton*>("keysTake"), Qt::LeftButton);
        QCOMPARE(probe.find<QAction>("measure")->shortcut(), QKeySequence{QKeySequence::Save});
        QVERIFY(probe.find<QAction>("save")->shortcuts().isEmpty());
        // One back: it clashes in turn, and the choice is asked for again.
        mark(page, "Save");
        QTest::mouseClick(page->findChild<QPushButton*>("keysBack"), Qt::LeftButton);
        QVERIFY2(clash->text().contains("Measure"), qPrintable(clash->text()));
        QTest::mouseClick(page->findChild<QPushButton*>("keysTake"), Qt::LeftButton);
        QCOMPARE(probe.find<QAction>("save")->shortcut(), QKeySequence{QKeySequence::Save});
        QVERIFY(probe.find<QAction>("measure")->shortcuts().isEmpty());
        QTest::mouseClick(page->findChild<QPushButton*>("keysAllBack"), Qt::LeftButton);
        QCOMPARE(probe.find<QAction>("measure")->shortcut(), QKeySequence{Qt::Key_M});
        QVERIFY(!page->findChild<QPushButton*>("keysAllBack")->isEnabled());
    }

    void keyOfTheMap_isListed_andCannotBeTaken() {
        WindowProbe probe;
        QDialog* page = openKeys(probe);
        QVERIFY(page);
        mark(page, "Finish what is being drawn");
        QVERIFY(!page->findChild<QLineEdit*>("keysField")->isEnabled());
        QVERIFY2(page->findChild<QLabel*>("keysClash")->text().startsWith("It stays: forms, dialogs"),
                 qPrintable(page->findChild<QLabel*>("keysClash")->text()));
        mark(page, "Measure");
        press(page, Qt::Key_Return);
        QVERIFY(page->isVisible());
        auto* clash = page->findChild<QLabel*>("keysClash");
        QVERIFY2(clash->text().contains("Finish what is being drawn"), qPrintable(clash->text()));
        QVERIFY(!page->findChild<QPushButton*>("keysTake")->isVisible());
        QCOMPARE(probe.find<QAction>("measure")->shortcut(), QKeySequence{Qt::Key_M});
    }

    void keyOfTheMap_isChanged_works_isSaidInTheHint_lasts_andIsReset() {
        const QString words = "Keep-in or keep-out, home or alternate";
        WindowProbe probe;
        QDialog* page = openKeys(probe);
        QVERIFY(page);
        mark(page, words);
        press(page, Qt::Key_J);
        QTest::mouseClick(page->findChild<QPushButton*>("keysClose"), Qt::LeftButton);
        QTRY_VERIFY(!probe.dialog());
        const auto hint = [&] { return probe.find<QLabel>("mapHint")->text(); };
        const auto work = [&](Qt::Key other, Qt::Key idle) {
            probe.map().setFocus();
            probe.key(Qt::Key_C); // the circle
            QVERIFY2(hint().startsWith("Keep-out:") && hint().contains(QString{QChar{other}} + " makes it a keep-in."),
                     qPrintable(hint()));
            probe.key(idle);
            QVERIFY2(hint().startsWith("Keep-out:"), qPrintable(hint()));
            probe.key(other);
            QVERIFY2(hint().startsWith("Keep-in:") && hint().contains(QString{QChar{other}} + " makes it a keep-out."),
                     qPrintable(hint()));
            probe.key(Qt::Key_Escape);
        };
        work(Qt::Key_J, Qt::Key_K);
        probe.window.reset(); // the next start
        probe.show();
        work(Qt::Key_J, Qt::Key_K);
        page = openKeys(probe);
        QVERIFY(page);
        mark(page, words);
        QTest::mouseClick(page->findChild<QPushButton*>("keysBack"), Qt::LeftButton);
        QTest::mouseClick(page->findChild<QPushButton*>("keysClose"), Qt::LeftButton);
        QTRY_VERIFY(!probe.dialog());
        work(Qt::Key_K, Qt::Key_J);
        // Without a key nothing is said of it.
        page = openKeys(probe);
        QVERIFY(page);
        mark(page, words);
        QTest::mouseClick(page->findChild<QPushButton*>("keysNone"), Qt::LeftButton);
        QTest::mouseClick(page->findChild<QPushButton*>("keysClose"), Qt::LeftButton);
        QTRY_VERIFY(!probe.dialog());
        probe.map().setFocus();
        probe.key(Qt::Key_C);
        QVERIFY2(!hint().contains("makes it"), qPrintable(hint()));
    }

    void everyCommandOfTheMap_answersToAnotherKey() {
        WindowProbe probe;
        probe.look(-8.7, 46.2, 0.01);
        probe.square("tool_keepout", -8.7, 46.2, 0.004);
        probe.key(Qt::Key_S);
        const auto id = probe.set().fences[0].id;
        probe.map().select(id);
        const auto corner = [&] {
            return std::get<model::DrawnPolygon>(probe.set().fences[0].shape).polygon.shell.corners[0];
        };
        const auto change = [&](const QString& words, Qt::Key key, Qt::KeyboardModifiers modifiers = {}) {
            QDialog* page = openKeys(probe);
            QVERIFY(page);
            mark(page, words);
            press(page, key, modifiers);
            QTest::mouseClick(page->findChild<QPushButton*>("keysClose"), Qt::LeftButton);
            QTRY_VERIFY(!probe.dialog());
            probe.map().setFocus();
        };
        change("Nudge left by 1 m or 1 ft", Qt::Key_J);
        const model::Position before = corner();
        probe.key(Qt::Key_Left, Qt::AltModifier);
        QVERIFY(corner() == before);
        probe.key(Qt::Key_J);
        QVERIFY(corner().lon < before.lon && std::abs(corner().lat - before.lat) < 1e-9);

        change("Go left on the map", Qt::Key_J, Qt::ControlModifier);
        const QPointF place = probe.map().toWidget(before);
        probe.key(Qt::Key_Left);
        QCOMPARE(probe.map().toWidget(before), place);
        probe.key(Qt::Key_J, Qt::ControlModifier);
        QVERIFY(probe.map().toWidget(before).x() > place.x() + 10);

        // The key that deletes takes the last corner while one draws, and never another fence.
        change("Delete", Qt::Key_Z);
        change("Take back the last corner", Qt::Key_Delete);
        probe.key(Qt::Key_O);
        for (const model::Position& set : std::vector<model::Position>{
                 {-8.706, 46.205}, {-8.702, 46.205}, {-8.704, 46.207}, {-8.7, 46.206}, {-8.704, 46.208}})
            probe.clickMap(set.lon, set.lat);
        probe.key(Qt::Key_Delete);
        probe.key(Qt::Key_Z);
        probe.key(Qt::Key_Return);
        QCOMPARE(probe.set().fences.size(), std::size_t{2});
        QCOMPARE(std::get<model::DrawnPolygon>(probe.set().fences[1].shape).polygon.shell.corners.size(),
                 std::size_t{3});
        probe.key(Qt::Key_Delete);
        QCOMPARE(probe.set().fences.size(), std::size_t{2});
        probe.key(Qt::Key_Z); // just drawn, and chosen
        QCOMPARE(probe.set().fences.size(), std::size_t{1});
        QVERIFY(probe.set().fences.find(id));
    }

    void clashes_areToldWhereBothWork_only() {
        WindowProbe probe;
        QDialog* page = openKeys(probe);
        QVERIFY(page);
        auto* clash = page->findChild<QLabel*>("keysClash");
        mark(page, "Follow the boundary; the other way; straight");
        press(page, Qt::Key_M);
        QVERIFY2(clash->text().contains("Measure"), qPrintable(clash->text()));
        QTest::mouseClick(page->findChild<QPushButton*>("keysLeave"), Qt::LeftButton);
        QCOMPARE(probe.find<QAction>("mapFollow")->shortcut(), QKeySequence{Qt::Key_W});
        mark(page, "Measure");
        press(page, Qt::Key_W);
        QVERIFY2(clash->text().contains("Follow the boundary"), qPrintable(clash->text()));
        QTest::mouseClick(page->findChild<QPushButton*>("keysTake"), Qt::LeftButton);
        QVERIFY(probe.find<QAction>("mapFollow")->shortcuts().isEmpty());
        QTest::mouseClick(page->findChild<QPushButton*>("keysAllBack"), Qt::LeftButton);
        QCOMPARE(probe.find<QAction>("mapFollow")->shortcut(), QKeySequence{Qt::Key_W});
        // The ledger's list has the same key for something else, where the map has no focus.
        mark(page, "Nudge up by 1 m or 1 ft");
        press(page, Qt::Key_J);
        QTest::mouseClick(page->findChild<QPushButton*>("keysBack"), Qt::LeftButton);
        QVERIFY2(clash->text().isEmpty(), qPrintable(clash->text()));
        QCOMPARE(probe.find<QAction>("nudgeUp")->shortcut(), (QKeySequence{Qt::ALT | Qt::Key_Up}));
        // A command of the whole window cannot have it.
        mark(page, "Measure");
        press(page, Qt::Key_Up, Qt::AltModifier);
        QVERIFY2(clash->text().contains("Move a source"), qPrintable(clash->text()));
        QVERIFY(!page->findChild<QPushButton*>("keysTake")->isVisible());
    }

    void whatCannotBeChanged_saysWhy() {
        WindowProbe probe;
        QDialog* page = openKeys(probe);
        QVERIFY(page);
        auto* table = page->findChild<QTableView*>("keysTable");
        int fixed = 0;
        for (int row = 0; row < table->model()->rowCount(); ++row) {
            table->selectRow(row);
            const bool changeable = page->findChild<QLineEdit*>("keysField")->isEnabled();
            const QString why = page->findChild<QLabel*>("keysClash")->text();
            QVERIFY2(changeable == why.isEmpty(), qPrintable(table->model()->index(row, 0).data().toString()));
            fixed += changeable ? 0 : 1;
        }
        QCOMPARE(fixed, 13);
    }

    void unreadableSettings_leaveTheGivenKeys_andNoKeyMeansTwoThings() {
        QTemporaryDir folder;
        session::Settings settings{folder.filePath("s.ini")};
        settings.chooseKeys("a", "Ctrl+Rubbish+?");
        settings.chooseKeys("b", "Ctrl+M");
        QAction a{"A"}, b{"B"}, c{"C"};
        a.setObjectName("a"), b.setObjectName("b"), c.setObjectName("c");
        a.setShortcut(QKeySequence{Qt::Key_A});
        c.setShortcut(QKeySequence{Qt::CTRL | Qt::Key_M});
        KeyBook book{settings};
        book.enrol({&a, &b, &c});
        QCOMPARE(a.shortcut(), QKeySequence{Qt::Key_A});
        QCOMPARE(b.shortcut(), (QKeySequence{Qt::CTRL | Qt::Key_M}));
        QVERIFY(c.shortcuts().isEmpty());
        book.assign(&a, {});
        QCOMPARE(settings.chosenKeys("a"), std::optional<QString>{""});
    }

    void chosenKeys_surviveTheFile_withEveryPrintableKey() {
        QTemporaryDir folder;
        for (int key = Qt::Key_Exclam; key <= Qt::Key_AsciiTilde; ++key) {
            if (key >= Qt::Key_A + 26 && key < Qt::Key_BracketLeft)
                continue;
            const QKeySequence sequence{Qt::CTRL | Qt::Key(key)};
            if (QKeySequence::fromString(sequence.toString(QKeySequence::PortableText)) != sequence)
                continue;
            const QString file = folder.filePath(QString::number(key));
            session::Settings{file}.chooseKeys("x", QKeySequence::listToString({sequence}, QKeySequence::PortableText));
            session::Settings again{file};
            QAction x{"X"};
            x.setObjectName("x");
            KeyBook book{again};
            book.enrol({&x});
            QVERIFY2(x.shortcut() == sequence, qPrintable(sequence.toString() + " became " + x.shortcut().toString()));
        }
    }

    void words_areFoundByBeginnings_insides_initialsAndSlips() {
        QVERIFY(misfit("imp fen", "Import fences"));
        QVERIFY(misfit("fences import", "Import fences"));
        QVERIFY(misfit("sa", "Save as"));
        QVERIFY(misfit("sd", "Show dimensions"));
        QVERIFY(misfit("dgrees", "Grid of degrees"));
        QVERIFY(misfit("dleiver", "Deliver"));
        QVERIFY(misfit("kuste", "Küste"));
        QVERIFY(!misfit("measure", "Save"));
        QVERIFY(!misfit("", "Save"));
        QVERIFY(*misfit("save", "Save") < *misfit("save", "Save as"));
        QVERIFY(*misfit("grid", "Grid of degrees") < *misfit("grid", "UTM grid"));
        QVERIFY(*misfit("utm", "UTM grid") < *misfit("utn grid", "UTM grid") || !misfit("utn grid", "UTM grid"));
    }

    void search_holdsEveryCommand_withItsMenu_andTheRecentFirst() {
        WindowProbe probe;
        auto* search = probe.find<QLineEdit>("commandSearch");
        for (QAction* action : probe.find<WindowActions>("")->all()) {
            search->setFocus();
            search->clear();
            QTest::keyClicks(search, plainWords(*action));
            auto* list = probe.find<QListWidget>("commandResults");
            bool found = false;
            for (int row = 0; row < list->count(); ++row)
                found = found || list->item(row)->text().startsWith(plainWords(*action));
            QVERIFY2(found, qPrintable(plainWords(*action)));
            QVERIFY2(!menuPlace(*action).isEmpty(), qPrintable(plainWords(*action)));
        }
        // By what others call it.
        search->setFocus();
        search->clear();
        QTest::keyClicks(search, "zoom out");
        QVERIFY2(probe.find<QListWidget>("commandResults")->item(0)->text().startsWith("Farther"),
                 qPrintable(probe.find<QListWidget>("commandResults")->item(0)->text()));
        QTest::keyClick(search, Qt::Key_Escape);
        probe.find<QAction>("turnRight")->trigger();
        probe.map().setFocus();
        probe.key(Qt::Key_K, Qt::ControlModifier);
        auto* list = probe.find<QListWidget>("commandResults");
        QVERIFY(list->isVisible());
        QVERIFY2(list->item(0)->text().startsWith("Turn right"), qPrintable(list->item(0)->text()));
        QTest::keyClicks(search, "turn");
        QVERIFY2(list->item(0)->text().startsWith("Turn right"), qPrintable(list->item(0)->text()));
        QTest::keyClick(search, Qt::Key_Escape);
    }

    void menus_haveALetterOnlyOnce() {
        WindowProbe probe;
        const auto check = [](const QString& where, const QList<QAction*>& actions) {
            QStringList seen;
            for (const QAction* action : actions) {
                if (action->isSeparator())
                    continue;
                QString words = action->text();
                const qsizetype at = words.replace("&&", "").indexOf('&');
                QVERIFY2(at >= 0, qPrintable(where + ": no letter in " + words));
                const QString letter = words.mid(at + 1, 1).toLower();
                QVERIFY2(!seen.contains(letter), qPrintable(where + ": twice " + letter + ", in " + words));
                seen << letter;
            }
        };
        auto* bar = probe.window->findChild<QMenuBar*>();
        check("bar", bar->actions());
        for (QMenu* menu : bar->findChildren<QMenu*>())
            if (menu->objectName() != "recentMenu")
                check(menu->title(), menu->actions());
    }
};

QTEST_MAIN(KeysTest)
#include "keys_test.moc"
