#pragma once

#include <vector>

namespace fencewright::model {

/// A place: WGS 84 longitude and latitude in degrees (EPSG:4326 in the axis order of RFC 7946).
///
/// Longitudes of one shape are continuous numbers: a shape across the antimeridian runs on beyond 180 or below -180
/// (179, 181), never jumps (179, -179). Readers unwrap, writers cut. A lone place lies in [-180, 180].
/// The range is not checked here; the audit does that.
struct Position {
    double lon = 0.0;
    double lat = 0.0;

    bool operator==(const Position&) const = default;
};

/// An open line of two or more places. An edge is a straight line in longitude and latitude (RFC 7946, 3.1.1).
using LineString = std::vector<Position>;

} // namespace fencewright::model
