#include "exchange/written_surface.h"

#include "exchange/formats/winding.h"
#include "fault.h"
#include "geodesy/edge_meaning.h"
#include "geometry/containment.h"
#include "geometry/overlay.h"
#include "geometry/simplify.h"
#include "geometry/spatial_index.h"
#include "geometry/validity.h"
#include "units/number_notation.h"

#include <algorithm>
#include <cmath>

namespace fencewright::exchange {

namespace {

using geometry::Side;
using model::MultiPolygon;
using model::Position;

/// The double nearest to the value's text, which is what a reader will have.
double asWritten(double value, int decimals) {
    return units::parseNumber(units::fixed(value, decimals)).value_or(value);
}

/// The coordinate across, at `along`, of the edge between two corners: on it, or beside it with few enough decimals.
struct EdgeAxis {
    double fromAlong, fromAcross, toAlong, toAcross;

    double across(double along, int decimals, bool lower) const {
        if (fromAcross == toAcross)
            return fromAcross;
        const double exact = fromAcross + (toAcross - fromAcross) * ((along - fromAlong) / (toAlong - fromAlong));
        const double scale = std::pow(10.0, decimals);
        // The computed number is itself off by up to 2e-14 degrees: 0.02 units of the twelfth decimal.
        constexpr double kDoubt = 0.05;
        const double units = lower ? std::floor(exact * scale - kDoubt) : std::ceil(exact * scale + kDoubt);
        return asWritten(units / scale, decimals);
    }
};

/// A corner at the longitude, to the safe side of the edge.
///
/// The surface lies to the left of each edge (shells counter-clockwise, holes clockwise): going east it lies north, so
/// that a corner south of the edge grows it.
Position besideAtLongitude(Position from, Position to, double longitude, int decimals, Side side) {
    const bool south = (to.lon > from.lon) == (side == Side::Grow);
    return {longitude, EdgeAxis{from.lon, from.lat, to.lon, to.lat}.across(longitude, decimals, south)};
}
/// Likewise at the latitude: going north the surface lies west.
Position besideAtLatitude(Position from, Position to, double latitude, int decimals, Side side) {
    const bool west = (to.lat > from.lat) == (side == Side::Shrink);
    return {EdgeAxis{from.lat, from.lon, to.lat, to.lon}.across(latitude, decimals, west), latitude};
}

model::Ring withCornersOnLongEdges(const model::Ring& ring, int decimals, Side side) {
    // What the decimals move a corner changes the parting by far less than the tenth that is kept back.
    const model::Ring dense = geodesy::densified(ring, kLargestParting * 0.9);
    model::Ring result;
    result.closureAssumed = ring.closureAssumed;
    std::size_t next = 0; // of the given corners, which all stay
    for (const Position place : dense.corners) {
        if (next < ring.corners.size() && place == ring.corners[next]) {
            result.corners.push_back(place);
            ++next;
            continue;
        }
        const Position from = ring.corners[next - 1];
        const Position to = ring.corners[next % ring.corners.size()];
        const bool flat = std::abs(to.lon - from.lon) >= std::abs(to.lat - from.lat);
        const Position corner = flat ? besideAtLongitude(from, to, asWritten(place.lon, decimals), decimals, side)
                                     : besideAtLatitude(from, to, asWritten(place.lat, decimals), decimals, side);
        if (!(corner == result.corners.back()) && !(corner == to))
            result.corners.push_back(corner);
    }
    return result;
}

model::Ring withCrossings(const model::Ring& ring, double meridian, int decimals, Side side) {
    model::Ring result;
    result.closureAssumed = ring.closureAssumed;
    for (std::size_t i = 0; i < ring.corners.size(); ++i) {
        const Position from = ring.corners[i];
        const Position to = ring.corners[(i + 1) % ring.corners.size()];
        result.corners.push_back(from);
        if ((from.lon < meridian && to.lon > meridian) || (from.lon > meridian && to.lon < meridian))
            result.corners.push_back(besideAtLongitude(from, to, meridian, decimals, side));
    }
    return result;
}

/// Each ring changed, given to `change` with the surface on the left of its edges.
MultiPolygon withRings(MultiPolygon surface, auto change) {
    for (model::Polygon& part : surface.parts) {
        part.shell = change(wound(part.shell, Winding::CounterClockwise));
        for (model::Ring& hole : part.holes)
            hole = change(wound(hole, Winding::Clockwise));
    }
    return surface;
}

bool isSound(const MultiPolygon& surface) {
    return std::all_of(surface.parts.begin(), surface.parts.end(), geometry::isValid);
}

void forEachCoordinate(MultiPolygon& surface, auto act) {
    const auto actOnRing = [&](model::Ring& ring) {
        for (Position& corner : ring.corners)
            act(corner);
    };
    for (model::Polygon& part : surface.parts) {
        actOnRing(part.shell);
        std::for_each(part.holes.begin(), part.holes.end(), actOnRing);
    }
}

struct Cut {
    MultiPolygon whole; ///< with corners where it is cut
    MultiPolygon parts; ///< longitudes in [-180, 180]
};

Cut cut(const MultiPolygon& surface, int decimals, Side side) {
    const geometry::Box box = geometry::boxOf(surface);
    if (box.minX >= -180 && box.maxX <= 180)
        return {surface, surface};
    Cut result{surface, {}};
    for (double meridian = std::ceil((box.minX - 180) / 360) * 360 + 180; meridian < box.maxX; meridian += 360)
        result.whole = withRings(std::move(result.whole), [&](const model::Ring& ring) {
            return withCrossings(ring, meridian, decimals, side);
        });
    if (!isSound(result.whole))
        throw Fault{phrase("core", "The surface cannot be cut at the antimeridian with so few decimals."), "",
                    phrase("core", "Deliver more decimals.")};
    result.parts = geometry::cutAtAntimeridian(result.whole);
    forEachCoordinate(result.parts, [&](Position& corner) {
        // A turn subtracted leaves a rounding in the last bit.
        corner = {asWritten(corner.lon, decimals), asWritten(corner.lat, decimals)};
    });
    return result;
}

bool keepsSide(const MultiPolygon& result, const MultiPolygon& surface, Side side) {
    return side == Side::Grow ? geometry::contains(result, surface) : geometry::contains(surface, result);
}

} // namespace

WrittenSurface writtenSurface(const MultiPolygon& surface, Side side, int decimals, std::size_t budget) {
    const auto withinBudget = [&](const MultiPolygon& s) { return budget == 0 || geometry::cornerCount(s) <= budget; };
    constexpr int kAttempts = 5;
    std::size_t allowed = budget;
    for (int attempt = 1; attempt <= kAttempts; ++attempt) {
        geometry::Simplified simple{surface, {}};
        if (budget > 0)
            simple = geometry::withinBudget(surface, allowed, side);
        geometry::Simplified rounded = geometry::rounded(simple.surface, decimals, side);
        WrittenSurface result;
        result.cost = simple.cost + rounded.cost;
        MultiPolygon dense = withRings(
            rounded.surface, [&](const model::Ring& ring) { return withCornersOnLongEdges(ring, decimals, side); });
        result.cornersAdded = geometry::cornerCount(dense) - geometry::cornerCount(rounded.surface);
        if (result.cornersAdded > 0 && !(withinBudget(dense) && isSound(dense))) {
            dense = std::move(rounded.surface);
            result.cornersAdded = 0;
            result.longEdgesLeft = true;
        }
        const Cut pieces = cut(dense, decimals, side);
        result.surface = pieces.parts;
        result.overBudget = !withinBudget(result.surface);
        const std::size_t excess = result.overBudget ? geometry::cornerCount(result.surface) - budget : 0;
        if (excess > 0 && attempt < kAttempts && allowed > excess + 3) {
            allowed -= excess;
            continue;
        }
        if (keepsSide(pieces.whole, surface, side))
            return result;
        break;
    }
    throw Fault{phrase("core", "The surface cannot be kept on the safe side with so few decimals."), "",
                phrase("core", "Deliver more decimals.")};
}

std::vector<model::LineString> writtenLines(const model::LineString& line, int decimals) {
    std::vector<model::LineString> lines;
    model::LineString current;
    const auto turnOf = [](double longitude) { return std::floor((longitude + 180) / 360); };
    const auto finish = [&] {
        if (current.size() > 1)
            lines.push_back(current);
        current.clear();
    };
    // `turn` says on which sheet of longitudes the place is meant: 180 is the end of one and the start of the next.
    const auto add = [&](Position place, double turn) {
        const Position written{asWritten(place.lon - turn * 360, decimals), asWritten(place.lat, decimals)};
        if (current.empty() || !(current.back() == written))
            current.push_back(written);
    };
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        Position from = line[i];
        const Position to = line[i + 1];
        const double step = to.lon > from.lon ? 1 : -1;
        // Of a place on a meridian of the cut, the sheet is the one that the edge runs into, or comes from.
        const bool startsOnCut = turnOf(from.lon) * 360 - 180 == from.lon;
        double turn = turnOf(from.lon) - (startsOnCut && step < 0 ? 1 : 0);
        if (!current.empty() && startsOnCut)
            finish();
        add(from, turn);
        const bool endsOnCut = turnOf(to.lon) * 360 - 180 == to.lon;
        const double lastTurn = turnOf(to.lon) - (endsOnCut && step > 0 ? 1 : 0);
        while (turn != lastTurn && from.lon != to.lon) {
            const double meridian = turn * 360 + 180 * step;
            const double share = (meridian - from.lon) / (to.lon - from.lon);
            const Position place{meridian, from.lat + (to.lat - from.lat) * share};
            add(place, turn);
            finish();
            turn += step;
            add(place, turn);
        }
        add(to, turn);
    }
    finish();
    return lines;
}

Position writtenPlace(Position place) {
    if (place.lon < -180 || place.lon > 180)
        place.lon = geodesy::normalisedLongitude(place.lon);
    return place;
}

} // namespace fencewright::exchange
