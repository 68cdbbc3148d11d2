#include "session/source_library.h"

#include "exchange/vector_reader.h"

#include <QDir>
#include <QFileInfo>

namespace fencewright::session {
namespace {

struct ReadReference {
    std::shared_ptr<const exchange::VectorContent> content;
    std::shared_ptr<const geometry::SpatialIndex> index;
};

geometry::Box boxOf(const exchange::Feature& feature) {
    geometry::Box box;
    for (const exchange::FeatureGeometry& part : feature.parts) {
        if (const auto* place = std::get_if<model::Position>(&part))
            box.add(place->lon, place->lat);
        else if (const auto* line = std::get_if<model::LineString>(&part))
            box.add(geometry::boxOf(*line));
        else
            box.add(geometry::boxOf(std::get<model::Polygon>(part)));
    }
    return box;
}

ReadReference readReference(const QString& reader, const exchange::ReadRequest& request, const Progress& progress) {
    auto content = std::make_shared<exchange::VectorContent>(
        exchange::readVectorApart(reader.toStdString(), request, exchange::ChildLimits{}, progress));
    std::vector<geometry::Box> boxes;
    boxes.reserve(content->features.size());
    for (const exchange::Feature& feature : content->features)
        boxes.push_back(boxOf(feature));
    return {content, std::make_shared<const geometry::SpatialIndex>(boxes)};
}

/// Whether the file must be read again, and not only be shown differently.
bool needsReading(const model::Source& before, const model::Source& after) {
    return before.kind != after.kind || before.path != after.path || before.layer != after.layer ||
           before.crs != after.crs;
}

} // namespace

SourceLibrary::SourceLibrary(OpenDocument& document, BackgroundJobs& jobs, QString readerProgram, QObject* parent)
    : QObject{parent}, m_document{document}, m_jobs{jobs}, m_readerProgram{std::move(readerProgram)} {
    connect(&document, &OpenDocument::changed, this, &SourceLibrary::follow);
    follow(DocumentChange{.sources = true, .whole = true});
}

const LoadedSource* SourceLibrary::find(const model::SourceId& id) const {
    const auto at = m_loaded.find(id);
    return at == m_loaded.end() ? nullptr : &at->second;
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
        if (read)
            load(loaded);
        else
            emit sourceChanged(QString::fromStdString(source->id.value));
    }
    emit listChanged();
}

void SourceLibrary::load(LoadedSource& loaded) {
    const auto source = loaded.source;
    loaded = LoadedSource{source, resolvedPath(*source, m_document.path()), {}, {}, {}, {}, {}};
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
            [path = loaded.path.toStdString(), crs = source->crs](const Progress&) {
                return std::make_shared<const raster::RasterDescription>(raster::Dataset{path, crs}.description());
            },
            [settle](std::shared_ptr<const raster::RasterDescription> raster) {
                settle([&](LoadedSource& one) {
                    one.raster = std::move(raster);
                    one.state = LoadedSource::State::Ready;
                });
            },
            failed);
    } else {
        exchange::ReadRequest request;
        request.path = loaded.path.toStdString();
        request.layer = source->layer;
        request.crs = source->crs;
        m_jobs.start(
            title,
            [reader = m_readerProgram, request](const Progress& progress) {
                return readReference(reader, request, progress);
            },
            [settle](ReadReference read) {
                settle([&](LoadedSource& one) {
                    one.content = std::move(read.content);
                    one.index = std::move(read.index);
                    one.state = LoadedSource::State::Ready;
                });
            },
            failed);
    }
    emit sourceChanged(QString::fromStdString(source->id.value));
}

} // namespace fencewright::session
