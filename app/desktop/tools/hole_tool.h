#pragma once

#include <QCoreApplication>

#include "desktop/tools/line_entry.h"
#include "desktop/tools/tool.h"

namespace fencewright::desktop {

/// Draws a hole into a drawn polygon: the selected fence, or else the one under the first corner.
class HoleTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(HoleTool)

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
    std::optional<model::FenceId> fenceFor(const model::Position& first, const ToolScene& scene) const;

    LineEntry m_line{LineEntry::Closing::Ring};
    std::optional<model::FenceId> m_fence; ///< once the first corner is set
};

} // namespace fencewright::desktop
