#pragma once

#include <QObject>

#include "desktop/flows/source_flow.h"

namespace fencewright::desktop {

class DoorDialog;
class TableDialog;

/// Brings tables of databases into the document as reference layers, and opens the doors of those that are there.
class TableFlow : public QObject {
    Q_OBJECT

public:
    TableFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
              session::SourceLibrary& sources, SourceFlow& layers, MessageBar& messages);

    void ask();
    /// Whether the source is a table of a database.
    bool isTable(const model::SourceId& id) const;
    void connectTo(const model::SourceId& id);

private:
    void take(const TableDialog& dialog);
    void name(const model::SourceId& id, const DoorDialog& dialog);

    QWidget& m_window;
    session::OpenDocument& m_document;
    session::BackgroundJobs& m_jobs;
    session::SourceLibrary& m_sources;
    SourceFlow& m_layers;
    MessageBar& m_messages;
};

} // namespace fencewright::desktop
