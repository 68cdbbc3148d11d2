#include "desktop/tools/polygon_tool.h"

#include "desktop/canvas/near_plane.h"
#include "desktop/tools/leg.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/coordinate_notation.h"

namespace fencewright::desktop {
namespace {

constexpr std::size_t kFewestCorners = 3;

bool isNear(const model::Position& a, const model::Position& b, Length tolerance) {
    return distanceBetween(NearPlane{a}.toPlane(b), {}) <= tolerance.inMetres();
}

} // namespace

ToolAnswer PolygonTool::handle(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    auto* drawing = std::get_if<Drawing>(&m_state);
    const auto placeOf = [&](const ToolEvent& one) {
        return drawing && one.constrain ? onWholeBearing(drawing->corners.back(), one.place) : one.place;
    };
    switch (event.kind) {
    case Kind::Hover:
        if (drawing)
            drawing->pointer = continued(placeOf(event), drawing->corners.back());
        break;
    case Kind::Click:
        if (drawing && drawing->corners.size() >= kFewestCorners &&
            isNear(drawing->corners.front(), event.pointer, event.tolerance))
            return finish(*drawing, scene);
        addCorner(placeOf(event));
        break;
    case Kind::DoubleClick:
        if (drawing && drawing->corners.size() >= kFewestCorners)
            return finish(*drawing, scene);
        break;
    case Kind::Finish:
        if (drawing)
            return finish(*drawing, scene);
        break;
    case Kind::Typing:
        if (drawing) {
            try {
                drawing->typed = continued(placeFrom(event.text, *drawing, scene), drawing->corners.back());
            } catch (const Fault&) {
                drawing->typed.reset(); // half a number is no fault yet
            }
        }
        break;
    case Kind::Typed:
        enter(event.text, scene);
        break;
    case Kind::StepBack:
        if (drawing && drawing->corners.size() > 1)
            drawing->corners.pop_back();
        else
            m_state = Idle{};
        break;
    case Kind::Escape:
        if (!drawing)
            return {.edit = {}, .select = {}, .leave = true};
        m_state = Idle{};
        break;
    default:
        break;
    }
    return {};
}

void PolygonTool::addCorner(const model::Position& place) {
    auto* drawing = std::get_if<Drawing>(&m_state);
    if (!drawing) {
        m_state = Drawing{{place}, place, {}};
        return;
    }
    const model::Position corner = continued(place, drawing->corners.back());
    if (corner != drawing->corners.back())
        drawing->corners.push_back(corner);
    drawing->pointer = corner;
    drawing->typed.reset();
}

void PolygonTool::enter(const std::string& text, const ToolScene& scene) {
    const auto* drawing = std::get_if<Drawing>(&m_state);
    addCorner(drawing ? placeFrom(text, *drawing, scene) : geodesy::parsePosition(text));
}

model::Position PolygonTool::placeFrom(const std::string& text, const Drawing& drawing, const ToolScene& scene) {
    if (const auto place = geodesy::tryParsePosition(text); place && text.find_first_of("NSEW") != std::string::npos)
        return *place;
    const Leg leg = parseLeg(text, scene.units);
    if (!(leg.length.length > Length{}))
        throw Fault{"The distance to the next corner is zero.", "",
                    "Type a distance and a bearing, such as \"120 m 45\"."};
    return endOf(leg, drawing.corners.back(), drawing.pointer);
}

ToolAnswer PolygonTool::finish(const Drawing& drawing, const ToolScene& scene) {
    if (drawing.corners.size() < kFewestCorners)
        throw Fault{"A fence needs at least three corners.", "", "Click or type the next corner, or press Escape."};
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.kind = m_kind;
    fence.name = defaultFenceName(scene.set, m_kind);
    fence.shape = model::DrawnPolygon{{{onFirstTurn(drawing.corners)}, {}}};
    m_state = Idle{};
    const model::FenceId id = fence.id;
    return {.edit = model::addFence(scene.set, std::move(fence)), .select = Selection{id}};
}

ToolPreview PolygonTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    preview.kind = m_kind;
    const auto* drawing = std::get_if<Drawing>(&m_state);
    if (!drawing)
        return preview;
    preview.line = drawing->corners;
    const model::Position next = drawing->typed.value_or(drawing->pointer);
    preview.line.push_back(next);
    preview.follows = true;
    preview.closed = drawing->corners.size() >= 2;
    preview.handles = drawing->corners;
    preview.readout = lengthAndBearing(drawing->corners.back(), next, scene.units);
    return preview;
}

QString PolygonTool::hint(const ToolScene&) const {
    const QString kind = m_kind == model::FenceKind::KeepIn ? tr("Keep-in") : tr("Keep-out");
    const auto* drawing = std::get_if<Drawing>(&m_state);
    if (!drawing)
        return tr("%1: click the first corner, or type its place.").arg(kind);
    if (drawing->corners.size() < kFewestCorners)
        return tr("%1: click the next corner, or type distance and bearing. Esc drops it.").arg(kind);
    return tr("%1: click the next corner, or type distance and bearing. Enter closes.").arg(kind);
}

QString PolygonTool::typedPrompt() const {
    return std::holds_alternative<Drawing>(m_state) ? tr("Distance and bearing, such as 120 m 45")
                                                    : tr("Coordinates of the first corner");
}

} // namespace fencewright::desktop
