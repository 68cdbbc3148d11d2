#include "session/edit_command.h"

#include "session/open_document.h"
#include "session/translated.h"

#include <algorithm>
#include <type_traits>

namespace fencewright::session {

EditCommand::EditCommand(OpenDocument& document, model::Edit edit)
    : QUndoCommand{translated(edit.title)},
      m_document{document}, m_edit{std::move(edit)}, m_before{document.revision()}, m_after{document.freshRevision()} {}

void EditCommand::redo() { m_document.apply(m_edit, m_after); }

void EditCommand::undo() { m_document.apply(model::inverse(m_edit), m_before); }

bool EditCommand::mergeWith(const QUndoCommand* next) {
    const auto* following = static_cast<const EditCommand*>(next); // the same id() means the same class
    if (following->m_edit.gesture != m_edit.gesture)
        return false;
    m_edit = model::merged(m_edit, following->m_edit);
    // A gesture that was taken back is no step: the stack drops it.
    const bool nothing = std::all_of(m_edit.changes.begin(), m_edit.changes.end(), [](const model::Change& change) {
        return std::visit(
            []<class One>(const One& one) {
                if constexpr (model::isOfSetItself<One>)
                    return one.before == one.after;
                else
                    return one.before && one.after && (one.before == one.after || *one.before == *one.after);
            },
            change);
    });
    m_after = following->m_after;
    if (nothing)
        m_document.cameBackTo(m_before);
    setObsolete(nothing);
    return true;
}

} // namespace fencewright::session
