#pragma once

#include <QCoreApplication>

#include "desktop/tools/line_tool.h"

namespace fencewright::desktop {

/// Draws a hole into a drawn polygon: the selected fence, or else the one under the first corner.
class HoleTool final : public LineTool {
    Q_DECLARE_TR_FUNCTIONS(HoleTool)

public:
    HoleTool() : LineTool{LineEntry{LineEntry::Closing::Ring}} {}

    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;

private:
    std::optional<model::FenceId> fenceFor(const model::Position& first, const ToolScene& scene) const;

    std::optional<model::FenceId> m_fence; ///< once the first corner is set
};

} // namespace fencewright::desktop
