#pragma once

#include "wording.h"

#include <cstddef>
#include <iosfwd>
#include <map>
#include <string>

namespace fencewright::exchange::detail {

/// What is wrong with single features of a GeoJSON text, by their number from 1 on among the objects in "features".
struct GeoJsonFaults {
    std::map<std::size_t, Wording> byFeature; ///< "its Polygon has a position that is not two or three numbers"
    std::size_t notObjects = 0;               ///< members of "features" that are not objects
    bool namesCrs = false;                    ///< has a member "crs", as was usual before RFC 7946
    std::string crsName;                      ///< empty where the CRS is given by a link or is null
};

/// Reads the text once without building it, and checks every geometry against RFC 7946, 3.1: a reader that is lenient
/// drops a hole or a part that it cannot read and says nothing.
/// @throws Fault  not JSON, nested more than 64 deep, or not GeoJSON at its root: names line and column.
[[nodiscard]] GeoJsonFaults checkGeoJson(std::istream& text, const std::string& path);

} // namespace fencewright::exchange::detail
