#include "desktop/tools/circle_tool.h"

#include "desktop/tools/leg.h"
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
        m_kind = otherKind(m_kind);
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
        throw Fault{phrase("core", "The radius of the circle is zero."), "",
                    phrase("core", "Click a place on its rim, or type a radius such as \"150 ft\".")};
    m_state = Idle{};
    return addedFence(scene, m_kind, model::Circle{centre, std::move(radius)});
}

LineSoFar CircleTool::lineSoFar(const model::Position&, bool) const {
    const auto* sizing = std::get_if<Sizing>(&m_state);
    return sizing ? LineSoFar{{sizing->centre}, {}} : LineSoFar{};
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
    preview.readout = radiusWords(radius.length, scene.units);
    return preview;
}

QString CircleTool::hint(const ToolScene& scene) const {
    const QString kind = kindWords(m_kind), other = otherKindWords(m_kind, scene.keys);
    return (std::holds_alternative<Sizing>(m_state)
                ? tr("%1: click a place on the rim, or type the radius. %2")
                : tr("%1: click the centre of the circle, or type its coordinates. %2"))
        .arg(kind, other);
}

QString CircleTool::typedPrompt() const {
    return std::holds_alternative<Sizing>(m_state) ? tr("Radius, such as 150 ft") : tr("Coordinates of the centre");
}

} // namespace fencewright::desktop
