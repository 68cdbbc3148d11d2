#pragma once

#include "model/fence_set.h"

#include <string>

namespace fencewright::store {

/// @throws Fault  as openDocument() says.
[[nodiscard]] model::FenceSet readDocument(const std::string& path);

/// Reads the file and compares by value.
/// @throws Fault  it differs from the set: what is saved would not be what the person has.
void requireReadsBack(const model::FenceSet& set, const std::string& file, const std::string& shownPath);

} // namespace fencewright::store
