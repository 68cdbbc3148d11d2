#pragma once

#include <QObject>

#include "desktop/dialogs/import_dialog.h"
#include "desktop/flows/source_flow.h"
#include "exchange/import.h"

namespace fencewright::desktop {

/// Brings fences, sites and homes of foreign files into the document: one step to undo, and an account of the reading.
class ImportFlow : public QObject {
    Q_OBJECT

public:
    ImportFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
               session::SourceLibrary& sources, session::Settings& settings, MessageBar& messages, SourceFlow& files);

    void ask(ImportPurpose purpose);
    void start(ImportPurpose purpose, const QString& path);

signals:
    void imported(const fencewright::geometry::Box& lonLatBox);

private:
    struct Imported {
        exchange::VectorContent content;
        std::vector<model::Fence> fences;
        std::vector<model::Site> sites;
        std::vector<model::Home> homes;
        std::vector<exchange::ReadNote> notes;
    };
    void read(ImportPurpose purpose, const QString& path, const ImportChoices& choices);
    void take(ImportPurpose purpose, const Imported& imported);

    QWidget& m_window;
    session::OpenDocument& m_document;
    session::BackgroundJobs& m_jobs;
    session::SourceLibrary& m_sources;
    session::Settings& m_settings;
    MessageBar& m_messages;
    SourceFlow& m_files;
};

} // namespace fencewright::desktop
