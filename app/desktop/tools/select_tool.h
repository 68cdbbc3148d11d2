#pragma once

#include <QCoreApplication>

#include "desktop/tools/sweep.h"
#include "geometry/line_boxes.h"

#include <memory>
#include <variant>
#include <vector>

namespace fencewright::desktop {

/// Chooses what is clicked, or swept over with Ctrl; moves corners, circles, sites and homes by dragging; adds and
/// deletes corners.
class SelectTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(SelectTool)

public:
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    bool holds() const override;
    bool wantsSnap() const override;
    std::optional<model::FenceId> unsnapped() const override;
    std::optional<Corner> chosenCorner() const override { return m_active; }
    void chooseCorner(const std::optional<Corner>& corner) override { m_active = corner; }
    Qt::CursorShape cursor() const override;

private:
    struct Midpoint {
        Corner before; ///< the new corner would stand before this one
        model::Position place;
    };
    struct Centre {
        model::FenceId fence;
    };
    struct Rim {
        model::FenceId fence;
    };
    /// What lies under the pointer and can be taken hold of.
    using Grip = std::variant<std::monostate, Corner, Midpoint, Centre, Rim, model::SiteId, model::HomeId>;

    struct Idle {
        Grip under;
    };
    /// Something is held, and not yet moved.
    struct Held {
        Grip grip;
    };
    /// Something is being dragged. What it was is kept for Escape.
    struct Dragging {
        Grip grip;
        model::Position start;
        std::uint64_t gesture = 0;
        std::variant<model::Fence, model::Site, model::Home> before;
    };

    Grip gripAt(const ToolEvent& event, const ToolScene& scene);
    const std::vector<geometry::LineBoxes>& lineBoxes(const std::shared_ptr<const model::Fence>& fence);
    ToolAnswer begin(const ToolEvent& event, const ToolScene& scene);
    ToolAnswer drag(const ToolEvent& event, const ToolScene& scene);
    ToolAnswer click(const ToolEvent& event, const ToolScene& scene);
    ToolAnswer cancelDrag(const Dragging& dragging, const ToolScene& scene);
    ToolAnswer remove(const ToolScene& scene);

    std::variant<Idle, Held, Dragging, Sweep> m_state;
    std::optional<Corner> m_active;
    QString m_readout;
    /// Of the lines of the fence whose corners were looked for last.
    std::shared_ptr<const model::Fence> m_boxed;
    std::vector<geometry::LineBoxes> m_boxes;
};

} // namespace fencewright::desktop
