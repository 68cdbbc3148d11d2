#pragma once

#include <QCoreApplication>

#include "desktop/tools/sweep.h"

#include <optional>

namespace fencewright::desktop {

/// Chooses what lies wholly in a loop drawn around it in one sweep; for a pen, or a hand without free fingers.
class LoopTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(LoopTool)

public:
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    bool holds() const override { return m_sweep.has_value(); }

private:
    std::optional<Sweep> m_sweep;
};

} // namespace fencewright::desktop
