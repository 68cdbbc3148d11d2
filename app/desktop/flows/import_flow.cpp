#include "desktop/flows/import_flow.h"

#include "desktop/dialogs/summary_dialog.h"
#include "desktop/flows/file_question.h"
#include "exchange/vector_reader.h"
#include "session/given_names.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

/// Adds many at once. One by one, each would copy the roster anew.
template <class T> void addAll(model::Edit& edit, const model::Roster<T>& roster, const std::vector<T>& things) {
    std::size_t index = roster.size();
    for (const T& thing : things)
        edit.changes.push_back(model::Replacement<T>{index++, nullptr, std::make_shared<const T>(thing)});
}

} // namespace

ImportFlow::ImportFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
                       session::SourceLibrary& sources, session::Settings& settings, MessageBar& messages,
                       SourceFlow& files)
    : m_window{window}, m_document{document}, m_jobs{jobs}, m_sources{sources}, m_settings{settings},
      m_messages{messages}, m_files{files} {}

void ImportFlow::ask(ImportPurpose purpose) {
    const QString title = purpose == ImportPurpose::Fences  ? tr("Import fences")
                          : purpose == ImportPurpose::Sites ? tr("Import sites")
                                                            : tr("Import homes");
    askForFile(m_window, m_settings, {title, SourceFlow::vectorFilter(), {}, {}, false},
               [this, purpose](const QString& path) { start(purpose, path); });
}

void ImportFlow::start(ImportPurpose purpose, const QString& path) {
    m_files.describe(path, [this, purpose, path](const exchange::VectorDescription& description) {
        auto* dialog = new ImportDialog{purpose, description, m_settings, &m_window};
        dialog->setAttribute(Qt::WA_DeleteOnClose);
        connect(dialog, &QDialog::accepted, this, [this, dialog, purpose, path, document = m_document.serial()] {
            if (m_files.isStillThere(document, QFileInfo{path}.fileName()))
                read(purpose, path, dialog->choices());
        });
        dialog->open();
    });
}

void ImportFlow::read(ImportPurpose purpose, const QString& path, const ImportChoices& choices) {
    m_jobs.start(
        tr("Importing %1").arg(QFileInfo{path}.fileName()),
        [purpose, request = choices.request(path), choices,
         reader = m_sources.readerProgram().toStdString()](const Progress& progress) {
            Imported imported;
            const NameGiver named = session::inWindowLanguage();
            imported.content = exchange::readVectorApart(reader, request, exchange::ChildLimits{}, progress);
            if (purpose == ImportPurpose::Fences) {
                auto made = exchange::asFences(imported.content, choices.kind, choices.nameField, named);
                imported.fences = std::move(made.fences);
                imported.notes = std::move(made.notes);
            } else if (purpose == ImportPurpose::Sites) {
                auto made = exchange::asSites(imported.content, choices.nameField, named);
                imported.sites = std::move(made.sites);
                imported.notes = std::move(made.notes);
                if (choices.setback)
                    for (const model::Site& site : imported.sites)
                        imported.fences.push_back(exchange::setbackFence(site, *choices.setback, named));
            } else {
                auto made = exchange::asHomes(imported.content, choices.nameField, named);
                imported.homes = std::move(made.homes);
                imported.notes = std::move(made.notes);
            }
            return std::make_shared<const Imported>(std::move(imported));
        },
        [this, purpose, name = QFileInfo{path}.fileName(),
         document = m_document.serial()](const std::shared_ptr<const Imported>& imported) {
            if (m_files.isStillThere(document, name))
                take(purpose, *imported);
        },
        [this](const Fault& fault) { m_messages.showFault(fault); });
}

void ImportFlow::take(ImportPurpose purpose, const Imported& imported) {
    const auto& set = m_document.set();
    model::Edit edit;
    std::vector<model::Fence> fences;
    for (const model::Fence& fence : imported.fences)
        fences.push_back(model::withOwnId(set.fences, fence));
    std::vector<model::Site> sites;
    for (const model::Site& site : imported.sites) {
        sites.push_back(model::withOwnId(set.sites, site));
        for (model::Fence& fence : fences)
            if (auto* setback = std::get_if<model::Setback>(&fence.shape); setback && setback->site == site.id)
                setback->site = sites.back().id;
    }
    std::vector<model::Home> homes;
    for (const model::Home& home : imported.homes)
        homes.push_back(model::withOwnId(set.homes, home));
    addAll(edit, set.fences, fences);
    addAll(edit, set.sites, sites);
    addAll(edit, set.homes, homes);
    QString outcome;
    QString title;
    switch (purpose) {
    case ImportPurpose::Fences:
        title = tr("Import fences");
        outcome = tr("%1 fences added").arg(imported.fences.size());
        break;
    case ImportPurpose::Sites:
        title = tr("Import sites");
        outcome = imported.fences.empty() ? tr("%1 sites added").arg(imported.sites.size())
                                          : tr("%1 sites added, each with a setback").arg(imported.sites.size());
        break;
    case ImportPurpose::Homes:
    case ImportPurpose::Reference:
        title = tr("Import homes");
        outcome = tr("%1 homes added").arg(imported.homes.size());
        break;
    }
    if (edit.changes.empty()) {
        outcome = tr("Nothing was added");
    } else {
        edit.title = title.toStdString();
        try {
            m_document.push(std::move(edit));
        } catch (const Fault& fault) {
            m_messages.showFault(fault);
            return;
        }
        if (!imported.content.extent.empty())
            emit this->imported(imported.content.extent);
    }
    auto* dialog = new SummaryDialog{title, outcome, imported.content, imported.notes, &m_window};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->open();
}

} // namespace fencewright::desktop
