#include "session/translated.h"

#include <QCoreApplication>

namespace fencewright::session {

QString translated(const Wording& words) {
    return QString::fromStdString(words.said(
        [](const std::string& english) { return QCoreApplication::translate("core", english.c_str()).toStdString(); }));
}

QString translated(const Fault& fault) {
    const QString place = translated(fault.words().place);
    const QString rest = translatedWithoutPlace(fault);
    return place.isEmpty() ? rest : place + ": " + rest;
}

QString translatedWithoutPlace(const Fault& fault) {
    return (translated(fault.words().problem) + ' ' + translated(fault.words().remedy)).trimmed();
}

QLocale languageLocale() { return QLocale{translated(phrase("core", "en"))}; }

} // namespace fencewright::session
