#include "desktop/tools/grip.h"

#include "desktop/canvas/hit.h"
#include "desktop/canvas/near_plane.h"

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

model::Position midpoint(const model::Position& a, const model::Position& b) {
    return {(a.lon + b.lon) / 2.0, (a.lat + b.lat) / 2.0};
}

/// Whether a fence of the selection can be held there: at its boundary, or inside where all of it is in view. What
/// covers the screen is ground on which one wants to pan.
bool holdsFence(const session::OutlinedFence& fence, const ToolEvent& event, const ToolScene& scene) {
    return isOnBoundary(fence, event.pointer, event.tolerance) ||
           ((!scene.sees || scene.sees(fence.box)) && isHit(fence, event.pointer, event.tolerance));
}

/// A selected fence whose boundary lies there, whatever smaller thing lies there, too.
const session::OutlinedFence* boundaryAt(const ToolEvent& event, const ToolScene& scene) {
    const session::OutlinedFence* found = nullptr;
    const auto look = [&](const session::OutlinedFence& one) {
        if (!found && scene.selection.contains(one.fence->id) && isOnBoundary(one, event.pointer, event.tolerance))
            found = &one;
    };
    if (scene.selection.empty())
        return nullptr;
    if (scene.places)
        visitNear(*scene.places, event.pointer, event.tolerance, [&](std::size_t number) {
            if (number < scene.outlined.size())
                look(*scene.outlined[number]);
        });
    else
        for (const auto& one : scene.outlined)
            look(*one);
    return found;
}

bool isLocked(const model::FenceSet& set, const model::Thing& thing) {
    if (const auto* fence = std::get_if<model::FenceId>(&thing))
        return set.fences.find(*fence)->locked;
    if (const auto* site = std::get_if<model::SiteId>(&thing))
        return set.sites.find(*site)->locked;
    return set.homes.find(std::get<model::HomeId>(thing))->locked;
}

} // namespace

Grip wholeAt(const ToolEvent& event, const ToolScene& scene) {
    // Fences are held only once they are selected.
    const bool looksAtFences = !scene.selection.empty();
    static const std::vector<std::shared_ptr<const session::OutlinedFence>> none;
    const Selection found = thingAt(scene.set, looksAtFences ? scene.outlined : none, event.pointer, event.tolerance,
                                    looksAtFences ? scene.places : nullptr);
    const model::Thing* thing = found.empty() ? nullptr : &found.things().front();
    const bool isSelected = thing && scene.selection.contains(*thing);
    const bool isOneOfSeveral = isSelected && scene.selection.size() > 1;
    // What is locked is no handle. Of several, the edit says which of them holds the others.
    const bool wouldHold = thing && (isSelected || !std::holds_alternative<model::FenceId>(*thing));
    if (wouldHold && !isOneOfSeveral && isLocked(scene.set, *thing))
        return {};
    const Whole all{scene.selection.things(), thing ? *thing : model::Thing{}, false};
    if (thing && !std::holds_alternative<model::FenceId>(*thing)) {
        const auto* site = std::get_if<model::SiteId>(thing);
        const bool isPoint = !site || std::holds_alternative<model::Position>(scene.set.sites.find(*site)->geometry);
        if (isOneOfSeveral)
            return all;
        // Lines and areas are held only once they are selected: they cover ground on which one wants to pan.
        if (isPoint || isSelected)
            return Whole{{*thing}, *thing, isPoint};
        return {};
    }
    if (isSelected) {
        const auto& id = std::get<model::FenceId>(*thing);
        const auto outlined = std::find_if(scene.outlined.begin(), scene.outlined.end(),
                                           [&](const auto& one) { return one->fence->id == id; });
        return outlined != scene.outlined.end() && holdsFence(**outlined, event, scene) ? Grip{all} : Grip{};
    }
    if (const session::OutlinedFence* fence = boundaryAt(event, scene);
        fence && (scene.selection.size() > 1 || !fence->fence->locked))
        return Whole{scene.selection.things(), fence->fence->id, false};
    return {};
}

const model::Fence* selectedFence(const ToolScene& scene) {
    const auto* id = scene.selection.only<model::FenceId>();
    return id ? scene.set.fences.find(*id) : nullptr;
}

const std::vector<geometry::LineBoxes>& GripFinder::lineBoxes(const std::shared_ptr<const model::Fence>& fence) {
    if (m_boxed != fence) {
        m_boxed = fence;
        m_boxes.clear();
        for (const EditableLine& line : editableLines(fence->shape))
            m_boxes.emplace_back(*line.corners, line.closed);
    }
    return m_boxes;
}

Grip GripFinder::onLines(const model::Fence& fence, const ToolEvent& event, const ToolScene& scene,
                         const std::optional<Edge>& chosen) {
    const NearPlane plane{event.pointer};
    const double tolerance = event.tolerance.inMetres();
    const auto distance = [&](const model::Position& place) { return distanceBetween(plane.toPlane(place), {}); };
    const std::vector<EditableLine> lines = editableLines(fence.shape);
    const auto& boxes = lineBoxes(scene.set.fences.findPointer(fence.id));
    // The edges of a line near the pointer, for it may have a million.
    const auto visitNearEdges = [&](auto visit) {
        for (std::size_t line = 0; line < lines.size(); ++line)
            boxes[line].visitMeeting(
                windowAround(event.pointer, event.tolerance, boxes[line].box()),
                [&](std::size_t first, std::size_t end) { visit(line, first, std::min(end, lines[line].edges())); });
    };
    double nearest = tolerance;
    Grip grip;
    visitNearEdges([&](std::size_t line, std::size_t first, std::size_t end) {
        for (std::size_t i = first; i <= end && i < lines[line].corners->size(); ++i)
            if (const double d = distance((*lines[line].corners)[i]); d <= nearest) {
                nearest = d;
                grip = Corner{fence.id, line, i};
            }
    });
    if (!std::holds_alternative<std::monostate>(grip))
        return grip;
    std::optional<Edge> edge;
    visitNearEdges([&](std::size_t line, std::size_t first, std::size_t end) {
        for (std::size_t i = first; i < end; ++i) {
            const QPointF foot =
                nearestOnSegment({}, plane.toPlane((*lines[line].corners)[i]), plane.toPlane(lines[line].edgeEnd(i)));
            if (const double d = distanceBetween(foot, {}); d <= nearest) {
                nearest = d;
                edge = Edge{{fence.id, line, i}};
            }
        }
    });
    if (edge && (event.parallel || edge == chosen))
        return *edge;
    nearest = tolerance;
    visitNearEdges([&](std::size_t line, std::size_t first, std::size_t end) {
        for (std::size_t i = first; i < end; ++i) {
            const model::Position& from = (*lines[line].corners)[i];
            const model::Position& to = lines[line].edgeEnd(i);
            const model::Position middle = midpoint(from, to);
            if (const double d = distance(middle);
                d <= nearest &&
                distanceBetween(plane.toPlane(from), plane.toPlane(to)) > kMidpointEdgeTolerances * tolerance) {
                nearest = d;
                grip = Midpoint{{fence.id, line, i + 1}, middle};
            }
        }
    });
    return grip;
}

std::optional<Edge> GripFinder::edgeAt(const ToolEvent& event, const ToolScene& scene) {
    const model::Fence* fence = selectedFence(scene);
    if (!fence || fence->locked)
        return std::nullopt;
    ToolEvent edgewise = event;
    edgewise.parallel = true;
    const Grip grip = onLines(*fence, edgewise, scene, std::nullopt);
    const auto* edge = std::get_if<Edge>(&grip);
    return edge ? std::optional{*edge} : std::nullopt;
}

Grip GripFinder::at(const ToolEvent& event, const ToolScene& scene, const std::optional<Edge>& chosen) {
    if (const model::Fence* fence = selectedFence(scene); fence && !fence->locked) {
        if (Grip grip = onLines(*fence, event, scene, chosen); !std::holds_alternative<std::monostate>(grip))
            return grip;
        if (const auto* circle = std::get_if<model::Circle>(&fence->shape)) {
            const double tolerance = event.tolerance.inMetres();
            const double d = distanceBetween(NearPlane{event.pointer}.toPlane(circle->centre), {});
            // Of a circle too small for both, the centre.
            if (d <= tolerance)
                return Whole{{fence->id}, fence->id, true};
            if (std::abs(d - circle->radius.length.inMetres()) <= tolerance)
                return Rim{fence->id};
        }
    }
    return wholeAt(event, scene);
}

} // namespace fencewright::desktop
