#include "geometry/validity.h"

#include "geodesy/geodesic.h"
#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/ring_reading.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fencewright::geometry {
namespace {

using detail::Geometry;
using detail::GeosContext;

bool finite(const model::Ring& ring) {
    return std::all_of(ring.corners.begin(), ring.corners.end(), [](const model::Position& corner) {
        return std::isfinite(corner.lon) && std::isfinite(corner.lat);
    });
}

std::vector<model::Position> withoutRepeats(const model::Ring& ring) {
    auto corners = ring.corners;
    corners.erase(std::unique(corners.begin(), corners.end()), corners.end());
    while (corners.size() > 1 && corners.front() == corners.back())
        corners.pop_back();
    return corners;
}

model::Polygon withoutRepeats(const model::Polygon& polygon) {
    model::Polygon result;
    result.shell.corners = withoutRepeats(polygon.shell);
    for (const auto& hole : polygon.holes)
        result.holes.push_back({withoutRepeats(hole), false});
    return result;
}

class Algebra {
public:
    explicit Algebra(GeosContext& context) : m_context{context} {}
    [[nodiscard]] Geometry united(const Geometry& a, const Geometry& b) {
        return m_context.own(GEOSUnion_r(m_context.handle(), a.get(), b.get()), "repair");
    }
    [[nodiscard]] Geometry less(const Geometry& a, const Geometry& b) {
        return m_context.own(GEOSDifference_r(m_context.handle(), a.get(), b.get()), "repair");
    }
    [[nodiscard]] Geometry common(const Geometry& a, const Geometry& b) {
        return m_context.own(GEOSIntersection_r(m_context.handle(), a.get(), b.get()), "repair");
    }
    [[nodiscard]] Geometry united(std::vector<Geometry> parts) {
        std::vector<GEOSGeometry*> given;
        for (auto& part : parts)
            given.push_back(part.release());
        const auto all = m_context.own(GEOSGeom_createCollection_r(m_context.handle(), GEOS_GEOMETRYCOLLECTION,
                                                                   given.data(), static_cast<unsigned>(given.size())),
                                       "repair");
        return m_context.own(GEOSUnaryUnion_r(m_context.handle(), all.get()), "repair");
    }
    [[nodiscard]] Geometry copy(const Geometry& geometry) {
        return m_context.own(GEOSGeom_clone_r(m_context.handle(), geometry.get()), "repair");
    }

private:
    GeosContext& m_context;
};

/// The places in which the insides of two or more holes lie over one another.
Geometry sharedByHoles(GeosContext& context, Algebra& algebra, const std::vector<detail::RingReading>& holes,
                       const std::vector<model::Ring>& rings) {
    std::vector<Box> boxes;
    for (const auto& ring : rings)
        boxes.push_back(boxOf(ring.corners));
    const SpatialIndex index{boxes};
    std::vector<Geometry> shared;
    for (std::size_t i = 0; i < holes.size(); ++i)
        for (const auto j : index.meeting(boxes[i]))
            if (j > i)
                shared.push_back(algebra.common(holes[i].filled, holes[j].filled));
    return shared.empty() ? detail::emptySurface(context) : algebra.united(std::move(shared));
}

Geometry repairedGeometry(GeosContext& context, const model::Polygon& polygon, Side side) {
    Algebra algebra{context};
    const auto shell = detail::readingOf(context, polygon.shell);
    std::vector<detail::RingReading> holes;
    std::vector<Geometry> filled, odd;
    for (const auto& hole : polygon.holes) {
        holes.push_back(detail::readingOf(context, hole));
        filled.push_back(algebra.copy(holes.back().filled));
        odd.push_back(algebra.copy(holes.back().odd));
    }
    if (holes.empty())
        return algebra.copy(side == Side::Grow ? shell.filled : shell.odd);
    const auto allFilled = algebra.united(std::move(filled));
    if (side == Side::Shrink)
        return algebra.less(shell.odd, allFilled);
    // A hole is certain where it lies in the shell by any reading and in no other hole. All the rest some reading
    // encloses: the even-odd rule does so for holes in holes and holes outside the shell.
    const auto once =
        algebra.less(algebra.united(std::move(odd)), sharedByHoles(context, algebra, holes, polygon.holes));
    const auto certain = algebra.common(shell.odd, once);
    return algebra.less(algebra.united(shell.filled, allFilled), certain);
}

} // namespace

bool isValid(const model::Polygon& polygon) {
    const auto usable = [](const model::Ring& ring) { return finite(ring) && withoutRepeats(ring).size() >= 3; };
    if (!usable(polygon.shell) || !std::all_of(polygon.holes.begin(), polygon.holes.end(), usable))
        return false;
    GeosContext context;
    return detail::isValidSurface(context, detail::toGeos(context, polygon).get());
}

Repaired repaired(const model::Polygon& polygon, Side side) {
    if (isValid(polygon))
        return {{{withoutRepeats(polygon)}}, {}, {}};
    GeosContext context;
    Algebra algebra{context};
    const auto result = repairedGeometry(context, polygon, side);
    const auto before = detail::evenOddReading(context, polygon);
    Repaired repaired;
    repaired.surface = detail::withoutSlivers(context, result.get());
    repaired.added = geodesy::measure(detail::fromGeos(context, algebra.less(result, before).get())).area;
    repaired.removed = geodesy::measure(detail::fromGeos(context, algebra.less(before, result).get())).area;
    return repaired;
}

} // namespace fencewright::geometry
