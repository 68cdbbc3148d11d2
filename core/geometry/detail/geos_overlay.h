#pragma once

#include "geometry/detail/geos_context.h"

#include <string_view>
#include <vector>

namespace fencewright::geometry::detail {

// Overlay on a grid of kGridDegrees. The library's overlay in free floating point gives grossly wrong answers on rare
// input without saying so: the intersection of two surfaces that lie apart came out as one of them (see
// overlay_test.cpp, seed 1555). Snap rounding cannot go wrong that way; all corners of results lie on the grid.
// Source: Hobby, "Practical segment intersection with finite precision output", Computational Geometry 13 (1999).

/// About a tenth of a micrometre. Decimal coordinates of up to twelve digits after the point lie on it as they are.
inline constexpr double kGridDegrees = 1e-12;

[[nodiscard]] Geometry united(GeosContext& context, std::vector<Geometry> parts, std::string_view operation);
[[nodiscard]] Geometry united(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation);
[[nodiscard]] Geometry common(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation);
[[nodiscard]] Geometry less(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation);
[[nodiscard]] Geometry either(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation);

/// Lines cut at all their crossings.
[[nodiscard]] Geometry noded(GeosContext& context, const Geometry& lines, std::string_view operation);
[[nodiscard]] Geometry copy(GeosContext& context, const GEOSGeometry* geometry);
/// The parts as one collection, which need not be valid.
[[nodiscard]] Geometry collected(GeosContext& context, std::vector<Geometry> parts);

} // namespace fencewright::geometry::detail
