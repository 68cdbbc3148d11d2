#pragma once

#include <QCoreApplication>

#include "desktop/tools/line_entry.h"
#include "desktop/tools/tool.h"

namespace fencewright::desktop {

/// Cuts fences along a line: those that are selected, or else all that it crosses.
class CutTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(CutTool)

public:
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    QString typedPrompt() const override { return m_line.typedPrompt(); }
    bool wantsSnap() const override { return true; }
    LineSoFar lineSoFar(const model::Position& pointer, bool wholeBearings) const override {
        return m_line.lineSoFar(pointer, wholeBearings);
    }

private:
    LineEntry m_line{LineEntry::Closing::Open};
};

} // namespace fencewright::desktop
