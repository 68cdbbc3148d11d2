#pragma once

#include "progress.h"
#include "raster/dataset.h"

#include <filesystem>
#include <string>

namespace fencewright::raster {

/// Whether looking at all of it means reading far too much of it: no level is small enough for a screen.
[[nodiscard]] bool wantsPyramid(const Dataset& dataset);

/// Where the pyramid of a raster is kept in a cache folder: another name for another state of the raster (path, size,
/// time of change; of a folder, those of what is in it).
/// @throws Fault  the raster is not there.
[[nodiscard]] std::filesystem::path pyramidPath(const std::filesystem::path& cacheFolder, const std::string& raster);
/// Where others look for it: beside the raster.
[[nodiscard]] std::filesystem::path pyramidBeside(const std::string& raster);

/// Computes smaller pictures of the raster, each half as fine as the one before, and writes them to a file of their
/// own; the raster is not changed. The file takes its name only when it is whole.
/// @param to  pyramidPath() or pyramidBeside(); its folder is made where it is missing.
/// @throws Fault  cannot be read or written, no room on the disk; Cancelled within a quarter of a second. Nothing is
/// left.
void buildPyramid(const std::string& raster, const std::filesystem::path& to, const Progress& progress);

} // namespace fencewright::raster
