#include "geodesy/local_frame.h"

#include "fault.h"
#include "geodesy/detail/place_check.h"
#include "geodesy/detail/proj_session.h"
#include "geodesy/detail/wgs84.h"
#include "units/number_notation.h"

#include <cmath>
#include <limits>
#include <numbers>

namespace fencewright::geodesy {

namespace {

constexpr double kRadians = std::numbers::pi / 180.0;

[[noreturn]] void refuseFarPlace(const Wording& place) {
    throw Fault{
        phrase("core", "The place is too far away to be computed with in one metric plane."), place,
        phrase("core",
               "Check that longitude and latitude have not been exchanged, and that all places belong together.")};
}

} // namespace

/// The meridian of the origin is taken off before PROJ sees a longitude, and put back after: so longitudes need no
/// wrapping, whatever turn they are on, and one projection text serves every origin.
struct LocalFrame::Projection {
    explicit Projection(model::Position at) : origin{at} {
        requirePlace(at);
        context = quietContext();
        operation.reset(proj_create(context.get(), "+proj=tmerc +algo=poder_engsager +lat_0=0 +lon_0=0 +k=1 +x_0=0 "
                                                   "+y_0=0 +ellps=WGS84"));
        if (!operation)
            throw Fault{phrase("core", "The projection library could not be set up."), "",
                        phrase("core", "Check the installation of PROJ.")};
        originNorthing = proj_trans(operation.get(), PJ_FWD, proj_coord(0.0, at.lat * kRadians, 0.0, 0.0)).xy.y;
    }

    void forward(std::span<PlanePoint> points) const { run(PJ_FWD, points); }
    void inverse(std::span<PlanePoint> points) const { run(PJ_INV, points); }

    model::Position origin;
    ContextHandle context;
    OperationHandle operation;
    double originNorthing = 0.0;

private:
    void run(PJ_DIRECTION direction, std::span<PlanePoint> points) const {
        if (points.empty())
            return;
        proj_trans_generic(operation.get(), direction, &points.front().x, sizeof(PlanePoint), points.size(),
                           &points.front().y, sizeof(PlanePoint), points.size(), nullptr, 0, 0, nullptr, 0, 0);
    }
};

LocalFrame::LocalFrame(model::Position origin) : m_projection{std::make_shared<const Projection>(origin)} {}

model::Position LocalFrame::origin() const { return m_projection->origin; }

PlanePoint LocalFrame::toPlane(model::Position position) const { return toPlane(std::span{&position, 1}).front(); }

model::Position LocalFrame::toEarth(PlanePoint point) const { return toEarth(std::span{&point, 1}).front(); }

std::vector<PlanePoint> LocalFrame::toPlane(std::span<const model::Position> positions) const {
    const Projection& projection = *m_projection;
    std::vector<PlanePoint> points;
    points.reserve(positions.size());
    for (const model::Position& position : positions) {
        requirePlace(position);
        const double east = std::remainder(position.lon - projection.origin.lon, 360.0);
        points.push_back({east * kRadians, position.lat * kRadians});
    }
    projection.forward(points);
    for (std::size_t i = 0; i < points.size(); ++i) {
        points[i].y -= projection.originNorthing;
        if (!std::isfinite(points[i].x) || !std::isfinite(points[i].y))
            refuseFarPlace(phrase("core", "longitude %1, latitude %2")(units::shortest(positions[i].lon),
                                                                       units::shortest(positions[i].lat)));
    }
    return points;
}

std::vector<model::Position> LocalFrame::toEarth(std::span<const PlanePoint> points) const {
    const Projection& projection = *m_projection;
    std::vector<PlanePoint> angles{points.begin(), points.end()};
    for (PlanePoint& point : angles)
        point.y += projection.originNorthing;
    projection.inverse(angles);
    std::vector<model::Position> positions;
    positions.reserve(points.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (!std::isfinite(angles[i].x) || !std::isfinite(angles[i].y))
            refuseFarPlace(phrase("core", "%1 m east and %2 m north of the plane's origin")(
                units::shortest(points[i].x), units::shortest(points[i].y)));
        positions.push_back({projection.origin.lon + angles[i].x / kRadians, angles[i].y / kRadians});
    }
    return positions;
}

// The scale k is 1 on the meridian and larger anywhere else, so a plane length is never below the ground length, and
// exceeds it by no more than the largest k - 1 within reach. On a sphere of radius R, k = sec(d / R) at a distance d
// from the meridian. The ellipsoid is nowhere more curved than at the equator, where its Gaussian radius of curvature
// is the semi-minor axis: with that as R, the sphere's k is the larger. The hundredth on top covers the terms by which
// the curvature changes along the way; the test holds the bound against an exact transverse Mercator.
double LocalFrame::scaleError(Length reach) {
    const double angle = std::abs(reach.inMetres()) / kSemiMinorMetres;
    if (!(angle < 1.5))
        return std::numeric_limits<double>::infinity();
    const double halfSine = std::sin(angle / 2.0);
    return 1.01 * 2.0 * halfSine * halfSine / std::cos(angle); // sec - 1 without cancellation
}

} // namespace fencewright::geodesy
