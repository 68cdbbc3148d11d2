#include "app/desktop/window_probe.h"

#include "desktop/panels/entry_notation.h"
#include "desktop/window_language.h"
#include "session/translated.h"

#include <QXmlStreamReader>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

struct Message {
    QString context;
    QString source;
    QStringList translations; ///< several where the number matters
    bool finished = true;

    QString key() const { return context + '\n' + source; }
};

/// What a file of Qt Linguist holds.
QList<Message> messagesOf(const QString& path) {
    QFile file{path};
    if (!file.open(QIODevice::ReadOnly))
        return {};
    QXmlStreamReader xml{&file};
    QList<Message> all;
    QString context;
    while (!xml.atEnd()) {
        if (xml.readNext() != QXmlStreamReader::StartElement)
            continue;
        const auto name = xml.name();
        if (name == u"name")
            context = xml.readElementText();
        else if (name == u"message")
            all.append({context, {}, {}, true});
        else if (name == u"source")
            all.back().source = xml.readElementText();
        else if (name == u"numerusform")
            all.back().translations << xml.readElementText();
        else if (name == u"translation") {
            all.back().finished = !xml.attributes().hasAttribute("type");
            const QString text = xml.readElementText(QXmlStreamReader::IncludeChildElements).trimmed();
            if (all.back().source.contains("%n"))
                all.back().translations = text.split('\n', Qt::SkipEmptyParts);
            else
                all.back().translations << text;
        }
    }
    return xml.hasError() ? QList<Message>{} : all;
}

QStringList placeholders(const QString& text) {
    QStringList found;
    auto at = QRegularExpression{"%(L?\\d{1,2}|n)"}.globalMatch(text);
    while (at.hasNext())
        found << at.next().captured(0);
    found.sort();
    return found;
}

QString theFile() { return QStringLiteral(FENCEWRIGHT_SOURCE "/resources/translations/fencewright_de.ts"); }

/// The visible texts of a widget.
QStringList textsOf(const QWidget& widget) {
    QStringList texts{widget.toolTip(), widget.accessibleName(), widget.whatsThis(), widget.windowTitle()};
    if (const auto* label = qobject_cast<const QLabel*>(&widget))
        texts << label->text();
    if (const auto* button = qobject_cast<const QAbstractButton*>(&widget))
        texts << button->text();
    if (const auto* edit = qobject_cast<const QLineEdit*>(&widget))
        texts << edit->placeholderText();
    if (const auto* box = qobject_cast<const QComboBox*>(&widget))
        for (int i = 0; i < box->count(); ++i)
            texts << box->itemText(i);
    if (const auto* bar = qobject_cast<const QTabBar*>(&widget))
        for (int i = 0; i < bar->count(); ++i)
            texts << bar->tabText(i);
    if (const auto* group = qobject_cast<const QGroupBox*>(&widget))
        texts << group->title();
    if (const auto* menu = qobject_cast<const QMenu*>(&widget))
        texts << menu->title();
    if (const auto* view = qobject_cast<const QAbstractItemView*>(&widget); view && view->model()) {
        for (int column = 0; column < view->model()->columnCount(); ++column) {
            texts << view->model()->headerData(column, Qt::Horizontal).toString();
            for (int row = 0; row < view->model()->rowCount(); ++row) {
                const QModelIndex index = view->model()->index(row, column);
                texts << index.data().toString() << index.data(Qt::ToolTipRole).toString();
            }
        }
    }
    for (const QAction* action : widget.actions())
        texts << action->text() << action->toolTip() << action->whatsThis();
    return texts;
}

} // namespace

class TranslationsTest : public QObject {
    Q_OBJECT

private slots:
    void german_hasEveryTextOfTheSources() {
        QTemporaryDir folder;
        const QString collected = folder.filePath("collected.ts");
        QProcess collect;
        collect.start("bash", {QStringLiteral(FENCEWRIGHT_SOURCE "/resources/translations/collect.sh"), collected});
        QVERIFY(collect.waitForFinished(120000));
        QVERIFY2(collect.exitCode() == 0, collect.readAllStandardError().constData());
        QSet<QString> there;
        for (const Message& message : messagesOf(theFile()))
            there.insert(message.key());
        const auto wanted = messagesOf(collected);
        QVERIFY(wanted.size() > 1000);
        QStringList missing;
        for (const Message& message : wanted)
            if (!there.contains(message.key()))
                missing << message.key();
        QVERIFY2(missing.isEmpty(),
                 qPrintable("run resources/translations/collect.sh and translate:\n" + missing.join("\n---\n")));
    }

    void german_isFinished_andKeepsWhatIsPutIn() {
        const auto messages = messagesOf(theFile());
        QVERIFY(messages.size() > 1000);
        for (const Message& message : messages) {
            QVERIFY2(message.finished, qPrintable(message.key()));
            QVERIFY2(!message.translations.isEmpty(), qPrintable(message.key()));
            for (const QString& text : message.translations) {
                QVERIFY2(!text.trimmed().isEmpty(), qPrintable(message.key()));
                QVERIFY2(placeholders(text) == placeholders(message.source), qPrintable(message.key() + " | " + text));
                QVERIFY2(text.contains(QRegularExpression{"&[^&\\s]"}) ==
                             message.source.contains(QRegularExpression{"&[^&\\s]"}),
                         qPrintable(message.key() + " | " + text));
                QVERIFY2(text.endsWith("…") == message.source.endsWith("…"), qPrintable(message.key() + " | " + text));
            }
        }
    }

    void menus_haveEachLetterOnce() {
        const WindowLanguage german{session::Language::German};
        WindowProbe probe;
        for (const QMenu* menu : probe.window->findChildren<QMenu*>()) {
            QMap<QChar, QString> taken;
            for (const QAction* action : menu->actions()) {
                const auto found = QRegularExpression{"&([^&\\s])"}.match(action->text());
                if (!found.hasMatch() || action->isSeparator())
                    continue;
                const QChar letter = found.captured(1).toLower().at(0);
                QVERIFY2(!taken.contains(letter),
                         qPrintable(menu->title() + ": " + taken[letter] + ", " + action->text()));
                taken[letter] = action->text();
            }
        }
    }

    void window_saysNothingInEnglishThatHasGerman() {
        const WindowLanguage german{session::Language::German};
        QMap<QString, QString> english;
        for (const Message& message : messagesOf(theFile()))
            if (message.translations.size() == 1 && message.translations.front() != message.source)
                english[message.source] = message.translations.front();
        // Words that are the same thing in both: what one text has in German another may say rightly.
        for (const Message& message : messagesOf(theFile()))
            for (const QString& text : message.translations)
                english.remove(text);
        WindowProbe probe;
        probe.look(-8.7, 46.2, 0.01);
        probe.square("tool_keepin", -8.7, 46.2, 0.005);
        QVERIFY(probe.settle());
        std::size_t seen = 0;
        QStringList untranslated;
        const auto walk = [&](const QWidget& root) {
            QList<const QWidget*> widgets{&root};
            for (const QWidget* one : root.findChildren<QWidget*>())
                widgets << one;
            for (const QWidget* one : widgets)
                for (const QString& text : textsOf(*one)) {
                    seen += text.isEmpty() ? 0 : 1;
                    if (english.contains(text))
                        untranslated << QString{one->metaObject()->className()} + ": " + text;
                }
        };
        walk(*probe.window);
        for (const char* name : {"keys", "about", "deed", "deliver", "addServer", "addTable"}) {
            auto* action = probe.find<QAction>(name);
            QVERIFY2(action, name);
            action->trigger();
            QTRY_VERIFY2(probe.dialog() || QApplication::activeModalWidget(), name);
            walk(*QApplication::activeModalWidget());
            qobject_cast<QDialog*>(QApplication::activeModalWidget())->reject();
            QTRY_VERIFY(!QApplication::activeModalWidget());
        }
        QVERIFY2(seen > 300, qPrintable(QString::number(seen)));
        QVERIFY2(untranslated.isEmpty(), qPrintable(untranslated.join('\n')));
    }

    /// The words are the toolkit's own, of its translations.
    void menuOfAField_isGerman() {
        const WindowLanguage german{session::Language::German};
        WindowProbe probe;
        auto* edit = probe.find<QLineEdit>("commandSearch");
        const std::unique_ptr<QMenu> menu{edit->createStandardContextMenu()};
        QStringList words;
        for (const QAction* action : menu->actions())
            words << action->text().section('\t', 0, 0).remove('&');
        for (const char* word : {"Rückgängig", "Ausschneiden", "Kopieren", "Einfügen", "Löschen", "Alles auswählen"})
            QVERIFY2(words.contains(QString::fromUtf8(word)), qPrintable(words.join(", ")));
    }

    void headingOfTheForm_keepsTheName_besideLongWordsOfItsKind() {
        const WindowLanguage german{session::Language::German};
        WindowProbe probe;
        model::Fence land;
        land.id = model::freshId<model::Fence>();
        land.name = "Utility land";
        land.kind = model::FenceKind::KeepIn;
        model::ParcelUnion shape;
        for (const double west : {-8.71, -8.7})
            shape.parcels.push_back(
                {"1", {{{{{{west, 46.2}, {west + 0.01, 46.2}, {west + 0.01, 46.21}, {west, 46.21}}}, {}}}}});
        land.shape = shape;
        probe.document().push(model::addFence(probe.set(), land));
        probe.map().select(land.id);
        auto* title = probe.find<QLabel>("recordTitle");
        auto* sort = probe.find<QLabel>("recordSort");
        QCOMPARE(title->text(), QString{"Utility land"});
        const auto whole = [](const QLabel* label) { return label->fontMetrics().horizontalAdvance(label->text()); };
        QTRY_VERIFY(title->width() >= whole(title));
        QVERIFY(sort->width() > 60);
        // One longer than the line leaves what it is its part.
        model::Fence longer = land;
        longer.name = "Utility land between the reservoir, the county road and the ferry landing, northern part";
        probe.document().push(model::replaceFence(probe.set(), longer, "rename"));
        QTRY_VERIFY(title->text().startsWith("Utility land between"));
        QTRY_VERIFY(title->width() > sort->width());
        QVERIFY(sort->width() > 60 && sort->geometry().right() < probe.find<QWidget>("recordPanel")->width());
    }

    void whatThePersonDoes_isNamedInTheLanguage() {
        const WindowLanguage german{session::Language::German};
        WindowProbe probe;
        probe.look(-8.7, 46.2, 0.01);
        const auto names = [&] {
            QStringList given;
            for (const model::Fence& fence : probe.set().fences)
                given << QString::fromStdString(fence.name);
            return given;
        };
        probe.square("tool_keepout", -8.7, 46.2, 0.002);
        QCOMPARE(names(), QStringList{"Sperrfläche 1"});
        probe.key(Qt::Key_D, Qt::ControlModifier | Qt::ShiftModifier);
        QCOMPARE(names(), (QStringList{"Sperrfläche 1", "Sperrfläche 1 (Kopie)"}));
        QGuiApplication::clipboard()->setText(
            R"({"type":"Polygon","coordinates":[[[-8.7,46.2],[-8.69,46.2],[-8.69,46.21],[-8.7,46.2]]]})");
        probe.key(Qt::Key_V, Qt::ControlModifier);
        probe.key(Qt::Key_V, Qt::ControlModifier);
        QCOMPARE(names().mid(2), (QStringList{"Eingefügte Fläche", "Eingefügte Fläche (Kopie)"}));
        for (int i = 0; i < 3; ++i)
            probe.key(Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(names(), QStringList{"Sperrfläche 1"});
    }

    void core_isSaidInTheLanguage_andInEnglishWithoutOne() {
        const Wording words = phrase("core", "%1 has no basis.")(phrase("core", "\"%1\"")("A %1 name"));
        QCOMPARE(session::translated(words), QString{"\"A %1 name\" has no basis."});
        const WindowLanguage german{session::Language::German};
        QCOMPARE(session::translated(words), QString::fromUtf8("„A %1 name“ hat keine Grundlage."));
        QCOMPARE(session::translated(Wording{"never said"}), QString{"never said"});
        QCOMPARE(words.english(), std::string{"\"A %1 name\" has no basis."});
    }

    /// As German writes days: DIN 5008, from memory.
    void days_areWrittenAndReadAsTheLanguageDoes() {
        using namespace std::chrono;
        const model::Season season{April / 1, August / 31};
        QCOMPARE(seasonText(season), QString::fromUtf8("1 Apr – 31 Aug"));
        const WindowLanguage german{session::Language::German};
        QCOMPARE(dateWords(2026y / May / 14), QString{"14. Mai 2026"});
        QCOMPARE(dateFrom("14. Mai 2026"), std::optional{2026y / May / 14});
        QCOMPARE(seasonFrom(seasonText(season)), std::optional{season});
        QCOMPARE(seasonFrom("1. April bis 31. August"), std::optional{season});
    }

    void system_isFollowedToTheFirstLanguageThereIs() {
        using session::Language;
        QCOMPARE(WindowLanguage::ofSystem({"de-CH", "en"}), Language::German);
        QCOMPARE(WindowLanguage::ofSystem({"fr-FR", "de"}), Language::German);
        QCOMPARE(WindowLanguage::ofSystem({"en-GB", "de"}), Language::English);
        QCOMPARE(WindowLanguage::ofSystem({"fr"}), Language::English);
        QCOMPARE(WindowLanguage::ofSystem({}), Language::English);
    }
};

QTEST_MAIN(TranslationsTest)
#include "translations_test.moc"
