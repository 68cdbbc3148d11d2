#include "airspace/detail/made_parts.h"
#include "airspace/detail/set_steps.h"
#include "airspace/outline.h"
#include "airspace/placing.h"
#include "airspace/reshaping.h"
#include "geometry/offset.h"
#include "units/measure_notation.h"

#include <cmath>
#include <map>
#include <utility>

namespace fencewright::airspace {
namespace {

using detail::fenceIn;
using detail::SetSteps;
using model::Fence;
using model::FenceSet;
using model::Position;

/// "Reservoir + 50 m".
std::string offsetName(const Fence& fence, const StatedLength& distance, OffsetDirection direction) {
    const std::string words =
        distance.asWritten.empty() ? units::formatLength(distance.length, units::System::Metric) : distance.asWritten;
    const std::string name =
        direction == OffsetDirection::Outward ? fence.name + " + " + words : fence.name + " \u2212 " + words;
    return fence.name.empty() ? name.substr(1) : name;
}

/// The copy's shape where it is of the same form; nothing where it has to be drawn.
struct OffsetShape {
    Length distance;
    OffsetDirection direction;

    std::optional<model::Shape> operator()(const model::Circle& circle) const {
        const Length radius =
            direction == OffsetDirection::Outward ? circle.radius.length + distance : circle.radius.length - distance;
        if (!(radius > Length{}))
            return std::nullopt;
        return model::Circle{circle.centre, {radius, ""}};
    }
    std::optional<model::Shape> operator()(const model::Setback& setback) const {
        // Inward there is more than one answer: of an area site, the setback may reach into it.
        if (direction == OffsetDirection::Inward)
            return std::nullopt;
        return model::Setback{setback.site, {setback.distance.length + distance, ""}};
    }
    std::optional<model::Shape> operator()(const model::DrawnPolygon&) const { return std::nullopt; }
    std::optional<model::Shape> operator()(const model::Corridor&) const { return std::nullopt; }
    std::optional<model::Shape> operator()(const model::ParcelUnion&) const { return std::nullopt; }
};

/// Empty where it is gone.
std::string nameOf(const FenceSet& set, const Thing& thing) {
    const auto of = [](const auto* found) { return found ? found->name : std::string{}; };
    if (const auto* fence = std::get_if<model::FenceId>(&thing))
        return of(set.fences.find(*fence));
    if (const auto* site = std::get_if<model::SiteId>(&thing))
        return of(set.sites.find(*site));
    return of(set.homes.find(std::get<model::HomeId>(thing)));
}

class Duplication {
public:
    Duplication(const FenceSet& set, const Placing& placing, const NameGiver& name)
        : m_set{set}, m_placing{placing}, m_name{name}, m_steps{set} {}

    // That they are there, the pivot has shown.
    void copy(const model::SiteId& id) {
        model::Site made = placed(named(*m_set.sites.find(id), m_steps.state().sites), m_placing);
        m_siteCopies.emplace(id, made.id);
        m_copies.emplace_back(made.id);
        m_steps.add(std::move(made));
    }
    void copy(const model::HomeId& id) {
        model::Home made = placed(named(*m_set.homes.find(id), m_steps.state().homes), m_placing);
        m_copies.emplace_back(made.id);
        m_steps.add(std::move(made));
    }
    void copy(const model::FenceId& id) {
        const Fence& fence = fenceIn(m_set, id);
        Fence made = named(fence, m_steps.state().fences);
        if (std::holds_alternative<model::ParcelUnion>(fence.shape)) {
            std::vector<model::Polygon> parts = detail::partsOf(outline(fence, m_set.sites));
            if (parts.empty())
                throw Fault{phrase("core", "The fence encloses nothing."), fence.name,
                            phrase("core", "Correct its shape, or leave it out.")};
            for (auto& part : parts) {
                made.shape = model::DrawnPolygon{std::move(part)};
                made = placed(std::move(made), m_placing);
                part = std::get<model::DrawnPolygon>(made.shape).polygon;
            }
            for (const auto& one : detail::added(m_steps, std::move(made), parts))
                m_copies.emplace_back(one);
            m_notes.push_back(
                phrase("core", "The copy of %1 is a drawn polygon: parcels lie where they lie.")(fence.name));
            return;
        }
        if (auto* setback = std::get_if<model::Setback>(&made.shape))
            follow(*setback, fence.name);
        made = placed(std::move(made), m_placing);
        m_copies.emplace_back(made.id);
        m_steps.add(std::move(made));
    }

    [[nodiscard]] Duplicated result(Wording title) && {
        return {std::move(m_steps).edit(std::move(title)), std::move(m_copies), std::move(m_notes)};
    }

private:
    template <class T> T named(T thing, const model::Roster<T>& roster) const {
        thing.id = model::freshId<T>();
        thing.name = detail::freeName(roster, m_name(phrase("core", "%1 copy")(thing.name)));
        thing.locked = false; // it is there to be put where it belongs
        return thing;
    }

    void follow(model::Setback& setback, const std::string& name) {
        if (const auto copy = m_siteCopies.find(setback.site); copy != m_siteCopies.end())
            setback.site = copy->second;
        else
            m_notes.push_back(
                phrase("core", "The copy of %1 lies where that lies, for it follows the same site.")(name));
    }

    const FenceSet& m_set;
    const Placing& m_placing;
    const NameGiver& m_name;
    SetSteps m_steps;
    std::map<model::SiteId, model::SiteId> m_siteCopies;
    std::vector<Thing> m_copies;
    std::vector<Wording> m_notes;
};

} // namespace

Reshaped offsetCopy(const FenceSet& set, const model::FenceId& id, const StatedLength& distance,
                    OffsetDirection direction, model::FenceKind kind) {
    const Fence& fence = fenceIn(set, id);
    if (!(distance.length > Length{}) || !std::isfinite(distance.length.inMetres()))
        throw Fault{phrase("core", "The distance of the copy is not more than zero."), "",
                    phrase("core", "Type a distance, such as 50 m.")};
    SetSteps steps{set};
    Fence made = fence;
    made.id = model::freshId<Fence>();
    made.kind = kind;
    made.name = detail::freeName(set.fences, offsetName(fence, distance, direction));
    made.basis = {};
    made.locked = false;
    const auto nothingLeft = [&] {
        return Fault{phrase("core", "Nothing is left that far inside %1.")(fence.name), "",
                     phrase("core", "Type a shorter distance.")};
    };
    Reshaped result;
    if (auto shape = std::visit(OffsetShape{distance.length, direction}, fence.shape)) {
        made.shape = std::move(*shape);
        if (outline(made, set.sites).empty())
            throw nothingLeft();
        result.fences = {made.id};
        steps.add(std::move(made));
    } else {
        // The outline from which the distance is taken errs as the copy's does.
        Fence given = fence;
        given.kind = kind;
        const auto around = outline(given, set.sites);
        const auto surface = direction == OffsetDirection::Outward
                                 ? geometry::grown(around, distance.length, safeSide(kind))
                                 : geometry::eroded(around, distance.length, safeSide(kind));
        if (surface.empty())
            throw nothingLeft();
        result.fences = detail::added(steps, std::move(made), detail::partsOf(surface));
        if (std::holds_alternative<model::Setback>(fence.shape))
            result.notes.push_back(phrase("core", "The copy does not follow the site."));
    }
    result.edit = std::move(steps).edit(phrase("core", "Copy %1 at a distance")(fence.name));
    return result;
}

Duplicated duplicated(const FenceSet& set, std::span<const Thing> things, const GroundShift& shift,
                      const NameGiver& named) {
    if (things.empty())
        throw Fault{phrase("core", "Nothing is chosen to duplicate."), "",
                    phrase("core", "Choose fences, sites or homes first.")};
    // Setbacks alone have no place of their own to move.
    const Placing placing = movedBy(pivotOf(set, things).value_or(Position{}), shift.east, shift.north);
    Duplication duplication{set, placing, named};
    // Sites first, so that their setbacks find the copies.
    for (const auto& thing : things)
        if (const auto* site = std::get_if<model::SiteId>(&thing))
            duplication.copy(*site);
    for (const auto& thing : things)
        if (const auto* fence = std::get_if<model::FenceId>(&thing))
            duplication.copy(*fence);
        else if (const auto* home = std::get_if<model::HomeId>(&thing))
            duplication.copy(*home);
    return std::move(duplication)
        .result(things.size() == 1 ? phrase("core", "Duplicate %1")(nameOf(set, things.front()))
                                   : phrase("core", "Duplicate %1 things")(things.size()));
}

} // namespace fencewright::airspace
