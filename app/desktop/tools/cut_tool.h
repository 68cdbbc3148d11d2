#pragma once

#include <QCoreApplication>

#include "desktop/tools/line_tool.h"

namespace fencewright::desktop {

/// Cuts fences along a line: those that are selected, or else all that it crosses.
class CutTool final : public LineTool {
    Q_DECLARE_TR_FUNCTIONS(CutTool)

public:
    CutTool() : LineTool{LineEntry{LineEntry::Closing::Open}} {}

    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;

private:
    ToolAnswer drawn(const ToolScene& scene) override;
};

} // namespace fencewright::desktop
