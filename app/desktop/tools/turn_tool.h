#pragma once

#include <QCoreApplication>

#include "desktop/tools/drag.h"

#include <memory>
#include <optional>
#include <variant>

namespace fencewright::desktop {

/// Turns and scales what is chosen, about a middle that can be put elsewhere: by the ring and the squares around it, or
/// by figures. Dragging what is chosen moves it, as selecting does; a click chooses something else.
class TurnTool final : public Tool {
    Q_DECLARE_TR_FUNCTIONS(TurnTool)

public:
    ToolAnswer handle(const ToolEvent& event, const ToolScene& scene) override;
    ToolPreview preview(const ToolScene& scene) const override;
    QString hint(const ToolScene& scene) const override;
    QString typedPrompt() const override;
    bool beginsTyping(QChar letter) const override;
    bool holds() const override;
    bool wantsSnap() const override;
    Selection unsnapped() const override;
    model::Position aim(const model::Position& pointer) const override;
    Qt::CursorShape cursor() const override;

private:
    struct Idle {
        // Without initializers: the variant below wants to know how to begin before this class is complete.
        Dial::Part under; ///< None where the state begins
        bool overThings;
    };
    /// The middle, the ring or a square is held.
    struct OnDial {
        Dial::Part part;
        model::Position press, hand;
        std::uint64_t gesture = 0;
        model::FenceSet before;
        bool moved = false;
    };

    void settleMiddle(const ToolScene& scene);
    std::optional<model::Position> middleNow(const ToolScene& scene) const;
    ToolAnswer answerTo(const ToolEvent& event, const ToolScene& scene);
    Dial::Part partAt(const ToolEvent& event, const ToolScene& scene) const;
    ToolAnswer press(const ToolEvent& event, const ToolScene& scene);
    ToolAnswer drag(const ToolEvent& event, const ToolScene& scene);
    ToolAnswer turnDial(OnDial& dial, const ToolEvent& event, const ToolScene& scene);
    ToolAnswer click(const ToolEvent& event, const ToolScene& scene);
    ToolAnswer typed(const std::string& text, const ToolScene& scene);
    ToolAnswer escape(const ToolScene& scene);
    /// What that does to the things of `before`.
    model::Edit edit(const std::string& text, const model::FenceSet& before, const ToolScene& scene) const;

    std::variant<Idle, OnDial, Drag> m_state;
    Selection m_chosen; ///< what the middle is that of
    std::optional<model::Position> m_middle;
    bool m_middleIsPut = false;   ///< by the person: it stays there, whatever moves
    std::optional<Thing> m_first; ///< of the chosen things, that has a place of its own: a setback moves with its site
    std::shared_ptr<const void> m_standing; ///< that thing as this tool last saw or made it
    QString m_readout;
};

} // namespace fencewright::desktop
