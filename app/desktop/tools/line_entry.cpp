#include "desktop/tools/line_entry.h"

#include "desktop/canvas/near_plane.h"
#include "desktop/tools/leg.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/coordinate_notation.h"

#include <QCoreApplication>

namespace fencewright::desktop {

LineEntry::Outcome LineEntry::handle(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    const bool begun = !m_places.empty();
    const bool canClose = m_closing == Closing::Ring && m_places.size() >= kFewestOfARing;
    const auto placeOf = [&] {
        return begun && event.constrain ? onWholeBearing(m_places.back(), event.place) : event.place;
    };
    switch (event.kind) {
    case Kind::Hover:
        m_pointer = begun ? continued(placeOf(), m_places.back()) : placeOf();
        return Outcome::Going;
    case Kind::Click:
        if (canClose &&
            distanceBetween(NearPlane{m_places.front()}.toPlane(event.pointer), {}) <= event.tolerance.inMetres())
            return Outcome::Done;
        add(placeOf());
        return Outcome::Going;
    case Kind::DoubleClick:
        return canClose || (m_closing == Closing::Open && begun) ? Outcome::Done : Outcome::Going;
    case Kind::Finish:
        return begun ? Outcome::Done : Outcome::Going;
    case Kind::Typing:
        if (begun) {
            try {
                m_typed = continued(placeFrom(event.text, scene.units), m_places.back());
            } catch (const Fault&) {
                m_typed.reset(); // half a number is no fault yet
            }
        }
        return Outcome::Going;
    case Kind::Typed:
        add(begun ? placeFrom(event.text, scene.units) : geodesy::parsePosition(event.text));
        return Outcome::Going;
    case Kind::StepBack:
        if (begun)
            m_places.pop_back();
        m_typed.reset();
        return Outcome::Going;
    case Kind::Escape:
        clear();
        return begun ? Outcome::Going : Outcome::Leave;
    default:
        return Outcome::Going;
    }
}

void LineEntry::clear() {
    m_places.clear();
    m_typed.reset();
}

void LineEntry::add(const model::Position& place) {
    const model::Position next = m_places.empty() ? place : continued(place, m_places.back());
    if (m_places.empty() || next != m_places.back())
        m_places.push_back(next);
    m_pointer = next;
    m_typed.reset();
}

model::Position LineEntry::placeFrom(const std::string& text, units::System units) const {
    if (const auto place = geodesy::tryParsePosition(text); place && text.find_first_of("NSEW") != std::string::npos)
        return *place;
    const Leg leg = parseLeg(text, units);
    if (!(leg.length.length > Length{}))
        throw Fault{"The distance to the next corner is zero.", "",
                    "Type a distance and a bearing, such as \"120 m 45\"."};
    return endOf(leg, m_places.back(), m_pointer);
}

void LineEntry::showIn(ToolPreview& preview, units::System units) const {
    if (m_places.empty())
        return;
    preview.line = m_places;
    preview.line.push_back(next());
    preview.follows = true;
    preview.closed = m_closing == Closing::Ring && m_places.size() + 1 >= kFewestOfARing;
    preview.handles = m_places;
    preview.readout = lengthAndBearing(m_places.back(), next(), units);
}

QString LineEntry::typedPrompt() const {
    return m_places.empty()
               ? QCoreApplication::translate("LineEntry", "Coordinates of the first corner")
               : QCoreApplication::translate("LineEntry", "Distance and bearing, such as 120 m 45 or N 45°30' E 120 m");
}

} // namespace fencewright::desktop
