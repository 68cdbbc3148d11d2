#include "desktop/tools/loop_tool.h"

#include "fault.h"

namespace fencewright::desktop {

ToolAnswer LoopTool::handle(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    switch (event.kind) {
    case Kind::Press:
        m_sweep.emplace(Sweep::Form::Loop, event.pointer);
        break;
    case Kind::Drag:
        if (m_sweep)
            m_sweep->extend(event.pointer, event.tolerance, scene);
        break;
    case Kind::Drop: {
        if (!m_sweep)
            break;
        const Selection found{m_sweep->within(scene)};
        m_sweep.reset();
        if (found.empty())
            throw Fault{tr("Nothing lies wholly in the loop.").toStdString(), "",
                        tr("Draw it all around what is to be chosen.").toStdString()};
        return {
            .edit = {}, .select = event.constrain || event.adds ? scene.selection.with(found) : found, .leave = true};
    }
    case Kind::Click:
        m_sweep.reset();
        throw Fault{tr("A click alone draws no loop.").toStdString(), "",
                    tr("Hold the button down and draw around what is to be chosen.").toStdString()};
    case Kind::Escape:
        if (!m_sweep)
            return {.edit = {}, .select = {}, .leave = true};
        m_sweep.reset();
        break;
    default:
        break;
    }
    return {};
}

ToolPreview LoopTool::preview(const ToolScene&) const {
    ToolPreview preview;
    if (m_sweep)
        preview.swept = m_sweep->outline();
    return preview;
}

QString LoopTool::hint(const ToolScene&) const {
    return m_sweep ? tr("Letting go chooses what lies wholly in the loop; with Shift it is added. Esc drops it.")
                   : tr("Hold the button down and draw around what is to be chosen.");
}

} // namespace fencewright::desktop
