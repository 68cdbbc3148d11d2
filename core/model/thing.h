#pragma once

#include "model/id.h"

#include <variant>

namespace fencewright::model {

/// What can be chosen, moved, copied or deleted on the map.
using Thing = std::variant<FenceId, SiteId, HomeId>;

} // namespace fencewright::model
