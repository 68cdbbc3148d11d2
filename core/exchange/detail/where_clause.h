#pragma once

#include "wording.h"

#include <optional>
#include <string_view>

namespace fencewright::exchange::detail {

/// Why a text cannot be given to a database as the condition of a query; nothing where it can. A document may come from
/// anybody, and its filter is run with the rights of whoever opens it: it may only look at the rows. So a condition has
/// no second statement, no comment, no bracket that closes the query's own, and calls only functions of a list that
/// compute and do nothing else. Whether it means anything, the database says.
[[nodiscard]] std::optional<Wording> whyNoCondition(std::string_view clause);

} // namespace fencewright::exchange::detail
