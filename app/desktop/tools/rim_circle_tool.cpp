#include "desktop/tools/rim_circle_tool.h"

#include "desktop/tools/leg.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/geodesic.h"
#include "geodesy/local_frame.h"

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

using geodesy::PlanePoint;

constexpr double kLargestRadiusMetres = 200'000.0;

/// The circle that holds all three on its rim, as far as geodesics and the frame agree; none where they lie on a line.
std::optional<model::Circle> circleThrough(const model::LineString& rim) {
    // Twice: the second time around the centre, where the frame is truest.
    model::Position origin = rim.front();
    for (int round = 0; round < 3; ++round) {
        const geodesy::LocalFrame frame{origin};
        const std::vector<PlanePoint> at = frame.toPlane(rim);
        const PlanePoint b{at[1].x - at[0].x, at[1].y - at[0].y}, c{at[2].x - at[0].x, at[2].y - at[0].y};
        const double d = 2.0 * (b.x * c.y - b.y * c.x);
        const double b2 = b.x * b.x + b.y * b.y, c2 = c.x * c.x + c.y * c.y;
        const PlanePoint centre{(c.y * b2 - b.y * c2) / d, (b.x * c2 - c.x * b2) / d};
        if (!(std::hypot(centre.x, centre.y) < kLargestRadiusMetres))
            return std::nullopt;
        origin = frame.toEarth(PlanePoint{at[0].x + centre.x, at[0].y + centre.y});
    }
    Length radius;
    for (const model::Position& place : rim)
        radius = std::max(radius, geodesy::inverse(origin, place).length);
    return model::Circle{onFirstTurn(origin), {radius, {}}};
}

} // namespace

ToolAnswer RimCircleTool::handle(const ToolEvent& event, const ToolScene& scene) {
    if (event.kind == ToolEvent::Kind::OtherKind) {
        m_kind = otherKind(m_kind);
        return {};
    }
    const LineEntry before = m_line;
    if (m_line.handle(event, scene) == LineEntry::Outcome::Leave)
        return {.edit = {}, .select = {}, .leave = true};
    if (m_line.places().size() < 3)
        return {};
    const auto circle = circleThrough(m_line.places());
    if (!circle) {
        m_line = before;
        throw Fault{phrase("core", "The three places lie on one line: no circle goes through them."), "",
                    phrase("core", "Click a place beside that line.")};
    }
    m_line.clear();
    return addedFence(scene, m_kind, *circle);
}

ToolPreview RimCircleTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    if (m_line.places().size() < 2) {
        m_line.showIn(preview, scene.units);
        return preview;
    }
    preview.kind = m_kind;
    preview.handles = m_line.places();
    model::LineString rim = m_line.places();
    rim.push_back(m_line.next());
    if (const auto circle = circleThrough(rim)) {
        preview.draft.emplace();
        preview.draft->kind = m_kind;
        preview.draft->shape = *circle;
        preview.readout = radiusWords(circle->radius.length, scene.units);
    }
    return preview;
}

QString RimCircleTool::hint(const ToolScene& scene) const {
    const QString kind = kindWords(m_kind), other = otherKindWords(m_kind, scene.keys);
    if (m_line.empty())
        return tr("%1: click the first of three places on the circle's rim, or type it. %2").arg(kind, other);
    return m_line.places().size() == 1 ? tr("%1: click the second place on the rim, or type it.").arg(kind)
                                       : tr("%1: click the third place on the rim, or type it.").arg(kind);
}

} // namespace fencewright::desktop
