#include "desktop/tools/parcel_tool.h"

#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/geodesic.h"

#include <algorithm>

namespace fencewright::desktop {
namespace {

model::FenceKind otherThan(model::FenceKind kind) {
    return kind == model::FenceKind::KeepIn ? model::FenceKind::KeepOut : model::FenceKind::KeepIn;
}

QString nameOf(const model::Parcel& parcel) {
    return parcel.number.empty()
               ? QCoreApplication::translate("ParcelTool", "Parcel without number")
               : QCoreApplication::translate("ParcelTool", "Parcel %1").arg(QString::fromStdString(parcel.number));
}

} // namespace

ToolAnswer ParcelTool::handle(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    switch (event.kind) {
    case Kind::Click:
        toggle(event.pointer, scene);
        break;
    case Kind::OtherKind:
        m_kind = otherThan(m_kind);
        break;
    case Kind::StepBack:
        if (!m_picked.empty())
            m_picked.pop_back();
        break;
    case Kind::Escape:
        if (m_picked.empty())
            return {.edit = {}, .select = {}, .leave = true};
        m_picked.clear();
        break;
    case Kind::Finish: {
        if (m_picked.empty())
            throw Fault{phrase("core", "No parcel is picked."), "",
                        phrase("core", "Click the parcels first, then press Enter.")};
        model::Fence fence = fenceOf(event.constrain ? otherThan(m_kind) : m_kind, scene);
        fence.id = model::freshId<model::Fence>();
        const model::FenceId id = fence.id;
        model::Edit edit = model::addFence(scene.set, std::move(fence));
        m_picked.clear();
        return {.edit = std::move(edit), .select = Selection{id}};
    }
    default:
        break;
    }
    return {};
}

void ParcelTool::toggle(const model::Position& place, const ToolScene& scene) {
    const std::vector<PickableParcel> under = scene.parcelsAt(place);
    if (under.empty())
        throw Fault{phrase("core", "There is no parcel here."), "",
                    phrase("core", "Add a layer with parcels under Sources, or click inside a parcel.")};
    const PickableParcel& top = under.front();
    const auto picked =
        std::find_if(m_picked.begin(), m_picked.end(), [&](const auto& one) { return one.key == top.key; });
    if (picked != m_picked.end())
        m_picked.erase(picked);
    else
        m_picked.push_back(top);
}

model::Fence ParcelTool::fenceOf(model::FenceKind kind, const ToolScene& scene) const {
    model::Fence fence;
    fence.kind = kind;
    fence.name = m_picked.size() == 1 && !m_picked.front().parcel.number.empty()
                     ? nameOf(m_picked.front().parcel).toStdString()
                     : defaultFenceName(scene.set, kind);
    model::ParcelUnion shape;
    for (const PickableParcel& one : m_picked)
        shape.parcels.push_back(one.parcel);
    // Without saying so, nothing is closed: what a closing adds is part of what is approved.
    shape.closing = {Length{}, "0 m"};
    fence.shape = std::move(shape);
    return fence;
}

ToolPreview ParcelTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    preview.kind = m_kind;
    if (m_picked.empty())
        return preview;
    preview.draft = fenceOf(m_kind, scene);
    Area area;
    for (const PickableParcel& one : m_picked)
        area = area + geodesy::measure(one.parcel.surface).area;
    preview.readout =
        tr("%1 parcels · %2").arg(m_picked.size()).arg(QString::fromStdString(units::formatArea(area, scene.units)));
    if (m_picked.size() == 1)
        preview.readout =
            nameOf(m_picked.front().parcel) + " · " + QString::fromStdString(units::formatArea(area, scene.units));
    return preview;
}

QString ParcelTool::hint(const ToolScene&) const {
    if (m_picked.empty())
        return tr("Click the parcels that belong together.");
    return m_kind == model::FenceKind::KeepIn
               ? tr("Click parcels in or out. Enter makes a keep-in, Shift+Enter a keep-out.")
               : tr("Click parcels in or out. Enter makes a keep-out, Shift+Enter a keep-in.");
}

} // namespace fencewright::desktop
