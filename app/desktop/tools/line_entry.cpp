#include "desktop/tools/line_entry.h"

#include "desktop/canvas/near_plane.h"
#include "desktop/tools/leg.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/coordinate_notation.h"
#include "geodesy/geodesic.h"

#include <QCoreApplication>

namespace fencewright::desktop {
LineEntry::Outcome LineEntry::handle(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    const bool begun = !m_places.empty();
    const bool canClose = m_closing == Closing::Ring && m_places.size() >= kFewestOfARing;
    switch (event.kind) {
    case Kind::Hover:
        m_pointer = directed(event.place, event.constrain);
        return Outcome::Going;
    case Kind::Click:
        if (canClose &&
            (event.place == m_places.front() ||
             distanceBetween(NearPlane{m_places.front()}.toPlane(event.pointer), {}) <= event.tolerance.inMetres()))
            return Outcome::Done;
        add(directed(event.place, event.constrain));
        return Outcome::Going;
    case Kind::DoubleClick:
        return canClose || (m_closing == Closing::Open && begun) ? Outcome::Done : Outcome::Going;
    case Kind::Finish:
        return begun ? Outcome::Done : Outcome::Going;
    case Kind::Typing:
        m_typed.reset();
        if (begun) {
            try {
                std::optional<Angle> direction;
                m_typed = placeFrom(event.text, scene.units, direction);
                if (!m_typed && direction)
                    m_typed = onBearing(m_places.back(), *direction, m_pointer);
                m_typed = continued(*m_typed, m_places.back());
            } catch (const Fault&) {
                m_typed.reset(); // half a number is no fault yet
            }
        }
        return Outcome::Going;
    case Kind::Typed:
        if (begun)
            take(event.text, scene.units);
        else
            add(geodesy::parsePosition(event.text));
        return Outcome::Going;
    case Kind::StepBack:
        m_typed.reset();
        if (m_held) {
            m_held.reset();
            return Outcome::Going;
        }
        if (begun) {
            m_places.resize(m_places.size() - m_steps.back());
            m_steps.pop_back();
        }
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
    m_steps.clear();
    m_held.reset();
    m_typed.reset();
}

LineSoFar LineEntry::lineSoFar(const model::Position& pointer, bool wholeBearings) const {
    LineSoFar line;
    if (m_places.empty())
        return line;
    if (before())
        line.last.push_back(*before());
    line.last.push_back(m_places.back());
    line.held = m_held;
    if (!line.held && wholeBearings)
        line.held = wholeBearing(before(), m_places.back(), pointer);
    return line;
}

/// Where a place comes to lie in the direction that holds.
model::Position LineEntry::directed(const model::Position& place, bool wholeBearings) const {
    if (m_places.empty())
        return place;
    const std::optional<Angle> held = lineSoFar(place, wholeBearings).held;
    return continued(held ? onBearing(m_places.back(), *held, place) : place, m_places.back());
}

void LineEntry::add(const model::Position& place) {
    const model::Position next = m_places.empty() ? place : continued(place, m_places.back());
    if (m_places.empty() || next != m_places.back()) {
        m_places.push_back(next);
        m_steps.push_back(1);
        m_held.reset();
    }
    m_pointer = next;
    m_typed.reset();
}

void LineEntry::take(const std::string& text, units::System units) {
    std::optional<Angle> direction;
    if (const auto place = placeFrom(text, units, direction))
        return add(*place);
    m_held = direction;
    m_pointer = onBearing(m_places.back(), *m_held, m_pointer);
    m_typed.reset();
}

std::optional<model::Position> LineEntry::placeFrom(const std::string& text, units::System units,
                                                    std::optional<Angle>& direction) const {
    if (const auto place = typedPlace(text))
        return place;
    const TypedLeg leg = parseTypedLeg(text, units);
    direction = leg.bearing ? leg.bearing : m_held;
    if (leg.turn) {
        if (!before())
            throw Fault{phrase("core", "There is no last leg to turn from."), "",
                        phrase("core", "Type a bearing clockwise from north, such as \"120 m 45\" or \"<45\".")};
        direction = geodesy::inverse(m_places.back(), *before()).azimuthAtStart + Angle::degrees(180.0) + *leg.turn;
    }
    if (!leg.length)
        return std::nullopt;
    if (!(leg.length->length > Length{}))
        throw Fault{phrase("core", "The distance to the next corner is zero."), "",
                    phrase("core", "Type a distance and a bearing, such as \"120 m 45\".")};
    return endOf({*leg.length, direction}, m_places.back(), m_pointer);
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
    if (before())
        preview.readout += " · " + turnWords(*before(), m_places.back(), next());
    if (m_held)
        preview.readout += " · " + QCoreApplication::translate("LineEntry", "direction held");
    if (preview.closed) {
        const geodesy::RingMeasure ring = geodesy::measure(model::Ring{preview.line}, geodesy::EdgeMeaning::LonLatLine);
        preview.readout += '\n' + QCoreApplication::translate("LineEntry", "%1, %2 around")
                                      .arg(QString::fromStdString(units::formatArea(ring.area, units)),
                                           QString::fromStdString(units::formatLength(ring.perimeter, units)));
    } else if (m_closing == Closing::Open && before()) {
        preview.readout +=
            '\n' + QCoreApplication::translate("LineEntry", "%1 in all")
                       .arg(QString::fromStdString(units::formatLength(geodesy::lengthOf(preview.line), units)));
    }
}

QString LineEntry::typedPrompt() const {
    if (m_places.empty())
        return QCoreApplication::translate("LineEntry", "Coordinates of the first corner, in any notation");
    return before() ? QCoreApplication::translate("LineEntry", "120 m 45 · <45 · 60 m 90 right · N 45°30' E 120 m · "
                                                               "or coordinates")
                    : QCoreApplication::translate("LineEntry", "120 m 45 · <45 · N 45°30' E 120 m · or coordinates");
}

} // namespace fencewright::desktop
