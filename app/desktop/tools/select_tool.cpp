#include "desktop/tools/select_tool.h"

#include "desktop/canvas/hit.h"
#include "desktop/canvas/near_plane.h"
#include "desktop/tools/leg.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/geodesic.h"

#include <cmath>

namespace fencewright::desktop {
namespace {

template <class... Cases> struct Overloaded : Cases... { using Cases::operator()...; };
template <class... Cases> Overloaded(Cases...) -> Overloaded<Cases...>;

const model::Fence* selectedFence(const ToolScene& scene) {
    const auto* id = scene.selection.only<model::FenceId>();
    return id ? scene.set.fences.find(*id) : nullptr;
}

/// Whether the one thing that is selected is locked.
bool isLocked(const ToolScene& scene) {
    const auto locked = [](const auto* thing) { return thing && thing->locked; };
    const auto* site = scene.selection.only<model::SiteId>();
    const auto* home = scene.selection.only<model::HomeId>();
    return locked(selectedFence(scene)) || locked(site ? scene.set.sites.find(*site) : nullptr) ||
           locked(home ? scene.set.homes.find(*home) : nullptr);
}

model::Position midpoint(const model::Position& a, const model::Position& b) {
    return {(a.lon + b.lon) / 2.0, (a.lat + b.lat) / 2.0};
}

/// The radius in whole tens of the person's unit, said in that unit.
StatedLength inWholeTens(Length radius, units::System units) {
    const bool metric = units == units::System::Metric;
    const double tens = std::max(1.0, std::round((metric ? radius.inMetres() : radius.inFeet()) / 10.0));
    const std::string words = std::to_string(static_cast<long long>(tens * 10.0)) + (metric ? " m" : " ft");
    return units::parseLength(words, units);
}

model::SiteGeometry moved(model::SiteGeometry geometry, double lon, double lat) {
    const auto shift = [&](model::Position& place) {
        place.lon += lon;
        place.lat += lat;
    };
    const auto shiftAll = [&](model::LineString& line) { std::for_each(line.begin(), line.end(), shift); };
    std::visit(Overloaded{shift, shiftAll,
                          [&](model::Polygon& polygon) {
                              shiftAll(polygon.shell.corners);
                              for (model::Ring& hole : polygon.holes)
                                  shiftAll(hole.corners);
                          }},
               geometry);
    return geometry;
}

model::Position whereIs(const model::SiteGeometry& geometry) {
    if (const auto* place = std::get_if<model::Position>(&geometry))
        return *place;
    if (const auto* line = std::get_if<model::LineString>(&geometry))
        return line->empty() ? model::Position{} : line->front();
    const auto& corners = std::get<model::Polygon>(geometry).shell.corners;
    return corners.empty() ? model::Position{} : corners.front();
}

model::Edit ofGesture(model::Edit edit, std::uint64_t gesture) {
    edit.gesture = gesture;
    return edit;
}

} // namespace

const std::vector<geometry::LineBoxes>& SelectTool::lineBoxes(const std::shared_ptr<const model::Fence>& fence) {
    if (m_boxed != fence) {
        m_boxed = fence;
        m_boxes.clear();
        for (const EditableLine& line : editableLines(fence->shape))
            m_boxes.emplace_back(*line.corners, line.closed);
    }
    return m_boxes;
}

SelectTool::Grip SelectTool::gripAt(const ToolEvent& event, const ToolScene& scene) {
    const NearPlane plane{event.pointer};
    const double tolerance = event.tolerance.inMetres();
    const auto distance = [&](const model::Position& place) { return distanceBetween(plane.toPlane(place), {}); };

    if (const model::Fence* fence = selectedFence(scene); fence && !fence->locked) {
        const std::vector<EditableLine> lines = editableLines(fence->shape);
        const auto& boxes = lineBoxes(scene.set.fences.findPointer(fence->id));
        // The edges of a line near the pointer, for it may have a million.
        const auto visitNearEdges = [&](std::size_t line, auto visit) {
            boxes[line].visitMeeting(windowAround(event.pointer, event.tolerance, boxes[line].box()), visit);
        };
        double nearest = tolerance;
        Grip grip;
        for (std::size_t line = 0; line < lines.size(); ++line)
            visitNearEdges(line, [&](std::size_t first, std::size_t end) {
                for (std::size_t i = first; i <= end && i < lines[line].corners->size(); ++i)
                    if (const double d = distance((*lines[line].corners)[i]); d <= nearest) {
                        nearest = d;
                        grip = Corner{fence->id, line, i};
                    }
            });
        if (!std::holds_alternative<std::monostate>(grip))
            return grip;
        for (std::size_t line = 0; line < lines.size(); ++line)
            visitNearEdges(line, [&](std::size_t first, std::size_t end) {
                for (std::size_t i = first; i < std::min(end, lines[line].edges()); ++i) {
                    const model::Position& from = (*lines[line].corners)[i];
                    const model::Position& to = lines[line].edgeEnd(i);
                    const model::Position middle = midpoint(from, to);
                    if (const double d = distance(middle);
                        d <= nearest &&
                        distanceBetween(plane.toPlane(from), plane.toPlane(to)) > kMidpointEdgeTolerances * tolerance) {
                        nearest = d;
                        grip = Midpoint{{fence->id, line, i + 1}, middle};
                    }
                }
            });
        if (!std::holds_alternative<std::monostate>(grip))
            return grip;
        if (const auto* circle = std::get_if<model::Circle>(&fence->shape)) {
            const double d = distance(circle->centre);
            const double rim = std::abs(d - circle->radius.length.inMetres());
            // Of a circle too small for both, the centre.
            if (d <= tolerance)
                return Centre{fence->id};
            if (rim <= tolerance)
                return Rim{fence->id};
        }
    }
    const Selection thing = thingAt(scene.set, {}, event.pointer, event.tolerance);
    if (const auto* home = thing.only<model::HomeId>(); home && !scene.set.homes.find(*home)->locked)
        return *home;
    if (const auto* site = thing.only<model::SiteId>())
        // Lines and areas are held only once they are selected: they cover ground on which one wants to pan.
        if (const model::Site* found = scene.set.sites.find(*site);
            !found->locked && (std::holds_alternative<model::Position>(found->geometry) || scene.selection == thing))
            return *site;
    return {};
}

ToolAnswer SelectTool::handle(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    if (const model::Fence* fence = selectedFence(scene);
        m_active && (!fence || fence->id != m_active->fence || fence->locked))
        m_active.reset();
    switch (event.kind) {
    case Kind::Hover:
        m_state = Idle{gripAt(event, scene)};
        return {};
    case Kind::Press:
        m_state = Held{gripAt(event, scene)};
        if (event.adds && std::holds_alternative<std::monostate>(std::get<Held>(m_state).grip))
            m_state = Sweep{event.constrain ? Sweep::Form::Loop : Sweep::Form::Box, event.pointer};
        return {};
    case Kind::Drag:
        if (auto* sweep = std::get_if<Sweep>(&m_state)) {
            sweep->extend(event.pointer, event.tolerance, scene);
            return {};
        }
        if (std::holds_alternative<Held>(m_state))
            return begin(event, scene);
        return drag(event, scene);
    case Kind::Drop:
        if (const auto* sweep = std::get_if<Sweep>(&m_state)) {
            const Selection found{sweep->within(scene)};
            m_state = Idle{};
            return {.edit = {}, .select = scene.selection.with(found)};
        }
        m_state = Idle{};
        m_readout.clear();
        return {};
    case Kind::Click:
        return click(event, scene);
    case Kind::StepBack:
    case Kind::Delete:
        return remove(scene);
    case Kind::Escape:
        if (const auto* dragging = std::get_if<Dragging>(&m_state))
            return cancelDrag(*dragging, scene);
        if (std::holds_alternative<Sweep>(m_state)) {
            m_state = Idle{};
            return {};
        }
        if (m_active) {
            m_active.reset();
            return {};
        }
        return {.edit = {}, .select = Selection{}};
    default:
        return {};
    }
}

ToolAnswer SelectTool::begin(const ToolEvent& event, const ToolScene& scene) {
    const Grip grip = std::get<Held>(m_state).grip;
    const auto ofFence = [&](const model::FenceId& id, const model::Position& start) {
        m_state = Dragging{grip, start, event.gesture, *scene.set.fences.find(id)};
    };
    m_active.reset();
    std::visit(Overloaded{[](std::monostate) {},
                          [&](const Corner& corner) {
                              const model::Fence& fence = *scene.set.fences.find(corner.fence);
                              m_active = corner;
                              ofFence(corner.fence, (*editableLines(fence.shape)[corner.line].corners)[corner.index]);
                          },
                          [&](const Midpoint& middle) {
                              m_active = middle.before;
                              ofFence(middle.before.fence, middle.place);
                          },
                          [&](const Centre& centre) {
                              const model::Fence& fence = *scene.set.fences.find(centre.fence);
                              ofFence(centre.fence, std::get<model::Circle>(fence.shape).centre);
                          },
                          [&](const Rim& rim) { ofFence(rim.fence, event.place); },
                          [&](const model::SiteId& id) {
                              const model::Site& site = *scene.set.sites.find(id);
                              m_state = Dragging{grip, whereIs(site.geometry), event.gesture, site};
                          },
                          [&](const model::HomeId& id) {
                              const model::Home& home = *scene.set.homes.find(id);
                              m_state = Dragging{grip, home.place, event.gesture, home};
                          }},
               grip);
    ToolAnswer answer = drag(event, scene);
    if (const auto* site = std::get_if<model::SiteId>(&grip))
        answer.select = *site;
    if (const auto* home = std::get_if<model::HomeId>(&grip))
        answer.select = *home;
    return answer;
}

ToolAnswer SelectTool::drag(const ToolEvent& event, const ToolScene& scene) {
    const auto* dragging = std::get_if<Dragging>(&m_state);
    if (!dragging)
        return {};
    const model::Position wanted = event.constrain && !std::holds_alternative<Rim>(dragging->grip)
                                       ? onWholeBearing(dragging->start, event.place)
                                       : event.place;
    const model::Position place = continued(wanted, dragging->start);
    m_readout = lengthAndBearing(dragging->start, place, scene.units);
    const auto answer = [&](model::Edit edit) {
        return ToolAnswer{.edit = ofGesture(std::move(edit), dragging->gesture), .select = {}};
    };
    const auto circleChange = [&](auto change, const QString& title) {
        model::Fence fence = std::get<model::Fence>(dragging->before);
        change(std::get<model::Circle>(fence.shape));
        return answer(model::replaceFence(scene.set, std::move(fence), title.toStdString()));
    };
    return std::visit(
        Overloaded{
            [](std::monostate) { return ToolAnswer{}; },
            [&](const Corner& corner) {
                const auto& before = std::get<model::Fence>(dragging->before);
                return answer(model::replaceFence(
                    scene.set, withCornerMoved(before, corner, place),
                    tr("Move corner of %1").arg(QString::fromStdString(before.name)).toStdString()));
            },
            [&](const Midpoint& middle) {
                const auto& before = std::get<model::Fence>(dragging->before);
                return answer(
                    model::replaceFence(scene.set, withCornerInserted(before, middle.before, place),
                                        tr("Add corner to %1").arg(QString::fromStdString(before.name)).toStdString()));
            },
            [&](const Centre&) {
                const auto& before = std::get<model::Fence>(dragging->before);
                return circleChange([&](model::Circle& circle) { circle.centre = onFirstTurn(place); },
                                    tr("Move %1").arg(QString::fromStdString(before.name)));
            },
            [&](const Rim&) {
                const auto& before = std::get<model::Fence>(dragging->before);
                const auto& circle = std::get<model::Circle>(before.shape);
                const Length radius = geodesy::inverse(circle.centre, place).length;
                m_readout = QString::fromStdString(units::formatLength(radius, scene.units));
                return circleChange(
                    [&](model::Circle& changed) {
                        changed.radius = event.constrain ? inWholeTens(radius, scene.units) : StatedLength{radius, {}};
                    },
                    tr("Change radius of %1").arg(QString::fromStdString(before.name)));
            },
            [&](const model::SiteId&) {
                model::Site site = std::get<model::Site>(dragging->before);
                site.geometry =
                    std::holds_alternative<model::Position>(site.geometry)
                        ? model::SiteGeometry{onFirstTurn(place)}
                        : moved(site.geometry, place.lon - dragging->start.lon, place.lat - dragging->start.lat);
                const auto title = tr("Move %1").arg(QString::fromStdString(site.name)).toStdString();
                return answer(model::replaceSite(scene.set, std::move(site), title));
            },
            [&](const model::HomeId&) {
                model::Home home = std::get<model::Home>(dragging->before);
                home.place = onFirstTurn(place);
                const auto title = tr("Move %1").arg(QString::fromStdString(home.name)).toStdString();
                return answer(model::replaceHome(scene.set, std::move(home), title));
            }},
        dragging->grip);
}

ToolAnswer SelectTool::click(const ToolEvent& event, const ToolScene& scene) {
    const Grip grip = std::holds_alternative<Held>(m_state) ? std::get<Held>(m_state).grip : gripAt(event, scene);
    m_state = Idle{};
    if (event.constrain || event.adds) {
        const Selection thing = thingAt(scene.set, scene.outlined, event.pointer, event.tolerance, scene.places);
        if (thing.empty())
            return {};
        m_active.reset();
        return {.edit = {}, .select = scene.selection.toggled(thing.things().front())};
    }
    if (const auto* corner = std::get_if<Corner>(&grip)) {
        m_active = *corner;
        return {};
    }
    if (const auto* middle = std::get_if<Midpoint>(&grip)) {
        const model::Fence& fence = *scene.set.fences.find(middle->before.fence);
        m_active = middle->before;
        return {.edit =
                    model::replaceFence(scene.set, withCornerInserted(fence, middle->before, middle->place),
                                        tr("Add corner to %1").arg(QString::fromStdString(fence.name)).toStdString()),
                .select = {}};
    }
    m_active.reset();
    if (std::holds_alternative<Centre>(grip) || std::holds_alternative<Rim>(grip))
        return {};
    return {.edit = {}, .select = thingAt(scene.set, scene.outlined, event.pointer, event.tolerance, scene.places)};
}

ToolAnswer SelectTool::cancelDrag(const Dragging& dragging, const ToolScene& scene) {
    model::Edit edit =
        std::visit(Overloaded{[&](const model::Fence& fence) { return model::replaceFence(scene.set, fence, {}); },
                              [&](const model::Site& site) { return model::replaceSite(scene.set, site, {}); },
                              [&](const model::Home& home) { return model::replaceHome(scene.set, home, {}); }},
                   dragging.before);
    edit.gesture = dragging.gesture;
    m_state = Idle{};
    m_active.reset();
    m_readout.clear();
    return {.edit = std::move(edit), .select = {}};
}

ToolAnswer SelectTool::remove(const ToolScene& scene) {
    if (std::holds_alternative<Dragging>(m_state))
        return {};
    if (m_active) {
        const model::Fence* fence = scene.set.fences.find(m_active->fence);
        if (!fence)
            return {};
        model::Edit edit =
            model::replaceFence(scene.set, withoutCorner(*fence, *m_active),
                                tr("Delete corner of %1").arg(QString::fromStdString(fence->name)).toStdString());
        m_active.reset();
        return {.edit = std::move(edit), .select = {}};
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
        state = model::applied(state, one);
        std::move(one.changes.begin(), one.changes.end(), std::back_inserter(all.changes));
        all.title = std::move(one.title);
    }
    if (things.size() > 1)
        all.title = tr("Delete %n things", nullptr, int(things.size())).toStdString();
    return {.edit = std::move(all), .select = Selection{}};
}

ToolPreview SelectTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    preview.readout = m_readout;
    if (const auto* sweep = std::get_if<Sweep>(&m_state))
        preview.swept = sweep->outline();
    const model::Fence* fence = selectedFence(scene);
    if (!fence || fence->locked)
        return preview;
    preview.editable = fence->id;
    if (m_active && m_active->fence == fence->id)
        preview.activeCorner = m_active;
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
    if (std::holds_alternative<Dragging>(m_state))
        return tr("Release to place it here. Shift keeps to whole bearings, Ctrl or Alt holds snapping off, Esc puts "
                  "it back.");
    if (std::holds_alternative<Sweep>(m_state))
        return tr("Letting go chooses what lies wholly in it, with what is chosen already. Esc drops it.");
    if (m_active)
        return tr("Corner chosen: drag it, or press Delete.");
    if (isLocked(scene))
        return tr("It is locked: nothing changes it until it is unlocked, in the Edit menu or in its form.");
    if (const model::Fence* fence = selectedFence(scene)) {
        if (std::holds_alternative<model::Setback>(fence->shape))
            return tr("This keep-out follows its site: drag the site, or change the distance in the form.");
        if (std::holds_alternative<model::Circle>(fence->shape))
            return tr("Drag the rim or the centre. Delete removes the fence.");
        if (!editableLines(fence->shape).empty())
            return tr("Drag a corner, or a midpoint to add one. Delete removes the fence.");
    }
    if (scene.selection.size() > 1)
        return tr("Shift or Ctrl and a click adds or takes away, Ctrl and a drag adds a box. Delete removes all that "
                  "is chosen.");
    if (scene.selection.empty() && !scene.set.fences.empty())
        return tr("Click chooses, Shift or Ctrl and a click adds. Ctrl and a drag chooses in a box, Ctrl, Shift and a "
                  "drag in a loop.");
    return {};
}

bool SelectTool::holds() const {
    if (std::holds_alternative<Dragging>(m_state) || std::holds_alternative<Sweep>(m_state))
        return true;
    const auto* held = std::get_if<Held>(&m_state);
    return held && !std::holds_alternative<std::monostate>(held->grip);
}

bool SelectTool::wantsSnap() const {
    const auto* held = std::get_if<Held>(&m_state);
    const auto* dragging = std::get_if<Dragging>(&m_state);
    const Grip* grip = held ? &held->grip : dragging ? &dragging->grip : nullptr;
    return grip && (std::holds_alternative<Corner>(*grip) || std::holds_alternative<Midpoint>(*grip) ||
                    std::holds_alternative<Centre>(*grip));
}

std::optional<model::FenceId> SelectTool::unsnapped() const {
    const auto* dragging = std::get_if<Dragging>(&m_state);
    if (const auto* held = std::get_if<Held>(&m_state)) {
        const auto* corner = std::get_if<Corner>(&held->grip);
        const auto* middle = std::get_if<Midpoint>(&held->grip);
        const auto* centre = std::get_if<Centre>(&held->grip);
        return corner   ? std::optional{corner->fence}
               : middle ? std::optional{middle->before.fence}
               : centre ? std::optional{centre->fence}
                        : std::nullopt;
    }
    const auto* fence = dragging ? std::get_if<model::Fence>(&dragging->before) : nullptr;
    return fence ? std::optional{fence->id} : std::nullopt;
}

Qt::CursorShape SelectTool::cursor() const {
    if (std::holds_alternative<Dragging>(m_state))
        return Qt::ClosedHandCursor;
    const auto* idle = std::get_if<Idle>(&m_state);
    if (!idle)
        return Qt::ArrowCursor;
    return std::holds_alternative<std::monostate>(idle->under) ? Qt::ArrowCursor : Qt::OpenHandCursor;
}

} // namespace fencewright::desktop
