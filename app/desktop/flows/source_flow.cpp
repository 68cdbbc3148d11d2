#include "desktop/flows/source_flow.h"

#include "desktop/dialogs/connect_dialog.h"
#include "desktop/dialogs/import_dialog.h"
#include "desktop/dialogs/server_dialog.h"
#include "desktop/dialogs/summary_dialog.h"
#include "desktop/flows/file_question.h"
#include "exchange/vector_reader.h"
#include "geodesy/crs_transform.h"
#include "geometry/spatial_index.h"
#include "raster/dataset.h"
#include "session/translated.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

template <class Format> QString filterOf(const std::vector<Format>& formats, const QString& all) {
    QStringList every;
    QStringList lines;
    for (const Format& format : formats) {
        QStringList patterns;
        for (const std::string& suffix : format.suffixes)
            patterns << "*" + text(suffix);
        every << patterns;
        lines << QStringLiteral("%1 (%2)").arg(text(format.name), patterns.join(' '));
    }
    every.removeDuplicates();
    lines.prepend(QStringLiteral("%1 (%2)").arg(all, every.join(' ')));
    lines << SourceFlow::tr("All files (*)");
    return lines.join(QStringLiteral(";;"));
}

} // namespace

SourceFlow::SourceFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
                       session::SourceLibrary& sources, session::Settings& settings, MessageBar& messages)
    : m_window{window}, m_document{document}, m_jobs{jobs}, m_sources{sources}, m_settings{settings}, m_messages{
                                                                                                          messages} {
    for (const QString& server : settings.knownServers())
        if (raster::isServerAddress(server.toStdString()))
            sources.servers()->allow(server.toStdString());
    connect(&sources, &session::SourceLibrary::sourceChanged, this, &SourceFlow::follow);
}

QString SourceFlow::vectorFilter() { return filterOf(exchange::vectorFormats(), tr("Vector files")); }

bool SourceFlow::isStillThere(int document, const QString& name) {
    if (document == m_document.serial())
        return true;
    m_messages.showNote(tr("%1 was left out: it was meant for the document that was open before.").arg(name));
    return false;
}

bool SourceFlow::mapIsEmpty() const {
    const auto& set = m_document.set();
    return set.fences.empty() && set.sites.empty() && set.homes.empty() && set.sources.empty();
}

void SourceFlow::askForImagery() {
    askForFile(m_window, m_settings,
               {tr("Add imagery"), filterOf(raster::rasterFormats(), tr("Imagery")), {}, {}, false},
               [this](const QString& path) { addImagery(path); });
}

void SourceFlow::askForFolder() {
    FileQuestion question{tr("Add a folder of imagery"), {}, {}, {}, false};
    question.folder = true;
    askForFile(m_window, m_settings, question, [this](const QString& path) { addImagery(path); });
}

void SourceFlow::askForServer() {
    auto* dialog = new ServerDialog{m_jobs, m_sources.servers(), &m_window};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog, document = m_document.serial()] {
        m_settings.addKnownServer(text(raster::serverOf(dialog->address().toStdString())));
        if (isStillThere(document, dialog->name()))
            takeImagery(dialog->address(), dialog->name(), {});
    });
    dialog->open();
}

void SourceFlow::addImagery(const QString& path) {
    const QFileInfo file{QDir::cleanPath(path)};
    takeImagery(file.absoluteFilePath(), file.isDir() ? file.fileName() : file.completeBaseName(), {});
}

void SourceFlow::takeImagery(const QString& path, const QString& name, const std::string& crs) {
    m_jobs.start(
        tr("Reading %1").arg(name),
        [file = path.toStdString(), crs, servers = m_sources.servers()](const Progress& progress) {
            raster::OpenOptions options;
            options.crs = crs;
            options.servers = servers;
            return raster::Dataset{file, options, progress}.description();
        },
        [this, path, name, crs, document = m_document.serial()](const raster::RasterDescription& raster) {
            if (!isStillThere(document, name))
                return;
            if (raster.hasGeotransform && crs.empty() && (!raster.georeferenced || raster.corners.empty()))
                return askForCrs(QFileInfo{path}.fileName(), [this, path, name, document](const std::string& named) {
                    if (isStillThere(document, name))
                        takeImagery(path, name, named);
                });
            if (!raster.georeferenced) {
                m_messages.showFault(Fault{tr("This image does not say where it lies.").toStdString(),
                                           path.toStdString(),
                                           tr("Use one with a world file or with its place inside.").toStdString()});
                return;
            }
            const bool first = mapIsEmpty();
            model::Source source;
            source.id = model::freshId<struct model::Source>();
            source.kind = model::SourceKind::Imagery;
            source.name = name.toStdString();
            source.path = path.toStdString();
            source.crs = crs;
            // Over other imagery, under all reference layers.
            std::size_t above = 0;
            for (const model::Source& one : m_document.set().sources)
                above += one.kind == model::SourceKind::Imagery ? 1 : 0;
            const model::SourceId id = source.id;
            const std::string title = tr("Add %1").arg(text(source.name)).toStdString();
            m_document.push(
                model::inSequence(title, m_document.set(), model::addSource(m_document.set(), source),
                                  [&](const model::FenceSet& state) { return model::moveSource(state, id, above); }));
            geometry::Box box;
            for (const model::Position& corner : raster.corners)
                box.add(corner.lon, corner.lat);
            emit added(box, first);
            emit chosen(id);
        },
        [this](const Fault& fault) { m_messages.showFault(fault); });
}

void SourceFlow::askForCrs(const QString& file, const std::function<void(const std::string&)>& answer) {
    auto* dialog = new QInputDialog{&m_window};
    dialog->setObjectName("crsDialog");
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setWindowTitle(tr("Which coordinates?"));
    dialog->setLabelText(tr("%1 does not say in which system its coordinates are.\nAsk whoever made it, and name the "
                            "system here, for example EPSG:25829.")
                             .arg(file));
    connect(dialog, &QInputDialog::textValueSelected, this, [this, answer](const QString& typed) {
        try {
            (void)geodesy::CrsTransform{typed.trimmed().toStdString()};
            answer(typed.trimmed().toStdString());
        } catch (const Fault& fault) {
            m_messages.showFault(fault);
        }
    });
    dialog->open();
}

void SourceFlow::describe(const QString& path, const std::function<void(const exchange::VectorDescription&)>& done) {
    m_jobs.start(
        tr("Reading %1").arg(QFileInfo{path}.fileName()),
        [reader = m_sources.readerProgram().toStdString(), file = path.toStdString()](const Progress& progress) {
            return exchange::describeVectorApart(reader, file, exchange::ChildLimits{}, progress);
        },
        [this, name = QFileInfo{path}.fileName(), document = m_document.serial(),
         done](const exchange::VectorDescription& description) {
            if (isStillThere(document, name))
                done(description);
        },
        [this](const Fault& fault) { m_messages.showFault(fault); });
}

void SourceFlow::askForReference() {
    askForFile(m_window, m_settings, {tr("Add reference layer"), vectorFilter(), {}, {}, false},
               [this](const QString& path) { addReference(path); });
}

void SourceFlow::addReference(const QString& path) {
    describe(path, [this, path](const exchange::VectorDescription& description) {
        auto* dialog = new ImportDialog{ImportPurpose::Reference, description, m_settings, &m_window};
        dialog->setAttribute(Qt::WA_DeleteOnClose);
        dialog->setTrial([this, path](const ImportChoices& choices, const std::function<void(const QString&)>& done) {
            tryFilter(path, choices, done);
        });
        connect(dialog, &QDialog::accepted, this, [this, dialog, path, document = m_document.serial()] {
            if (!isStillThere(document, QFileInfo{path}.fileName()))
                return;
            const ImportChoices choices = dialog->choices();
            model::Source source;
            source.id = model::freshId<struct model::Source>();
            source.kind = model::SourceKind::Reference;
            source.name = QFileInfo{path}.completeBaseName().toStdString();
            source.path = QFileInfo{path}.absoluteFilePath().toStdString();
            source.layer = choices.layer;
            source.crs = choices.crs;
            source.labelField = choices.nameField;
            source.numberField = choices.numberField;
            source.filter = choices.where;
            takeReference(std::move(source));
        });
        dialog->open();
    });
}

void SourceFlow::takeReference(model::Source source) {
    const model::SourceId id = source.id;
    m_firstAwaited = mapIsEmpty();
    m_awaited.insert(text(id.value));
    m_document.push(model::addSource(m_document.set(), std::move(source)));
    emit chosen(id);
}

void SourceFlow::tryFilter(const QString& path, const ImportChoices& choices,
                           const std::function<void(const QString&)>& done) {
    m_jobs.start(
        tr("Reading %1").arg(QFileInfo{path}.fileName()),
        [reader = m_sources.readerProgram().toStdString(), request = choices.request(path)](const Progress& progress) {
            exchange::checkFilterApart(reader, request, exchange::ChildLimits{}, progress);
            return true;
        },
        [done](bool) { done({}); }, [done](const Fault& fault) { done(session::translatedWithoutPlace(fault)); });
}

void SourceFlow::follow(const QString& id) {
    const auto* loaded = m_sources.find(model::SourceId{id.toStdString()});
    if (!loaded || !m_awaited.contains(id) || loaded->state == session::LoadedSource::State::Loading)
        return;
    m_awaited.erase(id);
    if (loaded->state == session::LoadedSource::State::Failed) {
        m_messages.showFault(tr("%1 could not be read. %2").arg(text(loaded->source->name), loaded->words));
        return;
    }
    const auto layer = loaded->layer;
    if (!layer)
        return;
    emit added(layer->about().extent, std::exchange(m_firstAwaited, false));
    const QString outcome = tr("%1: %2.").arg(text(loaded->source->name), readingWords(layer->about()));
    m_messages.showNote(outcome, tr("Details"), [this, outcome, layer] {
        auto* dialog = new SummaryDialog{tr("Reference layer"), outcome, layer->about(), {}, &m_window};
        dialog->setAttribute(Qt::WA_DeleteOnClose);
        dialog->open();
    });
}

void SourceFlow::locate(const model::SourceId& id) {
    const model::Source* lost = m_document.set().sources.find(id);
    if (!lost)
        return;
    const QString filter =
        lost->kind == model::SourceKind::Imagery ? filterOf(raster::rasterFormats(), tr("Imagery")) : vectorFilter();
    FileQuestion question{tr("Where is %1?").arg(text(lost->name)), filter, {}, {}, false};
    // A folder of tiles has no suffix.
    question.folder = lost->kind == model::SourceKind::Imagery && QFileInfo{text(lost->path)}.suffix().isEmpty();
    askForFile(m_window, m_settings, question, [this, id](const QString& path) { relocate(id, path); });
}

void SourceFlow::relocate(const model::SourceId& id, const QString& path) {
    const model::Source* source = m_document.set().sources.find(id);
    if (!source)
        return;
    const auto moved = [](model::Source one, const QString& to) {
        one.path = QFileInfo{to}.absoluteFilePath().toStdString();
        return one;
    };
    const std::string title = tr("Locate %1").arg(text(source->name)).toStdString();
    m_document.push(model::replaceSource(m_document.set(), moved(*source, path), title));

    // What was lost with it is often found beside it.
    std::vector<std::pair<model::SourceId, QString>> others;
    const QDir folder = QFileInfo{path}.absoluteDir();
    for (const model::Source& one : m_document.set().sources) {
        const auto* loaded = m_sources.find(one.id);
        if (one.id == id || !loaded || loaded->state != session::LoadedSource::State::Failed ||
            loaded->path.contains("://") || QFileInfo::exists(loaded->path))
            continue;
        const QString beside = folder.filePath(QFileInfo{loaded->path}.fileName());
        if (QFileInfo::exists(beside))
            others.emplace_back(one.id, beside);
    }
    if (others.empty())
        return;
    const QString words = others.size() == 1
                              ? tr("%1 is in the same folder.").arg(QFileInfo{others.front().second}.fileName())
                              : tr("%1 other missing files are in the same folder.").arg(others.size());
    m_messages.showNote(words, tr("Take them from there"), [this, others, moved] {
        std::optional<model::Edit> edit;
        const std::string both = tr("Locate %1 sources").arg(others.size()).toStdString();
        for (const auto& [other, beside] : others) {
            if (!m_document.set().sources.find(other))
                continue;
            const auto step = [other = other, beside = beside, moved, both](const model::FenceSet& set) {
                return model::replaceSource(set, moved(*set.sources.find(other), beside), both);
            };
            edit = edit ? model::inSequence(both, m_document.set(), *edit, step) : step(m_document.set());
        }
        if (edit)
            m_document.push(std::move(*edit));
    });
}

void SourceFlow::connectTo(const model::SourceId& id) {
    const auto* loaded = m_sources.find(id);
    if (!loaded)
        return;
    const QString address = text(loaded->source->path);
    raster::Credentials known;
    try {
        known = m_sources.servers()->credentials(address.toStdString());
    } catch (const Fault& fault) {
        return m_messages.showFault(fault);
    }
    auto* dialog = new ConnectDialog{address, known, loaded->words, &m_window};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog, address] {
        m_settings.addKnownServer(text(raster::serverOf(address.toStdString())));
        m_sources.connectServer(address, dialog->credentials());
    });
    dialog->open();
}

} // namespace fencewright::desktop
