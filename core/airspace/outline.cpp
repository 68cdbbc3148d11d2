#include "airspace/outline.h"

#include "fault.h"
#include "geometry/offset.h"
#include "geometry/overlay.h"
#include "geometry/validity.h"
#include "units/number_notation.h"

#include <cmath>
#include <variant>
#include <vector>

namespace fencewright::airspace {
namespace {

using geometry::Side;
using model::MultiPolygon;

constexpr double kMostLatitude = 89.0;   // as offsets: beyond it a fence might enclose the pole
constexpr double kMostLongitude = 540.0; // a turn beyond either side: what lies farther is no longitude

void requireUsable(const model::Polygon& polygon) {
    const auto check = [](const model::Ring& ring) {
        for (const auto& corner : ring.corners)
            if (!std::isfinite(corner.lon) || !std::isfinite(corner.lat) || std::abs(corner.lat) > kMostLatitude ||
                std::abs(corner.lon) > kMostLongitude)
                throw Fault{
                    phrase("core",
                           "A corner is not a number, or lies beyond 89 degrees of latitude or 540 of longitude."),
                    phrase("core", "longitude %1, latitude %2")(units::shortest(corner.lon),
                                                                units::shortest(corner.lat)),
                    phrase("core", "Correct or delete that corner.")};
    };
    check(polygon.shell);
    for (const auto& hole : polygon.holes)
        check(hole);
}

/// The polygon as drawn, or repaired where it is not valid.
MultiPolygon enclosed(const model::Polygon& polygon, Side side) {
    requireUsable(polygon);
    if (geometry::isValid(polygon))
        return {{polygon}};
    return geometry::repaired(polygon, side).surface;
}

std::vector<MultiPolygon> parcelSurfaces(const model::ParcelUnion& shape, Side side) {
    std::vector<MultiPolygon> surfaces;
    for (const auto& parcel : shape.parcels)
        for (const auto& part : parcel.surface.parts)
            surfaces.push_back(enclosed(part, side));
    return surfaces;
}

/// Around a site, at a distance that may come out negative: then the site's true place is known so badly that only
/// what lies well inside an area site is near it for certain.
struct AroundSite {
    Length distance;
    Side side;

    MultiPolygon operator()(const model::Position& place) const {
        return distance < Length{} ? MultiPolygon{} : geometry::grown(place, distance, side);
    }
    MultiPolygon operator()(const model::LineString& line) const {
        return distance < Length{} ? MultiPolygon{} : geometry::grown(line, distance, side);
    }
    MultiPolygon operator()(const model::Polygon& polygon) const {
        const auto area = enclosed(polygon, side);
        return distance < Length{} ? geometry::eroded(area, -distance, side) : geometry::grown(area, distance, side);
    }
};

struct Outline {
    Side side;
    const model::Roster<model::Site>& sites;

    MultiPolygon operator()(const model::DrawnPolygon& shape) const { return enclosed(shape.polygon, side); }
    MultiPolygon operator()(const model::Circle& shape) const {
        return geometry::grown(shape.centre, shape.radius.length, side);
    }
    MultiPolygon operator()(const model::Corridor& shape) const {
        return geometry::grown(shape.line, shape.left.length, shape.right.length, side);
    }
    MultiPolygon operator()(const model::Setback& shape) const {
        const auto* site = sites.find(shape.site);
        if (!site)
            return {};
        const Length error = site->positionError.length;
        const Length distance = side == Side::Grow ? shape.distance.length + error : shape.distance.length - error;
        return std::visit(AroundSite{distance, side}, site->geometry);
    }
    MultiPolygon operator()(const model::ParcelUnion& shape) const {
        return geometry::unitedClosing(parcelSurfaces(shape, side), shape.closing.length).surface;
    }
};

} // namespace

Side safeSide(model::FenceKind kind) { return kind == model::FenceKind::KeepOut ? Side::Grow : Side::Shrink; }

MultiPolygon outline(const model::Fence& fence, const model::Roster<model::Site>& sites) {
    try {
        return std::visit(Outline{safeSide(fence.kind), sites}, fence.shape);
    } catch (const Fault& fault) {
        const Wording name = fence.name.empty() ? Wording{phrase("core", "fence without a name")}
                                                : phrase("core", "fence \"%1\"")(fence.name);
        const FaultWords& words = fault.words();
        throw Fault{words.problem, words.place.empty() ? name : Wording::joined({name, words.place}, ", "),
                    words.remedy};
    }
}

MultiPolygon closedGaps(const model::Fence& fence) {
    const auto* shape = std::get_if<model::ParcelUnion>(&fence.shape);
    if (!shape)
        return {};
    return geometry::unitedClosing(parcelSurfaces(*shape, safeSide(fence.kind)), shape->closing.length).closedGaps;
}

} // namespace fencewright::airspace
