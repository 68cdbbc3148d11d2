#include "desktop/flows/table_flow.h"

#include "desktop/dialogs/door_dialog.h"
#include "desktop/dialogs/table_dialog.h"
#include "desktop/panels/message_bar.h"
#include "exchange/database_address.h"
#include "fault.h"

#include <QtWidgets>

namespace fencewright::desktop {

TableFlow::TableFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
                     session::SourceLibrary& sources, SourceFlow& layers, MessageBar& messages)
    : m_window{window}, m_document{document}, m_jobs{jobs}, m_sources{sources}, m_layers{layers}, m_messages{messages} {
}

void TableFlow::ask() {
    auto* dialog = new TableDialog{m_jobs, m_sources.readerProgram(), &m_window};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog] {
        try {
            take(*dialog);
        } catch (const Fault& fault) {
            m_messages.showFault(fault);
        }
    });
    dialog->open();
}

void TableFlow::take(const TableDialog& dialog) {
    const TableChoices choices = dialog.choices();
    model::Source source;
    source.id = model::freshId<struct model::Source>();
    source.kind = model::SourceKind::Reference;
    source.name = exchange::parseTableName(choices.layer).table;
    source.path = choices.address;
    source.layer = choices.layer;
    source.crs = choices.crs;
    source.labelField = choices.labelField;
    source.numberField = choices.numberField;
    source.filter = choices.where;
    m_sources.connectDatabase(QString::fromStdString(choices.address), dialog.password());
    m_layers.takeReference(std::move(source));
}

bool TableFlow::isTable(const model::SourceId& id) const {
    const model::Source* source = m_document.set().sources.find(id);
    return source && exchange::isDatabaseAddress(source->path);
}

void TableFlow::connectTo(const model::SourceId& id) {
    const auto* loaded = m_sources.find(id);
    if (!loaded)
        return;
    auto* dialog = new DoorDialog{QString::fromStdString(loaded->source->path), loaded->words, &m_window};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog, id] {
        try {
            name(id, *dialog);
        } catch (const Fault& fault) {
            m_messages.showFault(fault);
        }
    });
    dialog->open();
}

void TableFlow::name(const model::SourceId& id, const DoorDialog& dialog) {
    const QString address = dialog.address();
    m_sources.connectDatabase(address, dialog.password());
    // The name belongs to the address, and so to the document.
    if (const model::Source* source = m_document.set().sources.find(id);
        source && source->path != address.toStdString()) {
        model::Source named = *source;
        named.path = address.toStdString();
        m_document.push(model::replaceSource(m_document.set(), std::move(named),
                                             tr("Connect %1").arg(QString::fromStdString(source->name)).toStdString()));
    }
}

} // namespace fencewright::desktop
