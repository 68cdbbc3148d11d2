#pragma once

#include "exchange/detail/memory_folder.h"

#include <cstddef>
#include <string>
#include <vector>

namespace fencewright::exchange::detail {

/// Unpacks the members of a ZIP archive whose names end with one of `suffixes` into `folder`, without their folders.
/// The archive lies in memory already. Bounded in number, size and ratio: what an archive says of itself is not
/// believed.
/// @returns  the paths of what was unpacked, in the order of the archive.
/// @throws Fault  damaged, encrypted, too many members, or a member that unpacks to more than `byteLimit` in all.
[[nodiscard]] std::vector<std::string> unpack(const std::string& archive, const std::vector<std::string>& suffixes,
                                              const MemoryFolder& folder, std::size_t byteLimit,
                                              const std::string& path);

} // namespace fencewright::exchange::detail
