#pragma once

#include <QCoreApplication>

#include "desktop/tools/line_tool.h"

namespace fencewright::desktop {

/// Draws a rectangle at any angle: the two ends of one side, then how far it reaches from that side.
class RectangleTool final : public LineTool {
    Q_DECLARE_TR_FUNCTIONS(RectangleTool)

public:
    RectangleTool() : LineTool{LineEntry{LineEntry::Closing::Open, LineEntry::Legs::Straight}} {}

    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    QString typedPrompt() const override;
    LineSoFar lineSoFar(const model::Position& pointer, bool wholeBearings) const override {
        return m_deepening ? LineSoFar{} : LineTool::lineSoFar(pointer, wholeBearings);
    }

private:
    /// One side stands, and the depth is being set.
    struct Deepening {
        model::Position from, to;
        model::Position pointer;
        std::optional<Length> typed; ///< to the side of the pointer
    };

    struct TimesSign;
    static std::optional<TimesSign> timesSign(const std::string& text);
    static Length depthOf(const Deepening& deepening);
    static model::LineString cornersOf(const Deepening& deepening);
    ToolAnswer takeSides(const ToolEvent& event, const TimesSign& sign, const ToolScene& scene);
    ToolAnswer deepen(const ToolEvent& event, const ToolScene& scene);
    ToolAnswer finish(const ToolScene& scene);

    model::FenceKind m_kind = model::FenceKind::KeepOut;
    std::optional<Deepening> m_deepening;
};

} // namespace fencewright::desktop
