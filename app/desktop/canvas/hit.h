#pragma once

#include "desktop/canvas/selection.h"
#include "geometry/changing_index.h"
#include "model/fence_set.h"
#include "session/outline_cache.h"

#include <algorithm>
#include <memory>
#include <vector>

namespace fencewright::desktop {

/// What lies at a place, to within the tolerance: homes before sites before fences; of several fences the smallest.
/// Nothing: an empty selection.
/// @param places  the boxes of `outlined`, by place in it; null: every one is looked at.
Selection thingAt(const model::FenceSet& set,
                  const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined,
                  const model::Position& place, Length tolerance, const geometry::ChangingIndex* places = nullptr);

/// Whether the place lies in the surface, or within the tolerance of its boundary.
bool isHit(const model::MultiPolygon& surface, const model::Position& place, Length tolerance);
bool isHit(const session::OutlinedFence& fence, const model::Position& place, Length tolerance);
/// Whether the place lies within the tolerance of the boundary.
bool isOnBoundary(const session::OutlinedFence& fence, const model::Position& place, Length tolerance);
bool isHit(const model::SiteGeometry& geometry, const model::Position& place, Length tolerance);

/// All places within the tolerance, on the turn of longitude on which `toward` lies; everything, where that reaches
/// around half the earth.
geometry::Box windowAround(const model::Position& place, Length tolerance, const geometry::Box& toward);

/// Calls `visit(number)` once for each box within the tolerance of the place, on whatever turn of longitude, in
/// ascending order.
template <class Visit>
void visitNear(const geometry::ChangingIndex& places, const model::Position& place, Length tolerance, Visit visit) {
    const geometry::Box window = windowAround(place, tolerance, {place.lon, place.lat, place.lon, place.lat});
    std::vector<std::size_t> numbers;
    for (const double turn : {0.0, -360.0, 360.0, -720.0, 720.0})
        places.visitMeeting({window.minX + turn, window.minY, window.maxX + turn, window.maxY},
                            [&](std::size_t number) {
                                numbers.push_back(number);
                                return true;
                            });
    std::sort(numbers.begin(), numbers.end());
    numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
    for (const std::size_t number : numbers)
        visit(number);
}

} // namespace fencewright::desktop
