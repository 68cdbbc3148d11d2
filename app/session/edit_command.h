#pragma once

#include <QUndoCommand>

#include "model/edit.h"

#include <cstdint>

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
    std::uint64_t m_before; ///< revisions of the document
    std::uint64_t m_after;
};

} // namespace fencewright::session
