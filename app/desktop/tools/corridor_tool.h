#pragma once

#include <QCoreApplication>

#include "desktop/tools/line_entry.h"
#include "desktop/tools/side_widths.h"
#include "desktop/tools/tool.h"

namespace fencewright::desktop {

/// Draws a corridor: a line, then how far it reaches to each side. A click beside the line sets both widths; with Shift
/// it sets that of its side alone, and the next click the other one.
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
    ToolAnswer widen(const ToolEvent& event, const ToolScene& scene);
    /// A width that is given, clicked or typed: with both the corridor is done.
    ToolAnswer take(const SideWidths& given, const ToolScene& scene);
    ToolAnswer finish(const SideWidths& widths, const ToolScene& scene);

    model::FenceKind m_kind = model::FenceKind::KeepOut;
    LineEntry m_line{LineEntry::Closing::Open};
    std::optional<Widening> m_widening;
};

} // namespace fencewright::desktop
