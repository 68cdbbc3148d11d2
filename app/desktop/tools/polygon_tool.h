#pragma once

#include <QCoreApplication>

#include "desktop/tools/line_tool.h"

namespace fencewright::desktop {

/// Draws a polygon corner by corner: clicked, or typed as distance and bearing.
class PolygonTool final : public LineTool {
    Q_DECLARE_TR_FUNCTIONS(PolygonTool)

public:
    explicit PolygonTool(model::FenceKind kind) : LineTool{LineEntry{LineEntry::Closing::Ring}}, m_kind{kind} {}

    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;

private:
    ToolAnswer drawn(const ToolScene& scene) override;

    model::FenceKind m_kind;
};

} // namespace fencewright::desktop
