#pragma once

#include "model/polygon.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fencewright::tests {

/// One operation of a JTS XML test file, with its geometries as text.
struct TopologyCase {
    std::string description;
    std::string a, b;
    std::string operation; ///< "isValid", "intersection"
    std::string expected;
};
[[nodiscard]] std::vector<TopologyCase> topologyCases(const std::string& path);

/// Reads WKT POLYGON and MULTIPOLYGON, a ring's repeated end is dropped, and so is what is EMPTY. Polygons of a
/// GEOMETRYCOLLECTION are taken, its points and lines not. Nothing for other geometries.
[[nodiscard]] std::optional<model::MultiPolygon> surfaceFromWkt(std::string_view text);

} // namespace fencewright::tests
