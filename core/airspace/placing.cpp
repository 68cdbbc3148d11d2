#include "airspace/placing.h"

#include "fault.h"
#include "geodesy/geodesic.h"
#include "geodesy/local_frame.h"
#include "units/number_notation.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <numbers>
#include <type_traits>
#include <utility>
#include <vector>

namespace fencewright::airspace {
namespace {

using geodesy::PlanePoint;
using model::Position;

constexpr double kMostLatitude = 89.0; // as outlines
constexpr double kMostReachMetres = 1e6;

template <class... Cases> struct Overloaded : Cases... { using Cases::operator()...; };
template <class... Cases> Overloaded(Cases...) -> Overloaded<Cases...>;

// Every place of a thing, always in the same order.

template <class Visit> void visitPlaces(model::LineString& line, Visit visit) {
    std::for_each(line.begin(), line.end(), visit);
}

template <class Visit> void visitPlaces(model::Polygon& polygon, Visit visit) {
    visitPlaces(polygon.shell.corners, visit);
    for (model::Ring& hole : polygon.holes)
        visitPlaces(hole.corners, visit);
}

template <class Visit> void visitPlaces(model::Fence& fence, Visit visit) {
    std::visit(Overloaded{[&](model::DrawnPolygon& drawn) { visitPlaces(drawn.polygon, visit); },
                          [&](model::Circle& circle) { visit(circle.centre); },
                          [&](model::Corridor& corridor) { visitPlaces(corridor.line, visit); }, [](model::Setback&) {},
                          [&](model::ParcelUnion& parcels) {
                              for (model::Parcel& parcel : parcels.parcels)
                                  for (model::Polygon& part : parcel.surface.parts)
                                      visitPlaces(part, visit);
                          }},
               fence.shape);
}

template <class Visit> void visitPlaces(model::Site& site, Visit visit) {
    std::visit(Overloaded{[&](Position& place) { visit(place); }, [&](auto& places) { visitPlaces(places, visit); }},
               site.geometry);
}

template <class Visit> void visitPlaces(model::Home& home, Visit visit) { visit(home.place); }

void scaleLengths(model::Fence& fence, double factor) {
    const auto scale = [&](StatedLength& length) { length = {length.length * factor, {}}; };
    std::visit(Overloaded{[](const model::DrawnPolygon&) {}, [](const model::Setback&) {},
                          [&](model::Circle& circle) { scale(circle.radius); },
                          [&](model::Corridor& corridor) {
                              scale(corridor.left);
                              scale(corridor.right);
                          },
                          [&](model::ParcelUnion& parcels) { scale(parcels.closing); }},
               fence.shape);
}
void scaleLengths(model::Site&, double) {}
void scaleLengths(model::Home&, double) {}

[[noreturn]] void refuseFar() {
    throw Fault{phrase("core", "What is chosen reaches farther than 1000 km."), "",
                phrase("core", "Move, turn or scale less of it at once.")};
}

/// Carries places from around the pivot to around where it goes.
class Carrier {
public:
    explicit Carrier(const Placing& placing)
        : m_placing{placing}, m_from{placing.pivot}, m_onto{placing.to}, m_cos{std::cos(placing.turn.inRadians()) *
                                                                               placing.scale},
          m_sin{std::sin(placing.turn.inRadians()) * placing.scale}, m_changes{placing.pivot != placing.to ||
                                                                               placing.turn != Angle{} ||
                                                                               placing.scale != 1.0} {}

    template <class Placed> Placed operator()(Placed thing) const {
        if (!m_changes)
            return thing;
        std::vector<Position> places;
        visitPlaces(thing, [&](const Position& place) { places.push_back(place); });
        std::vector<PlanePoint> points = m_from.toPlane(places);
        for (PlanePoint& point : points) {
            if (std::hypot(point.x, point.y) * std::max(1.0, m_placing.scale) > kMostReachMetres)
                refuseFar();
            point = {point.x * m_cos + point.y * m_sin, point.y * m_cos - point.x * m_sin};
        }
        std::vector<Position> carried = m_onto.toEarth(points);
        for (std::size_t i = 0; i < places.size(); ++i) {
            if (places[i] == m_placing.pivot)
                carried[i] = m_placing.to;
            if (!(std::abs(carried[i].lat) <= kMostLatitude))
                throw Fault{phrase("core", "%1 would come too near a pole.")(thing.name), "",
                            phrase("core", "Keep it within 89 degrees of latitude.")};
        }
        const double turns = carried.empty() ? 0.0 : std::round(carried.front().lon / 360.0) * 360.0;
        std::size_t next = 0;
        visitPlaces(thing, [&](Position& place) {
            place = carried[next++];
            place.lon -= turns;
        });
        if (m_placing.scale != 1.0)
            scaleLengths(thing, m_placing.scale);
        return thing;
    }

private:
    const Placing& m_placing;
    geodesy::LocalFrame m_from;
    geodesy::LocalFrame m_onto;
    double m_cos;
    double m_sin;
    bool m_changes;
};

void requireSound(const Placing& placing) {
    if (!(placing.scale > 0.0) || !std::isfinite(placing.scale) || !std::isfinite(placing.turn.inDegrees()))
        throw Fault{phrase("core", "A shape cannot be scaled by %1.")(units::shortest(placing.scale)), "",
                    phrase("core", "Type a factor over zero, such as \"x 1.5\" or \"150 %\".")};
}

[[noreturn]] void refuseAlone(const model::Fence& setback) {
    throw Fault{phrase("core", "%1 follows its site, and cannot be moved, turned or scaled alone.")(setback.name), "",
                phrase("core", "Choose its site as well, or the site alone.")};
}

[[noreturn]] void refuseGone(const std::string& id) {
    throw Fault{phrase("core", "What is chosen is not in the set."), id,
                phrase("core", "It may have been deleted meanwhile.")};
}

enum class Doing { Move, Turn, Scale, TurnAndScale };

Doing doingOf(const Placing& placing) {
    if (placing.turn != Angle{})
        return placing.scale != 1.0 ? Doing::TurnAndScale : Doing::Turn;
    return placing.scale != 1.0 ? Doing::Scale : Doing::Move;
}

Wording titleOf(Doing doing, const std::string& name) {
    switch (doing) {
    case Doing::Move:
        return phrase("core", "Move %1")(name);
    case Doing::Turn:
        return phrase("core", "Turn %1")(name);
    case Doing::Scale:
        return phrase("core", "Scale %1")(name);
    case Doing::TurnAndScale:
        break;
    }
    return phrase("core", "Turn and scale %1")(name);
}

Wording titleOf(Doing doing, std::size_t number) {
    switch (doing) {
    case Doing::Move:
        return phrase("core", "Move %1 things")(number);
    case Doing::Turn:
        return phrase("core", "Turn %1 things")(number);
    case Doing::Scale:
        return phrase("core", "Scale %1 things")(number);
    case Doing::TurnAndScale:
        break;
    }
    return phrase("core", "Turn and scale %1 things")(number);
}

template <class T, class Kind> const T& thingIn(const model::Roster<T>& roster, const model::Id<Kind>& id) {
    const T* thing = roster.find(id);
    if (!thing)
        refuseGone(id.value);
    return *thing;
}

} // namespace

Placing movedAlong(const Position& pivot, Angle azimuth, Length way) {
    return {pivot, geodesy::direct(pivot, azimuth, way), {}, 1.0};
}

Placing movedBy(const Position& pivot, Length east, Length north) {
    // Measured along the meridian, the way back is the way there.
    Position to = pivot;
    if (north != Length{}) {
        const bool southward = north < Length{};
        const Position along =
            geodesy::direct(pivot, Angle::degrees(southward ? 180.0 : 0.0), southward ? -north : north);
        if (std::abs(along.lon - pivot.lon) > 1.0)
            throw Fault{phrase("core", "That leads past a pole."), "",
                        phrase("core", "Keep it within 89 degrees of latitude.")};
        to.lat = along.lat;
    }
    if (east != Length{}) {
        const bool westward = east < Length{};
        const Position middle{0.0, (pivot.lat + to.lat) / 2.0};
        to.lon += geodesy::direct(middle, Angle::degrees(westward ? 270.0 : 90.0), westward ? -east : east).lon;
    }
    return {pivot, to, {}, 1.0};
}

Placing turnedBy(const Position& pivot, Angle clockwise) { return {pivot, pivot, clockwise, 1.0}; }

Placing scaledBy(const Position& pivot, double factor) { return {pivot, pivot, {}, factor}; }

model::Edit placed(const model::FenceSet& set, std::span<const model::Thing> things, const Placing& placing) {
    requireSound(placing);
    if (things.empty())
        throw Fault{phrase("core", "Nothing is chosen."), "", phrase("core", "Choose what is to be placed.")};
    const Doing doing = doingOf(placing);
    const Carrier carrier{placing};
    model::Edit edit;
    std::vector<model::Thing> chosen{things.begin(), things.end()};
    std::sort(chosen.begin(), chosen.end());
    chosen.erase(std::unique(chosen.begin(), chosen.end()), chosen.end());
    const auto isChosen = [&](const model::Thing& thing) {
        return std::binary_search(chosen.begin(), chosen.end(), thing);
    };
    // Through the whole set once, for many may be chosen.
    std::size_t found = 0;
    const auto carry = [&]<class T>(const model::Roster<T>& roster) {
        for (std::size_t index = 0; index < roster.size(); ++index) {
            const T& thing = roster[index];
            if (!isChosen(thing.id))
                continue;
            ++found;
            if constexpr (std::is_same_v<T, model::Fence>)
                if (const auto* setback = std::get_if<model::Setback>(&thing.shape)) {
                    if (!isChosen(setback->site))
                        refuseAlone(thing);
                    continue;
                }
            edit.changes.push_back(
                model::Replacement<T>{index, roster.pointer(index), std::make_shared<const T>(carrier(thing))});
            edit.title = titleOf(doing, thing.name);
        }
    };
    carry(set.fences);
    carry(set.sites);
    carry(set.homes);
    if (found < chosen.size())
        refuseGone({});
    if (things.size() > 1)
        edit.title = titleOf(doing, things.size());
    return edit;
}

model::Fence placed(model::Fence fence, const Placing& placing) {
    requireSound(placing);
    return std::holds_alternative<model::Setback>(fence.shape) ? fence : Carrier{placing}(std::move(fence));
}

model::Site placed(model::Site site, const Placing& placing) {
    requireSound(placing);
    return Carrier{placing}(std::move(site));
}

model::Home placed(model::Home home, const Placing& placing) {
    requireSound(placing);
    return Carrier{placing}(std::move(home));
}

std::optional<Position> pivotOf(const model::FenceSet& set, std::span<const model::Thing> things) {
    std::optional<Position> least, most;
    const auto add = [&](Position place) {
        if (!std::isfinite(place.lon) || !std::isfinite(place.lat))
            return;
        if (!least)
            least = most = place;
        // On the turn of what was there before.
        place.lon = least->lon + std::remainder(place.lon - least->lon, 360.0);
        *least = {std::min(least->lon, place.lon), std::min(least->lat, place.lat)};
        *most = {std::max(most->lon, place.lon), std::max(most->lat, place.lat)};
    };
    const auto addAll = [&](auto thing) { visitPlaces(thing, add); };
    for (const model::Thing& thing : things)
        std::visit(
            Overloaded{[&](const model::FenceId& id) {
                           const model::Fence& fence = thingIn(set.fences, id);
                           addAll(fence);
                           const auto* circle = std::get_if<model::Circle>(&fence.shape);
                           for (const double azimuth : {0.0, 90.0, 180.0, 270.0})
                               if (circle && std::abs(circle->centre.lat) <= kMostLatitude)
                                   add(geodesy::direct(circle->centre, Angle::degrees(azimuth), circle->radius.length));
                       },
                       [&](const model::SiteId& id) { addAll(thingIn(set.sites, id)); },
                       [&](const model::HomeId& id) { addAll(thingIn(set.homes, id)); }},
            thing);
    if (!least)
        return std::nullopt;
    Position middle{(least->lon + most->lon) / 2.0, (least->lat + most->lat) / 2.0};
    middle.lon -= std::round(middle.lon / 360.0) * 360.0;
    return middle;
}

std::optional<Position> nearestPlaceOf(const model::FenceSet& set, const model::Thing& thing, const Position& to) {
    constexpr double radians = std::numbers::pi / 180.0;
    const double shortening = std::cos(to.lat * radians);
    std::optional<Position> nearest;
    double least = std::numeric_limits<double>::infinity();
    const auto look = [&](auto one) {
        visitPlaces(one, [&](const Position& place) {
            const double distance =
                std::hypot(std::remainder(place.lon - to.lon, 360.0) * shortening, place.lat - to.lat);
            if (distance < least) {
                least = distance;
                nearest = place;
            }
        });
    };
    std::visit(Overloaded{[&](const model::FenceId& id) { look(thingIn(set.fences, id)); },
                          [&](const model::SiteId& id) { look(thingIn(set.sites, id)); },
                          [&](const model::HomeId& id) { look(thingIn(set.homes, id)); }},
               thing);
    return nearest;
}

} // namespace fencewright::airspace
