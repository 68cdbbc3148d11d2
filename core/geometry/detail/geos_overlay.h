#pragma once

#include "geometry/detail/geos_context.h"

#include <string_view>
#include <vector>

namespace fencewright::geometry::detail {

/// How overlay finds and rounds crossings.
///
/// Free: in floating point; corners stay as they are. The library then gives grossly wrong answers on rare input
/// without saying so: the intersection of two surfaces that lie apart came out as one of them (overlay_test.cpp, seed
/// 1555). Only for input that is wellSeparated(); of two surfaces the answer is held against the area of their union,
/// and where they do not agree, the grid is taken all the same. Grid: by snap rounding, which cannot go wrong that way,
/// and takes three times as long. All corners of results lie on a grid of 1e-12 (about a tenth of a micrometre in
/// degrees; decimal coordinates of up to twelve digits after the point lie on it as they are), coarser for coordinates
/// over a thousand, as of planes in metres. Source: Hobby, "Practical segment intersection with finite precision
/// output", Computational Geometry 13 (1999).
enum class Noding { Free, Grid };

[[nodiscard]] Geometry united(GeosContext& context, std::vector<Geometry> parts, std::string_view operation,
                              Noding noding = Noding::Grid);
[[nodiscard]] Geometry united(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation);
[[nodiscard]] Geometry common(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation,
                              Noding noding = Noding::Grid);
[[nodiscard]] Geometry less(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation,
                            Noding noding = Noding::Grid);
[[nodiscard]] Geometry either(GeosContext& context, const Geometry& a, const Geometry& b, std::string_view operation);

/// Lines cut at all their crossings.
[[nodiscard]] Geometry noded(GeosContext& context, const Geometry& lines, std::string_view operation);
[[nodiscard]] Geometry copy(GeosContext& context, const GEOSGeometry* geometry);
/// The parts as one collection, which need not be valid.
[[nodiscard]] Geometry collected(GeosContext& context, std::vector<Geometry> parts);

} // namespace fencewright::geometry::detail
