#pragma once

#include <QTranslator>

#include "session/settings.h"

namespace fencewright::desktop {

/// The language that the window speaks: texts are translated from when this is made until it goes. Numbers keep the
/// decimal point and days their ISO form in every language, so that no figure can be read in two ways.
class WindowLanguage {
public:
    explicit WindowLanguage(session::Language language);
    ~WindowLanguage();
    WindowLanguage(const WindowLanguage&) = delete;
    WindowLanguage& operator=(const WindowLanguage&) = delete;

    /// What it is where it follows the system: the first of the person's languages that there is, else English.
    static session::Language ofSystem(const QStringList& languages);

private:
    QTranslator m_window;
    QTranslator m_toolkit; ///< the standard buttons and the file dialog of Qt
};

} // namespace fencewright::desktop
