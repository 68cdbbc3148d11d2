#pragma once

#include <QCoreApplication>

#include "desktop/tools/line_entry.h"
#include "desktop/tools/tool.h"

namespace fencewright::desktop {

/// Draws a corridor: a line, then how far it reaches to each side.
class CorridorTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(CorridorTool)

public:
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    QString typedPrompt() const override;
    bool wantsSnap() const override { return true; }
    LineSoFar lineSoFar(const model::Position& pointer, bool wholeBearings) const override {
        return m_widening ? LineSoFar{} : m_line.lineSoFar(pointer, wholeBearings);
    }

private:
    /// The line stands, and its width is being set.
    struct Widening {
        model::LineString line;
        model::Position pointer;
        std::optional<StatedLength> typed;
    };

    static StatedLength widthOf(const Widening& widening);
    ToolAnswer widen(const ToolEvent& event, const ToolScene& scene);
    ToolAnswer finish(StatedLength width, const ToolScene& scene);

    model::FenceKind m_kind = model::FenceKind::KeepOut;
    LineEntry m_line{LineEntry::Closing::Open};
    std::optional<Widening> m_widening;
};

} // namespace fencewright::desktop
