#pragma once

#include <QTranslator>

#include "session/settings.h"

namespace fencewright::desktop {

/// The language that the window speaks: texts are translated from when this is made until it goes. Numbers keep the
/// decimal point in every language, so that no figure can be read in two ways.
class WindowLanguage {
public:
    explicit WindowLanguage(session::Language language);
    ~WindowLanguage();
    WindowLanguage(const WindowLanguage&) = delete;
    WindowLanguage& operator=(const WindowLanguage&) = delete;

    /// What it is where it follows the system: the first of the person's languages that there is, else English.
    static session::Language ofSystem(const QStringList& languages);

private:
    /// Where tr() is a function of one file, the tool that collects texts names the namespace, or the class around the
    /// call, as its context: such texts are looked for there.
    class WindowTranslator : public QTranslator {
    public:
        QString translate(const char* context, const char* source, const char* disambiguation,
                          int number) const override;
    };

    WindowTranslator m_window;
    QTranslator m_toolkit; ///< the standard buttons and the file dialog of Qt
};

} // namespace fencewright::desktop
