#pragma once

#include "geodesy/geodesic.h"
#include "geodesy/local_frame.h"
#include "model/polygon.h"

#include <vector>

namespace fencewright::geodesy {

/// The largest distance between the straight lon/lat edge from `from` to `to` and the geodesic between them.
/// Error: under 1 % of the result plus 1e-6 m for edges up to 100 km.
/// @throws Fault  a coordinate is not finite, or a latitude is beyond 90.
[[nodiscard]] Length partingFromGeodesic(model::Position from, model::Position to);

/// The line with places added on its lon/lat edges, until the geodesics between neighbours stay within `tolerance`.
/// The given corners stay; added ones lie on the lon/lat edge exactly (to double rounding). A tolerance under 1e-6 m is
/// taken as 1e-6 m: there coordinates have no more digits to give.
/// @throws Fault  the tolerance is not positive, or more than a million places would be added, or as
/// partingFromGeodesic().
[[nodiscard]] model::LineString densified(const model::LineString& line, Length tolerance);
/// Likewise for a ring, the closing edge included.
[[nodiscard]] model::Ring densified(const model::Ring& ring, Length tolerance);
[[nodiscard]] model::Polygon densified(const model::Polygon& polygon, Length tolerance);

/// The ring with longitudes made continuous from its first corner on: each edge goes the short way round. `changed`
/// says whether any moved.
struct Unwrapped {
    model::Ring ring;
    bool changed = false;
};
[[nodiscard]] Unwrapped unwrapped(model::Ring ring);

/// The longitude plus the multiple of 360 that brings it nearest to `reference`.
[[nodiscard]] double longitudeNear(double longitude, double reference);
/// The longitude in [-180, 180).
[[nodiscard]] double normalisedLongitude(double longitude);

} // namespace fencewright::geodesy
