#pragma once

#include "alder_reach/scene.h"
#include "model/fence_set.h"

namespace alder_reach {

/// The fence set that is drawn over the scene. Its sources are named relative to the folder of the document.
[[nodiscard]] fencewright::model::FenceSet makeFenceSet(const Scene& scene);

} // namespace alder_reach
