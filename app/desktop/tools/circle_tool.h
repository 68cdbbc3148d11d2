#pragma once

#include <QCoreApplication>

#include "desktop/tools/tool.h"

#include <variant>

namespace fencewright::desktop {

/// Draws a circle: its centre, then its rim, or the radius typed.
class CircleTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(CircleTool)

public:
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    QString typedPrompt() const override;
    bool wantsSnap() const override { return true; }
    /// From the centre: what meets an edge at a right angle touches it.
    LineSoFar lineSoFar(const model::Position& pointer, bool wholeBearings) const override;

private:
    struct Idle {};
    struct Sizing {
        model::Position centre;
        model::Position rim;
        std::optional<StatedLength> typed;
    };

    StatedLength radiusOf(const Sizing& sizing) const;
    ToolAnswer finish(const model::Position& centre, StatedLength radius, const ToolScene& scene);

    model::FenceKind m_kind = model::FenceKind::KeepOut;
    std::variant<Idle, Sizing> m_state;
};

} // namespace fencewright::desktop
