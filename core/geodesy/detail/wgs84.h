#pragma once

#include <geodesic.h>

// Private to the module: it shows PROJ's types.
namespace fencewright::geodesy {

// Defining parameters: NIMA TR8350.2 (third edition, 2000), table 3.1.
inline constexpr double kSemiMajorMetres = 6378137.0;
inline constexpr double kFlattening = 1.0 / 298.257223563;
inline constexpr double kEccentricitySquared = kFlattening * (2.0 - kFlattening);
inline constexpr double kSemiMinorMetres = kSemiMajorMetres * (1.0 - kFlattening);

/// The ellipsoid as geodesic.h wants it: made once, since making it costs as much as a geodesic.
inline const geod_geodesic& wgs84Geodesic() {
    static const geod_geodesic earth = [] {
        geod_geodesic made;
        geod_init(&made, kSemiMajorMetres, kFlattening);
        return made;
    }();
    return earth;
}

} // namespace fencewright::geodesy
