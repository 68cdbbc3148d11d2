#pragma once

#include <QCoreApplication>

#include "desktop/tools/line_tool.h"

namespace fencewright::desktop {

/// Draws a circle through three places on its rim.
class RimCircleTool final : public LineTool {
    Q_DECLARE_TR_FUNCTIONS(RimCircleTool)

public:
    RimCircleTool() : LineTool{LineEntry{LineEntry::Closing::Open, LineEntry::Legs::Straight}} {}

    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;

private:
    model::FenceKind m_kind = model::FenceKind::KeepOut;
};

} // namespace fencewright::desktop
