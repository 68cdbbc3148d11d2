#pragma once

#include "model/fence_set.h"
#include "progress.h"
#include "store/detail/database.h"

#include <string_view>

// What the GeoPackage standard asks of a file. Source: OGC 12-128r18, GeoPackage Encoding Standard 1.3.1.
namespace fencewright::store {

/// "GPKG", requirement 2.
inline constexpr std::int64_t kApplicationId = 0x47504B47;
/// Version 1.3.0, requirement 2.
inline constexpr std::int64_t kUserVersion = 10300;

/// Makes an empty database a GeoPackage without content.
void createGeoPackage(const Database& database);

/// Registers a table without geometry (clause 2.4).
void registerAttributes(const Database& database, std::string_view table, std::string_view description);

/// The layers that any GIS library opens: "fences" (outlines), "sites", "homes", with readable columns.
void writeLayers(const Database& database, const model::FenceSet& set, const Progress& progress);

} // namespace fencewright::store
