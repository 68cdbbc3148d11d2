#pragma once

#include "desktop/canvas/selection.h"
#include "model/fence_set.h"
#include "session/outline_cache.h"

#include <memory>
#include <vector>

namespace fencewright::desktop {

/// What lies at a place, to within the tolerance: homes before sites before fences; of several fences the smallest.
/// Nothing: monostate.
Selection thingAt(const model::FenceSet& set,
                  const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined,
                  const model::Position& place, Length tolerance);

/// Whether the place lies in the surface, or within the tolerance of its boundary.
bool isHit(const model::MultiPolygon& surface, const model::Position& place, Length tolerance);
bool isHit(const model::SiteGeometry& geometry, const model::Position& place, Length tolerance);

} // namespace fencewright::desktop
