#include "desktop/tools/freehand_tool.h"

#include "desktop/canvas/near_plane.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/geodesic.h"
#include "geometry/simplify.h"
#include "geometry/validity.h"

namespace fencewright::desktop {
namespace {

constexpr std::size_t kFewestCorners = 3;
constexpr std::size_t kMostPlaces = 50'000;
constexpr double kStepTolerances = 0.25;     // of the hit tolerance, which is six pixels
constexpr double kSimplifyTolerances = 0.35; // two pixels

} // namespace

ToolAnswer FreehandTool::handle(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    switch (event.kind) {
    case Kind::Press:
        m_line = {event.pointer};
        m_drawing = true;
        break;
    case Kind::Drag:
        if (m_drawing && m_line.size() < kMostPlaces) {
            const model::Position place = continued(event.pointer, m_line.back());
            if (distanceBetween(NearPlane{m_line.back()}.toPlane(place), {}) >=
                kStepTolerances * event.tolerance.inMetres())
                m_line.push_back(place);
        }
        break;
    case Kind::Drop:
        if (m_drawing)
            return finish(event.tolerance, scene);
        break;
    case Kind::Click:
        m_drawing = false;
        m_line.clear();
        throw Fault{phrase("core", "A click alone draws nothing."), "",
                    phrase("core", "Hold the button down and draw around the area in one sweep.")};
    case Kind::OtherKind:
        m_kind = otherKind(m_kind);
        break;
    case Kind::StepBack:
    case Kind::Escape:
        if (!m_drawing && event.kind == Kind::Escape)
            return {.edit = {}, .select = {}, .leave = true};
        m_drawing = false;
        m_line.clear();
        break;
    default:
        break;
    }
    return {};
}

ToolAnswer FreehandTool::finish(Length tolerance, const ToolScene& scene) {
    model::LineString line;
    line.swap(m_line);
    m_drawing = false;
    if (line.size() < kFewestCorners)
        throw Fault{phrase("core", "The sweep was too short to enclose anything."), "",
                    phrase("core", "Draw around the area in one sweep.")};
    const auto side = m_kind == model::FenceKind::KeepOut ? geometry::Side::Grow : geometry::Side::Shrink;
    model::MultiPolygon surface{{{{onFirstTurn(line)}, {}}}};
    // A hand crosses its own line where it closes: what that could mean is decided to the safe side.
    if (!geometry::isValid(surface.parts.front()))
        surface = geometry::repaired(surface.parts.front(), side).surface;
    surface = geometry::simplified(surface, tolerance * kSimplifyTolerances, side).surface;
    if (surface.parts.size() != 1)
        throw Fault{surface.parts.empty() ? phrase("core", "The sweep encloses nothing.")
                                          : phrase("core", "The sweep makes several areas."),
                    "", phrase("core", "Draw around one area, without crossing the line.")};
    return addedFence(scene, m_kind, model::DrawnPolygon{surface.parts.front()});
}

ToolPreview FreehandTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    preview.kind = m_kind;
    preview.line = m_line;
    preview.closed = m_line.size() >= kFewestCorners;
    if (m_line.size() > 1)
        preview.readout = QString::fromStdString(units::formatLength(geodesy::lengthOf(m_line), scene.units));
    return preview;
}

QString FreehandTool::hint(const ToolScene& scene) const {
    return m_drawing ? tr("%1: draw around the area; letting go closes it. Esc drops it.").arg(kindWords(m_kind))
                     : tr("%1: hold the button down and draw around the area. %2")
                           .arg(kindWords(m_kind), otherKindWords(m_kind, scene.keys));
}

} // namespace fencewright::desktop
