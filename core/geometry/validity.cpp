#include "geometry/validity.h"

#include "geodesy/geodesic.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/geos_overlay.h"
#include "geometry/detail/repeated_corners.h"
#include "geometry/detail/ring_reading.h"
#include "geometry/detail/soundness.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <string_view>
#include <utility>

namespace fencewright::geometry {
namespace {

using detail::Geometry;
using detail::GeosContext;

constexpr std::string_view kRepair = "repair";

std::vector<model::Position> withoutRepeats(const model::Ring& ring) {
    auto corners = ring.corners;
    detail::dropRepeats(corners);
    return corners;
}

model::Polygon withoutRepeats(const model::Polygon& polygon) {
    model::Polygon result;
    result.shell.corners = withoutRepeats(polygon.shell);
    for (const auto& hole : polygon.holes)
        result.holes.push_back({withoutRepeats(hole), false});
    return result;
}

/// The places in which the insides of two or more holes lie over one another.
Geometry sharedByHoles(GeosContext& context, const std::vector<detail::RingReading>& holes,
                       const std::vector<model::Ring>& rings) {
    std::vector<Box> boxes;
    for (const auto& ring : rings)
        boxes.push_back(boxOf(ring.corners));
    const SpatialIndex index{boxes};
    std::vector<Geometry> shared;
    for (std::size_t i = 0; i < holes.size(); ++i)
        for (const auto j : index.meeting(boxes[i]))
            if (j > i)
                shared.push_back(detail::common(context, holes[i].filled, holes[j].filled, kRepair));
    return shared.empty() ? detail::emptySurface(context) : detail::united(context, std::move(shared), kRepair);
}

Geometry repairedGeometry(GeosContext& context, const model::Polygon& polygon, Side side) {
    const auto shell = detail::readingOf(context, polygon.shell);
    std::vector<detail::RingReading> holes;
    std::vector<Geometry> filled, odd;
    for (const auto& hole : polygon.holes) {
        holes.push_back(detail::readingOf(context, hole));
        filled.push_back(detail::copy(context, holes.back().filled.get()));
        odd.push_back(detail::copy(context, holes.back().odd.get()));
    }
    if (holes.empty())
        return detail::copy(context, (side == Side::Grow ? shell.filled : shell.odd).get());
    const auto allFilled = detail::united(context, std::move(filled), kRepair);
    if (side == Side::Shrink)
        return detail::less(context, shell.odd, allFilled, kRepair);
    // A hole is certain where it lies in the shell by any reading and in no other hole. All the rest some reading
    // encloses: the even-odd rule does so for holes in holes and holes outside the shell.
    const auto once = detail::less(context, detail::united(context, std::move(odd), kRepair),
                                   sharedByHoles(context, holes, polygon.holes), kRepair);
    const auto certain = detail::common(context, shell.odd, once, kRepair);
    return detail::less(context, detail::united(context, shell.filled, allFilled, kRepair), certain, kRepair);
}

} // namespace

bool isValid(const model::Polygon& polygon) { return detail::soundness({{polygon}}) == detail::Soundness::Sound; }

Repaired repaired(const model::Polygon& polygon, Side side) {
    if (detail::requireExamined({{polygon}}, "repair"))
        return {{{withoutRepeats(polygon)}}, {}, {}};
    GeosContext context;
    const auto result = repairedGeometry(context, polygon, side);
    const auto before = detail::evenOddReading(context, polygon);
    Repaired repaired;
    repaired.surface = detail::withoutSlivers(context, result.get());
    repaired.added =
        geodesy::measure(detail::fromGeos(context, detail::less(context, result, before, kRepair).get())).area;
    repaired.removed =
        geodesy::measure(detail::fromGeos(context, detail::less(context, before, result, kRepair).get())).area;
    return repaired;
}

} // namespace fencewright::geometry
