#pragma once

#include "alder_reach/scene.h"

#include <string>

namespace alder_reach {

// Each throws std::runtime_error where the file cannot be written.

/// A GeoPackage with the layer "parcels": parcel, owner_kind, consent, area_ha.
void writeParcels(const Scene& scene, const std::string& path);
/// A CSV with a place, an error and a setback in words for each site.
void writeSites(const Scene& scene, const std::string& path);
/// GeoJSON: the county road.
void writeLines(const Scene& scene, const std::string& path);
/// GeoJSON: a fence set of years ago, with about one fault of each kind that an audit should find.
void writeOlderFences(const Scene& scene, const std::string& path);

} // namespace alder_reach
