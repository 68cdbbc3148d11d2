#pragma once

#include <QCoreApplication>

#include "desktop/tools/tool.h"

namespace fencewright::desktop {

/// Picks parcels of the reference layers, and makes one fence of all of them.
class ParcelTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(ParcelTool)

public:
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;

private:
    void toggle(const model::Position& place, const ToolScene& scene);
    model::Fence fenceOf(model::FenceKind kind, const ToolScene& scene) const;

    model::FenceKind m_kind = model::FenceKind::KeepIn;
    std::vector<PickableParcel> m_picked; ///< in the order in which they were picked
};

} // namespace fencewright::desktop
