#include "session/edit_command.h"

#include "session/open_document.h"

namespace fencewright::session {

EditCommand::EditCommand(OpenDocument& document, model::Edit edit)
    : QUndoCommand{QString::fromStdString(edit.title)}, m_document{document}, m_edit{std::move(edit)} {}

void EditCommand::redo() { m_document.apply(m_edit); }

void EditCommand::undo() { m_document.apply(model::inverse(m_edit)); }

bool EditCommand::mergeWith(const QUndoCommand* next) {
    const auto* following = static_cast<const EditCommand*>(next); // the same id() means the same class
    if (following->m_edit.gesture != m_edit.gesture)
        return false;
    m_edit = model::merged(m_edit, following->m_edit);
    return true;
}

} // namespace fencewright::session
