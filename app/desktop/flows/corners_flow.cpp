#include "desktop/flows/corners_flow.h"

#include "desktop/dialogs/corners_dialog.h"

#include <QAction>

namespace fencewright::desktop {

CornersFlow::CornersFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
                         const session::Settings& settings, MapCanvas& map, ClipboardText& clipboard)
    : m_window{window}, m_document{document}, m_jobs{jobs}, m_settings{settings}, m_map{map}, m_clipboard{clipboard} {
    connect(&map, &MapCanvas::selectionChanged, this, &CornersFlow::followSelection);
    connect(&map, &MapCanvas::cornerChosen, this, [this](const std::optional<Corner>& corner) {
        if (m_dialog)
            m_dialog->markCorner(corner);
    });
}

void CornersFlow::open(const QList<QAction*>& also) {
    if (!m_dialog) {
        m_dialog = new CornersDialog{m_document, m_settings, m_jobs, m_clipboard, &m_window};
        m_dialog->setAttribute(Qt::WA_DeleteOnClose);
        m_dialog->addActions(also);
        connect(m_dialog, &CornersDialog::cornerChosen, this, &CornersFlow::choose);
    }
    followSelection(m_map.selection());
    m_dialog->markCorner(m_map.chosenCorner());
    m_dialog->show();
    m_dialog->raise();
    m_dialog->activateWindow();
}

void CornersFlow::followSelection(const Selection& selection) {
    if (!m_dialog)
        return;
    const auto* fence = selection.only<model::FenceId>();
    m_dialog->showFence(fence ? std::optional{*fence} : std::nullopt);
}

/// Marks it on the map, and brings it into sight.
void CornersFlow::choose(const std::optional<Corner>& corner) {
    m_map.chooseCorner(corner);
    const model::Fence* fence = corner ? m_document.set().fences.find(corner->fence) : nullptr;
    if (!fence)
        return;
    const std::vector<EditableLine> lines = editableLines(fence->shape);
    if (corner->line >= lines.size() || corner->index >= lines[corner->line].corners->size())
        return;
    const model::Position& place = (*lines[corner->line].corners)[corner->index];
    if (!QRectF{m_map.rect()}.contains(m_map.toWidget(place)))
        m_map.showPlace(place);
}

} // namespace fencewright::desktop
