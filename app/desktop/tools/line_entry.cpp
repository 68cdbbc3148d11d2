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
    switch (event.kind) {
    case Kind::Hover:
        pointAt(directed(event.place, event.constrain));
        return Outcome::Going;
    case Kind::Click:
        return click(event, scene);
    case Kind::DoubleClick:
        return (m_closing == Closing::Ring && m_places.size() >= kFewestOfARing) ||
                       (m_closing == Closing::Open && begun)
                   ? Outcome::Done
                   : Outcome::Going;
    case Kind::Finish:
        return begun ? Outcome::Done : Outcome::Going;
    case Kind::Typing:
        m_typed.reset();
        if (begun) {
            try {
                std::optional<Angle> direction;
                m_typed = courseFrom(event.text, scene.units, direction);
                if (!m_typed && direction)
                    m_typed = m_boundary.straightTo(onBearing(m_places.back(), *direction, m_pointer));
            } catch (const Fault&) {
                m_typed.reset(); // half a number is no fault yet
            }
        }
        return Outcome::Going;
    case Kind::Typed:
        if (begun)
            take(event.text, scene);
        else
            add({{}, geodesy::parsePosition(event.text), {}, {}}, scene);
        return Outcome::Going;
    case Kind::Follow:
        if (!begun || m_legs == Legs::Straight)
            return Outcome::Going;
        m_boundary.turn();
        m_held.reset();
        m_typed.reset();
        pointAt(event.place);
        return Outcome::Going;
    case Kind::StepBack:
        stepBack(scene);
        return Outcome::Going;
    case Kind::Escape:
        clear();
        return begun ? Outcome::Going : Outcome::Leave;
    default:
        return Outcome::Going;
    }
}

LineEntry::Outcome LineEntry::click(const ToolEvent& event, const ToolScene& scene) {
    pointAt(directed(event.place, event.constrain));
    if (m_closing == Closing::Ring && m_places.size() >= kFewestOfARing) {
        const model::Position& first = m_places.front();
        const bool isMeant = event.place == first ||
                             distanceBetween(NearPlane{first}.toPlane(event.pointer), {}) <= event.tolerance.inMetres();
        if (isMeant && !m_boundary.follows())
            return Outcome::Done;
        if (isMeant) {
            // The ring closes along the boundary where that leads to its first place; else the click is one on it.
            BoundaryLeg::Course closing = m_boundary.to(first);
            if (closing.end == first) {
                closing.end = closing.between.empty() ? m_places.back() : closing.between.back();
                if (!closing.between.empty())
                    closing.between.pop_back();
                add(std::move(closing), scene);
                return Outcome::Done;
            }
        }
    }
    add(m_course, scene);
    return Outcome::Going;
}

/// Lets go of what was asked for last, or of the last step.
void LineEntry::stepBack(const ToolScene& scene) {
    m_typed.reset();
    if (m_held) {
        m_held.reset();
    } else if (m_boundary.follows()) {
        m_boundary.goStraight();
    } else if (!m_places.empty()) {
        m_places.resize(m_places.size() - m_steps.back());
        m_steps.pop_back();
        standAnew(scene);
    }
    pointAt(m_pointer);
}

void LineEntry::clear() {
    m_places.clear();
    m_steps.clear();
    m_held.reset();
    m_typed.reset();
    m_boundary.forget();
    m_course = {};
}

model::LineString LineEntry::closedRing() const {
    model::LineString ring = m_places;
    if (ring.size() >= kFewestOfARing)
        for (const model::Position& corner : m_boundary.straightTo(ring.front()).between)
            ring.push_back(continued(corner, ring.back()));
    return ring;
}

LineSoFar LineEntry::lineSoFar(const model::Position& pointer, bool wholeBearings) const {
    LineSoFar line;
    if (m_places.empty() || m_boundary.follows())
        return line; // along a boundary no other direction is meant
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

void LineEntry::pointAt(const model::Position& place) {
    m_pointer = place;
    m_course = m_places.empty() ? BoundaryLeg::Course{{}, place, {}, {}} : m_boundary.to(place);
    if (!m_places.empty())
        m_course.end = continued(m_course.end, m_places.back());
}

/// The next leg begins at the last place.
void LineEntry::standAnew(const ToolScene& scene) {
    if (m_places.empty() || m_legs == Legs::Straight)
        m_boundary.forget();
    else
        m_boundary.beginAt(m_places.back(), scene.boundariesAt);
}

void LineEntry::add(BoundaryLeg::Course course, const ToolScene& scene) {
    const std::size_t before = m_places.size();
    const auto put = [this](const model::Position& place) {
        const model::Position next = m_places.empty() ? place : continued(place, m_places.back());
        if (m_places.empty() || next != m_places.back())
            m_places.push_back(next);
    };
    std::for_each(course.between.begin(), course.between.end(), put);
    put(course.end);
    m_typed.reset();
    if (m_places.size() > before) {
        m_steps.push_back(m_places.size() - before);
        m_held.reset();
        standAnew(scene);
    }
    pointAt(m_places.back());
}

void LineEntry::take(const std::string& text, const ToolScene& scene) {
    std::optional<Angle> direction;
    if (auto course = courseFrom(text, scene.units, direction))
        return add(std::move(*course), scene);
    m_held = direction;
    m_typed.reset();
    pointAt(onBearing(m_places.back(), *m_held, m_pointer));
}

std::optional<BoundaryLeg::Course> LineEntry::courseFrom(const std::string& text, units::System units,
                                                         std::optional<Angle>& direction) {
    if (m_boundary.follows())
        return courseAlong(text, units);
    const auto to = [this](const model::Position& place) {
        return m_boundary.straightTo(continued(place, m_places.back()));
    };
    if (const auto place = typedPlace(text))
        return to(*place);
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
    return to(endOf({*leg.length, direction}, m_places.back(), m_pointer));
}

/// While a boundary is followed: how far along it, or a place on it.
BoundaryLeg::Course LineEntry::courseAlong(const std::string& text, units::System units) {
    if (const auto place = typedPlace(text)) {
        const model::Position wanted = continued(*place, m_places.back());
        BoundaryLeg::Course course = m_boundary.to(wanted);
        if (geodesy::inverse(course.end, wanted).length > geometry::kStandsOn)
            throw Fault{phrase("core", "That place does not lie on the boundary that is followed."), "",
                        phrase("core", "Type how far along it, such as \"120 m\", or press Backspace to go straight.")};
        return course;
    }
    const TypedLeg leg = parseTypedLeg(text, units);
    if (!leg.length || leg.bearing || leg.turn)
        throw Fault{phrase("core", "The boundary that is followed gives the direction."), "",
                    phrase("core", "Type how far along it, such as \"120 m\", or press Backspace to go straight.")};
    return m_boundary.along(course(), leg.length->length);
}

void LineEntry::showIn(ToolPreview& preview, units::System units) const {
    if (m_places.empty())
        return;
    preview.line = m_places;
    for (const model::Position& corner : course().between)
        preview.line.push_back(continued(corner, preview.line.back()));
    const std::size_t between = preview.line.size() - m_places.size();
    preview.line.push_back(continued(next(), preview.line.back()));
    preview.follows = true;
    preview.closed = m_closing == Closing::Ring && m_places.size() + 1 >= kFewestOfARing;
    preview.handles = m_places;
    if (const auto& followed = course().followed) {
        preview.readout =
            QCoreApplication::translate("LineEntry", "%1 along %2")
                .arg(QString::fromStdString(units::formatLength(followed->length, units)), followed->name);
        if (between > 0)
            preview.readout +=
                " · " + (between == 1 ? QCoreApplication::translate("LineEntry", "one corner between")
                                      : QCoreApplication::translate("LineEntry", "%1 corners between").arg(between));
    } else {
        preview.readout = lengthAndBearing(m_places.back(), next(), units);
        if (before())
            preview.readout += " · " + turnWords(*before(), m_places.back(), next());
    }
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

QString LineEntry::hintWith(const ToolKeys& keys, const QString& words) const {
    if (m_boundary.follows()) {
        QString along = QCoreApplication::translate("LineEntry", "Along %1: click where it ends, or type how far.")
                            .arg(course().followed ? course().followed->name : m_boundary.standsOn());
        if (!keys.follow.isEmpty())
            along +=
                ' ' +
                QCoreApplication::translate("LineEntry", "%1: the other way round, then straight.").arg(keys.follow);
        return along;
    }
    if (keys.follow.isEmpty())
        return words;
    if (const auto& offer = course().offer)
        return QCoreApplication::translate("LineEntry", "%1 follows %2, which does not run straight here.")
                   .arg(keys.follow, *offer) +
               ' ' + words;
    if (m_boundary.stands())
        return QCoreApplication::translate("LineEntry", "%1 follows %2.").arg(keys.follow, m_boundary.standsOn()) +
               ' ' + words;
    return words;
}

QString LineEntry::typedPrompt() const {
    if (m_boundary.follows())
        return QCoreApplication::translate("LineEntry", "How far along the boundary, such as 120 m, or a place on it");
    if (m_places.empty())
        return QCoreApplication::translate("LineEntry", "Coordinates of the first corner, in any notation");
    return before() ? QCoreApplication::translate("LineEntry", "120 m 45 · <45 · 60 m 90 right · N 45°30' E 120 m · "
                                                               "or coordinates")
                    : QCoreApplication::translate("LineEntry", "120 m 45 · <45 · N 45°30' E 120 m · or coordinates");
}

} // namespace fencewright::desktop
