#pragma once

#include "desktop/canvas/near_boundaries.h"
#include "desktop/tools/tool.h"
#include "geodesy/geodesic.h"
#include "model/edit.h"
#include "session/outline_cache.h"

#include <string>
#include <vector>

namespace fencewright::desktop {

/// Feeds a tool with events as the canvas does, and keeps what comes of them: the set, the selection, the undo steps.
class ToolDriver {
public:
    explicit ToolDriver(Tool& tool) : m_tool{tool} {}

    model::FenceSet set;
    Selection selection;
    units::System units = units::System::Metric;
    std::vector<PickableParcel> parcels; ///< what lies under any click, in turn
    std::vector<model::Edit> steps;      ///< as the undo stack would hold them
    bool left = false;

    ToolScene scene() {
        return {set,
                m_outlines.outlined(set),
                selection,
                units,
                [this](const model::Position&) { return parcels; },
                nullptr,
                {},
                sees,
                Length::metres(1),
                sharesCorners,
                [this](const model::Position& place, Length reach) {
                    return boundariesAt(m_outlines.outlined(set), m_outlines.places(), {}, place, reach);
                },
                {"K", "W"}};
    }

    ToolAnswer send(ToolEvent::Kind kind, model::Position place = {}, std::string text = {}) {
        ToolEvent event;
        event.kind = kind;
        event.pointer = place;
        event.place = snapsTo.value_or(m_tool.aim(place));
        event.tolerance = Length::metres(6);
        event.constrain = constrain;
        event.adds = adds;
        event.parallel = parallel;
        event.gesture = m_gesture;
        event.text = std::move(text);
        return take(m_tool.handle(event, scene()));
    }
    ToolAnswer take(ToolAnswer answer) {
        if (answer.edit) {
            set = model::applied(set, *answer.edit);
            if (!steps.empty() && answer.edit->gesture != 0 && steps.back().gesture == answer.edit->gesture)
                steps.back() = model::merged(steps.back(), *answer.edit);
            else
                steps.push_back(*answer.edit);
        }
        if (answer.select)
            selection = *answer.select;
        left = left || answer.leave;
        return answer;
    }

    void hover(model::Position place) { send(ToolEvent::Kind::Hover, place); }
    ToolAnswer click(model::Position place) {
        ++m_gesture;
        send(ToolEvent::Kind::Hover, place);
        send(ToolEvent::Kind::Press, place);
        return send(ToolEvent::Kind::Click, place);
    }
    void drag(const std::vector<model::Position>& way) {
        grab(way);
        send(ToolEvent::Kind::Drop, way.back());
    }
    /// A drag that is not over yet.
    void grab(const std::vector<model::Position>& way) {
        ++m_gesture;
        send(ToolEvent::Kind::Hover, way.front());
        send(ToolEvent::Kind::Press, way.front());
        for (std::size_t i = 1; i < way.size(); ++i)
            send(ToolEvent::Kind::Drag, way[i]);
    }
    /// As Alt and an arrow key; several in a row are one step.
    void nudge(double east, double north) {
        ToolEvent event;
        event.kind = ToolEvent::Kind::Nudge;
        event.east = Length::metres(east);
        event.north = Length::metres(north);
        event.gesture = m_gesture;
        take(m_tool.handle(event, scene()));
    }
    void beginsNudging() { ++m_gesture; }
    ToolAnswer type(const std::string& text) { return send(ToolEvent::Kind::Typed, {}, text); }
    ToolAnswer finish() { return send(ToolEvent::Kind::Finish); }
    void escape() { send(ToolEvent::Kind::Escape); }
    void undo() {
        set = model::applied(set, model::inverse(steps.back()));
        steps.pop_back();
    }
    ToolPreview preview() { return m_tool.preview(scene()); }
    QString copied() { return m_tool.copiedText(scene()); }
    QString hint() { return m_tool.hint(scene()); }

    bool constrain = false;
    bool adds = false;
    bool parallel = false;
    bool sharesCorners = false;
    std::optional<model::Position> snapsTo; ///< what every event is snapped to
    std::function<bool(const geometry::Box&)> sees;

private:
    Tool& m_tool;
    session::OutlineCache m_outlines;
    std::uint64_t m_gesture = 0;
};

/// So many metres east and north of a place in rolling farmland.
inline model::Position metresFrom(double east, double north) {
    constexpr model::Position middle{-8.733936, 46.208844};
    const auto along = geodesy::direct(middle, Angle::degrees(east < 0 ? 270 : 90), Length::metres(std::abs(east)));
    return geodesy::direct(along, Angle::degrees(north < 0 ? 180 : 0), Length::metres(std::abs(north)));
}

inline model::Fence drawnFence(const std::string& name, model::LineString corners,
                               model::FenceKind kind = model::FenceKind::KeepOut) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name = name;
    fence.kind = kind;
    fence.shape = model::DrawnPolygon{{{std::move(corners)}, {}}};
    return fence;
}

inline const model::LineString& cornersOf(const model::Fence& fence) {
    return std::get<model::DrawnPolygon>(fence.shape).polygon.shell.corners;
}

} // namespace fencewright::desktop
