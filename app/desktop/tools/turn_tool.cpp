#include "desktop/tools/turn_tool.h"

#include "airspace/placing.h"
#include "desktop/canvas/hit.h"
#include "desktop/canvas/near_plane.h"
#include "desktop/tools/leg.h"
#include "desktop/tools/typed_turn.h"
#include "fault.h"
#include "geodesy/geodesic.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr double kWholeTurnDegrees = 15.0;
// What is done by hand is done in steps that the readout can say.
constexpr double kTurnStepDegrees = 0.1;
constexpr double kFactorStep = 0.001;
constexpr double kWholeFactorStep = 0.1;

model::Position fromMiddle(const model::Position& middle, double azimuth, Length way) {
    return geodesy::direct(middle, Angle::degrees(azimuth), way);
}

std::vector<model::Position> squaresOf(const model::Position& middle, Length pixel) {
    std::vector<model::Position> squares;
    for (const double azimuth : {45.0, 135.0, 225.0, 315.0})
        squares.push_back(fromMiddle(middle, azimuth, pixel * Dial::kSquarePixels));
    return squares;
}

Angle turnBetween(const model::Position& middle, const model::Position& from, const model::Position& to, bool whole) {
    const double degrees = std::remainder(geodesy::inverse(middle, to).azimuthAtStart.inDegrees() -
                                              geodesy::inverse(middle, from).azimuthAtStart.inDegrees(),
                                          360.0);
    const double step = whole ? kWholeTurnDegrees : kTurnStepDegrees;
    const double steps = std::round(degrees / step);
    return Angle::degrees(whole ? steps * step : steps / 10.0); // a tenth exactly
}

double factorBetween(const model::Position& middle, const model::Position& from, const model::Position& to,
                     bool whole) {
    const double factor = geodesy::inverse(middle, to).length / geodesy::inverse(middle, from).length;
    const double perUnit = 1.0 / (whole ? kWholeFactorStep : kFactorStep);
    return std::max(1.0, std::round(factor * perUnit)) / perUnit;
}

/// That thing as it stands in the set.
std::shared_ptr<const void> standing(const model::FenceSet& set, const Thing& thing) {
    if (const auto* site = std::get_if<model::SiteId>(&thing))
        return set.sites.findPointer(*site);
    if (const auto* home = std::get_if<model::HomeId>(&thing))
        return set.homes.findPointer(*home);
    return set.fences.findPointer(std::get<model::FenceId>(thing));
}

bool isSetback(const model::FenceSet& set, const Thing& thing) {
    const auto* id = std::get_if<model::FenceId>(&thing);
    const model::Fence* fence = id ? set.fences.find(*id) : nullptr;
    return fence && std::holds_alternative<model::Setback>(fence->shape);
}

/// That thing after the edit; null: the edit does nothing to it.
std::shared_ptr<const void> madeBy(const model::Edit& edit, const Thing& thing) {
    std::shared_ptr<const void> made;
    for (const model::Change& change : edit.changes)
        std::visit(
            [&]<class One>(const One& one) {
                if constexpr (!model::isOfSetItself<One> && !std::is_same_v<One, model::Replacement<model::Source>>)
                    if (one.after && Thing{one.after->id} == thing)
                        made = one.after;
            },
            change);
    return made;
}

} // namespace

/// The middle stays where it is while the same things are chosen, so that 30 right and 30 left lead back; but not where
/// something else has moved them: an undo, say.
std::optional<model::Position> TurnTool::middleNow(const ToolScene& scene) const {
    const bool stands = !m_first || m_standing == standing(scene.set, *m_first);
    if (m_middle && (m_middleIsPut || stands || std::holds_alternative<OnDial>(m_state)))
        return m_middle;
    if (m_chosen.empty())
        return std::nullopt;
    try {
        return airspace::pivotOf(scene.set, m_chosen.things());
    } catch (const Fault&) {
        return std::nullopt; // a circle at no place of the earth
    }
}

void TurnTool::settleMiddle(const ToolScene& scene) {
    if (scene.selection != m_chosen) {
        m_chosen = scene.selection;
        m_middle.reset();
        m_middleIsPut = false;
        m_state = Idle{}; // what was held is not what is chosen now
        const auto& things = m_chosen.things();
        const auto first = std::find_if(things.begin(), things.end(),
                                        [&](const Thing& thing) { return !isSetback(scene.set, thing); });
        m_first = first == things.end() ? std::nullopt : std::optional{*first};
    }
    m_middle = middleNow(scene);
    m_standing = m_first ? standing(scene.set, *m_first) : nullptr;
}

Dial::Part TurnTool::partAt(const ToolEvent& event, const ToolScene& scene) const {
    if (!m_middle)
        return Dial::Part::None;
    const NearPlane plane{event.pointer};
    const double tolerance = event.tolerance.inMetres(), pixel = scene.pixel.inMetres();
    const double fromMiddle = distanceBetween(plane.toPlane(*m_middle), {});
    if (fromMiddle <= 1.5 * tolerance)
        return Dial::Part::Middle;
    for (const model::Position& square : squaresOf(*m_middle, scene.pixel))
        if (distanceBetween(plane.toPlane(square), {}) <= 1.5 * tolerance)
            return Dial::Part::Square;
    return std::abs(fromMiddle - Dial::kRingPixels * pixel) <= tolerance ? Dial::Part::Ring : Dial::Part::None;
}

ToolAnswer TurnTool::handle(const ToolEvent& event, const ToolScene& scene) {
    settleMiddle(scene);
    ToolAnswer answer = answerTo(event, scene);
    if (auto made = answer.edit && m_first ? madeBy(*answer.edit, *m_first) : nullptr)
        m_standing = std::move(made);
    return answer;
}

ToolAnswer TurnTool::answerTo(const ToolEvent& event, const ToolScene& scene) {
    using Kind = ToolEvent::Kind;
    switch (event.kind) {
    case Kind::Hover: {
        const Grip grip = wholeAt(event, scene);
        const auto* whole = std::get_if<Whole>(&grip);
        m_state = Idle{partAt(event, scene), whole && Selection{whole->things} == scene.selection};
        return {};
    }
    case Kind::Press:
        return press(event, scene);
    case Kind::Drag:
        return drag(event, scene);
    case Kind::Drop:
        if (std::holds_alternative<Drag>(m_state) && !m_middleIsPut)
            m_middle.reset();
        m_state = Idle{};
        m_readout.clear();
        settleMiddle(scene);
        return {};
    case Kind::Click:
        return click(event, scene);
    case Kind::Typing:
        m_readout.clear();
        try {
            if (!event.text.empty())
                (void)edit(event.text, scene.set, scene);
            if (const auto turn = parseTurn(event.text))
                m_readout = turnedWords(*turn);
            else if (const auto factor = parseFactor(event.text))
                m_readout = scaledWords(*factor);
        } catch (const Fault&) {
            m_readout.clear(); // half a number is no fault yet
        }
        return {};
    case Kind::Typed:
        return typed(event.text, scene);
    case Kind::Nudge: {
        if (holds() || scene.selection.empty())
            return {};
        ToolAnswer answer{
            .edit = airspace::placed(scene.set, scene.selection.things(),
                                     airspace::movedBy(m_middle.value_or(event.pointer), event.east, event.north)),
            .select = {}};
        answer.edit->gesture = event.gesture;
        if (m_middle && !m_middleIsPut)
            m_middle = airspace::movedBy(*m_middle, event.east, event.north).to;
        return answer;
    }
    case Kind::Finish:
        return {.edit = {}, .select = {}, .leave = true};
    case Kind::Escape:
        return escape(scene);
    default:
        return {};
    }
}

ToolAnswer TurnTool::press(const ToolEvent& event, const ToolScene& scene) {
    m_readout.clear();
    m_state = Idle{};
    if (event.adds || event.constrain)
        if (partAt(event, scene) == Dial::Part::None)
            return {}; // a click that adds
    if (const Dial::Part part = partAt(event, scene); part != Dial::Part::None) {
        m_state = OnDial{part, event.pointer, event.pointer, event.gesture, scene.set, false};
        return {};
    }
    Grip grip = wholeAt(event, scene);
    if (const auto* whole = std::get_if<Whole>(&grip); whole && Selection{whole->things} == scene.selection)
        m_state = Drag{std::move(grip), event.pointer, event.gesture, scene};
    return {};
}

ToolAnswer TurnTool::drag(const ToolEvent& event, const ToolScene& scene) {
    if (auto* dial = std::get_if<OnDial>(&m_state)) {
        dial->moved = true;
        if (dial->part != Dial::Part::Middle)
            return turnDial(*dial, event, scene);
        m_middle = event.place;
        m_middleIsPut = true;
        return {};
    }
    auto* held = std::get_if<Drag>(&m_state);
    if (!held)
        return {};
    try {
        ToolAnswer answer = held->to(event.place, event.constrain, scene);
        m_readout = held->readout();
        return answer;
    } catch (const Fault&) {
        m_state = Idle{};
        throw;
    }
}

ToolAnswer TurnTool::turnDial(OnDial& dial, const ToolEvent& event, const ToolScene& scene) {
    dial.hand = event.pointer;
    airspace::Placing placing{*m_middle, *m_middle, {}, 1.0};
    if (dial.part == Dial::Part::Ring) {
        placing.turn = turnBetween(*m_middle, dial.press, event.pointer, event.constrain);
        m_readout = turnedWords(placing.turn);
    } else {
        placing.scale = factorBetween(*m_middle, dial.press, event.pointer, event.constrain);
        m_readout = scaledWords(placing.scale);
    }
    model::Edit edit;
    try {
        edit = airspace::placed(dial.before, m_chosen.things(), placing);
    } catch (const Fault&) {
        m_readout.clear();
        m_state = Idle{};
        throw;
    }
    if (placing == airspace::Placing{*m_middle, *m_middle, {}, 1.0} && dial.before == scene.set)
        return {};
    edit = rebased(edit, scene.set);
    edit.gesture = dial.gesture;
    return {.edit = std::move(edit), .select = {}};
}

ToolAnswer TurnTool::click(const ToolEvent& event, const ToolScene& scene) {
    const bool onDial = std::holds_alternative<OnDial>(m_state);
    m_state = Idle{};
    if (onDial)
        return {};
    const Selection thing = thingAt(scene.set, scene.outlined, event.pointer, event.tolerance, scene.places);
    if (!event.constrain && !event.adds)
        return {.edit = {}, .select = thing};
    if (thing.empty())
        return {};
    return {.edit = {}, .select = scene.selection.toggled(thing.things().front())};
}

model::Edit TurnTool::edit(const std::string& text, const model::FenceSet& before, const ToolScene& scene) const {
    const auto& things = scene.selection.things();
    const model::Position middle = m_middle.value_or(model::Position{});
    if (things.empty())
        throw Fault{phrase("core", "Nothing is chosen."), "", phrase("core", "Click what is to be turned or scaled.")};
    if (const auto factor = parseFactor(text))
        return airspace::placed(before, things, airspace::scaledBy(middle, *factor));
    if (const auto turn = parseTurn(text))
        return airspace::placed(before, things, airspace::turnedBy(middle, *turn));
    if (const auto place = typedPlace(text))
        return airspace::placed(before, things, {middle, *place, {}, 1.0});
    std::optional<TypedLeg> leg;
    try {
        leg = parseTypedLeg(text, scene.units);
    } catch (const Fault&) {
        leg.reset();
    }
    if (!leg || !leg->length || !leg->bearing)
        throw Fault{phrase("core", "\"%1\" is no turn, factor or way.")(text), "",
                    phrase("core", "Type \"30 right\", \"15 left\", \"x 1.5\", \"150 %\", or a distance and a bearing, "
                                   "such as \"20 m 45\".")};
    return airspace::placed(before, things, airspace::movedAlong(middle, *leg->bearing, leg->length->length));
}

ToolAnswer TurnTool::typed(const std::string& text, const ToolScene& scene) {
    m_readout.clear();
    const bool isMove = !parseFactor(text) && !parseTurn(text);
    // What is being dragged is put exactly; else it goes on from where it is.
    const auto* dial = std::get_if<OnDial>(&m_state);
    ToolAnswer answer{.edit = rebased(edit(text, dial ? dial->before : scene.set, scene), scene.set), .select = {}};
    if (dial)
        answer.edit->gesture = dial->gesture;
    if (isMove && !m_middleIsPut)
        m_middle.reset(); // it goes along
    m_state = Idle{};
    return answer;
}

ToolAnswer TurnTool::escape(const ToolScene& scene) {
    m_readout.clear();
    std::optional<model::Edit> back;
    bool wasHeld = false;
    if (const auto* dial = std::get_if<OnDial>(&m_state)) {
        wasHeld = true;
        if (dial->part != Dial::Part::Middle && dial->moved && dial->before != scene.set) {
            back =
                rebased(airspace::placed(dial->before, m_chosen.things(), {*m_middle, *m_middle, {}, 1.0}), scene.set);
            back->gesture = dial->gesture;
        }
    } else if (const auto* held = std::get_if<Drag>(&m_state)) {
        wasHeld = true;
        back = held->back(scene);
    }
    m_state = Idle{};
    return {.edit = std::move(back), .select = {}, .leave = !wasHeld};
}

ToolPreview TurnTool::preview(const ToolScene& scene) const {
    ToolPreview preview;
    preview.readout = m_readout;
    const std::optional<model::Position> middle =
        scene.selection == m_chosen && !m_chosen.empty() ? middleNow(scene) : std::nullopt;
    if (!middle)
        return preview;
    Dial dial{*middle, squaresOf(*middle, scene.pixel), Dial::Part::None, std::nullopt};
    if (const auto* idle = std::get_if<Idle>(&m_state))
        dial.held = idle->under;
    if (const auto* held = std::get_if<OnDial>(&m_state)) {
        dial.held = held->part;
        if (held->part != Dial::Part::Middle && held->moved)
            dial.hand = std::pair{held->press, held->hand};
    }
    if (const auto* moved = std::get_if<Drag>(&m_state); moved && !m_middleIsPut)
        return preview; // it comes again where the things are put
    preview.dial = std::move(dial);
    return preview;
}

QString TurnTool::hint(const ToolScene& scene) const {
    if (scene.selection.empty())
        return tr("Click what is to be turned or scaled; Shift or Ctrl and a click adds.");
    if (!m_middle && scene.selection == m_chosen)
        return tr("What is chosen follows its site: turn and scale the site, or make a polygon of it.");
    if (const auto* dial = std::get_if<OnDial>(&m_state)) {
        if (dial->part == Dial::Part::Middle)
            return tr("Release to turn and scale about this place. It snaps; Ctrl or Alt holds that off.");
        return dial->part == Dial::Part::Ring
                   ? tr("Farther out turns finer. Shift keeps to 15°, \"30 right\" is exact, Esc puts it back.")
                   : tr("Away from the middle makes it larger. Shift keeps to tenths, \"x 1.5\" is exact, Esc puts it "
                        "back.");
    }
    if (std::holds_alternative<Drag>(m_state))
        return tr("Release to place it here. Shift keeps to whole bearings, Esc puts it back.");
    return tr("Drag the ring to turn, a square to scale, the cross to put the middle elsewhere; or type \"30 right\", "
              "\"x 1.5\", \"20 m 45\".");
}

QString TurnTool::typedPrompt() const {
    return m_chosen.empty() ? QString{} : tr("30 right · 15 left · x 1.5 · 150 % · 20 m 45");
}

bool TurnTool::beginsTyping(QChar letter) const { return !m_chosen.empty() && letter.toLower() == 'x'; }

bool TurnTool::holds() const { return !std::holds_alternative<Idle>(m_state); }

bool TurnTool::wantsSnap() const {
    if (const auto* dial = std::get_if<OnDial>(&m_state))
        return dial->part == Dial::Part::Middle;
    const auto* held = std::get_if<Drag>(&m_state);
    return held && held->wantsSnap();
}

Selection TurnTool::unsnapped() const {
    const auto* held = std::get_if<Drag>(&m_state);
    return held ? held->moving() : Selection{};
}

model::Position TurnTool::aim(const model::Position& pointer) const {
    const auto* held = std::get_if<Drag>(&m_state);
    return held ? held->aim(pointer) : pointer;
}

Qt::CursorShape TurnTool::cursor() const {
    if (const auto* idle = std::get_if<Idle>(&m_state))
        return idle->under != Dial::Part::None ? Qt::OpenHandCursor
               : idle->overThings              ? Qt::SizeAllCursor
                                               : Qt::ArrowCursor;
    return std::holds_alternative<Drag>(m_state) ? Qt::SizeAllCursor : Qt::ClosedHandCursor;
}

} // namespace fencewright::desktop
