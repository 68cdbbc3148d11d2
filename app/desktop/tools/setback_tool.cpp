#include "desktop/tools/setback_tool.h"

#include "desktop/canvas/hit.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/coordinate_notation.h"

namespace fencewright::desktop {
namespace {

const model::Site* siteOf(const model::SiteId& id, const std::optional<model::Site>& placed, const ToolScene& scene) {
    return placed ? &*placed : scene.set.sites.find(id);
}

model::Site newSite(const model::Position& place, const ToolScene& scene) {
    model::Site site;
    site.id = model::freshId<model::Site>();
    site.name = defaultSiteName(scene.set);
    site.geometry = onFirstTurn(place);
    return site;
}

} // namespace

ToolAnswer SetbackTool::handle(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    auto* chosen = std::get_if<Chosen>(&m_state);
    if (chosen && !siteOf(chosen->site, chosen->placed, scene)) {
        m_state = Idle{};
        chosen = nullptr;
    }
    switch (event.kind) {
    case Kind::Click:
        choose(event, scene);
        break;
    case Kind::Typing:
        if (chosen) {
            try {
                chosen->typed = units::parseLength(event.text, scene.units);
            } catch (const Fault&) {
                chosen->typed.reset(); // half a number is no fault yet
            }
        }
        break;
    case Kind::Typed: {
        if (!chosen) {
            const model::Site site = newSite(geodesy::parsePosition(event.text), scene);
            m_state = Chosen{site.id, site, {}};
            break;
        }
        return finish(*chosen, units::parseLength(event.text, scene.units), scene);
    }
    case Kind::Finish:
        if (!chosen)
            break;
        if (chosen->typed)
            return finish(*chosen, StatedLength{*chosen->typed}, scene);
        if (chosen->placed) {
            // Enter without a distance: the site alone.
            const Selection site{chosen->site};
            model::Edit edit = model::addSite(scene.set, *chosen->placed);
            m_state = Idle{};
            return {.edit = std::move(edit), .select = site};
        }
        throw Fault{phrase("core", "The setback has no distance yet."), "",
                    phrase("core", "Type it, such as \"1/4 mi\" or \"402.336 m\", then press Enter.")};
    case Kind::StepBack:
        if (chosen && chosen->typed)
            chosen->typed.reset();
        else
            m_state = Idle{};
        break;
    case Kind::Escape:
        if (!chosen)
            return {.edit = {}, .select = {}, .leave = true};
        m_state = Idle{};
        break;
    default:
        break;
    }
    return {};
}

void SetbackTool::choose(const ToolEvent& event, const ToolScene& scene) {
    for (std::size_t i = scene.set.sites.size(); i-- > 0;)
        if (isHit(scene.set.sites[i].geometry, event.pointer, event.tolerance)) {
            m_state = Chosen{scene.set.sites[i].id, {}, {}};
            return;
        }
    const model::Site site = newSite(event.place, scene);
    m_state = Chosen{site.id, site, {}};
}

model::Fence SetbackTool::fenceOf(const Chosen& chosen, const StatedLength& distance, const ToolScene& scene) {
    model::Fence fence;
    fence.kind = model::FenceKind::KeepOut;
    fence.name = siteOf(chosen.site, chosen.placed, scene)->name;
    fence.shape = model::Setback{chosen.site, distance};
    return fence;
}

ToolAnswer SetbackTool::finish(const Chosen& chosen, const StatedLength& distance, const ToolScene& scene) {
    if (!(distance.length > Length{}))
        throw Fault{phrase("core", "A setback of zero protects nothing."), "",
                    phrase("core", "Type a distance such as \"1/4 mi\" or \"402.336 m\".")};
    model::Fence fence = fenceOf(chosen, distance, scene);
    fence.id = model::freshId<model::Fence>();
    const model::FenceId id = fence.id;
    model::Edit edit;
    if (chosen.placed) {
        const std::string title = tr("Add setback of %1").arg(QString::fromStdString(fence.name)).toStdString();
        edit = model::inSequence(title, scene.set, model::addSite(scene.set, *chosen.placed),
                                 [&](const model::FenceSet& set) { return model::addFence(set, std::move(fence)); });
    } else {
        edit = model::addFence(scene.set, std::move(fence));
    }
    m_state = Idle{};
    return {.edit = std::move(edit), .select = Selection{id}};
}

ToolPreview SetbackTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    const auto* chosen = std::get_if<Chosen>(&m_state);
    if (!chosen || !siteOf(chosen->site, chosen->placed, scene))
        return preview;
    preview.kind = model::FenceKind::KeepOut;
    if (chosen->placed)
        preview.draftSites.push_back(*chosen->placed);
    // Which one is meant, whatever its shape: there may be several under the pointer.
    const auto& geometry = siteOf(chosen->site, chosen->placed, scene)->geometry;
    if (const auto* place = std::get_if<model::Position>(&geometry))
        preview.handles.push_back(*place);
    else if (const auto* line = std::get_if<model::LineString>(&geometry))
        preview.handles = *line;
    else
        preview.handles = std::get<model::Polygon>(geometry).shell.corners;
    if (chosen->typed && chosen->typed->length > Length{})
        preview.draft = fenceOf(*chosen, *chosen->typed, scene);
    return preview;
}

QString SetbackTool::hint(const ToolScene& scene) const {
    const auto* chosen = std::get_if<Chosen>(&m_state);
    const model::Site* site = chosen ? siteOf(chosen->site, chosen->placed, scene) : nullptr;
    if (!site)
        return tr("Click the site to protect, or empty ground to place a new one.");
    const QString name = QString::fromStdString(site->name);
    return chosen->placed
               ? tr("%1: type the setback, such as 1/4 mi, then Enter. Enter alone places the site.").arg(name)
               : tr("%1: type the setback, such as 1/4 mi, then Enter.").arg(name);
}

QString SetbackTool::typedPrompt() const {
    return std::holds_alternative<Chosen>(m_state) ? tr("Distance, such as 1/4 mi") : tr("Coordinates of a new site");
}

} // namespace fencewright::desktop
