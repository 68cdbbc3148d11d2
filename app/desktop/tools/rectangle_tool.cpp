#include "desktop/tools/rectangle_tool.h"

#include "desktop/tools/leg.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/geodesic.h"
#include "geodesy/local_frame.h"

#include <cmath>

namespace fencewright::desktop {

using geodesy::PlanePoint;

/// Where two lengths are multiplied in a text, and how many bytes the sign takes.
struct RectangleTool::TimesSign {
    std::size_t at = 0;
    std::size_t size = 0;
};

std::optional<RectangleTool::TimesSign> RectangleTool::timesSign(const std::string& text) {
    for (const std::string_view sign : {"x", "X", "×", "*"})
        if (const auto at = text.find(sign); at != std::string::npos)
            return TimesSign{at, sign.size()};
    return std::nullopt;
}

ToolAnswer RectangleTool::handle(const ToolEvent& event, const ToolScene& scene) {
    if (event.kind == ToolEvent::Kind::OtherKind) {
        m_kind = otherKind(m_kind);
        return {};
    }
    if (m_deepening)
        return deepen(event, scene);
    if (event.kind == ToolEvent::Kind::Typed && m_line.places().size() == 1)
        if (const auto cross = timesSign(event.text))
            return takeSides(event, *cross, scene);
    if (m_line.handle(event, scene) == LineEntry::Outcome::Leave)
        return {.edit = {}, .select = {}, .leave = true};
    if (m_line.places().size() == 2)
        m_deepening = Deepening{m_line.places()[0], m_line.places()[1], m_line.places()[1], {}};
    return {};
}

/// "120 m x 60 m", "120 x 60 45": length, depth, and where it is told the bearing of the length; the depth lies to its
/// right.
ToolAnswer RectangleTool::takeSides(const ToolEvent& event, const TimesSign& sign, const ToolScene& scene) {
    const StatedLength length = units::parseLength(event.text.substr(0, sign.at), scene.units);
    const Leg depth = parseLeg(event.text.substr(sign.at + sign.size), scene.units);
    if (!(length.length > Length{}) || !(depth.length.length > Length{}))
        throw Fault{phrase("core", "A side of the rectangle is zero."), "",
                    phrase("core", "Type both sides, such as \"120 m x 60 m 45\".")};
    const model::Position from = m_line.places().front();
    const model::Position to = endOf({length, depth.bearing}, from, m_line.next());
    const Angle across = geodesy::inverse(from, to).azimuthAtStart + Angle::degrees(90.0);
    m_deepening = Deepening{from, to, geodesy::direct(from, across, depth.length.length), depth.length.length};
    return finish(scene);
}

ToolAnswer RectangleTool::deepen(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    switch (event.kind) {
    case Kind::Hover:
        m_deepening->pointer = continued(event.place, m_deepening->to);
        break;
    case Kind::Click:
        m_deepening->pointer = continued(event.place, m_deepening->to);
        m_deepening->typed.reset();
        return finish(scene);
    case Kind::Finish:
        return finish(scene);
    case Kind::Typing:
        try {
            m_deepening->typed = units::parseLength(event.text, scene.units).length;
        } catch (const Fault&) {
            m_deepening->typed.reset(); // half a number is no fault yet
        }
        break;
    case Kind::Typed:
        m_deepening->typed = units::parseLength(event.text, scene.units).length;
        return finish(scene);
    case Kind::StepBack: {
        const model::Position from = m_deepening->from;
        m_deepening.reset();
        m_line.clear();
        ToolEvent again;
        again.kind = Kind::Click;
        again.place = again.pointer = from;
        return handle(again, scene);
    }
    case Kind::Escape:
        m_deepening.reset();
        m_line.clear();
        break;
    default:
        break;
    }
    return {};
}

/// From the side to the pointer, at a right angle; negative to the right of the side.
Length RectangleTool::depthOf(const Deepening& deepening) {
    const geodesy::LocalFrame frame{deepening.from};
    const PlanePoint to = frame.toPlane(deepening.to), pointer = frame.toPlane(deepening.pointer);
    const double along = std::hypot(to.x, to.y);
    const double depth = along > 0.0 ? (to.x * pointer.y - to.y * pointer.x) / along : 0.0;
    return deepening.typed ? (depth < 0.0 ? -*deepening.typed : *deepening.typed) : Length::metres(depth);
}

model::LineString RectangleTool::cornersOf(const Deepening& deepening) {
    const geodesy::LocalFrame frame{deepening.from};
    const PlanePoint to = frame.toPlane(deepening.to);
    const double along = std::hypot(to.x, to.y), depth = depthOf(deepening).inMetres();
    const PlanePoint across{-to.y / along * depth, to.x / along * depth};
    return {deepening.from, deepening.to, frame.toEarth(PlanePoint{to.x + across.x, to.y + across.y}),
            frame.toEarth(across)};
}

ToolAnswer RectangleTool::finish(const ToolScene& scene) {
    if (depthOf(*m_deepening) == Length{}) {
        m_deepening->typed.reset();
        throw Fault{phrase("core", "The rectangle has no depth."), "",
                    phrase("core", "Click beside its first side, or type how deep it is, such as \"60 m\".")};
    }
    const model::LineString ring = conformedRing(cornersOf(*m_deepening), scene.boundariesAt);
    ToolAnswer answer = addedFence(scene, m_kind, model::DrawnPolygon{{{onFirstTurn(ring)}, {}}});
    m_deepening.reset();
    m_line.clear();
    return answer;
}

ToolPreview RectangleTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    if (!m_deepening) {
        m_line.showIn(preview, scene.units);
        return preview;
    }
    preview.kind = m_kind;
    const Length depth = depthOf(*m_deepening);
    if (depth != Length{}) {
        preview.draft.emplace();
        preview.draft->kind = m_kind;
        preview.draft->shape = model::DrawnPolygon{{{cornersOf(*m_deepening)}, {}}};
    }
    preview.handles = {m_deepening->from, m_deepening->to};
    const Length side = geodesy::inverse(m_deepening->from, m_deepening->to).length;
    const auto words = [&](Length length) { return QString::fromStdString(units::formatLength(length, scene.units)); };
    preview.readout = tr("%1 long, %2 deep").arg(words(side), words(Length::metres(std::abs(depth.inMetres()))));
    if (preview.draft)
        preview.readout +=
            '\n' +
            QString::fromStdString(units::formatArea(
                geodesy::measure(std::get<model::DrawnPolygon>(preview.draft->shape).polygon).area, scene.units));
    return preview;
}

QString RectangleTool::hint(const ToolScene& scene) const {
    const QString kind = kindWords(m_kind), other = otherKindWords(m_kind, scene.keys);
    if (m_deepening)
        return tr("%1: click how far the rectangle reaches, or type its depth. %2").arg(kind, other);
    if (m_line.empty())
        return tr("%1: click one end of the rectangle's first side, or type its place. %2").arg(kind, other);
    return tr("%1: click the other end of the side, or type length and bearing, or both sides: 120 x 60 45.").arg(kind);
}

QString RectangleTool::typedPrompt() const { return m_deepening ? tr("Depth, such as 60 m") : m_line.typedPrompt(); }

} // namespace fencewright::desktop
