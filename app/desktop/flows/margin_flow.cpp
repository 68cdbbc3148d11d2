#include "desktop/flows/margin_flow.h"

#include "desktop/dialogs/margin_dialog.h"
#include "desktop/window_actions.h"

namespace fencewright::desktop {

MarginFlow::MarginFlow(QWidget& window, session::OpenDocument& document, session::Settings& settings)
    : m_window{window}, m_document{document}, m_settings{settings} {}

void MarginFlow::connectTo(const WindowActions& actions) {
    connect(actions.margin, &QAction::triggered, this, &MarginFlow::ask);
    connect(actions.clearArea, &QAction::triggered, this, [this](bool shown) { m_settings.setShowsClearArea(shown); });
}

void MarginFlow::restate(const WindowActions& actions) const {
    actions.clearArea->setChecked(m_settings.showsClearArea());
}

void MarginFlow::ask() {
    auto* dialog = new MarginDialog{m_document.set().margin, m_settings.unitSystem(), &m_window};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog, document = m_document.serial()] {
        // Another document's margin is another question.
        if (document == m_document.serial() && dialog->margin() != m_document.set().margin)
            m_document.push(model::replaceMargin(m_document.set(), dialog->margin()));
    });
    dialog->open();
}

} // namespace fencewright::desktop
