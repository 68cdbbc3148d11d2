#pragma once

#include "geodesy/local_frame.h"
#include "model/position.h"

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace fencewright::geodesy {

/// The plane that a map is drawn in, in metres: the local frame of an origin, or a projected CRS shifted so that the
/// origin lies at (0, 0); either may be turned about the origin.
///
/// For drawing and pointing only: lengths in a projected CRS are true to a hundredth at best (see `serves`), so what is
/// computed with goes through geodesics or LocalFrame.
/// Longitudes come back continuous with the origin's. Cheap to copy; not safe to use from two threads at once: each
/// thread makes its own from the definition.
class MapPlane {
public:
    struct Definition {
        std::string crs; ///< a projected one that `serves` there; empty: the local frame
        model::Position origin;
        double upAzimuthDegrees = 0.0; ///< which direction of the unturned plane points up (along y), clockwise

        bool operator==(const Definition&) const = default;
    };

    /// @throws Fault  the origin is not finite or beyond the poles; the CRS is none, or cannot be used at the origin.
    explicit MapPlane(const Definition& definition);

    [[nodiscard]] const Definition& definition() const;
    [[nodiscard]] model::Position origin() const { return definition().origin; }
    /// What the plane's (0, 0) is in the CRS; nothing in a local frame.
    [[nodiscard]] std::optional<PlanePoint> originInCrs() const;

    /// @throws Fault  a place that has no image in the plane: all of them must have one.
    [[nodiscard]] PlanePoint toPlane(model::Position position) const;
    [[nodiscard]] model::Position toEarth(PlanePoint point) const;
    [[nodiscard]] std::vector<PlanePoint> toPlane(std::span<const model::Position> positions) const;
    [[nodiscard]] std::vector<model::Position> toEarth(std::span<const PlanePoint> points) const;

    /// Whether a map around the place may be drawn in the CRS: projected, in metres, its scale there within a hundredth
    /// of true in every direction, and its north within five degrees of true north. False for what is no CRS.
    [[nodiscard]] static bool serves(const std::string& crs, model::Position place);

private:
    struct Parts;
    std::shared_ptr<const Parts> m_parts;
};

} // namespace fencewright::geodesy
