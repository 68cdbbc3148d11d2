#pragma once

#include <QObject>
#include <QPointer>

#include "desktop/canvas/map_canvas.h"
#include "desktop/clipboard_text.h"

class QAction;

namespace fencewright::desktop {

class CornersDialog;

/// The table of corners beside the map: each shows which corner is chosen in the other.
class CornersFlow : public QObject {
    Q_OBJECT

public:
    CornersFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
                const session::Settings& settings, MapCanvas& map, ClipboardText& clipboard);

    /// Opens the table, or brings it to the front. @param also  actions whose keys work there too: undo, redo.
    void open(const QList<QAction*>& also);

private:
    void followSelection(const Selection& selection);
    void choose(const std::optional<Corner>& corner);

    QWidget& m_window;
    session::OpenDocument& m_document;
    session::BackgroundJobs& m_jobs;
    const session::Settings& m_settings;
    MapCanvas& m_map;
    ClipboardText& m_clipboard;
    QPointer<CornersDialog> m_dialog;
};

} // namespace fencewright::desktop
