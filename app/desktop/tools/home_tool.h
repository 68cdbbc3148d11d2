#pragma once

#include <QCoreApplication>

#include "desktop/tools/tool.h"

namespace fencewright::desktop {

/// Places a home; once there is one, alternates. The other kind by a key.
class HomeTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(HomeTool)

public:
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    QString typedPrompt() const override;

private:
    model::HomeKind kind(const ToolScene& scene) const;
    ToolAnswer place(const model::Position& place, const ToolScene& scene);

    std::optional<model::HomeKind> m_chosen; ///< the person's word
    std::optional<model::Position> m_pointer;
};

} // namespace fencewright::desktop
