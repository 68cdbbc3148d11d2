#pragma once

#include <QObject>
#include <QString>

#include "raster/appearance_proposal.h"
#include "raster/dataset.h"
#include "raster/tile_server.h"
#include "reference/layer.h"
#include "session/background_jobs.h"
#include "session/database_access.h"
#include "session/open_document.h"
#include "session/spare_dataset.h"

#include <deque>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <utility>
#include <vector>

namespace fencewright::session {

/// The smaller pictures that a raster lacks, so that looking at all of it is quick. It is used without them meanwhile.
enum class PyramidState {
    None, ///< it needs none, or has its own
    Wanted,
    Building,
    Ready,
    Failed
};

/// Where smaller pictures are kept.
enum class PyramidPlace {
    Cache,
    Beside ///< the file, where other programs find them too
};

/// A source of the document as far as it has been read.
struct LoadedSource {
    enum class State { Loading, Ready, Failed };

    std::shared_ptr<const model::Source> source;
    std::uint64_t reading = 0; ///< which reading of it this is
    QString path;              ///< absolute
    State state = State::Loading;
    QString words; ///< why it failed; or, of a table, why it is not as it lies on its server now

    std::shared_ptr<const reference::Layer> layer; ///< of a reference layer, once ready
    /// Of a reference layer that is still being read: it can be drawn, but has no attributes yet.
    std::shared_ptr<const reference::Layer> outlines;
    /// Of imagery that is ready: why parts of it do not come, and what to do; empty: they do.
    QString trouble;
    bool isFilterRefused = false; ///< of a reference layer that failed: the words are about its filter

    std::shared_ptr<const raster::RasterDescription> raster; ///< of imagery, once ready
    raster::OpenOptions opening;                             ///< of imagery: how it is opened as the document shows it
    std::vector<raster::PyramidLevel> levels;                ///< of imagery
    int tilePixels = 0;                                      ///< of imagery: see raster::Dataset::tilePixels()
    std::shared_ptr<SpareDataset> spare;                     ///< of imagery: what it was looked at with
    std::shared_ptr<const raster::PaintedPixels> glance;     ///< of imagery: see raster::Dataset::glance(); may be null
    PyramidState pyramid = PyramidState::None;               ///< of imagery
    QString pyramidWords;                                    ///< why it could not be built
    std::shared_ptr<const raster::AppearanceProposal> proposal; ///< of imagery, once it was asked for
    bool isProposed = false;                                    ///< it was asked for
    bool servesAsPlane = false; ///< of imagery: the map around its middle may be drawn in its coordinate system
};

/// Opens what the document lists as sources, in the background; a missing or broken one blocks nothing. What it has
/// begun is given up when it goes, so the jobs must outlive it, and may by any time.
class SourceLibrary : public QObject {
    Q_OBJECT

public:
    /// @param readerProgram  fencewright-cli, which reads foreign vector files apart (see exchange/vector_reader.h).
    /// @param layerFolder  where read layers are kept (see reference/layer_cache.h).
    /// @param pyramidFolder  where the smaller pictures of rasters are kept (see raster/pyramid.h).
    SourceLibrary(OpenDocument& document, BackgroundJobs& jobs, QString readerProgram,
                  QString layerFolder = usualLayerFolder(), QString pyramidFolder = usualPyramidFolder(),
                  QObject* parent = nullptr);

    static QString usualLayerFolder();
    static QString usualPyramidFolder();

    /// Null where the document has no such source.
    const LoadedSource* find(const model::SourceId& id) const;

    /// Reads a failed one again.
    void retry(const model::SourceId& id);

    /// Parts of it are asked for, and do not come. With no words: they come again.
    void noteTrouble(const model::SourceId& id, const QString& words);

    /// Builds the smaller pictures of a raster, in the background, one raster after the other. Those in the cache are
    /// built by themselves where a raster wants them, unless that was cancelled since the program started.
    void buildPyramid(const model::SourceId& id, PyramidPlace place);
    void cancelPyramid(const model::SourceId& id);

    const DatabaseAccess& databases() const { return m_databases; }
    /// The person named this database: it is spoken to from now on, and its tables are read anew.
    void connectDatabase(const QString& address, const QString& password);

    /// Finds out in the background how a raster can be shown; sourceChanged() tells when it is known.
    void propose(const model::SourceId& id);

    /// The way to servers of tiles: the one owner of what opens their doors, for as long as the window is open.
    const std::shared_ptr<raster::ServerAccess>& servers() const { return m_servers; }
    /// The person knows this server: it is asked from now on, as the one they are, and its failed sources are read
    /// again.
    void connectServer(const QString& address, const raster::Credentials& credentials);

    /// Absolute path of a source of a document at `documentPath`.
    static QString resolvedPath(const model::Source& source, const QString& documentPath);
    /// How the document keeps the path: relative where the file lies below the document's folder.
    static std::string keptPath(const QString& absolutePath, const QString& documentPath);

    QString readerProgram() const { return m_readerProgram; }

signals:
    /// Its state, or how it is shown, changed.
    void sourceChanged(const QString& id);
    /// Sources were added, removed or reordered.
    void listChanged();

private:
    /// One whose ends are told to this library, and so are not once it is gone.
    template <class Work, class Done, class Failed>
    BackgroundJob* startJob(const QString& title, Work work, Done done, Failed failed);
    void follow(const DocumentChange& change);
    void load(LoadedSource& loaded);
    void buildNextPyramid();
    void settlePyramid();

    /// What is being built.
    struct Building {
        model::SourceId id;
        QString path;
        BackgroundJob* job = nullptr;
        bool isAbandoned = false; ///< the document has it no more; nobody said that it is not wanted
    };

    OpenDocument& m_document;
    BackgroundJobs& m_jobs;
    QString m_readerProgram;
    QString m_layerFolder;
    QString m_pyramidFolder;
    std::shared_ptr<raster::BlockCache> m_blocks;
    DatabaseAccess m_databases;
    std::uint64_t m_readings = 0;
    std::shared_ptr<raster::ServerAccess> m_servers;
    std::map<model::SourceId, LoadedSource> m_loaded;
    std::deque<std::pair<model::SourceId, PyramidPlace>> m_pyramidsAsked;
    std::optional<Building> m_building;
    std::set<QString> m_pyramidsDeclined; ///< paths of rasters
};

} // namespace fencewright::session
