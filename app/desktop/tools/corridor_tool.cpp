#include "desktop/tools/corridor_tool.h"

#include "desktop/tools/new_thing.h"
#include "fault.h"

namespace fencewright::desktop {

ToolAnswer CorridorTool::handle(const ToolEvent& event, const ToolScene& scene) {
    if (event.kind == ToolEvent::Kind::OtherKind) {
        m_kind = otherKind(m_kind);
        return {};
    }
    return m_widening ? widen(event, scene) : LineTool::handle(event, scene);
}

ToolAnswer CorridorTool::drawn(const ToolScene&) {
    if (m_line.places().size() < 2)
        throw Fault{phrase("core", "A corridor needs a line of at least two places."), "",
                    phrase("core", "Click the next place, or press Escape.")};
    m_widening = Widening{m_line.places(), m_line.places().back(), false, {}, {}};
    return {};
}

ToolAnswer CorridorTool::widen(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    switch (event.kind) {
    case Kind::Hover:
    case Kind::Click:
        m_widening->pointer = continued(event.place, m_widening->line.back());
        m_widening->eachAlone = event.constrain;
        if (event.kind == Kind::Hover)
            break;
        m_widening->typed.reset();
        {
            const BesideLine beside = besideLine(m_widening->line, m_widening->pointer);
            const StatedLength width{beside.distance, {}};
            if (!m_widening->hasSide() && !event.constrain)
                return take({width, width}, scene);
            return take(beside.onRight ? SideWidths{{}, width} : SideWidths{width, {}}, scene);
        }
    case Kind::Finish:
        // With one side set, the other gets none: where the pointer rests is no word of the person's.
        return finish(m_widening->hasSide() && !m_widening->typed ? m_widening->set : widthsNow(*m_widening), scene);
    case Kind::Typing:
        try {
            m_widening->typed = parseSideWidths(event.text, scene.units);
        } catch (const Fault&) {
            m_widening->typed.reset(); // half a number is no fault yet
        }
        break;
    case Kind::Typed: {
        const SideWidths given = parseSideWidths(event.text, scene.units);
        m_widening->typed.reset();
        return take(given, scene);
    }
    case Kind::StepBack:
        if (m_widening->hasSide())
            m_widening->set = {};
        else
            m_widening.reset(); // back to the line
        break;
    case Kind::Escape:
        m_widening.reset();
        m_line.clear();
        break;
    default:
        break;
    }
    return {};
}

SideWidths CorridorTool::widthsNow(const Widening& widening) {
    SideWidths widths = widening.set;
    if (widening.typed) {
        widths.left = widening.typed->left ? widening.typed->left : widths.left;
        widths.right = widening.typed->right ? widening.typed->right : widths.right;
        return widths;
    }
    const BesideLine beside = besideLine(widening.line, widening.pointer);
    const StatedLength width{beside.distance, {}};
    const bool both = !widening.hasSide() && !widening.eachAlone;
    if (both || beside.onRight)
        widths.right = width;
    if (both || !beside.onRight)
        widths.left = width;
    return widths;
}

ToolAnswer CorridorTool::take(const SideWidths& given, const ToolScene& scene) {
    SideWidths widths = m_widening->set;
    widths.left = given.left ? given.left : widths.left;
    widths.right = given.right ? given.right : widths.right;
    if (widths.left && widths.right)
        return finish(widths, scene);
    m_widening->set = widths;
    return {};
}

ToolAnswer CorridorTool::finish(const SideWidths& widths, const ToolScene& scene) {
    const StatedLength none{Length{}, {}};
    const StatedLength left = widths.left.value_or(none), right = widths.right.value_or(none);
    if (!(left.length > Length{} || right.length > Length{}))
        throw Fault{
            phrase("core", "The corridor has no width."), "",
            phrase("core", "Click beside its line, or type how far it reaches to each side, such as \"15 m\".")};
    ToolAnswer answer = addedFence(scene, m_kind, model::Corridor{onFirstTurn(m_widening->line), left, right});
    m_widening.reset();
    m_line.clear();
    return answer;
}

ToolPreview CorridorTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    if (!m_widening) {
        // No kind: the comb belongs to the corridor's boundary, which is not there yet.
        m_line.showIn(preview, scene.units);
        return preview;
    }
    preview.kind = m_kind;
    const SideWidths widths = widthsNow(*m_widening);
    const StatedLength none{Length{}, {}};
    const StatedLength left = widths.left.value_or(none), right = widths.right.value_or(none);
    if (left.length > Length{} || right.length > Length{}) {
        preview.draft.emplace();
        preview.draft->kind = m_kind;
        preview.draft->shape = model::Corridor{m_widening->line, left, right};
    }
    preview.handles = m_widening->line;
    const auto words = [&](const StatedLength& width) {
        return QString::fromStdString(units::formatLength(width.length, scene.units));
    };
    preview.readout = left == right ? tr("%1 to each side").arg(words(left))
                                    : tr("%1 left · %2 right").arg(words(left), words(right));
    return preview;
}

QString CorridorTool::hint(const ToolScene& scene) const {
    const QString kind = kindWords(m_kind), other = otherKindWords(m_kind, scene.keys);
    if (m_widening && m_widening->hasSide())
        return (m_widening->set.left ? tr("%1: click on the right of the line for the width there. Enter: none.")
                                     : tr("%1: click on the left of the line for the width there. Enter: none."))
            .arg(kind);
    if (m_widening)
        return tr("%1: click beside the line; with Shift, for that side alone. %2").arg(kind, other);
    if (m_line.empty())
        return tr("%1: click where the corridor's line begins, or type its place. %2").arg(kind, other);
    return m_line.hintWith(
        scene.keys,
        tr("%1: click the next place of the line, or type distance and bearing. Enter ends the line.").arg(kind));
}

QString CorridorTool::typedPrompt() const {
    return m_widening ? tr("15 m to each side · 10 m left 25 m right · 10 25") : m_line.typedPrompt();
}

} // namespace fencewright::desktop
