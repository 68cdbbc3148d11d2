#include "desktop/tools/hole_tool.h"

#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geometry/containment.h"
#include "geometry/spatial_index.h"
#include "model/lock.h"

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr std::size_t kFewestCorners = 3;

const model::DrawnPolygon* drawnOf(const ToolScene& scene, const model::FenceId& id) {
    const model::Fence* fence = scene.set.fences.find(id);
    return fence ? std::get_if<model::DrawnPolygon>(&fence->shape) : nullptr;
}

/// With its holes: one more may not overlap them.
model::MultiPolygon surfaceOf(const model::DrawnPolygon& drawn) { return {{drawn.polygon}}; }

/// The places, by as many whole turns about the earth as bring them to the polygon: it may be stored beyond 180°, and
/// the view's middle may lie a turn away.
model::LineString onTurnOf(const model::DrawnPolygon& drawn, model::LineString places) {
    const geometry::Box shell = geometry::boxOf(drawn.polygon.shell.corners), own = geometry::boxOf(places);
    const double turn = 360.0 * std::round((shell.minX + shell.maxX - own.minX - own.maxX) / 720.0);
    for (model::Position& place : places)
        place.lon += turn;
    return places;
}

bool liesIn(const model::DrawnPolygon& drawn, const model::Position& place) {
    return geometry::contains(surfaceOf(drawn), onTurnOf(drawn, {place}).front());
}

} // namespace

std::optional<model::FenceId> HoleTool::fenceFor(const model::Position& first, const ToolScene& scene) const {
    if (const auto* id = scene.selection.only<model::FenceId>())
        if (const auto* drawn = drawnOf(scene, *id); drawn && liesIn(*drawn, first))
            return *id;
    // The last of those under the corner lies on top.
    for (std::size_t i = scene.set.fences.size(); i-- > 0;)
        if (const auto* drawn = drawnOf(scene, scene.set.fences[i].id); drawn && liesIn(*drawn, first))
            return scene.set.fences[i].id;
    return std::nullopt;
}

ToolAnswer HoleTool::handle(const ToolEvent& event, const ToolScene& scene) {
    const bool begun = !m_line.empty();
    const LineEntry before = m_line;
    const LineEntry::Outcome outcome = m_line.handle(event, scene);
    if (outcome == LineEntry::Outcome::Leave)
        return {.edit = {}, .select = {}, .leave = true};
    if (m_line.empty()) {
        m_fence.reset();
        return {};
    }
    if (!begun) {
        m_fence = fenceFor(m_line.places().front(), scene);
        if (!m_fence) {
            m_line = before;
            throw Fault{phrase("core", "There is no drawn polygon here to make a hole in."), "",
                        phrase("core", "Click inside a fence that was drawn corner by corner.")};
        }
        try {
            model::requireUnlocked(scene.set, *m_fence); // at once, and not when the hole has been drawn
        } catch (const Fault&) {
            m_line = before;
            m_fence.reset();
            throw;
        }
        return {.edit = {}, .select = Selection{*m_fence}};
    }
    if (outcome != LineEntry::Outcome::Done)
        return {};
    if (m_line.places().size() < kFewestCorners)
        throw Fault{phrase("core", "A hole needs at least three corners."), "",
                    phrase("core", "Click the next corner, or press Escape.")};
    const auto* drawn = m_fence ? drawnOf(scene, *m_fence) : nullptr;
    if (!drawn)
        throw Fault{phrase("core", "The fence that the hole was for is gone."), "",
                    phrase("core", "Press Escape and begin again.")};
    model::Fence fence = *scene.set.fences.find(*m_fence);
    const model::Ring hole{onTurnOf(*drawn, m_line.closedRing())};
    if (!geometry::contains(surfaceOf(*drawn), model::MultiPolygon{{{hole, {}}}}))
        throw Fault{phrase("core", "The hole does not lie inside %1, or overlaps another.")(fence.name), "",
                    phrase("core", "Take the corner outside back with Backspace, or press Escape and begin again.")};
    std::get<model::DrawnPolygon>(fence.shape).polygon.holes.push_back(hole);
    const std::string title = tr("Make a hole in %1").arg(QString::fromStdString(fence.name)).toStdString();
    ToolAnswer answer{.edit = model::replaceFence(scene.set, std::move(fence), title), .select = {}};
    model::requireUnlocked(scene.set, *answer.edit); // refused, what was drawn is kept
    m_line.clear();
    m_fence.reset();
    return answer;
}

ToolPreview HoleTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    const model::Fence* fence = m_fence ? scene.set.fences.find(*m_fence) : nullptr;
    m_line.showIn(preview, scene.units);
    // Inside the hole is what is outside the fence: the comb stands on its other side.
    if (fence)
        preview.kind = otherKind(fence->kind);
    return preview;
}

QString HoleTool::hint(const ToolScene& scene) const {
    if (m_line.empty())
        return tr("Hole: click its first corner inside a drawn polygon.");
    if (m_line.places().size() < kFewestCorners)
        return m_line.hintWith(scene.keys,
                               tr("Hole: click the next corner, or type distance and bearing. Esc drops it."));
    return m_line.hintWith(scene.keys, tr("Hole: click the next corner, or type distance and bearing. Enter closes."));
}

} // namespace fencewright::desktop
