#pragma once

#include <QObject>

#include "desktop/canvas/map_canvas.h"
#include "desktop/clipboard_text.h"
#include "desktop/panels/message_bar.h"
#include "store/clipping.h"

#include <functional>

namespace fencewright::desktop {

/// What a person does with all that is selected: choosing it, and taking it from one document to another.
class SelectionFlow : public QObject {
    Q_OBJECT

public:
    SelectionFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
                  session::LiveAudit& audit, MapCanvas& map, MessageBar& messages, ClipboardText& clipboard);

    void selectAll();
    void selectOthers();
    void selectNone();
    void selectWhere();

    /// What a tool has to copy goes before what is selected. Much of it is written, and read, while the window goes on.
    void copy();
    /// What is cut goes once it is on the clipboard, unless the set was changed meanwhile.
    void cut();
    void paste();

    /// Locks all that is selected, or unlocks it, in one step.
    void setLocked(bool locked);
    /// Whether something selected is locked, or is not.
    bool hasSelected(bool locked) const;

private:
    void copySelected(const QString& title, std::function<void()> then);
    void pasteWhatIsThere(int document);
    void take(store::Pasting pasting);

    QWidget& m_window;
    session::OpenDocument& m_document;
    session::BackgroundJobs& m_jobs;
    session::LiveAudit& m_audit;
    MapCanvas& m_map;
    MessageBar& m_messages;
    ClipboardText& m_clipboard;
};

} // namespace fencewright::desktop
