#pragma once

#include <QObject>

#include "airspace/reshaping.h"
#include "desktop/canvas/map_canvas.h"
#include "desktop/panels/message_bar.h"

#include <functional>
#include <vector>

namespace fencewright::desktop {

class WindowActions;

/// What makes new fences out of those that are selected. Each is one step to undo; what cannot be done is said.
class ShapingFlow : public QObject {
    Q_OBJECT

public:
    ShapingFlow(QWidget& window, session::OpenDocument& document, session::Settings& settings, MapCanvas& map,
                MessageBar& messages);

    /// Each command does its part when it is given.
    void connectTo(const WindowActions& actions);
    /// Which of them apply to what is selected, and to what the taking out applies.
    void restate(const WindowActions& actions) const;

private:
    void unite();
    void takeOut();
    void intersect();
    void fillHoles();
    void makePolygons();
    void askForOffset();
    void duplicate();
    void take(const std::function<airspace::Reshaped()>& make);
    void say(const std::vector<Wording>& notes);

    QWidget& m_window;
    session::OpenDocument& m_document;
    session::Settings& m_settings;
    MapCanvas& m_map;
    MessageBar& m_messages;
};

} // namespace fencewright::desktop
