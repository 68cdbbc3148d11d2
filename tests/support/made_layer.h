#pragma once

#include <string>

namespace fencewright::support {

/// Writes a layer at random through GDAL, as other programs do: fields of every type with and without values, shapes of
/// one part and of several, with and without holes and heights, none and empty ones; every few layers something that is
/// rare: arcs, several kinds of shapes, text that is not UTF-8, identities far apart, features taken away again.
/// @param path  its ending says which format: ".gpkg" or ".shp".
/// @return  what is in it, for messages.
std::string writeMadeLayer(const std::string& path, unsigned seed);

/// Thirty polygons in WGS 84 of up to 600 corners, with a text each.
/// @param pageBytes  of a GeoPackage.
void writeLargeShapes(const std::string& path, int pageBytes);

} // namespace fencewright::support
