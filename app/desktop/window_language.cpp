#include "desktop/window_language.h"

#include <QCoreApplication>
#include <QLibraryInfo>
#include <QLocale>

// Resources of a static library are linked only when asked for by name, outside of any namespace.
static void loadTranslations() { Q_INIT_RESOURCE(translations); }

namespace fencewright::desktop {

using session::Language;

WindowLanguage::WindowLanguage(Language language) {
    QLocale::setDefault(QLocale::c());
    if (language == Language::FollowSystem)
        language = ofSystem(QLocale::system().uiLanguages());
    if (language != Language::German)
        return;
    loadTranslations();
    if (m_toolkit.load("qtbase_de", QLibraryInfo::path(QLibraryInfo::TranslationsPath)))
        QCoreApplication::installTranslator(&m_toolkit);
    if (m_window.load(":/translations/fencewright_de.qm"))
        QCoreApplication::installTranslator(&m_window);
}

QString WindowLanguage::WindowTranslator::translate(const char* context, const char* source, const char* disambiguation,
                                                    int number) const {
    for (const char* place :
         {context, "fencewright::desktop", "fencewright::desktop::ShapeFields", "fencewright::desktop::T"})
        if (QString found = QTranslator::translate(place, source, disambiguation, number); !found.isEmpty())
            return found;
    return {};
}

WindowLanguage::~WindowLanguage() {
    QCoreApplication::removeTranslator(&m_window);
    QCoreApplication::removeTranslator(&m_toolkit);
}

Language WindowLanguage::ofSystem(const QStringList& languages) {
    for (const QString& language : languages) {
        if (language == "de" || language.startsWith("de-"))
            return Language::German;
        if (language == "en" || language.startsWith("en-"))
            return Language::English;
    }
    return Language::English;
}

} // namespace fencewright::desktop
