#pragma once

#include <QUndoCommand>

#include "model/edit.h"

namespace fencewright::session {

class OpenDocument;

/// Replays one edit of the model. Tools, panels and repairs make edits; only the document makes commands.
class EditCommand final : public QUndoCommand {
public:
    EditCommand(OpenDocument& document, model::Edit edit);

    void redo() override;
    void undo() override;
    int id() const override { return m_edit.gesture ? 1 : -1; }
    bool mergeWith(const QUndoCommand* next) override;

private:
    OpenDocument& m_document;
    model::Edit m_edit;
};

} // namespace fencewright::session
