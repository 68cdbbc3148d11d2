#pragma once

#include "raster/detail/pixel_source.h"

#include <memory>
#include <string>

namespace fencewright::raster::detail {

/// The absolute name of what is there.
/// @throws Fault  it is not.
[[nodiscard]] std::string existing(const std::string& path);

/// @param path  as existing() gives it, or the address of a server.
/// @throws Fault  as Dataset's constructor.
[[nodiscard]] std::unique_ptr<PixelSource> openSource(const std::string& path, const OpenOptions& options,
                                                      const Progress& progress = {});

/// Another text for another state of the file, or of the folder's list.
[[nodiscard]] std::string stateOf(const std::string& path);

/// A short text for a long one, another for another.
[[nodiscard]] std::string digest(const std::string& text);

} // namespace fencewright::raster::detail
