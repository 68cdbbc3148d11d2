#include "session/source_library.h"

#include "exchange/vector_reader.h"
#include "geodesy/map_plane.h"
#include "raster/block_cache.h"
#include "reference/layer_cache.h"

#include <QDir>
#include <QFileInfo>
#include <QStandardPaths>

#include <chrono>

namespace fencewright::session {
namespace {

// A layer is not taken into memory: a county may be in it.
constexpr std::size_t kMostFeatures = 10'000'000;
constexpr std::size_t kMostCorners = 100'000'000;
constexpr std::chrono::minutes kPatience{15};

constexpr std::size_t kBlockBytes = 64 << 20; // of decoded blocks, of all rasters together

/// Whether the file must be read again, and not only be shown differently.
bool needsReading(const model::Source& before, const model::Source& after) {
    return before.kind != after.kind || before.path != after.path || before.layer != after.layer ||
           before.crs != after.crs || before.filter != after.filter;
}

raster::OpenOptions openingOf(const model::Source& source, std::shared_ptr<raster::BlockCache> blocks) {
    raster::OpenOptions options;
    options.blocks = std::move(blocks);
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
};

OpenedRaster openedRaster(const std::string& path, const raster::OpenOptions& options) {
    const raster::Dataset dataset{path, options};
    OpenedRaster opened;
    opened.description = std::make_shared<const raster::RasterDescription>(dataset.description());
    opened.levels = dataset.levels();
    opened.tilePixels = dataset.tilePixels();
    if (const geometry::Box box = geometry::boxOf(opened.description->corners); !box.empty())
        opened.servesAsPlane = geodesy::MapPlane::serves(opened.description->crsDefinition,
                                                         {(box.minX + box.maxX) / 2.0, (box.minY + box.maxY) / 2.0});
    return opened;
}

} // namespace

SourceLibrary::SourceLibrary(OpenDocument& document, BackgroundJobs& jobs, QString readerProgram, QString layerFolder,
                             QObject* parent)
    : QObject{parent}, m_document{document}, m_jobs{jobs}, m_readerProgram{std::move(readerProgram)},
      m_layerFolder{std::move(layerFolder)}, m_blocks{std::make_shared<raster::BlockCache>(kBlockBytes)} {
    connect(&document, &OpenDocument::changed, this, &SourceLibrary::follow);
    follow(DocumentChange{.sources = true, .whole = true});
}

QString SourceLibrary::usualLayerFolder() {
    return QStandardPaths::writableLocation(QStandardPaths::GenericCacheLocation) + "/fencewright/layers";
}

const LoadedSource* SourceLibrary::find(const model::SourceId& id) const {
    const auto at = m_loaded.find(id);
    return at == m_loaded.end() ? nullptr : &at->second;
}

std::optional<PlaneOffer> SourceLibrary::planeOffer() const {
    for (const model::Source& source : m_document.set().sources)
        if (const LoadedSource* loaded = source.visible ? find(source.id) : nullptr; loaded && loaded->servesAsPlane)
            return PlaneOffer{loaded->raster->crsDefinition, geometry::boxOf(loaded->raster->corners)};
    return std::nullopt;
}

void SourceLibrary::retry(const model::SourceId& id) {
    if (const auto at = m_loaded.find(id); at != m_loaded.end())
        load(at->second);
}

QString SourceLibrary::resolvedPath(const model::Source& source, const QString& documentPath) {
    const QString path = QString::fromStdString(source.path);
    if (QDir::isAbsolutePath(path) || documentPath.isEmpty())
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
    for (std::size_t i = 0; i < sources.size(); ++i) {
        const auto& source = sources.pointer(i);
        const auto [at, added] = m_loaded.try_emplace(source->id);
        LoadedSource& loaded = at->second;
        if (!added && loaded.source == source)
            continue;
        const bool read = added || needsReading(*loaded.source, *source);
        loaded.source = source;
        loaded.opening.appearance = {source->bands, source->stretch};
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
    loaded.path = resolvedPath(*source, m_document.path());
    loaded.opening = openingOf(*source, m_blocks);
    // The answer counts only if the document still has the very same source waiting for it.
    const auto settle = [this, source, path = loaded.path](auto&& change) {
        const auto at = m_loaded.find(source->id);
        if (at == m_loaded.end() || at->second.state != LoadedSource::State::Loading || at->second.path != path ||
            needsReading(*at->second.source, *source))
            return;
        change(at->second);
        emit sourceChanged(QString::fromStdString(source->id.value));
    };
    const auto failed = [settle](const Fault& fault) {
        settle([&](LoadedSource& one) {
            one.state = LoadedSource::State::Failed;
            one.words = QString::fromUtf8(fault.what());
        });
    };
    const QString title = tr("Reading %1").arg(QString::fromStdString(source->name));
    if (source->kind == model::SourceKind::Imagery) {
        m_jobs.start(
            title,
            [path = loaded.path.toStdString(), options = loaded.opening](const Progress&) {
                return openedRaster(path, options);
            },
            [settle](OpenedRaster opened) {
                settle([&](LoadedSource& one) {
                    one.raster = std::move(opened.description);
                    one.levels = std::move(opened.levels);
                    one.tilePixels = opened.tilePixels;
                    one.servesAsPlane = opened.servesAsPlane;
                    one.state = LoadedSource::State::Ready;
                });
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
        m_jobs.start(
            title,
            [reader = m_readerProgram.toStdString(), folder = m_layerFolder.toStdString(),
             request](const Progress& progress) {
                exchange::ChildLimits limits;
                limits.time = kPatience;
                return reference::openLayer(reader, request, reference::LayerCache{folder}, limits, progress);
            },
            [settle](std::shared_ptr<const reference::Layer> layer) {
                settle([&](LoadedSource& one) {
                    one.layer = std::move(layer);
                    one.state = LoadedSource::State::Ready;
                });
            },
            failed);
    }
    emit sourceChanged(QString::fromStdString(source->id.value));
}

} // namespace fencewright::session
