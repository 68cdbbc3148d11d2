#include "session/source_library.h"

#include "exchange/database_address.h"
#include "exchange/vector_reader.h"
#include "geodesy/map_plane.h"
#include "geometry/spatial_index.h"
#include "raster/block_cache.h"
#include "raster/pyramid.h"
#include "raster/tile_server.h"
#include "reference/layer_cache.h"
#include "reference/table_layer.h"
#include "session/quiet_thread.h"
#include "session/translated.h"

#include <QDir>
#include <QFileInfo>
#include <QPointer>
#include <QStandardPaths>

#include <algorithm>
#include <chrono>
#include <filesystem>

namespace fencewright::session {

namespace fs = std::filesystem;

namespace {

// A layer is not taken into memory: a county may be in it.
constexpr std::size_t kMostFeatures = 10'000'000;
constexpr std::size_t kMostCorners = 100'000'000;
constexpr std::chrono::minutes kPatience{15};

constexpr std::uintmax_t kPyramidBytes = std::uintmax_t{16} << 30; // of all that are kept in the cache folder
constexpr std::size_t kBlockBytes = 48 << 20;                      // of decoded blocks, of all rasters together
constexpr std::chrono::milliseconds kGlancePatience{100};          // a disk that takes longer is no matter of moments

/// Whether the file must be read again, and not only be shown differently.
bool needsReading(const model::Source& before, const model::Source& after) {
    return before.kind != after.kind || before.path != after.path || before.layer != after.layer ||
           before.crs != after.crs || before.filter != after.filter;
}

raster::OpenOptions openingOf(const model::Source& source, std::shared_ptr<raster::BlockCache> blocks,
                              std::shared_ptr<const raster::ServerAccess> servers) {
    raster::OpenOptions options;
    options.blocks = std::move(blocks);
    options.servers = std::move(servers);
    options.crs = source.crs;
    options.appearance = {source.bands, source.stretch};
    return options;
}

/// What one look at a raster tells.
struct OpenedRaster {
    std::shared_ptr<const raster::RasterDescription> description;
    std::vector<raster::PyramidLevel> levels;
    int tilePixels = 0;
    bool servesAsPlane = false;
    bool wantsPyramid = false;
    std::string pyramid; ///< that it was opened with; empty: none
    raster::Appearance appearance;
    std::shared_ptr<SpareDataset> spare;
    std::shared_ptr<const raster::PaintedPixels> glance;
};

bool isOnDisk(const std::string& path) { return !raster::isServerAddress(path); }

/// The raster with the pyramid that was built for it in that folder, if there is one and it can be read.
std::pair<raster::Dataset, std::string> withPyramid(const std::string& path, raster::OpenOptions options,
                                                    const std::string& pyramidFolder, const Progress& progress) {
    std::error_code ignored;
    if (isOnDisk(path) && fs::exists(path, ignored)) {
        if (const fs::path kept = raster::pyramidPath(pyramidFolder, path); fs::exists(kept, ignored)) {
            options.pyramid = kept.string();
            try {
                raster::Dataset dataset{path, options};
                fs::last_write_time(kept, fs::file_time_type::clock::now(), ignored); // used: it goes last
                return {std::move(dataset), options.pyramid};
            } catch (const Fault&) {
                fs::remove(kept, ignored);
                options.pyramid.clear();
            }
        }
    }
    return {raster::Dataset{path, options, progress}, std::string{}};
}

/// What there is to see at once, while the tiles are still being read.
std::shared_ptr<const raster::PaintedPixels> glanceAt(const raster::Dataset& dataset) {
    const auto end = std::chrono::steady_clock::now() + kGlancePatience;
    try {
        if (auto glance = dataset.glance(
                Progress{[end](double, std::string_view) { return std::chrono::steady_clock::now() < end; }}))
            return std::make_shared<const raster::PaintedPixels>(std::move(*glance));
    } catch (const Cancelled&) {
    } catch (const Fault&) {
        // What is wrong with it is said where its tiles are drawn.
    }
    return nullptr;
}

OpenedRaster openedRaster(const std::string& path, raster::OpenOptions options, const std::string& pyramidFolder,
                          const Progress& progress) {
    auto [dataset, pyramid] = withPyramid(path, options, pyramidFolder, progress);
    OpenedRaster opened;
    opened.pyramid = pyramid;
    opened.appearance = options.appearance;
    opened.wantsPyramid = isOnDisk(path) && raster::wantsPyramid(dataset);
    opened.description = std::make_shared<const raster::RasterDescription>(dataset.description());
    opened.levels = dataset.levels();
    opened.tilePixels = dataset.tilePixels();
    if (const geometry::Box box = geometry::boxOf(opened.description->corners); !box.empty())
        opened.servesAsPlane = geodesy::MapPlane::serves(opened.description->crsDefinition,
                                                         {(box.minX + box.maxX) / 2.0, (box.minY + box.maxY) / 2.0});
    if (isOnDisk(path))
        opened.glance = glanceAt(dataset);
    options.pyramid = pyramid;
    opened.spare = std::make_shared<SpareDataset>(std::move(dataset), path, std::move(options));
    return opened;
}

void takeInto(LoadedSource& loaded, OpenedRaster opened) {
    loaded.raster = std::move(opened.description);
    loaded.levels = std::move(opened.levels);
    loaded.tilePixels = opened.tilePixels;
    loaded.servesAsPlane = opened.servesAsPlane;
    loaded.opening.pyramid = opened.pyramid;
    loaded.spare = std::move(opened.spare);
    // Bands and stretch may have been changed while it was looked at.
    loaded.glance = opened.appearance == loaded.opening.appearance ? std::move(opened.glance) : nullptr;
    loaded.pyramid = opened.wantsPyramid      ? PyramidState::Wanted
                     : opened.pyramid.empty() ? PyramidState::None
                                              : PyramidState::Ready;
}

/// Removes those not used for longest until the rest is small enough.
void prunePyramids(const fs::path& folder) {
    struct Kept {
        fs::file_time_type used;
        std::uintmax_t size;
        fs::path path;
    };
    std::error_code failed;
    std::vector<Kept> all;
    std::uintmax_t bytes = 0;
    for (const fs::directory_entry& entry : fs::directory_iterator{folder, failed})
        if (entry.is_regular_file(failed)) {
            all.push_back({entry.last_write_time(failed), entry.file_size(failed), entry.path()});
            bytes += all.back().size;
        }
    std::sort(all.begin(), all.end(), [](const Kept& a, const Kept& b) { return a.used < b.used; });
    for (std::size_t i = 0; i + 1 < all.size() && bytes > kPyramidBytes; ++i)
        if (fs::remove(all[i].path, failed))
            bytes -= all[i].size;
}

/// A reference layer, or the words about its filter.
struct OpenedLayer {
    std::shared_ptr<const reference::Layer> layer;
    Wording words;
};

/// @param password  of a database; nothing: it is not to be spoken to.
OpenedLayer openedLayer(const std::string& reader, const std::string& folder, exchange::ReadRequest request,
                        const std::optional<std::string>& password, const reference::DrawableSink& drawable,
                        const Progress& progress) {
    exchange::ChildLimits limits;
    limits.time = kPatience;
    const reference::LayerCache cache{folder};
    try {
        if (!exchange::isDatabaseAddress(request.path))
            return {reference::openLayer(reader, request, cache, limits, progress, drawable), {}};
        request.password = password.value_or("");
        const reference::TableLayer table =
            password ? reference::openTableLayer(reader, request, cache, limits, progress)
                     : reference::keptTableLayer(
                           request, cache, phrase("core", "The server has not been asked since the program started."));
        return {table.layer,
                table.whyKept.empty() ? Wording{} : phrase("core", "As it was on %1. %2")(table.readAt, table.whyKept)};
    } catch (const exchange::FilterFault& fault) {
        return {nullptr, fault.words().problem};
    }
}

} // namespace

SourceLibrary::SourceLibrary(OpenDocument& document, BackgroundJobs& jobs, QString readerProgram, QString layerFolder,
                             QString pyramidFolder, QObject* parent)
    : QObject{parent}, m_document{document}, m_jobs{jobs}, m_readerProgram{std::move(readerProgram)},
      m_layerFolder{std::move(layerFolder)},
      m_pyramidFolder{std::move(pyramidFolder)}, m_blocks{std::make_shared<raster::BlockCache>(kBlockBytes)} {
    raster::ServerRules rules;
    rules.tileFolder = QFileInfo{m_layerFolder}.dir().filePath("servers").toStdString();
    m_servers = std::make_shared<raster::ServerAccess>(std::move(rules));
    connect(&document, &OpenDocument::changed, this, &SourceLibrary::follow);
    follow(DocumentChange{.sources = true, .whole = true});
}

template <class Work, class Done, class Failed>
BackgroundJob* SourceLibrary::startJob(const QString& title, Work work, Done done, Failed failed) {
    BackgroundJob* job = m_jobs.start(title, std::move(work), std::move(done), std::move(failed));
    connect(this, &QObject::destroyed, job, &BackgroundJob::cancel);
    return job;
}

QString SourceLibrary::usualLayerFolder() {
    return QStandardPaths::writableLocation(QStandardPaths::GenericCacheLocation) + "/fencewright/layers";
}

QString SourceLibrary::usualPyramidFolder() {
    return QStandardPaths::writableLocation(QStandardPaths::GenericCacheLocation) + "/fencewright/pyramids";
}

const LoadedSource* SourceLibrary::find(const model::SourceId& id) const {
    const auto at = m_loaded.find(id);
    return at == m_loaded.end() ? nullptr : &at->second;
}

void SourceLibrary::retry(const model::SourceId& id) {
    const auto at = m_loaded.find(id);
    if (at == m_loaded.end())
        return;
    if (raster::isServerAddress(at->second.source->path))
        m_servers->forget(at->second.source->path);
    load(at->second);
}

void SourceLibrary::noteTrouble(const model::SourceId& id, const QString& words) {
    const auto at = m_loaded.find(id);
    if (at == m_loaded.end() || at->second.state != LoadedSource::State::Ready || at->second.trouble == words)
        return;
    at->second.trouble = words;
    emit sourceChanged(QString::fromStdString(id.value));
}

void SourceLibrary::propose(const model::SourceId& id) {
    const auto at = m_loaded.find(id);
    if (at == m_loaded.end() || !at->second.raster || at->second.isProposed || !isOnDisk(at->second.path.toStdString()))
        return;
    at->second.isProposed = true; // one that cannot be read is not asked again and again
    raster::OpenOptions options = at->second.opening;
    options.appearance = {};
    startJob(
        tr("Looking at the bands of %1").arg(QString::fromStdString(at->second.source->name)),
        [path = at->second.path.toStdString(), options](const Progress& progress) {
            return raster::proposeAppearance(raster::Dataset{path, options, progress}, progress);
        },
        [this, id, path = at->second.path](raster::AppearanceProposal proposal) {
            const auto found = m_loaded.find(id);
            if (found == m_loaded.end() || found->second.path != path)
                return;
            found->second.proposal = std::make_shared<const raster::AppearanceProposal>(std::move(proposal));
            emit sourceChanged(QString::fromStdString(id.value));
        },
        [](const Fault&) {}); // what is wrong with it is said where it is drawn
}

void SourceLibrary::connectServer(const QString& address, const raster::Credentials& credentials) {
    const std::string server = raster::serverOf(address.toStdString());
    m_servers->allow(server);
    m_servers->setCredentials(server, credentials);
    m_servers->forget(server);
    for (auto& [id, loaded] : m_loaded)
        if ((loaded.state == LoadedSource::State::Failed || !loaded.trouble.isEmpty()) &&
            raster::isServerAddress(loaded.source->path) && raster::serverOf(loaded.source->path) == server)
            load(loaded);
}

void SourceLibrary::connectDatabase(const QString& address, const QString& password) {
    m_databases.admit(address.toStdString(), password.toStdString());
    for (auto& [id, loaded] : m_loaded)
        if (const std::string& path = loaded.source->path;
            exchange::isDatabaseAddress(path) && m_databases.password(path))
            load(loaded);
}

QString SourceLibrary::resolvedPath(const model::Source& source, const QString& documentPath) {
    const QString path = QString::fromStdString(source.path);
    if (QDir::isAbsolutePath(path) || documentPath.isEmpty() || path.contains("://"))
        return path;
    return QDir::cleanPath(QFileInfo{documentPath}.absoluteDir().absoluteFilePath(path));
}

std::string SourceLibrary::keptPath(const QString& absolutePath, const QString& documentPath) {
    if (!documentPath.isEmpty()) {
        const QString folder = QFileInfo{documentPath}.absolutePath() + "/";
        if (absolutePath.startsWith(folder))
            return absolutePath.mid(folder.size()).toStdString();
    }
    return absolutePath.toStdString();
}

void SourceLibrary::follow(const DocumentChange& change) {
    if (!change.sources)
        return;
    const auto& sources = m_document.set().sources;
    std::erase_if(m_loaded, [&](const auto& entry) { return change.whole || !sources.find(entry.first); });
    if (m_building && !m_loaded.contains(m_building->id)) {
        m_building->isAbandoned = true;
        m_building->job->cancel();
    }
    for (std::size_t i = 0; i < sources.size(); ++i) {
        const auto& source = sources.pointer(i);
        const auto [at, added] = m_loaded.try_emplace(source->id);
        LoadedSource& loaded = at->second;
        if (!added && loaded.source == source)
            continue;
        const bool read = added || needsReading(*loaded.source, *source);
        loaded.source = source;
        const raster::Appearance appearance{source->bands, source->stretch};
        if (loaded.opening.appearance != appearance)
            loaded.glance.reset();
        loaded.opening.appearance = appearance;
        if (read)
            load(loaded);
        else
            emit sourceChanged(QString::fromStdString(source->id.value));
    }
    emit listChanged();
}

void SourceLibrary::load(LoadedSource& loaded) {
    const auto source = loaded.source;
    loaded = LoadedSource{};
    loaded.source = source;
    loaded.reading = ++m_readings;
    loaded.path = resolvedPath(*source, m_document.path());
    loaded.opening = openingOf(*source, m_blocks, m_servers);
    // The answer counts only if the document still has the very same source waiting for this one.
    const auto settle = [this, source, reading = loaded.reading](auto&& change) {
        const auto at = m_loaded.find(source->id);
        if (at == m_loaded.end() || at->second.reading != reading || needsReading(*at->second.source, *source))
            return;
        change(at->second);
        emit sourceChanged(QString::fromStdString(source->id.value));
    };
    const auto failed = [settle](const Fault& fault) {
        settle([&](LoadedSource& one) {
            one.state = LoadedSource::State::Failed;
            one.words = translated(fault);
        });
    };
    const QString title = tr("Reading %1").arg(QString::fromStdString(source->name));
    if (source->kind == model::SourceKind::Imagery) {
        startJob(
            title,
            [path = loaded.path.toStdString(), options = loaded.opening, pyramids = m_pyramidFolder.toStdString()](
                const Progress& progress) { return openedRaster(path, options, pyramids, progress); },
            [this, settle](OpenedRaster opened) {
                settle([&](LoadedSource& one) {
                    takeInto(one, std::move(opened));
                    one.state = LoadedSource::State::Ready;
                    if (one.pyramid == PyramidState::Wanted && !m_pyramidsDeclined.contains(one.path))
                        m_pyramidsAsked.emplace_back(one.source->id, PyramidPlace::Cache);
                });
                buildNextPyramid();
            },
            failed);
    } else {
        exchange::ReadRequest request;
        request.path = loaded.path.toStdString();
        request.layer = source->layer;
        request.crs = source->crs;
        request.where = source->filter;
        request.featureLimit = kMostFeatures;
        request.cornerLimit = kMostCorners;
        // On the job's thread, and handed to the jobs, which outlive it; what it hands over is settled in the window's
        // thread, where it is known whether the library is still there.
        const auto drawable = [jobs = &m_jobs, self = QPointer<SourceLibrary>{this},
                               settle](std::shared_ptr<const reference::Layer> outlines) {
            QMetaObject::invokeMethod(
                jobs,
                [self, settle, outlines = std::move(outlines)] {
                    if (!self)
                        return;
                    settle([&](LoadedSource& one) {
                        if (one.state == LoadedSource::State::Loading)
                            one.outlines = outlines;
                    });
                },
                Qt::QueuedConnection);
        };
        startJob(
            title,
            [reader = m_readerProgram.toStdString(), folder = m_layerFolder.toStdString(), request,
             password = m_databases.password(source->path), drawable](const Progress& progress) {
                return openedLayer(reader, folder, request, password, drawable, progress);
            },
            [settle](const OpenedLayer& opened) {
                settle([&](LoadedSource& one) {
                    one.layer = opened.layer;
                    one.outlines.reset();
                    one.words = translated(opened.words);
                    one.isFilterRefused = !opened.layer;
                    one.state = opened.layer ? LoadedSource::State::Ready : LoadedSource::State::Failed;
                });
            },
            failed);
    }
    emit sourceChanged(QString::fromStdString(source->id.value));
}

void SourceLibrary::buildPyramid(const model::SourceId& id, PyramidPlace place) {
    if (const LoadedSource* loaded = find(id))
        m_pyramidsDeclined.erase(loaded->path);
    m_pyramidsAsked.emplace_front(id, place);
    buildNextPyramid();
}

void SourceLibrary::cancelPyramid(const model::SourceId& id) {
    std::erase_if(m_pyramidsAsked, [&](const auto& asked) { return asked.first == id; });
    if (const LoadedSource* loaded = find(id))
        m_pyramidsDeclined.insert(loaded->path);
    if (m_building && m_building->id == id)
        m_building->job->cancel();
}

/// One at a time: the threads for background work are few, and others wait for them too.
void SourceLibrary::buildNextPyramid() {
    while (!m_building && !m_pyramidsAsked.empty()) {
        const auto [id, place] = m_pyramidsAsked.front();
        m_pyramidsAsked.pop_front();
        const auto at = m_loaded.find(id);
        if (at == m_loaded.end() || !at->second.raster || !isOnDisk(at->second.path.toStdString()) ||
            (place == PyramidPlace::Cache && at->second.pyramid == PyramidState::Ready))
            continue;
        LoadedSource& loaded = at->second;
        loaded.pyramid = PyramidState::Building;
        loaded.pyramidWords.clear();
        const auto settle = [this, id = id, path = loaded.path, reading = loaded.reading](auto&& change) {
            const auto found = m_loaded.find(id);
            if (found == m_loaded.end() || found->second.path != path)
                return;
            // The raster was opened as the document had it then, in a coordinate system that may be another now: what
            // that told is no use any more, but the pyramid is, for whoever opens the raster anew.
            if (found->second.reading != reading)
                return load(found->second);
            change(found->second);
        };
        raster::OpenOptions options = loaded.opening;
        options.pyramid.clear();
        BackgroundJob* job = startJob(
            tr("Preparing %1 for quick viewing").arg(QString::fromStdString(loaded.source->name)),
            [path = loaded.path.toStdString(), options, place = place,
             folder = m_pyramidFolder.toStdString()](const Progress& progress) {
                OpenedRaster opened;
                runQuietly([&] {
                    const fs::path to =
                        place == PyramidPlace::Beside ? raster::pyramidBeside(path) : raster::pyramidPath(folder, path);
                    raster::buildPyramid(path, to, progress);
                    if (place == PyramidPlace::Cache)
                        prunePyramids(folder);
                    opened = openedRaster(path, options, folder, progress);
                });
                return opened;
            },
            [settle](OpenedRaster opened) {
                settle([&](LoadedSource& one) {
                    takeInto(one, std::move(opened));
                    one.pyramid = PyramidState::Ready;
                });
            },
            [settle](const Fault& fault) {
                settle([&](LoadedSource& one) {
                    one.pyramid = PyramidState::Failed;
                    one.pyramidWords = translated(fault);
                });
            });
        m_building = Building{id, loaded.path, job, false};
        connect(job, &BackgroundJob::finished, this, &SourceLibrary::settlePyramid);
        emit sourceChanged(QString::fromStdString(id.value));
    }
}

void SourceLibrary::settlePyramid() {
    const Building built = *std::exchange(m_building, std::nullopt);
    const auto at = m_loaded.find(built.id);
    const bool isThere = at != m_loaded.end() && at->second.path == built.path;
    if (built.job->isCancelled() && !built.isAbandoned)
        m_pyramidsDeclined.insert(built.path);
    if (isThere && at->second.pyramid == PyramidState::Building)
        at->second.pyramid = PyramidState::Wanted;
    if (isThere)
        emit sourceChanged(QString::fromStdString(built.id.value));
    buildNextPyramid();
}

} // namespace fencewright::session
