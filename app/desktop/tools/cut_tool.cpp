#include "desktop/tools/cut_tool.h"

#include "airspace/reshaping.h"
#include "fault.h"
#include "geometry/spatial_index.h"
#include "model/lock.h"

#include <cmath>
#include <span>
#include <utility>
#include <variant>
#include <vector>

namespace fencewright::desktop {
namespace {

constexpr std::size_t kFewestPlaces = 2;

/// Those that the line crosses from one side to the other: one in which it ends is none of them. What is locked, and
/// what would follow its site no more, is cut only where the person has chosen it.
std::vector<model::FenceId> crossedBy(const model::LineString& line, const ToolScene& scene) {
    const geometry::Box reach = geometry::boxOf(line);
    std::vector<model::FenceId> crossed;
    for (const auto& outlined : scene.outlined) {
        geometry::Box box = outlined->box;
        const double turn = 360.0 * std::round((reach.minX + reach.maxX - box.minX - box.maxX) / 720.0);
        box.minX += turn;
        box.maxX += turn;
        if (box.empty() || !box.meets(reach) || outlined->fence->locked ||
            std::holds_alternative<model::Setback>(outlined->fence->shape))
            continue;
        try {
            (void)airspace::cutAlong(scene.set, std::span{&outlined->fence->id, 1}, line);
            crossed.push_back(outlined->fence->id);
        } catch (const Fault&) {
            continue;
        }
    }
    return crossed;
}

} // namespace

ToolAnswer CutTool::drawn(const ToolScene& scene) {
    if (m_line.places().size() < kFewestPlaces)
        throw Fault{phrase("core", "A cut needs a line of two places or more."), "",
                    phrase("core", "Click the next place, or press Escape.")};
    std::vector<model::FenceId> fences = scene.selection.fences();
    if (fences.empty())
        fences = crossedBy(m_line.places(), scene);
    auto cut = airspace::cutAlong(scene.set, fences, m_line.places());
    model::requireUnlocked(scene.set, cut.edit); // refused, what was drawn is kept
    m_line.clear();
    return {.edit = std::move(cut.edit), .select = Selection{std::vector<Thing>(cut.fences.begin(), cut.fences.end())}};
}

ToolPreview CutTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    m_line.showIn(preview, scene.units);
    return preview;
}

QString CutTool::hint(const ToolScene& scene) const {
    const std::vector<model::FenceId> fences = scene.selection.fences();
    const model::Fence* only = fences.size() == 1 ? scene.set.fences.find(fences.front()) : nullptr;
    const QString what = only             ? QString::fromStdString(only->name)
                         : fences.empty() ? tr("all fences that the line crosses")
                                          : tr("%1 fences").arg(fences.size());
    if (m_line.empty())
        return tr("Cut %1: click where the line begins, outside, or type its place.").arg(what);
    if (m_line.places().size() < kFewestPlaces)
        return m_line.hintWith(
            scene.keys, tr("Cut %1: click the next place, or type distance and bearing. Esc drops it.").arg(what));
    return m_line.hintWith(scene.keys,
                           tr("Cut %1: click the next place, or type distance and bearing. Enter cuts.").arg(what));
}

} // namespace fencewright::desktop
