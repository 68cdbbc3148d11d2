#include "desktop/tools/polygon_tool.h"

#include "desktop/tools/new_thing.h"
#include "fault.h"

namespace fencewright::desktop {
namespace {

constexpr std::size_t kFewestCorners = 3;

} // namespace

ToolAnswer PolygonTool::drawn(const ToolScene& scene) {
    if (m_line.places().size() < kFewestCorners)
        throw Fault{phrase("core", "A fence needs at least three corners."), "",
                    phrase("core", "Click the next corner, or press Escape.")};
    ToolAnswer answer = addedFence(scene, m_kind, model::DrawnPolygon{{{onFirstTurn(m_line.closedRing())}, {}}});
    m_line.clear();
    return answer;
}

ToolPreview PolygonTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    preview.kind = m_kind;
    m_line.showIn(preview, scene.units);
    return preview;
}

QString PolygonTool::hint(const ToolScene& scene) const {
    const QString kind = kindWords(m_kind);
    if (m_line.empty())
        return tr("%1: click the first corner, or type its place; = opens the entry for letters.").arg(kind);
    if (m_line.places().size() < kFewestCorners)
        return m_line.hintWith(
            scene.keys,
            tr("%1: click the next corner, or type it (= first where it begins with a letter). Esc drops it.")
                .arg(kind));
    return m_line.hintWith(
        scene.keys,
        tr("%1: click the next corner, or type it (= first where it begins with a letter). Enter closes.").arg(kind));
}

} // namespace fencewright::desktop
