#pragma once

#include <QObject>

#include "session/open_document.h"
#include "session/settings.h"

class QWidget;

namespace fencewright::desktop {

class WindowActions;

/// The margin of the set: stated, changed and taken back in a dialog, and its line on the map shown or hidden.
class MarginFlow : public QObject {
    Q_OBJECT

public:
    MarginFlow(QWidget& window, session::OpenDocument& document, session::Settings& settings);

    void connectTo(const WindowActions& actions);
    void restate(const WindowActions& actions) const;

private:
    void ask();

    QWidget& m_window;
    session::OpenDocument& m_document;
    session::Settings& m_settings;
};

} // namespace fencewright::desktop
