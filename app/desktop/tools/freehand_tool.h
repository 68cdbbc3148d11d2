#pragma once

#include <QCoreApplication>

#include "desktop/tools/tool.h"

namespace fencewright::desktop {

/// Draws a polygon in one sweep of the pointer, and takes away the corners that do not matter: of a keep-out so that it
/// only grows, of a keep-in so that it only shrinks.
class FreehandTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(FreehandTool)

public:
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    bool holds() const override { return m_drawing; }

private:
    ToolAnswer finish(Length tolerance, const ToolScene& scene);

    model::FenceKind m_kind = model::FenceKind::KeepOut;
    model::LineString m_line;
    bool m_drawing = false;
};

} // namespace fencewright::desktop
