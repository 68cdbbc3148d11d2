#pragma once

#include <QCoreApplication>

#include "desktop/tools/line_tool.h"
#include "desktop/tools/side_widths.h"

namespace fencewright::desktop {

/// Draws a corridor: a line, then how far it reaches to each side. A click beside the line sets both widths; with Shift
/// it sets that of its side alone, and the next click the other one.
class CorridorTool final : public LineTool {
    Q_DECLARE_TR_FUNCTIONS(CorridorTool)

public:
    CorridorTool() : LineTool{LineEntry{LineEntry::Closing::Open}} {}

    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    QString typedPrompt() const override;
    LineSoFar lineSoFar(const model::Position& pointer, bool wholeBearings) const override {
        return m_widening ? LineSoFar{} : LineTool::lineSoFar(pointer, wholeBearings);
    }

private:
    /// The line stands, and its widths are being set.
    struct Widening {
        model::LineString line;
        model::Position pointer;
        bool eachAlone = false; ///< Shift is held
        SideWidths set;         ///< one side at most: with both, the corridor is done
        std::optional<SideWidths> typed;

        bool hasSide() const { return set.left || set.right; }
    };

    /// What would stand if it were finished now. A side that nothing gives is none.
    static SideWidths widthsNow(const Widening& widening);
    ToolAnswer drawn(const ToolScene& scene) override;
    ToolAnswer widen(const ToolEvent& event, const ToolScene& scene);
    /// A width that is given, clicked or typed: with both the corridor is done.
    ToolAnswer take(const SideWidths& given, const ToolScene& scene);
    ToolAnswer finish(const SideWidths& widths, const ToolScene& scene);

    model::FenceKind m_kind = model::FenceKind::KeepOut;
    std::optional<Widening> m_widening;
};

} // namespace fencewright::desktop
