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
    std::size_t enabled = 0;
    for (const model::Fence& fence : m_document.set().fences)
        enabled += fence.enabled ? 1 : 0;
    const QFileInfo file{m_document.path()};
    const QString proposal = m_document.path().isEmpty() ? m_settings.lastFolder() + "/" + tr("fence-set")
                                                         : file.absolutePath() + "/" + file.completeBaseName();
    const std::size_t errors = m_audit.result() ? m_audit.result()->count(audit::Severity::Error) : 0;
    auto* dialog = new DeliveryDialog{proposal, enabled, errors, &m_window};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog] {
        const QString path = dialog->path();
        const auto options = dialog->options();
        m_jobs.start(
            tr("Delivering %1").arg(QFileInfo{path}.fileName()),
            [set = m_document.set(), file = path.toStdString(), options](const Progress& progress) {
                return exchange::deliver(set, file, options, {}, progress);
            },
            [this](const exchange::DeliveryReport& report) {
                auto* result =
                    new DeliveryResultDialog{report, m_settings.unitSystem(), m_appearance.palette(), &m_window};
                result->setAttribute(Qt::WA_DeleteOnClose);
                result->open();
            },
            [this](const Fault& fault) { m_messages.showFault(fault); });
    });
    dialog->open();
}

} // namespace fencewright::desktop
