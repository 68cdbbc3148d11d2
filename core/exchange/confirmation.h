#pragma once

#include "exchange/delivery_draft.h"
#include "exchange/format_table.h"
#include "exchange/read_back.h"

#include <string>
#include <string_view>
#include <vector>

namespace fencewright::exchange {

/// A written file that holds what was approved, and how its surfaces differ to the safe side.
struct Confirmation {
    ReadBack held;
    std::vector<compare::Difference> differences;
};

/// Reads the file's content again and compares it with what was approved. Keep-outs may be larger and keep-ins smaller;
/// nothing may be missing, added, named or limited otherwise, or drawn so that it permits more.
/// @param path  for words.
/// @throws Fault  it holds anything else: says what.
[[nodiscard]] Confirmation confirmed(const DeliveryDraft& draft, const WritableFormat& format, std::string_view content,
                                     const geodesy::GroundHeight& ground, const std::string& path);

} // namespace fencewright::exchange
