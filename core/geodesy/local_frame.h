#pragma once

#include "model/position.h"
#include "units/length.h"

#include <memory>
#include <span>
#include <vector>

namespace fencewright::geodesy {

/// A place in a local frame, metres east and north of its origin.
struct PlanePoint {
    double x = 0.0;
    double y = 0.0;

    bool operator==(const PlanePoint&) const = default;
};

/// A metric plane around an origin: transverse Mercator on WGS 84, scale 1 at the origin's meridian, origin at (0, 0).
///
/// Lengths in the plane are those on the ground to within `scaleError(distance)`; angles are kept (it is conformal).
/// Longitudes come back continuous with the origin's, so that shapes across the antimeridian stay in one piece.
/// Cheap to copy; not safe to use from two threads at once: each thread makes its own.
/// Source: Engsager and Poder (2007) as in PROJ's tmerc; error of the projection itself under 1 micrometre here.
class LocalFrame {
public:
    /// @throws Fault  the origin is not finite or its latitude is beyond 90.
    explicit LocalFrame(model::Position origin);

    [[nodiscard]] model::Position origin() const;

    [[nodiscard]] PlanePoint toPlane(model::Position position) const;
    [[nodiscard]] model::Position toEarth(PlanePoint point) const;
    /// The same for many at once, which is much faster.
    [[nodiscard]] std::vector<PlanePoint> toPlane(std::span<const model::Position> positions) const;
    [[nodiscard]] std::vector<model::Position> toEarth(std::span<const PlanePoint> points) const;

    /// Upper bound of |plane length / ground length - 1| within `reach` of the origin.
    [[nodiscard]] static double scaleError(Length reach);

private:
    struct Projection;
    std::shared_ptr<const Projection> m_projection;
};

} // namespace fencewright::geodesy
