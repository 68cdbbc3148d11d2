#include "desktop/tools/corridor_tool.h"

#include "desktop/canvas/near_plane.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/geodesic.h"

#include <limits>

namespace fencewright::desktop {

ToolAnswer CorridorTool::handle(const ToolEvent& event, const ToolScene& scene) {
    if (event.kind == ToolEvent::Kind::OtherKind) {
        m_kind = otherKind(m_kind);
        return {};
    }
    if (m_widening)
        return widen(event, scene);
    switch (m_line.handle(event, scene)) {
    case LineEntry::Outcome::Going:
        return {};
    case LineEntry::Outcome::Leave:
        return {.edit = {}, .select = {}, .leave = true};
    case LineEntry::Outcome::Done:
        break;
    }
    if (m_line.places().size() < 2)
        throw Fault{phrase("core", "A corridor needs a line of at least two places."), "",
                    phrase("core", "Click the next place, or press Escape.")};
    m_widening = Widening{m_line.places(), m_line.places().back(), {}};
    return {};
}

ToolAnswer CorridorTool::widen(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    switch (event.kind) {
    case Kind::Hover:
        m_widening->pointer = continued(event.place, m_widening->line.back());
        break;
    case Kind::Click:
        m_widening->pointer = continued(event.place, m_widening->line.back());
        m_widening->typed.reset();
        return finish(widthOf(*m_widening), scene);
    case Kind::Finish:
        return finish(widthOf(*m_widening), scene);
    case Kind::Typing:
        try {
            m_widening->typed = units::parseLength(event.text, scene.units);
        } catch (const Fault&) {
            m_widening->typed.reset(); // half a number is no fault yet
        }
        break;
    case Kind::Typed:
        return finish(units::parseLength(event.text, scene.units), scene);
    case Kind::StepBack:
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

/// From the line to the pointer, along the ground.
StatedLength CorridorTool::widthOf(const Widening& widening) {
    if (widening.typed)
        return *widening.typed;
    const NearPlane plane{widening.pointer};
    double nearest = std::numeric_limits<double>::infinity();
    model::Position at = widening.pointer;
    for (std::size_t i = 1; i < widening.line.size(); ++i) {
        const QPointF foot = nearestOnSegment({}, plane.toPlane(widening.line[i - 1]), plane.toPlane(widening.line[i]));
        if (const double distance = distanceBetween(foot, {}); distance < nearest) {
            nearest = distance;
            at = plane.toEarth(foot);
        }
    }
    return {geodesy::inverse(at, widening.pointer).length, {}};
}

ToolAnswer CorridorTool::finish(StatedLength width, const ToolScene& scene) {
    if (!(width.length > Length{}))
        throw Fault{
            phrase("core", "The corridor has no width."), "",
            phrase("core", "Click beside its line, or type how far it reaches to each side, such as \"15 m\".")};
    ToolAnswer answer = addedFence(scene, m_kind, model::Corridor{onFirstTurn(m_widening->line), std::move(width)});
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
    const StatedLength width = widthOf(*m_widening);
    if (width.length > Length{}) {
        preview.draft.emplace();
        preview.draft->kind = m_kind;
        preview.draft->shape = model::Corridor{m_widening->line, width};
    }
    preview.handles = m_widening->line;
    preview.readout = tr("%1 to each side").arg(QString::fromStdString(units::formatLength(width.length, scene.units)));
    return preview;
}

QString CorridorTool::hint(const ToolScene&) const {
    const QString kind = kindWords(m_kind), other = otherKindWords(m_kind);
    if (m_widening)
        return tr("%1: click beside the line, or type how far it reaches to each side. %2").arg(kind, other);
    if (m_line.empty())
        return tr("%1: click where the corridor's line begins, or type its place. %2").arg(kind, other);
    return m_line.hintWith(
        tr("%1: click the next place of the line, or type distance and bearing. Enter ends the line.").arg(kind));
}

QString CorridorTool::typedPrompt() const {
    return m_widening ? tr("Width to each side, such as 15 m") : m_line.typedPrompt();
}

} // namespace fencewright::desktop
