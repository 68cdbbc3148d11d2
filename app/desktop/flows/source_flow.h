#pragma once

#include <QObject>

#include "desktop/dialogs/import_dialog.h"
#include "desktop/panels/message_bar.h"
#include "exchange/vector_content.h"
#include "session/background_jobs.h"
#include "session/open_document.h"
#include "session/settings.h"
#include "session/source_library.h"

#include <functional>
#include <set>

namespace fencewright::desktop {

/// Brings imagery and reference layers into the document, and finds lost ones again.
class SourceFlow : public QObject {
    Q_OBJECT

public:
    SourceFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
               session::SourceLibrary& sources, session::Settings& settings, MessageBar& messages);

    void askForImagery();
    /// A folder of tiles z/x/y, or of GeoTIFFs that make one picture.
    void askForFolder();
    void askForServer();
    void addImagery(const QString& path);
    void askForReference();
    void addReference(const QString& path);
    /// A reference layer that was chosen: shown as soon as it is read, with an account of the reading.
    void takeReference(model::Source source);
    /// Whether the layer understands the filter of the choices; tells `done` what is wrong, or nothing.
    void tryFilter(const QString& path, const ImportChoices& choices, const std::function<void(const QString&)>& done);
    void locate(const model::SourceId& id);
    /// Asks who asks, and asks the source's server.
    void connectTo(const model::SourceId& id);

    /// Whether the document with that serial, for which something was to be brought in, is still there; else says that
    /// it was left out.
    bool isStillThere(int document, const QString& name);

    /// Files that the vector reader knows, for a file dialog.
    static QString vectorFilter();
    /// What is in a vector file, read apart from this program; nothing is done if another document is there by then.
    void describe(const QString& path, const std::function<void(const exchange::VectorDescription&)>& done);

signals:
    /// A new source lies there; `first` when the map had nothing before.
    void added(const fencewright::geometry::Box& lonLatBox, bool first);
    void chosen(const fencewright::model::SourceId& id);

private:
    void askForCrs(const QString& file, const std::function<void(const std::string&)>& answer);
    void takeImagery(const QString& path, const QString& name, const std::string& crs);
    void relocate(const model::SourceId& id, const QString& path);
    void follow(const QString& id);
    bool mapIsEmpty() const;

    QWidget& m_window;
    session::OpenDocument& m_document;
    session::BackgroundJobs& m_jobs;
    session::SourceLibrary& m_sources;
    session::Settings& m_settings;
    MessageBar& m_messages;
    std::set<QString> m_awaited; ///< reference layers whose summary is still to be told
    bool m_firstAwaited = false;
};

} // namespace fencewright::desktop
