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

MultiPolygon withCornersOnLongEdges(MultiPolygon surface, Length tolerance) {
    for (model::Polygon& part : surface.parts)
        part = geodesy::densified(part, tolerance);
    return surface;
}

/// A corner where an edge crosses the meridian, at a latitude with few enough decimals.
///
/// The surface lies to the left of each edge (shells counter-clockwise, holes clockwise): going east it lies north, so
/// that a corner south of the edge grows it.
Position crossing(Position from, Position to, double meridian, int decimals, Side side) {
    if (from.lat == to.lat)
        return {meridian, from.lat};
    const double latitude = from.lat + (to.lat - from.lat) * ((meridian - from.lon) / (to.lon - from.lon));
    const double scale = std::pow(10.0, decimals);
    // The computed latitude is itself off by up to 2e-14 degrees: 0.02 units of the twelfth decimal.
    constexpr double kDoubt = 0.05;
    const bool southward = (to.lon > from.lon) == (side == Side::Grow);
    const double units = southward ? std::floor(latitude * scale - kDoubt) : std::ceil(latitude * scale + kDoubt);
    return {meridian, asWritten(units / scale, decimals)};
}

model::Ring withCrossings(const model::Ring& ring, double meridian, int decimals, Side side) {
    model::Ring result;
    result.closureAssumed = ring.closureAssumed;
    for (std::size_t i = 0; i < ring.corners.size(); ++i) {
        const Position from = ring.corners[i];
        const Position to = ring.corners[(i + 1) % ring.corners.size()];
        result.corners.push_back(from);
        if ((from.lon < meridian && to.lon > meridian) || (from.lon > meridian && to.lon < meridian))
            result.corners.push_back(crossing(from, to, meridian, decimals, side));
    }
    return result;
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
    for (double meridian = std::ceil((box.minX - 180) / 360) * 360 + 180; meridian < box.maxX; meridian += 360) {
        for (model::Polygon& part : result.whole.parts) {
            part.shell = withCrossings(wound(part.shell, Winding::CounterClockwise), meridian, decimals, side);
            for (model::Ring& hole : part.holes)
                hole = withCrossings(wound(hole, Winding::Clockwise), meridian, decimals, side);
        }
    }
    if (!std::all_of(result.whole.parts.begin(), result.whole.parts.end(), geometry::isValid))
        throw Fault{"The surface cannot be cut at the antimeridian with so few decimals.", "",
                    "Deliver more decimals."};
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
    std::size_t allowed = budget;
    // Corners put on an edge are off it in the last bit of a double. Where one comes to lie so that rounding does not
    // take that back, others are tried.
    constexpr double kShares[] = {0.9, 0.8, 0.7, 0.6, 0.5, 0.4};
    std::size_t attempt = 0;
    for (const double share : kShares) {
        ++attempt;
        WrittenSurface result;
        geometry::Simplified simple{surface, {}};
        if (budget > 0)
            simple = geometry::withinBudget(surface, allowed, side);
        const std::size_t before = geometry::cornerCount(simple.surface);
        MultiPolygon dense = withCornersOnLongEdges(simple.surface, kLargestParting * share);
        result.cornersAdded = geometry::cornerCount(dense) - before;
        if (budget > 0 && result.cornersAdded > 0 && before + result.cornersAdded > budget) {
            dense = std::move(simple.surface);
            result.cornersAdded = 0;
            result.longEdgesLeft = true;
        }
        const geometry::Simplified rounded = geometry::rounded(dense, decimals, side);
        const Cut pieces = cut(rounded.surface, decimals, side);
        result.surface = pieces.parts;
        result.cost = simple.cost + rounded.cost;
        const std::size_t corners = geometry::cornerCount(result.surface);
        result.overBudget = budget > 0 && corners > budget;
        if (result.overBudget && attempt < std::size(kShares) && allowed > corners - budget + 3) {
            allowed -= corners - budget;
            continue;
        }
        if (keepsSide(pieces.whole, surface, side))
            return result;
    }
    throw Fault{"The surface cannot be kept on the safe side with so few decimals.", "", "Deliver more decimals."};
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
