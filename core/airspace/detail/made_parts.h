#pragma once

#include "airspace/detail/set_steps.h"
#include "model/polygon.h"

#include <vector>

namespace fencewright::airspace::detail {

/// The parts, the largest first.
[[nodiscard]] std::vector<model::Polygon> partsOf(const model::MultiPolygon& surface);

/// The fence becomes the drawn polygon of the first part; the others are further fences like it, right behind it, with
/// names of their own. @return  all of them. @pre  there is a part.
std::vector<model::FenceId> becomes(SetSteps& steps, const model::Fence& fence,
                                    const std::vector<model::Polygon>& parts);

/// As becomes(), but the fence is a new one, behind the last.
std::vector<model::FenceId> added(SetSteps& steps, model::Fence fence, const std::vector<model::Polygon>& parts);

} // namespace fencewright::airspace::detail
