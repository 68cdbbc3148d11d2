#include "airspace/detail/made_parts.h"
#include "airspace/detail/set_steps.h"
#include "airspace/outline.h"
#include "airspace/reshaping.h"
#include "geodesy/local_frame.h"
#include "geometry/offset.h"
#include "geometry/spatial_index.h"
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

/// Moves places along the ground: what lies around the middle of all lies the same way around where that comes to.
class GroundMove {
public:
    GroundMove(const Position& middle, const GroundShift& shift)
        : m_from{middle}, m_to{m_from.toEarth({shift.east.inMetres(), shift.north.inMetres()})} {}

    [[nodiscard]] Position operator()(const Position& place) const { return m_to.toEarth(m_from.toPlane(place)); }
    [[nodiscard]] model::LineString operator()(const model::LineString& line) const {
        return m_to.toEarth(m_from.toPlane(line));
    }
    [[nodiscard]] model::Polygon operator()(model::Polygon polygon) const {
        polygon.shell.corners = (*this)(polygon.shell.corners);
        for (auto& hole : polygon.holes)
            hole.corners = (*this)(hole.corners);
        return polygon;
    }

private:
    geodesy::LocalFrame m_from, m_to;
};

/// A lone place lies in [-180, 180].
Position onFirstTurn(const Position& place) {
    return std::abs(place.lon) <= 180.0 ? place : Position{std::remainder(place.lon, 360.0), place.lat};
}

/// The box of what is to move.
class Reach {
public:
    explicit Reach(const FenceSet& set) : m_set{set} {}

    void add(const Thing& thing) {
        std::visit([this](const auto& id) { addThing(id); }, thing);
    }
    [[nodiscard]] Position middle() const {
        return m_box.empty() ? Position{} : Position{(m_box.minX + m_box.maxX) / 2.0, (m_box.minY + m_box.maxY) / 2.0};
    }

private:
    void addThing(const model::FenceId& id) { addBox(geometry::boxOf(outline(fenceIn(m_set, id), m_set.sites))); }
    void addThing(const model::SiteId& id) {
        if (const auto* site = m_set.sites.find(id))
            std::visit([this](const auto& where) { addPlaces(where); }, site->geometry);
    }
    void addThing(const model::HomeId& id) {
        if (const auto* home = m_set.homes.find(id))
            addPlaces(home->place);
    }
    void addPlaces(const Position& place) { addBox({place.lon, place.lat, place.lon, place.lat}); }
    void addPlaces(const model::LineString& line) { addBox(geometry::boxOf(line)); }
    void addPlaces(const model::Polygon& polygon) { addBox(geometry::boxOf(polygon)); }
    /// On the turn of longitude nearest to what is there.
    void addBox(geometry::Box box) {
        if (box.empty())
            return;
        const double turn =
            m_box.empty() ? 0.0 : 360.0 * std::round((m_box.minX + m_box.maxX - box.minX - box.maxX) / 720.0);
        box.minX += turn;
        box.maxX += turn;
        m_box.add(box);
    }

    const FenceSet& m_set;
    geometry::Box m_box;
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
    Duplication(const FenceSet& set, const GroundMove& move) : m_set{set}, m_move{move}, m_steps{set} {}

    void copy(const model::SiteId& id) {
        const auto* site = m_set.sites.find(id);
        if (!site)
            throw Fault{phrase("core", "There is no such site in the set."), id.value,
                        phrase("core", "It may have been deleted meanwhile.")};
        model::Site made = named(*site, m_steps.state().sites);
        made.geometry =
            std::visit([this](const auto& where) -> model::SiteGeometry { return m_move(where); }, site->geometry);
        if (auto* place = std::get_if<Position>(&made.geometry))
            *place = onFirstTurn(*place);
        m_siteCopies.emplace(id, made.id);
        m_copies.emplace_back(made.id);
        m_steps.add(std::move(made));
    }
    void copy(const model::HomeId& id) {
        const auto* home = m_set.homes.find(id);
        if (!home)
            throw Fault{phrase("core", "There is no such home in the set."), id.value,
                        phrase("core", "It may have been deleted meanwhile.")};
        model::Home made = named(*home, m_steps.state().homes);
        made.place = onFirstTurn(m_move(home->place));
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
            for (auto& part : parts)
                part = m_move(std::move(part));
            for (const auto& one : detail::added(m_steps, std::move(made), parts))
                m_copies.emplace_back(one);
            m_notes.push_back(
                phrase("core", "The copy of %1 is a drawn polygon: parcels lie where they lie.")(fence.name));
            return;
        }
        std::visit([&](auto& shape) { moveShape(shape, fence.name); }, made.shape);
        m_copies.emplace_back(made.id);
        m_steps.add(std::move(made));
    }

    [[nodiscard]] Duplicated result(Wording title) && {
        return {std::move(m_steps).edit(std::move(title)), std::move(m_copies), std::move(m_notes)};
    }

private:
    template <class T> static T named(T thing, const model::Roster<T>& roster) {
        thing.id = model::freshId<T>();
        thing.name = detail::freeName(roster, thing.name + " copy");
        thing.locked = false; // it is there to be put where it belongs
        return thing;
    }

    void moveShape(model::DrawnPolygon& shape, const std::string&) { shape.polygon = m_move(std::move(shape.polygon)); }
    void moveShape(model::Circle& shape, const std::string&) { shape.centre = onFirstTurn(m_move(shape.centre)); }
    void moveShape(model::Corridor& shape, const std::string&) { shape.line = m_move(shape.line); }
    void moveShape(model::Setback& shape, const std::string& name) {
        if (const auto copy = m_siteCopies.find(shape.site); copy != m_siteCopies.end())
            shape.site = copy->second;
        else
            m_notes.push_back(
                phrase("core", "The copy of %1 lies where that lies, for it follows the same site.")(name));
    }
    void moveShape(model::ParcelUnion&, const std::string&) {} // copied as polygons

    const FenceSet& m_set;
    const GroundMove& m_move;
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

Duplicated duplicated(const FenceSet& set, std::span<const Thing> things, const GroundShift& shift) {
    if (things.empty())
        throw Fault{phrase("core", "Nothing is chosen to duplicate."), "",
                    phrase("core", "Choose fences, sites or homes first.")};
    Reach reach{set};
    for (const auto& thing : things)
        reach.add(thing);
    const GroundMove move{reach.middle(), shift};
    Duplication duplication{set, move};
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
