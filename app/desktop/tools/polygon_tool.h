#pragma once

#include <QCoreApplication>

#include "desktop/tools/tool.h"

#include <optional>
#include <variant>

namespace fencewright::desktop {

/// Draws a polygon corner by corner: clicked, or typed as distance and bearing.
class PolygonTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(PolygonTool)

public:
    explicit PolygonTool(model::FenceKind kind) : m_kind{kind} {}

    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    QString typedPrompt() const override;
    bool wantsSnap() const override { return true; }

private:
    struct Idle {};
    struct Drawing {
        model::LineString corners;
        model::Position pointer;
        std::optional<model::Position> typed; ///< where what is being typed would lead
    };

    void addCorner(const model::Position& place);
    void enter(const std::string& text, const ToolScene& scene);
    /// @throws Fault  the text is no place, no leg, or a leg of no length.
    static model::Position placeFrom(const std::string& text, const Drawing& drawing, const ToolScene& scene);
    ToolAnswer finish(const Drawing& drawing, const ToolScene& scene);

    model::FenceKind m_kind;
    std::variant<Idle, Drawing> m_state;
};

} // namespace fencewright::desktop
