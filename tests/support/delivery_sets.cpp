#include "support/delivery_sets.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace fencewright::support {

namespace {

using namespace std::chrono;
using model::Fence;
using model::FenceKind;
using model::HeightReference;
using model::Position;

StatedLength metres(double value) { return {Length::metres(value), ""}; }

model::Ring rectangle(double west, double south, double east, double north) {
    return {{{west, south}, {east, south}, {east, north}, {west, north}}, false};
}

Fence fence(const std::string& name, FenceKind kind, model::Shape shape) {
    Fence result;
    result.id = model::freshId<Fence>();
    result.name = name;
    result.kind = kind;
    result.shape = std::move(shape);
    return result;
}

} // namespace

model::HeightLimit heightLimit(double height, HeightReference reference) { return {metres(height), reference}; }

model::FenceSet deliverySet() {
    model::FenceSet set;
    set.title = "Weir & <dam> \"east\"";

    Fence land =
        fence("Utility land", FenceKind::KeepIn,
              model::DrawnPolygon{{rectangle(8.0, 50.0, 8.05, 50.03), {rectangle(8.02, 50.01, 8.022, 50.012)}}});
    land.band.ceiling = heightLimit(120, HeightReference::Ground);
    land.basis.kind = model::BasisKind::Lease;
    land.basis.citation = "Lease 17/2026, p. 3";
    land.notes = "First line\nsecond line";
    set.fences.append(land);

    Fence parcels = fence("Meadows", FenceKind::KeepIn,
                          model::ParcelUnion{{{"12", {{{rectangle(8.06, 50.0, 8.07, 50.01), {}}}}},
                                              {"14", {{{rectangle(8.08, 50.0, 8.09, 50.01), {}}}}}},
                                             metres(0)});
    parcels.band.floor = heightLimit(30, HeightReference::Ground);
    parcels.band.ceiling = heightLimit(400, HeightReference::Ellipsoid);
    parcels.period.from = model::Date{2026y / March / 1};
    parcels.period.until = model::Date{2026y / October / 31};
    set.fences.append(parcels);

    model::Site nest;
    nest.id = model::freshId<model::Site>();
    nest.name = "Nest on Heron Island";
    nest.category = "osprey nest";
    nest.geometry = Position{8.0312345, 50.0212345};
    nest.positionError = metres(5);
    nest.confidential = true;
    set.sites.append(nest);
    Fence setback = fence("Nest on Heron Island, 1/4 mi", FenceKind::KeepOut,
                          model::Setback{nest.id, {Length::statuteMiles(0.25), "1/4 mi"}});
    setback.period.season = model::Season{April / 1, August / 31};
    setback.basis.kind = model::BasisKind::Guideline;
    setback.basis.citation = "Nest on Heron Island, field notes";
    setback.notes = "Seen from the ferry";
    set.fences.append(setback);

    model::Site school;
    school.id = model::freshId<model::Site>();
    school.name = "School";
    school.geometry = model::Polygon{rectangle(8.01, 50.005, 8.0105, 50.0055), {}};
    set.sites.append(school);
    Fence schoolFence = fence("School grounds", FenceKind::KeepOut, model::Setback{school.id, metres(50)});
    schoolFence.band.ceiling = heightLimit(300, HeightReference::MeanSeaLevel);
    set.fences.append(schoolFence);

    model::Site road;
    road.id = model::freshId<model::Site>();
    road.name = "Road";
    road.geometry = model::LineString{{8.0, 50.02}, {8.02, 50.025}, {8.05, 50.02}};
    set.sites.append(road);
    Fence corridor = fence("Road strip", FenceKind::KeepOut,
                           model::Corridor{{{8.0, 50.02}, {8.02, 50.025}, {8.05, 50.02}}, metres(30), metres(20)});
    corridor.band.ceiling = heightLimit(60, HeightReference::Ground);
    set.fences.append(corridor);

    Fence store = fence("Chlorine store", FenceKind::KeepOut, model::Circle{{8.04, 50.01}, metres(150)});
    store.band.floor = heightLimit(100, HeightReference::Ellipsoid);
    store.band.ceiling = heightLimit(350.123, HeightReference::Ellipsoid);
    set.fences.append(store);

    Fence old = fence("Old yard", FenceKind::KeepOut, model::Circle{{8.045, 50.025}, metres(20)});
    old.enabled = false;
    set.fences.append(old);

    set.homes.append({model::freshId<model::Home>(), "Crest", model::HomeKind::Home, {8.005, 50.015}, metres(10), ""});
    set.homes.append(
        {model::freshId<model::Home>(), "Boat yard", model::HomeKind::Alternate, {8.048, 50.002}, metres(15), ""});
    return set;
}

model::FenceId fenceNamed(const model::FenceSet& set, const std::string& name) {
    for (const Fence& each : set.fences)
        if (each.name == name)
            return each.id;
    throw std::invalid_argument{"no fence " + name};
}

model::FenceSet randomFenceSet(std::mt19937& random) {
    const auto real = [&](double low, double high) {
        return std::uniform_real_distribution<double>{low, high}(random);
    };
    const auto oneIn = [&](int n) { return std::uniform_int_distribution<int>{1, n}(random) == 1; };

    Position centre{real(-180, 180), oneIn(3) ? real(60, 80) : real(-60, 60)};
    if (oneIn(3))
        centre.lon = (oneIn(2) ? 180 : -180) + (oneIn(3) ? 0 : real(-0.02, 0.02));
    const double metresOfLatitude = 1 / 111000.0;
    const double metresOfLongitude = metresOfLatitude / std::cos(centre.lat * std::numbers::pi / 180);
    const auto at = [&](Position from, double east, double north) {
        return Position{from.lon + east * metresOfLongitude, from.lat + north * metresOfLatitude};
    };

    const auto star = [&](Position middle, double size, int corners) {
        model::Ring ring;
        for (int i = 0; i < corners; ++i) {
            const double angle = 2 * std::numbers::pi * (i + real(-0.3, 0.3)) / corners;
            // Radii that are mostly alike bring corners almost into line; some are drawn far in, for spikes.
            const double radius = size * (oneIn(4) ? real(0.3, 1) : real(0.99, 1));
            ring.corners.push_back(at(middle, radius * std::cos(angle), radius * std::sin(angle)));
        }
        if (oneIn(4)) { // corners on, or a hair beside, an edge
            const Position a = ring.corners[0], b = ring.corners[1];
            const double share = real(0.1, 0.9);
            ring.corners.insert(ring.corners.begin() + 1, {a.lon + share * (b.lon - a.lon),
                                                           a.lat + share * (b.lat - a.lat) + (oneIn(2) ? 0 : 1e-9)});
        }
        if (oneIn(4)) // on the grid of few decimals
            for (Position& corner : ring.corners)
                corner = {std::round(corner.lon * 1e5) / 1e5, std::round(corner.lat * 1e5) / 1e5};
        return ring;
    };

    model::FenceSet set;
    const int fences = std::uniform_int_distribution<int>{1, 3}(random);
    for (int i = 0; i < fences; ++i) {
        const FenceKind kind = oneIn(2) ? FenceKind::KeepIn : FenceKind::KeepOut;
        const Position middle = at(centre, real(-3000, 3000), real(-3000, 3000));
        const double size = std::pow(10, real(1.5, 3.6));
        model::Shape shape = model::Circle{middle, metres(size)};
        if (!oneIn(6)) {
            model::Polygon polygon{star(middle, size, std::uniform_int_distribution<int>{3, 9}(random)), {}};
            if (oneIn(4))
                polygon.holes.push_back(star(middle, size * 0.1, 4));
            if (oneIn(10))
                std::swap(polygon.shell.corners[1], polygon.shell.corners[2]);
            shape = model::DrawnPolygon{std::move(polygon)};
        }
        Fence made = fence("Fence " + std::to_string(i), kind, std::move(shape));
        const auto reference = [&] {
            return oneIn(3)   ? HeightReference::Ellipsoid
                   : oneIn(2) ? HeightReference::Ground
                              : HeightReference::MeanSeaLevel;
        };
        if (!oneIn(3))
            made.band.ceiling = heightLimit(real(50, 500), reference());
        if (oneIn(3))
            made.band.floor = heightLimit(real(0, 50), reference());
        set.fences.append(std::move(made));
    }
    return set;
}

} // namespace fencewright::support
