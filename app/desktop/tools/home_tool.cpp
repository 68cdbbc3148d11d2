#include "desktop/tools/home_tool.h"

#include "desktop/tools/new_thing.h"
#include "geodesy/coordinate_notation.h"

namespace fencewright::desktop {

model::HomeKind HomeTool::kind(const ToolScene& scene) const {
    if (m_chosen)
        return *m_chosen;
    bool any = false;
    for (const model::Home& home : scene.set.homes)
        any = any || home.kind == model::HomeKind::Home;
    return any ? model::HomeKind::Alternate : model::HomeKind::Home;
}

ToolAnswer HomeTool::handle(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    switch (event.kind) {
    case Kind::Hover:
        m_pointer = event.place;
        return {};
    case Kind::Click:
        return place(event.place, scene);
    case Kind::Typed:
        return place(geodesy::parsePosition(event.text), scene);
    case Kind::OtherKind:
        m_chosen = kind(scene) == model::HomeKind::Home ? model::HomeKind::Alternate : model::HomeKind::Home;
        return {};
    case Kind::Escape:
        return {.edit = {}, .select = {}, .leave = true};
    default:
        return {};
    }
}

ToolAnswer HomeTool::place(const model::Position& place, const ToolScene& scene) {
    model::Home home;
    home.id = model::freshId<model::Home>();
    home.kind = kind(scene);
    home.name = defaultHomeName(scene.set, home.kind);
    home.place = onFirstTurn(place);
    m_chosen.reset();
    const model::HomeId id = home.id;
    return {.edit = model::addHome(scene.set, std::move(home)), .select = Selection{id}};
}

ToolPreview HomeTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    if (m_pointer) {
        preview.home.emplace();
        preview.home->kind = kind(scene);
        preview.home->place = *m_pointer;
    }
    return preview;
}

QString HomeTool::hint(const ToolScene& scene) const {
    const bool isHome = kind(scene) == model::HomeKind::Home;
    QString words = isHome ? tr("Click where the aircraft starts and returns, or type the coordinates.")
                           : tr("Click where else it may land, or type the coordinates.");
    if (!scene.keys.otherKind.isEmpty())
        words += ' ' + (isHome ? tr("%1: an alternate instead.") : tr("%1: a home instead.")).arg(scene.keys.otherKind);
    return words;
}

QString HomeTool::typedPrompt() const { return tr("Coordinates"); }

} // namespace fencewright::desktop
