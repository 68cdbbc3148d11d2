#include "geometry/simplify.h"

#include "fault.h"
#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/made_valid.h"
#include "geometry/detail/soundness.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

namespace fencewright::geometry {
namespace {

using detail::GeosContext;
using model::MultiPolygon;

/// Whole numbers of the last decimal. A whole number over a power of ten up to 10^22 is divided without a rounding
/// before the last, so that the quotient is the double nearest to its decimal text.
struct Decimals {
    double scale;       ///< units in a degree
    double originX = 0; ///< in units; taken off so that the work has digits to spare
    double originY = 0;

    [[nodiscard]] double nearest(double degrees) const { return std::round(degrees * scale) / scale; }
};

template <class Change> void changeCorners(MultiPolygon& surface, Change&& change) {
    const auto changeRing = [&](model::Ring& ring) { std::for_each(ring.corners.begin(), ring.corners.end(), change); };
    for (auto& part : surface.parts) {
        changeRing(part.shell);
        std::for_each(part.holes.begin(), part.holes.end(), changeRing);
    }
}

bool isRound(const MultiPolygon& surface, const Decimals& decimals) {
    auto copy = surface;
    bool round = true;
    changeCorners(copy, [&](model::Position& corner) {
        round = round && decimals.nearest(corner.lon) == corner.lon && decimals.nearest(corner.lat) == corner.lat;
    });
    return round;
}

/// Moves the boundary outward (inward where `units` is negative), then to the grid.
MultiPolygon movedToGrid(const MultiPolygon& surface, const Decimals& decimals, double units) {
    auto plane = surface;
    const double originLon = decimals.originX / decimals.scale, originLat = decimals.originY / decimals.scale;
    changeCorners(plane, [&](model::Position& corner) {
        corner.lon = (corner.lon - originLon) * decimals.scale;
        corner.lat = (corner.lat - originLat) * decimals.scale;
    });
    GeosContext context;
    constexpr int kMitre = GEOSBUF_JOIN_MITRE;
    constexpr double kMitreLimit = 2.0;
    const auto given = detail::toGeos(context, plane);
    const auto moved = context.own(
        GEOSBufferWithStyle_r(context.handle(), given.get(), units, 4, GEOSBUF_CAP_FLAT, kMitre, kMitreLimit),
        "rounding");
    const auto snapped = context.own(GEOSGeom_setPrecision_r(context.handle(), moved.get(), 1.0, 0), "rounding");
    auto result = detail::fromGeos(context, snapped.get());
    changeCorners(result, [&](model::Position& corner) {
        corner.lon = (std::round(corner.lon) + decimals.originX) / decimals.scale;
        corner.lat = (std::round(corner.lat) + decimals.originY) / decimals.scale;
    });
    return result;
}

} // namespace

Simplified rounded(const MultiPolygon& surface, int decimals, Side side) {
    if (decimals < 4 || decimals > 12)
        throw Fault{phrase("core", "Coordinates cannot be rounded to %1 decimals.")(decimals), "",
                    phrase("core", "Choose 4 to 12 decimals.")};
    const auto whole = detail::madeValid(surface, side);
    const auto box = boxOf(whole);
    Decimals grid{std::pow(10.0, decimals)};
    if (whole.empty() || isRound(whole, grid))
        return {whole, {}};
    grid.originX = std::round((box.minX + box.maxX) / 2.0 * grid.scale);
    grid.originY = std::round((box.minY + box.maxY) / 2.0 * grid.scale);
    const double sign = side == Side::Grow ? 1.0 : -1.0;
    // Half a diagonal of the grid is what snapping moves at most; the rest is for the library's own tolerance.
    for (const double units : {0.72, 0.8, 1.0, 1.4, 2.0}) {
        auto result = movedToGrid(whole, grid, sign * units);
        if (result.empty())
            break;
        if (!detail::requireExamined(result, "rounding") ||
            !(side == Side::Grow ? contains(result, surface) : contains(surface, result)))
            continue;
        const double change =
            geodesy::measure(result).area.inSquareMetres() - geodesy::measure(surface).area.inSquareMetres();
        return {std::move(result), Area::squareMetres(std::max(0.0, sign * change))};
    }
    throw Fault{side == Side::Grow
                    ? phrase("core", "The outline cannot be kept on its safe side with %1 decimals.")(decimals)
                    : phrase("core", "Nothing is left of the outline with %1 decimals.")(decimals),
                "", phrase("core", "Choose more decimals.")};
}

} // namespace fencewright::geometry
