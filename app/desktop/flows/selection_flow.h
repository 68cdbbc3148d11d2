#pragma once

#include <QObject>

#include "desktop/canvas/map_canvas.h"
#include "desktop/panels/message_bar.h"

namespace fencewright::desktop {

/// What a person does with all that is selected: choosing it, and taking it from one document to another.
class SelectionFlow : public QObject {
    Q_OBJECT

public:
    SelectionFlow(QWidget& window, session::OpenDocument& document, session::LiveAudit& audit, MapCanvas& map,
                  MessageBar& messages);

    void selectAll();
    void selectOthers();
    void selectNone();
    void selectWhere();

    /// What a tool has to copy goes before what is selected.
    void copy();
    void cut();
    void paste();

    /// Locks all that is selected, or unlocks it, in one step.
    void setLocked(bool locked);
    /// Whether something selected is locked, or is not.
    bool hasSelected(bool locked) const;

private:
    bool copySelected(const QString& title);

    QWidget& m_window;
    session::OpenDocument& m_document;
    session::LiveAudit& m_audit;
    MapCanvas& m_map;
    MessageBar& m_messages;
};

} // namespace fencewright::desktop
