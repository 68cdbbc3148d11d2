#include "desktop/flows/delivery_flow.h"

#include "desktop/dialogs/delivery_dialog.h"
#include "desktop/dialogs/delivery_result_dialog.h"

#include <QtWidgets>

namespace fencewright::desktop {

DeliveryFlow::DeliveryFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
                           session::LiveAudit& audit, session::Settings& settings, Appearance& appearance,
                           MessageBar& messages)
    : m_window{window}, m_document{document}, m_jobs{jobs}, m_audit{audit}, m_settings{settings},
      m_appearance{appearance}, m_messages{messages} {}

void DeliveryFlow::ask() {
    // What is handed out is what was counted and judged here, whatever becomes of the document meanwhile.
    const model::FenceSet set = m_document.set();
    std::size_t enabled = 0;
    for (const model::Fence& fence : set.fences)
        enabled += fence.enabled ? 1 : 0;
    const QFileInfo file{m_document.path()};
    const QString proposal = m_document.path().isEmpty() ? m_settings.lastFolder() + "/" + tr("fence-set")
                                                         : file.absolutePath() + "/" + file.completeBaseName();
    const auto errors = [this]() -> std::optional<std::size_t> {
        if (!m_audit.isCurrent() || !m_audit.result())
            return std::nullopt;
        return m_audit.result()->count(audit::Severity::Error);
    };
    auto* dialog = new DeliveryDialog{proposal, enabled, errors(), &m_window};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    const auto restate = [this, dialog, errors, revision = m_document.revision()] {
        const bool older = revision != m_document.revision();
        dialog->showOlder(older);
        if (!older) // or the audit is of another set
            dialog->showErrors(errors());
    };
    connect(&m_audit, &session::LiveAudit::audited, dialog, restate);
    connect(&m_document, &session::OpenDocument::changed, dialog, restate);
    connect(dialog, &QDialog::accepted, this, [this, dialog, set] {
        const QString path = dialog->path();
        const auto options = dialog->options();
        // By whatever way it is named.
        const QString place = QDir{QFileInfo{path}.absolutePath()}.canonicalPath() + '/' + QFileInfo{path}.fileName();
        if (!m_underWay.insert(place).second)
            return m_messages.showFault(
                tr("%1 is being delivered already. Deliver again when that is done.").arg(QFileInfo{path}.fileName()));
        auto* job = m_jobs.start(
            tr("Delivering %1").arg(QFileInfo{path}.fileName()),
            [set, file = path.toStdString(), options](const Progress& progress) {
                return exchange::deliver(set, file, options, {}, progress);
            },
            [this](const exchange::DeliveryReport& report) {
                auto* result =
                    new DeliveryResultDialog{report, m_settings.unitSystem(), m_appearance.palette(), &m_window};
                result->setAttribute(Qt::WA_DeleteOnClose);
                result->open();
            },
            [this](const Fault& fault) { m_messages.showFault(fault); });
        connect(job, &session::BackgroundJob::finished, this, [this, place] { m_underWay.erase(place); });
    });
    dialog->open();
}

} // namespace fencewright::desktop
