#pragma once

#include <filesystem>

namespace fencewright::bench {

/// A million parcels of eight corners each that tile the county (see orthophoto.h), with a number, a use and an area.
/// Neighbours share their corners exactly.
/// @param driver  of OGR: "GPKG", "ESRI Shapefile".
/// @param epsg  the CRS of the file.
void writeParcels(const std::filesystem::path& to, const char* driver, int epsg);

} // namespace fencewright::bench
