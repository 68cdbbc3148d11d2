#include "desktop/tools/circle_tool.h"

#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/coordinate_notation.h"
#include "geodesy/geodesic.h"

namespace fencewright::desktop {

ToolAnswer CircleTool::handle(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    auto* sizing = std::get_if<Sizing>(&m_state);
    switch (event.kind) {
    case Kind::Hover:
        if (sizing)
            sizing->rim = event.place;
        break;
    case Kind::Click:
        if (!sizing) {
            m_state = Sizing{onFirstTurn(event.place), event.place, {}};
            break;
        }
        sizing->rim = event.place;
        sizing->typed.reset();
        return finish(sizing->centre, radiusOf(*sizing), scene);
    case Kind::Finish:
        if (sizing)
            return finish(sizing->centre, radiusOf(*sizing), scene);
        break;
    case Kind::Typing:
        if (sizing) {
            try {
                sizing->typed = units::parseLength(event.text, scene.units);
            } catch (const Fault&) {
                sizing->typed.reset(); // half a number is no fault yet
            }
        }
        break;
    case Kind::Typed:
        if (!sizing) {
            const model::Position centre = geodesy::parsePosition(event.text);
            m_state = Sizing{centre, centre, {}};
            break;
        }
        return finish(sizing->centre, units::parseLength(event.text, scene.units), scene);
    case Kind::OtherKind:
        m_kind = m_kind == model::FenceKind::KeepOut ? model::FenceKind::KeepIn : model::FenceKind::KeepOut;
        break;
    case Kind::StepBack:
        m_state = Idle{};
        break;
    case Kind::Escape:
        if (!sizing)
            return {.edit = {}, .select = {}, .leave = true};
        m_state = Idle{};
        break;
    default:
        break;
    }
    return {};
}

StatedLength CircleTool::radiusOf(const Sizing& sizing) const {
    return sizing.typed ? *sizing.typed : StatedLength{geodesy::inverse(sizing.centre, sizing.rim).length, {}};
}

ToolAnswer CircleTool::finish(const model::Position& centre, StatedLength radius, const ToolScene& scene) {
    if (!(radius.length > Length{}))
        throw Fault{"The radius of the circle is zero.", "",
                    "Click a place on its rim, or type a radius such as \"150 ft\"."};
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.kind = m_kind;
    fence.name = defaultFenceName(scene.set, m_kind);
    fence.shape = model::Circle{centre, std::move(radius)};
    m_state = Idle{};
    const model::FenceId id = fence.id;
    return {.edit = model::addFence(scene.set, std::move(fence)), .select = Selection{id}};
}

ToolPreview CircleTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    preview.kind = m_kind;
    const auto* sizing = std::get_if<Sizing>(&m_state);
    if (!sizing)
        return preview;
    const StatedLength radius = radiusOf(*sizing);
    if (radius.length > Length{}) {
        preview.draft.emplace();
        preview.draft->kind = m_kind;
        preview.draft->shape = model::Circle{sizing->centre, radius};
    }
    preview.handles = {sizing->centre};
    preview.readout = tr("radius %1").arg(QString::fromStdString(units::formatLength(radius.length, scene.units)));
    return preview;
}

QString CircleTool::hint(const ToolScene&) const {
    const QString kind = m_kind == model::FenceKind::KeepIn ? tr("Keep-in") : tr("Keep-out");
    const QString other =
        m_kind == model::FenceKind::KeepIn ? tr("K makes it a keep-out.") : tr("K makes it a keep-in.");
    return (std::holds_alternative<Sizing>(m_state)
                ? tr("%1: click a place on the rim, or type the radius. %2")
                : tr("%1: click the centre of the circle, or type its coordinates. %2"))
        .arg(kind, other);
}

QString CircleTool::typedPrompt() const {
    return std::holds_alternative<Sizing>(m_state) ? tr("Radius, such as 150 ft") : tr("Coordinates of the centre");
}

} // namespace fencewright::desktop
