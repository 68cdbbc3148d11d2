#pragma once

#include <QCoreApplication>

#include "desktop/tools/drag.h"
#include "desktop/tools/grip.h"
#include "desktop/tools/sweep.h"

#include <optional>
#include <variant>
#include <vector>

namespace fencewright::desktop {

/// Chooses what is clicked, or swept over with Ctrl; moves corners, edges, circles, sites, homes and all that is chosen
/// by dragging, by figures or by keys; adds and deletes corners.
class SelectTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(SelectTool)

public:
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    QString typedPrompt() const override;
    bool holds() const override;
    bool wantsSnap() const override;
    Selection unsnapped() const override;
    model::Position aim(const model::Position& pointer) const override;
    std::vector<ToolOffer> offersAt(const ToolEvent& event, const ToolScene& scene) override;
    std::optional<Corner> chosenCorner() const override { return m_corner; }
    void chooseCorner(const std::optional<Corner>& corner) override;
    Qt::CursorShape cursor() const override;

private:
    struct Idle {
        Grip under;
    };
    /// Something is held, and not yet moved.
    struct Held {
        Drag drag;
    };
    struct Dragging {
        Drag drag;
    };

    /// Where a chosen corner or edge lies. An index alone means another corner once the line has more of them, or
    /// fewer: after an undo, say, or a hole that is gone.
    struct Anchor {
        std::size_t lines = 0, corners = 0; ///< of the fence; of the line
        model::Position place;
        std::optional<model::Position> end; ///< of an edge

        bool operator==(const Anchor&) const = default;
    };
    static std::optional<Anchor> anchorOf(const std::vector<EditableLine>& lines, const Corner& corner, bool isEdge);

    ToolAnswer answerTo(const ToolEvent& event, const ToolScene& scene);
    /// The chosen corner, or the one that the chosen edge leads from, as the fence is now.
    std::optional<Corner> chosenNow(const model::Fence& fence) const;
    void keepAnchor(const ToolAnswer& answer, const ToolScene& scene);
    ToolAnswer press(const ToolEvent& event, const ToolScene& scene);
    ToolAnswer drag(const ToolEvent& event, const ToolScene& scene);
    ToolAnswer drop(const ToolScene& scene);
    ToolAnswer click(const ToolEvent& event, const ToolScene& scene);
    ToolAnswer typed(const ToolEvent& event, const ToolScene& scene);
    ToolAnswer nudge(const ToolEvent& event, const ToolScene& scene) const;
    ToolAnswer escape(const ToolScene& scene);
    ToolAnswer remove(const ToolScene& scene);
    void forgetWhatIsGone(const ToolScene& scene);
    std::optional<Drag> typedDrag(const ToolScene& scene) const;
    const Drag* heldDrag() const;

    GripFinder m_finder;
    std::variant<Idle, Held, Dragging, Sweep> m_state;
    std::optional<Corner> m_corner; ///< chosen
    std::optional<Edge> m_edge;     ///< chosen; never both
    std::optional<Anchor> m_anchor; ///< of what is chosen, once an event has come since
    std::optional<Drag> m_last;     ///< what was dragged last, while nothing else has been done: figures mend it
    QString m_typedWords;           ///< what is being typed would do
};

} // namespace fencewright::desktop
