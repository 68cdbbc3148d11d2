#pragma once

#include "gdal/handles.h"
#include "wording.h"

#include <filesystem>
#include <string>
#include <vector>

namespace fencewright::raster::detail {

inline constexpr const char* kMosaicName = "Folder of GeoTIFFs";

/// The GeoTIFFs of a folder (not of those below it) as one picture.
struct Mosaic {
    gdal::DatasetHandle dataset;               ///< a GDALDatasetH
    std::vector<Wording> notes;                ///< which files were left out, and why
    std::filesystem::file_time_type changed{}; ///< of the file that changed last
    std::string state;                         ///< another text for another state of the files
};

[[nodiscard]] bool holdsGeoTiffs(const std::string& folder);

/// Left out are files that cannot be read or are no GeoTIFFs whatever their name says, those of another coordinate
/// reference system or other bands than most have, and those that do not lie square in it.
/// @throws Fault  none is left, or too many.
[[nodiscard]] Mosaic openMosaic(const std::string& folder);

} // namespace fencewright::raster::detail
