#pragma once

#include "audit/rule.h"

#include <span>

namespace fencewright::audit {

/// All rules, in the order in which findings are shown.
[[nodiscard]] std::span<const Rule* const> rules();
/// Null where there is none of that id.
[[nodiscard]] const Rule* findRule(std::string_view id);

} // namespace fencewright::audit
