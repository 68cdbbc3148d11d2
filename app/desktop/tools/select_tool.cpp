#include "desktop/tools/select_tool.h"

#include "airspace/placing.h"
#include "desktop/canvas/hit.h"
#include "desktop/canvas/near_plane.h"
#include "fault.h"
#include "geodesy/geodesic.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace fencewright::desktop {
namespace {

template <class... Cases> struct Overloaded : Cases... { using Cases::operator()...; };
template <class... Cases> Overloaded(Cases...) -> Overloaded<Cases...>;

bool isNothing(const Grip& grip) { return std::holds_alternative<std::monostate>(grip); }

/// Whether Ctrl and a drag there sweeps: over what is chosen as a whole, but not over what has a place of its own.
bool isSwept(const Grip& grip) {
    const auto* whole = std::get_if<Whole>(&grip);
    return isNothing(grip) || (whole && !whole->byItsPlace);
}

ToolAnswer withCornersRemoved(const ToolScene& scene, const Corner& corner) {
    const model::Fence* fence = scene.set.fences.find(corner.fence);
    if (!fence)
        return {};
    return {.edit = cornersRemoved(scene.set, cornersTogether(scene, corner),
                                   QCoreApplication::translate("SelectTool", "Delete corner of %1")
                                       .arg(QString::fromStdString(fence->name))
                                       .toStdString()),
            .select = {}};
}

/// Whether the one thing that is selected is locked.
bool isLocked(const ToolScene& scene) {
    const auto locked = [](const auto* thing) { return thing && thing->locked; };
    const auto* site = scene.selection.only<model::SiteId>();
    const auto* home = scene.selection.only<model::HomeId>();
    return locked(selectedFence(scene)) || locked(site ? scene.set.sites.find(*site) : nullptr) ||
           locked(home ? scene.set.homes.find(*home) : nullptr);
}

} // namespace

const Drag* SelectTool::heldDrag() const {
    if (const auto* held = std::get_if<Held>(&m_state))
        return &held->drag;
    const auto* dragging = std::get_if<Dragging>(&m_state);
    return dragging ? &dragging->drag : nullptr;
}

void SelectTool::forgetWhatIsGone(const ToolScene& scene) {
    const model::Fence* fence = selectedFence(scene);
    const std::optional<Corner> now = fence && !fence->locked ? chosenNow(*fence) : std::nullopt;
    if (m_corner)
        m_corner = now;
    if (m_edge)
        m_edge = now ? std::optional{Edge{*now}} : std::nullopt;
    if (m_last && (!m_last->stands(scene.set) || scene.selection != m_last->held()))
        m_last.reset();
}

std::optional<SelectTool::Anchor> SelectTool::anchorOf(const std::vector<EditableLine>& lines, const Corner& corner,
                                                       bool isEdge) {
    if (corner.line >= lines.size())
        return std::nullopt;
    const EditableLine& line = lines[corner.line];
    if (corner.index >= (isEdge ? line.edges() : line.corners->size()))
        return std::nullopt;
    return Anchor{lines.size(), line.corners->size(), (*line.corners)[corner.index],
                  isEdge ? std::optional{line.edgeEnd(corner.index)} : std::nullopt};
}

std::optional<Corner> SelectTool::chosenNow(const model::Fence& fence) const {
    if (!m_corner && !m_edge)
        return std::nullopt;
    const Corner& chosen = m_corner ? *m_corner : m_edge->from;
    const bool isEdge = m_edge.has_value();
    if (chosen.fence != fence.id)
        return std::nullopt;
    const std::vector<EditableLine> lines = editableLines(fence.shape);
    const std::optional<Anchor> there = anchorOf(lines, chosen, isEdge);
    // Moved, by whatever it was, it is the same corner still.
    if (there && (!m_anchor || (m_anchor->lines == there->lines && m_anchor->corners == there->corners)))
        return chosen;
    if (!m_anchor)
        return std::nullopt;
    for (std::size_t line = 0; line < lines.size(); ++line)
        for (std::size_t index = 0; index < lines[line].corners->size(); ++index) {
            const auto found = anchorOf(lines, {fence.id, line, index}, isEdge);
            if (found && found->place == m_anchor->place && found->end == m_anchor->end)
                return Corner{fence.id, line, index};
        }
    return std::nullopt;
}

void SelectTool::keepAnchor(const ToolAnswer& answer, const ToolScene& scene) {
    m_anchor.reset();
    if (!m_corner && !m_edge)
        return;
    const Corner& chosen = m_corner ? *m_corner : m_edge->from;
    const model::Fence* fence = scene.set.fences.find(chosen.fence);
    // What this very event does to the fence is known, and no reason to look for the corner.
    if (answer.edit)
        for (const model::Change& change : answer.edit->changes)
            if (const auto* one = std::get_if<model::Replacement<model::Fence>>(&change);
                one && one->after && one->after->id == chosen.fence)
                fence = one->after.get();
    if (fence)
        m_anchor = anchorOf(editableLines(fence->shape), chosen, m_edge.has_value());
}

void SelectTool::chooseCorner(const std::optional<Corner>& corner) {
    if (corner == m_corner)
        return;
    m_corner = corner;
    m_edge.reset();
    m_anchor.reset();
    m_last.reset(); // figures are for the corner that is chosen now
    m_typedWords.clear();
}

ToolAnswer SelectTool::handle(const ToolEvent& event, const ToolScene& scene) {
    forgetWhatIsGone(scene);
    ToolAnswer answer = answerTo(event, scene);
    keepAnchor(answer, scene);
    return answer;
}

ToolAnswer SelectTool::answerTo(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    switch (event.kind) {
    case Kind::Hover:
        m_state = Idle{m_finder.at(event, scene, m_edge)};
        return {};
    case Kind::Press:
        return press(event, scene);
    case Kind::Drag:
        return drag(event, scene);
    case Kind::Drop:
        return drop(scene);
    case Kind::Click:
        return click(event, scene);
    case Kind::Typing: {
        const std::optional<Drag> drag = typedDrag(scene);
        m_typedWords = drag ? drag->wordsFor(event.text, scene) : QString{};
        return {};
    }
    case Kind::Typed:
        return typed(event, scene);
    case Kind::Nudge:
        return nudge(event, scene);
    case Kind::StepBack:
    case Kind::Delete:
        return remove(scene);
    case Kind::Escape:
        return escape(scene);
    default:
        return {};
    }
}

ToolAnswer SelectTool::press(const ToolEvent& event, const ToolScene& scene) {
    m_last.reset();
    m_typedWords.clear();
    Grip grip = m_finder.at(event, scene, m_edge);
    if (event.adds && isSwept(grip))
        m_state = Sweep{event.constrain ? Sweep::Form::Loop : Sweep::Form::Box, event.pointer};
    else if (isNothing(grip))
        m_state = Idle{};
    else
        m_state = Held{Drag{std::move(grip), event.pointer, event.gesture, scene}};
    return {};
}

ToolAnswer SelectTool::drag(const ToolEvent& event, const ToolScene& scene) {
    if (auto* sweep = std::get_if<Sweep>(&m_state)) {
        sweep->extend(event.pointer, event.tolerance, scene);
        return {};
    }
    const bool begins = std::holds_alternative<Held>(m_state);
    if (begins) {
        Drag held = std::move(std::get<Held>(m_state).drag);
        m_state = Dragging{std::move(held)};
    }
    auto* dragging = std::get_if<Dragging>(&m_state);
    if (!dragging)
        return {};
    ToolAnswer answer;
    try {
        answer = dragging->drag.to(event.place, event.constrain, scene);
    } catch (const Fault&) {
        if (begins) // what cannot be moved at all is let go
            m_state = Idle{};
        throw;
    }
    if (begins) {
        m_corner = dragging->drag.corner();
        m_edge = dragging->drag.edge();
        if (const auto* whole = std::get_if<Whole>(&dragging->drag.grip()))
            answer.select = Selection{whole->things};
    }
    return answer;
}

ToolAnswer SelectTool::drop(const ToolScene& scene) {
    ToolAnswer answer;
    if (const auto* sweep = std::get_if<Sweep>(&m_state))
        answer.select = scene.selection.with(Selection{sweep->within(scene)});
    if (auto* dragging = std::get_if<Dragging>(&m_state)) {
        answer.edit = dragging->drag.settled(scene);
        m_corner = dragging->drag.corner();
        m_edge = dragging->drag.edge();
        m_last = std::move(dragging->drag);
    }
    m_state = Idle{};
    return answer;
}

ToolAnswer SelectTool::click(const ToolEvent& event, const ToolScene& scene) {
    const Grip grip = heldDrag() ? heldDrag()->grip() : m_finder.at(event, scene, m_edge);
    m_state = Idle{};
    const Selection thing = thingAt(scene.set, scene.outlined, event.pointer, event.tolerance, scene.places);
    if (event.constrain || event.adds) {
        if (thing.empty())
            return {};
        m_corner.reset();
        m_edge.reset();
        return {.edit = {}, .select = scene.selection.toggled(thing.things().front())};
    }
    m_edge.reset();
    if (const auto* corner = std::get_if<Corner>(&grip)) {
        m_corner = *corner;
        return {};
    }
    if (const auto* middle = std::get_if<Midpoint>(&grip)) {
        m_corner = middle->before;
        const QString name = QString::fromStdString(scene.set.fences.find(middle->before.fence)->name);
        return {.edit = cornersInserted(scene.set, insertionsTogether(scene, middle->before), middle->place,
                                        tr("Add corner to %1").arg(name).toStdString()),
                .select = {}};
    }
    m_corner.reset();
    if (const auto* edge = std::get_if<Edge>(&grip)) {
        m_edge = *edge;
        return {};
    }
    if (std::holds_alternative<Rim>(grip))
        return {};
    // A second click on its boundary chooses the edge.
    if (thing == scene.selection)
        if (const auto edge = m_finder.edgeAt(event, scene)) {
            m_edge = *edge;
            return {};
        }
    return {.edit = {}, .select = thing};
}

/// What figures are taken for: what is dragged, or was dragged last, or the corner or edge that is chosen.
std::optional<Drag> SelectTool::typedDrag(const ToolScene& scene) const {
    if (const auto* dragging = std::get_if<Dragging>(&m_state))
        return dragging->drag;
    if (m_last)
        return m_last;
    if (m_corner)
        return Drag{*m_corner, {}, 0, scene};
    if (m_edge)
        return Drag{*m_edge, {}, 0, scene};
    return std::nullopt;
}

ToolAnswer SelectTool::typed(const ToolEvent& event, const ToolScene& scene) {
    std::optional<Drag> drag = typedDrag(scene);
    m_typedWords.clear();
    if (!drag)
        return {};
    ToolAnswer answer = drag->typed(event.text, scene);
    // What was dragged can be mended again; what was only chosen goes on from where it is now.
    if (m_last || std::holds_alternative<Dragging>(m_state)) {
        m_corner = drag->corner();
        m_edge = drag->edge();
        m_last = std::move(drag);
    }
    m_state = Idle{};
    return answer;
}

ToolAnswer SelectTool::nudge(const ToolEvent& event, const ToolScene& scene) const {
    if (std::holds_alternative<Dragging>(m_state))
        return {};
    const auto moved = [&](const model::Position& place) {
        return airspace::movedBy(place, event.east, event.north).to;
    };
    ToolAnswer answer;
    const model::Fence* fence = selectedFence(scene);
    if (m_edge && fence) {
        if (const auto ends = endsOf(*fence, *m_edge)) {
            CornerPlaces places;
            for (const Corner& corner : cornersTogether(scene, ends->from))
                places.emplace_back(corner, moved(ends->a));
            for (const Corner& corner : cornersTogether(scene, ends->to))
                places.emplace_back(corner, moved(ends->b));
            answer.edit = cornersMoved(scene.set, places,
                                       tr("Move edge of %1").arg(QString::fromStdString(fence->name)).toStdString());
        }
    } else if (m_corner && fence) {
        const auto lines = editableLines(fence->shape);
        if (m_corner->line < lines.size() && m_corner->index < lines[m_corner->line].corners->size()) {
            const model::Position place = moved((*lines[m_corner->line].corners)[m_corner->index]);
            CornerPlaces places;
            for (const Corner& corner : cornersTogether(scene, *m_corner))
                places.emplace_back(corner, place);
            answer.edit = cornersMoved(scene.set, places,
                                       tr("Move corner of %1").arg(QString::fromStdString(fence->name)).toStdString());
        }
    } else if (!scene.selection.empty()) {
        const auto& things = scene.selection.things();
        const auto pivot = airspace::pivotOf(scene.set, things);
        answer.edit = airspace::placed(scene.set, things,
                                       airspace::movedBy(pivot.value_or(event.pointer), event.east, event.north));
    }
    if (answer.edit)
        answer.edit->gesture = event.gesture;
    return answer;
}

ToolAnswer SelectTool::escape(const ToolScene& scene) {
    m_typedWords.clear();
    m_last.reset();
    if (const auto* dragging = std::get_if<Dragging>(&m_state)) {
        ToolAnswer answer{.edit = dragging->drag.back(scene), .select = {}};
        m_state = Idle{};
        m_corner.reset();
        m_edge.reset();
        return answer;
    }
    if (std::holds_alternative<Sweep>(m_state)) {
        m_state = Idle{};
        return {};
    }
    if (m_corner || m_edge) {
        m_corner.reset();
        m_edge.reset();
        return {};
    }
    return {.edit = {}, .select = Selection{}};
}

ToolAnswer SelectTool::remove(const ToolScene& scene) {
    if (std::holds_alternative<Dragging>(m_state))
        return {};
    if (m_edge)
        throw Fault{phrase("core", "An edge is chosen, and an edge cannot be deleted."), "",
                    phrase("core", "Choose a corner and press Delete, or press Esc, and then Delete for the fence.")};
    if (m_corner) {
        ToolAnswer answer = withCornersRemoved(scene, *m_corner);
        m_corner.reset();
        return answer;
    }
    const std::vector<Thing>& things = scene.selection.things();
    if (things.empty())
        return {};
    model::FenceSet state = scene.set;
    model::Edit all;
    for (const Thing& thing : things) {
        // A setback may be gone already, with its site.
        const auto* fence = std::get_if<model::FenceId>(&thing);
        if (fence && !state.fences.find(*fence))
            continue;
        model::Edit one = std::visit(Overloaded{[&](const model::FenceId& id) { return model::removeFence(state, id); },
                                                [&](const model::SiteId& id) { return model::removeSite(state, id); },
                                                [&](const model::HomeId& id) { return model::removeHome(state, id); }},
                                     thing);
        state = model::applied(std::move(state), one);
        std::move(one.changes.begin(), one.changes.end(), std::back_inserter(all.changes));
        all.title = std::move(one.title);
    }
    if (things.size() > 1)
        all.title = tr("Delete %n things", nullptr, int(things.size())).toStdString();
    return {.edit = std::move(all), .select = Selection{}};
}

std::vector<ToolOffer> SelectTool::offersAt(const ToolEvent& event, const ToolScene& scene) {
    const Grip grip = m_finder.at(event, scene, std::nullopt);
    if (const auto* corner = std::get_if<Corner>(&grip))
        return {{tr("Delete corner"),
                 [corner = *corner](const ToolScene& now) { return withCornersRemoved(now, corner); }}};
    const std::optional<Edge> edge = m_finder.edgeAt(event, scene);
    if (!edge)
        return {};
    Corner before = edge->from;
    ++before.index;
    // Where the edge is nearest to the pointer, so that the boundary stays what it was.
    return {
        {tr("Add corner here"), [before, edge = *edge, pointer = event.pointer](const ToolScene& now) -> ToolAnswer {
             const model::Fence* fence = now.set.fences.find(before.fence);
             const auto ends = fence ? endsOf(*fence, edge) : std::nullopt;
             if (!ends)
                 return {};
             const NearPlane plane{pointer};
             const QPointF foot = nearestOnSegment({}, plane.toPlane(ends->a), plane.toPlane(ends->b));
             return {.edit =
                         cornersInserted(now.set, insertionsTogether(now, before), plane.toEarth(foot),
                                         tr("Add corner to %1").arg(QString::fromStdString(fence->name)).toStdString()),
                     .select = {}};
         }}};
}

ToolPreview SelectTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    if (!m_typedWords.isEmpty())
        preview.readout = m_typedWords;
    else if (const auto* dragging = std::get_if<Dragging>(&m_state))
        preview.readout = dragging->drag.readout();
    if (const auto* sweep = std::get_if<Sweep>(&m_state))
        preview.swept = sweep->outline();
    const model::Fence* fence = selectedFence(scene);
    if (!fence || fence->locked)
        return preview;
    preview.editable = fence->id;
    const std::optional<Corner> chosen = chosenNow(*fence);
    if (m_corner)
        preview.activeCorner = chosen;
    const auto* idle = std::get_if<Idle>(&m_state);
    const auto* under = idle ? std::get_if<Edge>(&idle->under) : nullptr;
    if (under)
        preview.activeEdge = *under;
    else if (m_edge && chosen)
        preview.activeEdge = Edge{*chosen};
    if (const auto* circle = std::get_if<model::Circle>(&fence->shape)) {
        preview.handles.push_back(circle->centre);
        try {
            for (const double bearing : {0.0, 90.0, 180.0, 270.0})
                preview.handles.push_back(
                    geodesy::direct(circle->centre, Angle::degrees(bearing), circle->radius.length));
        } catch (const Fault&) {
            // A circle at no place of the earth: the audit says so, and there is nothing to take hold of.
            preview.handles.clear();
        }
    }
    return preview;
}

QString SelectTool::hint(const ToolScene& scene) const {
    if (const auto* dragging = std::get_if<Dragging>(&m_state))
        return std::holds_alternative<Edge>(dragging->drag.grip())
                   ? tr("Release to place the edge here, or type how far. Shift keeps to whole steps, Esc puts it "
                        "back.")
                   : tr("Release to place it here, or type a distance and a bearing. Shift keeps to whole bearings, "
                        "Ctrl or Alt holds snapping off, Esc puts it back.");
    if (std::holds_alternative<Sweep>(m_state))
        return tr("Letting go chooses what lies wholly in it, with what is chosen already. Esc drops it.");
    if (m_last)
        return tr("Figures typed now put it exactly: a distance and a bearing from where it was.");
    if (m_corner)
        return tr("Corner chosen: drag it, type a distance and a bearing, or press Delete.");
    if (m_edge)
        return tr("Edge chosen: drag it parallel to itself, or type how far. Esc lets go of it.");
    if (isLocked(scene))
        return tr("It is locked: nothing changes it until it is unlocked, in the Edit menu or in its form.");
    if (const model::Fence* fence = selectedFence(scene)) {
        if (std::holds_alternative<model::Setback>(fence->shape))
            return tr("This keep-out follows its site: drag the site, or change the distance in the form.");
        if (std::holds_alternative<model::Circle>(fence->shape))
            return tr("Drag the rim or the centre. Delete removes the fence.");
        if (!editableLines(fence->shape).empty())
            return tr("Drag a corner, a midpoint to add one, the inside to move it all, or with Alt an edge.");
    }
    if (scene.selection.size() > 1)
        return tr("Shift or Ctrl and a click adds or takes away, Ctrl and a drag adds a box. Dragging one of them "
                  "moves all. Delete removes all that is chosen.");
    if (scene.selection.empty() && !scene.set.fences.empty())
        return tr("Click chooses, Shift or Ctrl and a click adds. Ctrl and a drag chooses in a box, Ctrl, Shift and a "
                  "drag in a loop.");
    return {};
}

QString SelectTool::typedPrompt() const {
    if (const auto* dragging = std::get_if<Dragging>(&m_state))
        return dragging->drag.typedPrompt();
    if (m_last)
        return m_last->typedPrompt();
    if (m_edge)
        return tr("How far: 12 m, 12 m inward or -12 m");
    return m_corner ? tr("From where it is: 120 m 45 · N 45°30' E 120 m · or coordinates") : QString{};
}

bool SelectTool::holds() const { return heldDrag() || std::holds_alternative<Sweep>(m_state); }

bool SelectTool::wantsSnap() const { return heldDrag() && heldDrag()->wantsSnap(); }

Selection SelectTool::unsnapped() const { return heldDrag() ? heldDrag()->moving() : Selection{}; }

model::Position SelectTool::aim(const model::Position& pointer) const {
    return heldDrag() ? heldDrag()->aim(pointer) : pointer;
}

Qt::CursorShape SelectTool::cursor() const {
    if (const auto* dragging = std::get_if<Dragging>(&m_state))
        return std::holds_alternative<Whole>(dragging->drag.grip()) ? Qt::SizeAllCursor : Qt::ClosedHandCursor;
    const auto* idle = std::get_if<Idle>(&m_state);
    if (!idle || isNothing(idle->under))
        return Qt::ArrowCursor;
    const auto* whole = std::get_if<Whole>(&idle->under);
    return whole && !whole->byItsPlace ? Qt::SizeAllCursor : Qt::OpenHandCursor;
}

} // namespace fencewright::desktop
