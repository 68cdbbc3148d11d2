#pragma once

#include <QCoreApplication>

#include "desktop/tools/tool.h"

#include <variant>

namespace fencewright::desktop {

/// Gives a site a setback: the site is clicked, or placed, and the distance typed.
class SetbackTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(SetbackTool)

public:
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    QString typedPrompt() const override;

private:
    struct Idle {};
    struct Chosen {
        model::SiteId site;
        std::optional<model::Site> placed; ///< the site, where it is new and not yet in the set
        std::optional<StatedLength> typed;
    };

    void choose(const ToolEvent& event, const ToolScene& scene);
    ToolAnswer finish(const Chosen& chosen, const StatedLength& distance, const ToolScene& scene);
    static model::Fence fenceOf(const Chosen& chosen, const StatedLength& distance, const ToolScene& scene);

    std::variant<Idle, Chosen> m_state;
};

} // namespace fencewright::desktop
