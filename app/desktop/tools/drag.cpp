#include "desktop/tools/drag.h"

#include "airspace/placing.h"
#include "desktop/tools/leg.h"
#include "desktop/tools/moved_edge.h"
#include "desktop/tools/new_thing.h"
#include "fault.h"
#include "geodesy/geodesic.h"

#include <algorithm>
#include <cmath>
#include <type_traits>

namespace fencewright::desktop {
namespace {

template <class... Cases> struct Overloaded : Cases... { using Cases::operator()...; };
template <class... Cases> Overloaded(Cases...) -> Overloaded<Cases...>;

/// In whole tens or ones of the person's unit, said in that unit.
StatedLength inWhole(Length length, double step, units::System units) {
    const bool metric = units == units::System::Metric;
    const double steps = std::round((metric ? length.inMetres() : length.inFeet()) / step);
    const std::string words = std::to_string(static_cast<long long>(steps * step)) + (metric ? " m" : " ft");
    return units::parseLength(words, units);
}

const model::Fence& fenceOf(const model::FenceSet& set, const model::FenceId& id) {
    const model::Fence* fence = set.fences.find(id);
    if (!fence)
        throw Fault{phrase("core", "There is no such fence in the set."), id.value,
                    phrase("core", "It may have been deleted meanwhile.")};
    return *fence;
}

QString nameOf(const model::FenceSet& set, const model::FenceId& id) {
    return QString::fromStdString(fenceOf(set, id).name);
}

EdgeEnds endsIn(const model::FenceSet& set, const Edge& edge) {
    const auto ends = endsOf(fenceOf(set, edge.from.fence), edge);
    if (!ends)
        throw Fault{phrase("core", "%1 has no such edge any more.")(fenceOf(set, edge.from.fence).name), "",
                    phrase("core", "Choose the edge again.")};
    return *ends;
}

Selection fencesOf(std::vector<Corner> corners) {
    std::vector<model::Thing> things;
    for (const Corner& corner : corners)
        things.push_back(corner.fence);
    return Selection{std::move(things)};
}

/// Those, and the setback fences that follow the sites among them.
Selection withFollowers(const model::FenceSet& set, const std::vector<model::Thing>& things) {
    const Selection chosen{things};
    std::vector<model::Thing> all = things;
    for (const model::Fence& fence : set.fences)
        if (const auto* setback = std::get_if<model::Setback>(&fence.shape); setback && chosen.contains(setback->site))
            all.push_back(fence.id);
    return Selection{std::move(all)};
}

template <class T> const model::Roster<T>& rosterOf(const model::FenceSet& set) {
    if constexpr (std::is_same_v<T, model::Fence>)
        return set.fences;
    else if constexpr (std::is_same_v<T, model::Site>)
        return set.sites;
    else
        return set.homes;
}

} // namespace

model::Edit rebased(const model::Edit& edit, const model::FenceSet& set, bool back) {
    model::Edit result{edit.title, {}, edit.gesture};
    for (const model::Change& change : edit.changes)
        std::visit(
            [&]<class One>(const One& one) {
                if constexpr (!model::isOfSetItself<One> && !std::is_same_v<One, model::Replacement<model::Source>>) {
                    const auto& roster = rosterOf<std::remove_cvref_t<decltype(*one.after)>>(set);
                    // Where it was, most often: looking for each of many would take long.
                    const bool isThere = one.index < roster.size() && roster[one.index].id == one.after->id;
                    const std::size_t index = isThere ? one.index : roster.indexOf(one.after->id);
                    if (index < roster.size())
                        result.changes.push_back(One{index, roster.pointer(index), back ? one.before : one.after});
                }
            },
            change);
    return result;
}

Drag::Drag(Grip grip, const model::Position& press, std::uint64_t gesture, const ToolScene& scene)
    : m_grip{std::move(grip)}, m_press{press}, m_start{press}, m_gesture{gesture}, m_before{scene.set} {
    std::visit(Overloaded{[](std::monostate) {},
                          [&](const Corner& corner) {
                              m_together = cornersTogether(scene, corner);
                              const auto lines = editableLines(fenceOf(m_before, corner.fence).shape);
                              if (corner.line < lines.size() && corner.index < lines[corner.line].corners->size())
                                  m_start = (*lines[corner.line].corners)[corner.index];
                              m_moving = fencesOf(m_together);
                          },
                          [&](const Midpoint& middle) {
                              m_together = insertionsTogether(scene, middle.before);
                              m_start = middle.place;
                              m_moving = fencesOf(m_together);
                          },
                          [&](const Edge& edge) {
                              const EdgeEnds ends = endsIn(m_before, edge);
                              m_together = cornersTogether(scene, ends.from);
                              m_otherEnd = cornersTogether(scene, ends.to);
                              m_moving = fencesOf(m_together).with(fencesOf(m_otherEnd));
                          },
                          [&](const Rim& rim) { m_moving = rim.fence; },
                          [&](const Whole& whole) {
                              m_start = airspace::nearestPlaceOf(m_before, whole.under, press).value_or(press);
                              m_moving = withFollowers(m_before, whole.things);
                          }},
               m_grip);
    m_place = m_start;
}

model::Position Drag::aim(const model::Position& pointer) const {
    const auto* whole = std::get_if<Whole>(&m_grip);
    if (!whole || whole->byItsPlace || m_start == m_press)
        return pointer;
    const geodesy::Segment way = geodesy::inverse(m_press, pointer);
    return geodesy::direct(m_start, way.azimuthAtStart, way.length);
}

bool Drag::wantsSnap() const {
    const auto* whole = std::get_if<Whole>(&m_grip);
    return !std::holds_alternative<Rim>(m_grip) &&
           !(whole && whole->byItsPlace && !std::holds_alternative<model::FenceId>(whole->under));
}

Selection Drag::held() const {
    return std::visit(Overloaded{[](std::monostate) { return Selection{}; },
                                 [](const Corner& corner) { return Selection{corner.fence}; },
                                 [](const Midpoint& middle) { return Selection{middle.before.fence}; },
                                 [](const Edge& edge) { return Selection{edge.from.fence}; },
                                 [](const Rim& rim) { return Selection{rim.fence}; },
                                 [](const Whole& whole) { return Selection{whole.things}; }},
                      m_grip);
}

std::optional<Corner> Drag::corner() const {
    if (const auto* corner = std::get_if<Corner>(&m_grip))
        return shiftedBy(m_settled, *corner);
    const auto* middle = std::get_if<Midpoint>(&m_grip);
    return middle ? std::optional{shiftedBy(m_settled, middle->before)} : std::nullopt;
}

std::optional<Edge> Drag::edge() const {
    const auto* edge = std::get_if<Edge>(&m_grip);
    if (!edge)
        return std::nullopt;
    Corner before = edge->from;
    ++before.index;
    const bool isSplit = std::any_of(m_settled.begin(), m_settled.end(),
                                     [&](const CornersInserted& one) { return one.before == before; });
    return isSplit ? std::nullopt : std::optional{Edge{shiftedBy(m_settled, edge->from)}};
}

Length Drag::outwardOf(const model::Position& place) const {
    const auto& edge = std::get<Edge>(m_grip);
    return outwardTo(fenceOf(m_before, edge.from.fence), endsIn(m_before, edge), place);
}

Drag::Way Drag::edgeWay(Length outward, units::System units) const {
    const auto& edge = std::get<Edge>(m_grip);
    const model::Fence& fence = fenceOf(m_before, edge.from.fence);
    const EdgeEnds ends = endsIn(m_before, edge);
    const MovedEdge moved = movedEdge(fence, ends, outward);
    CornerPlaces places;
    for (const Corner& corner : m_together)
        places.emplace_back(corner, moved.a);
    for (const Corner& corner : m_otherEnd)
        places.emplace_back(corner, moved.b);
    return {cornersMoved(m_before, places, tr("Move edge of %1").arg(QString::fromStdString(fence.name)).toStdString()),
            outwardWords(outward, ends.closed, units)};
}

Drag::Way Drag::rimWay(StatedLength radius, units::System units) const {
    model::Fence fence = fenceOf(m_before, std::get<Rim>(m_grip).fence);
    const auto title = tr("Change radius of %1").arg(QString::fromStdString(fence.name)).toStdString();
    const QString words = QString::fromStdString(units::formatLength(radius.length, units));
    std::get<model::Circle>(fence.shape).radius = std::move(radius);
    return {model::replaceFence(m_before, std::move(fence), title), words};
}

Drag::Way Drag::way(const model::Position& wanted, bool wholeSteps, units::System units) const {
    if (std::holds_alternative<Edge>(m_grip)) {
        const Length outward = outwardOf(wanted);
        return edgeWay(wholeSteps ? inWhole(outward, 1.0, units).length : outward, units);
    }
    if (const auto* rim = std::get_if<Rim>(&m_grip)) {
        const auto& circle = std::get<model::Circle>(fenceOf(m_before, rim->fence).shape);
        const Length radius = geodesy::inverse(circle.centre, wanted).length;
        const bool metric = units == units::System::Metric;
        const Length least = metric ? Length::metres(10) : Length::feet(10);
        return rimWay(wholeSteps ? inWhole(std::max(radius, least), 10.0, units) : StatedLength{radius, {}}, units);
    }
    const model::Position place = continued(wholeSteps ? onWholeBearing(m_start, wanted) : wanted, m_start);
    const QString words = lengthAndBearing(m_start, place, units);
    if (const auto* corner = std::get_if<Corner>(&m_grip)) {
        CornerPlaces places;
        for (const Corner& one : m_together)
            places.emplace_back(one, place);
        return {
            cornersMoved(m_before, places, tr("Move corner of %1").arg(nameOf(m_before, corner->fence)).toStdString()),
            words};
    }
    if (const auto* middle = std::get_if<Midpoint>(&m_grip))
        return {cornersInserted(m_before, m_together, place,
                                tr("Add corner to %1").arg(nameOf(m_before, middle->before.fence)).toStdString()),
                words};
    const auto* whole = std::get_if<Whole>(&m_grip);
    return {whole ? airspace::placed(m_before, whole->things, {m_start, place, {}, 1.0}) : model::Edit{}, words};
}

Drag::Way Drag::typedWay(const std::string& text, units::System units) const {
    if (std::holds_alternative<Edge>(m_grip))
        return edgeWay(parseOutward(text, units, m_place == m_start ? Length{} : outwardOf(m_place)), units);
    if (std::holds_alternative<Rim>(m_grip)) {
        StatedLength radius = units::parseLength(text, units);
        if (!(radius.length > Length{}))
            throw Fault{phrase("core", "A circle needs a radius over zero."), "",
                        phrase("core", "Type a length, such as \"150 m\".")};
        return rimWay(std::move(radius), units);
    }
    if (const auto place = typedPlace(text))
        return way(*place, false, units);
    const TypedLeg leg = parseTypedLeg(text, units);
    if (!leg.length || leg.turn || (!leg.bearing && m_place == m_start))
        throw Fault{phrase("core", "That does not say how far and in which direction."), "",
                    phrase("core", "Type a distance and a bearing clockwise from north, such as \"120 m 45\".")};
    return way(endOf({*leg.length, leg.bearing}, m_start, m_place), false, units);
}

ToolAnswer Drag::take(Way made, const ToolScene& scene) {
    made.edit.gesture = m_gesture;
    m_settled.clear();
    m_readout = made.words;
    m_last = std::move(made.edit);
    return {.edit = rebased(*m_last, scene.set), .select = {}};
}

ToolAnswer Drag::to(const model::Position& place, bool wholeSteps, const ToolScene& scene) {
    ToolAnswer answer = take(way(place, wholeSteps, scene.units), scene);
    m_place = place;
    return answer;
}

ToolAnswer Drag::typed(const std::string& text, const ToolScene& scene) {
    return take(typedWay(text, scene.units), scene);
}

QString Drag::wordsFor(const std::string& text, const ToolScene& scene) const {
    try {
        return typedWay(text, scene.units).words;
    } catch (const Fault&) {
        return {}; // half a number is no fault yet
    }
}

QString Drag::typedPrompt() const {
    if (std::holds_alternative<Edge>(m_grip))
        return tr("How far: 12 m, 12 m inward or -12 m");
    if (std::holds_alternative<Rim>(m_grip))
        return tr("Radius: 150 m");
    return tr("From where it was: 120 m 45 · N 45°30' E 120 m · or coordinates");
}

std::optional<model::Edit> Drag::settled(const ToolScene& scene) {
    if (!stands(scene.set) || std::holds_alternative<Whole>(m_grip))
        return std::nullopt;
    std::vector<Corner> moved = m_together;
    moved.insert(moved.end(), m_otherEnd.begin(), m_otherEnd.end());
    m_settled = missingAlong(scene, moved, m_moving);
    if (m_settled.empty())
        return std::nullopt;
    model::Edit made = withCornersInserted(scene.set, m_settled);
    // In the order of what was done already, so that both are one change of each fence.
    model::Edit edit{m_last->title, {}, m_gesture};
    const auto fenceOfChange = [](const model::Change& change) {
        return std::get<model::Replacement<model::Fence>>(change).after;
    };
    for (const model::Change& change : m_last->changes) {
        const auto was = fenceOfChange(change);
        const auto more = std::find_if(made.changes.begin(), made.changes.end(),
                                       [&](const model::Change& one) { return fenceOfChange(one)->id == was->id; });
        if (more == made.changes.end()) {
            edit.changes.push_back(model::Replacement<model::Fence>{scene.set.fences.indexOf(was->id), was, was});
            continue;
        }
        edit.changes.push_back(std::move(*more));
        made.changes.erase(more);
    }
    std::move(made.changes.begin(), made.changes.end(), std::back_inserter(edit.changes));
    m_last = model::merged(*m_last, edit);
    return edit;
}

std::optional<model::Edit> Drag::back(const ToolScene& scene) const {
    if (!m_last)
        return std::nullopt;
    model::Edit edit = rebased(*m_last, scene.set, true);
    // What was refused has not changed, and needs no putting back.
    std::erase_if(edit.changes, [](const model::Change& change) {
        return std::visit(
            []<class One>(const One& one) {
                if constexpr (model::isOfSetItself<One>)
                    return false;
                else
                    return one.before == one.after;
            },
            change);
    });
    return edit.changes.empty() ? std::nullopt : std::optional{std::move(edit)};
}

bool Drag::stands(const model::FenceSet& set) const {
    return m_last && std::all_of(m_last->changes.begin(), m_last->changes.end(), [&](const model::Change& change) {
               return std::visit(
                   [&]<class One>(const One& one) {
                       if constexpr (model::isOfSetItself<One> ||
                                     std::is_same_v<One, model::Replacement<model::Source>>)
                           return false;
                       else {
                           const auto& roster = rosterOf<std::remove_cvref_t<decltype(*one.after)>>(set);
                           return one.index < roster.size() && roster.pointer(one.index) == one.after;
                       }
                   },
                   change);
           });
}

} // namespace fencewright::desktop
