#pragma once

#include "geometry/detail/geos_context.h"
#include "geometry/detail/geos_overlay.h"
#include "model/polygon.h"

namespace fencewright::geometry::detail {

/// The polygon as it is written, valid or not. Rings of under three corners are left out; without a shell it is empty.
/// @throws Fault  a coordinate is not finite.
[[nodiscard]] Geometry toGeos(GeosContext& context, const model::Polygon& polygon);
/// All parts as one multi-polygon, valid or not.
[[nodiscard]] Geometry toGeos(GeosContext& context, const model::MultiPolygon& surface);
/// The corners as a line that ends where it began.
[[nodiscard]] Geometry closedLine(GeosContext& context, const model::Ring& ring);
[[nodiscard]] Geometry emptySurface(GeosContext& context);

/// The polygons of a geometry, shells counter-clockwise and holes clockwise; points and lines are left out.
[[nodiscard]] model::MultiPolygon fromGeos(GeosContext& context, const GEOSGeometry* geometry);

/// Whether what the ring encloses is thinner than kSliverWidthDegrees.
[[nodiscard]] bool isSliver(const model::Ring& ring);
/// As fromGeos, without the parts that are slivers.
[[nodiscard]] model::MultiPolygon withoutSlivers(GeosContext& context, const GEOSGeometry* geometry);

/// @throws Fault  a coordinate is not finite: says which.
void requireFinite(const model::Ring& ring);

/// The surface as a valid geometry, with all its parts united. Polygons that are not valid are read by the even-odd
/// rule.
[[nodiscard]] Geometry validGeos(GeosContext& context, const model::MultiPolygon& surface,
                                 Noding noding = Noding::Grid);

/// The surface moved by whole turns of longitude, each part by its own, to lie nearest to `longitude`.
[[nodiscard]] model::MultiPolygon turnedNear(model::MultiPolygon surface, double longitude);
/// The middle longitude of the surface's box; zero where it is empty.
[[nodiscard]] double middleLongitude(const model::MultiPolygon& surface);

} // namespace fencewright::geometry::detail
