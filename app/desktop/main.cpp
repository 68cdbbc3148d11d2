#include "desktop/main_window.h"
#include "desktop/trimmed_heap.h"
#include "desktop/window_language.h"
#include "raster/dataset.h"

#include <QApplication>
#include <QCommandLineParser>
#include <QDir>
#include <QStandardPaths>

#include <cstdio>

using namespace fencewright;

namespace {

/// Leaves with the words on standard error where an option cannot be read.
[[noreturn]] void refuse(const QString& words) {
    std::fputs(qPrintable(words + "\n"), stderr);
    std::exit(2);
}

} // namespace

int main(int argc, char** argv) {
    const desktop::TrimmedHeap heap;
    QApplication application{argc, argv};
    QApplication::setApplicationName("fencewright");
    QApplication::setApplicationDisplayName("Fencewright");
    QApplication::setApplicationVersion("0.1.0");

    // The help of the options is said in a language, too: these two are looked for first.
    const QStringList arguments = QApplication::arguments();
    const auto given = [&](const QString& option) {
        for (qsizetype i = 1; i < arguments.size(); ++i) {
            if (arguments[i].startsWith(option + "="))
                return arguments[i].mid(option.size() + 1);
            if (arguments[i] == option && i + 1 < arguments.size())
                return arguments[i + 1];
        }
        return QString{};
    };
    const QString wanted = given("--language");
    const desktop::WindowLanguage windowLanguage{wanted == "de"   ? session::Language::German
                                                 : wanted == "en" ? session::Language::English
                                                                  : session::Settings{given("--settings")}.language()};

    QCommandLineParser parser;
    parser.setApplicationDescription(QApplication::translate("main", "Prepares, checks and hands out geofences."));
    parser.addHelpOption();
    parser.addVersionOption();
    parser.addPositionalArgument("document", QApplication::translate("main", "The fence set to open."),
                                 "[document.gpkg]");
    const QCommandLineOption theme{"theme", QApplication::translate("main", "Appearance: light or dark."),
                                   "light|dark"};
    const QCommandLineOption language{"language", QApplication::translate("main", "Language of the window: en or de."),
                                      "en|de"};
    const QCommandLineOption settings{"settings", QApplication::translate("main", "Keep settings in this file."),
                                      "file"};
    const QCommandLineOption date{"date", QApplication::translate("main", "The day the calendar starts on."),
                                  "YYYY-MM-DD"};
    parser.addOptions({theme, language, settings, date});
    parser.process(application);

    desktop::WindowOptions options;
    options.settingsFile = parser.value(settings);
    options.recoveryFolder =
        QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation) + "/fencewright/recovery";
    const QDir programs{QCoreApplication::applicationDirPath()};
    options.readerProgram = programs.filePath("fencewright-cli");
    options.sampleDocument = QDir::cleanPath(programs.filePath("../samples/alder-reach/alder-reach.gpkg"));
    if (parser.isSet(theme)) {
        const QString word = parser.value(theme);
        if (word != "light" && word != "dark")
            refuse(QApplication::translate("main", "--theme is light or dark, not \"%1\".").arg(word));
        options.theme = word == "dark" ? session::Theme::Dark : session::Theme::Light;
    }
    if (parser.isSet(language) && parser.value(language) != "en" && parser.value(language) != "de")
        refuse(QApplication::translate("main", "--language is en or de, not \"%1\".").arg(parser.value(language)));
    if (parser.isSet(date)) {
        options.date = model::parseIsoDate(parser.value(date).toStdString());
        if (!options.date)
            refuse(QApplication::translate("main", "--date is a day such as 2026-05-14, not \"%1\".")
                       .arg(parser.value(date)));
    }
    const QStringList documents = parser.positionalArguments();
    if (documents.size() > 1)
        refuse(QApplication::translate("main", "One document at a time."));

    desktop::MainWindow window{options};
    window.jobs().prepareThreads(raster::prepareThread);
    window.map().prepareThreads(raster::prepareThread);
    window.show();
    window.offerRecovery();
    if (!documents.isEmpty())
        window.open(documents.front());
    return QApplication::exec();
}
