#include "geometry/offset.h"

#include "geodesy/geodesic.h"
#include "geodesy/local_frame.h"
#include "geometry/containment.h"
#include "geometry/detail/edge_bounds.h"
#include "geometry/detail/geos_conversion.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

namespace fencewright::geometry {
namespace {

using geodesy::PlanePoint;

/// Edges are searched in pieces of this length, on which the distance has one least value, or has it at an end.
constexpr double kPieceMetres = 50'000.0;
/// Beyond this, plane lengths say nothing, and every edge is searched.
constexpr double kFrameReach = 1'000'000.0;

double plainDistance(PlanePoint a, PlanePoint b) {
    // From the frame's origin, where the place is.
    const double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
    const double t = square > 0.0 ? std::clamp(-(a.x * dx + a.y * dy) / square, 0.0, 1.0) : 0.0;
    return std::hypot(a.x + t * dx, a.y + t * dy);
}

double groundDistance(model::Position from, model::Position to) { return geodesy::inverse(from, to).length.inMetres(); }

/// The least distance to a lon/lat edge, by golden section between its ends.
double searched(model::Position place, model::Position a, model::Position b) {
    const auto at = [&](double t) {
        return groundDistance(place, {std::lerp(a.lon, b.lon, t), std::lerp(a.lat, b.lat, t)});
    };
    constexpr double kGolden = 0.6180339887498949;
    double low = 0.0, high = 1.0;
    double left = high - kGolden, right = low + kGolden;
    double atLeft = at(left), atRight = at(right);
    double least = std::min({at(0.0), at(1.0), atLeft, atRight});
    while (high - low > 1e-9) { // of 50 km: 0.05 mm
        if (atLeft < atRight) {
            high = right;
            right = left;
            atRight = atLeft;
            left = high - kGolden * (high - low);
            atLeft = at(left);
            least = std::min(least, atLeft);
        } else {
            low = left;
            left = right;
            atLeft = atRight;
            right = low + kGolden * (high - low);
            atRight = at(right);
            least = std::min(least, atRight);
        }
    }
    return least;
}

struct Candidate {
    model::Position a, b;
    double atLeast; ///< metres: no place of the edge is nearer
};

void addCandidates(const model::Ring& ring, model::Position place, const geodesy::LocalFrame& frame,
                   std::vector<Candidate>& candidates) {
    std::vector<model::Position> places;
    for (std::size_t i = 0; i < ring.corners.size(); ++i) {
        const auto &a = ring.corners[i], &b = ring.corners[(i + 1) % ring.corners.size()];
        const double pieces = std::max(1.0, std::ceil(detail::lengthAtMost(a, b) / kPieceMetres));
        for (double k = 0.0; k < pieces; k += 1.0)
            places.push_back({std::lerp(a.lon, b.lon, k / pieces), std::lerp(a.lat, b.lat, k / pieces)});
    }
    const auto far = [&](const model::Position& p) { return detail::lengthAtMost(place, p) > kFrameReach; };
    if (std::any_of(ring.corners.begin(), ring.corners.end(), far)) {
        for (std::size_t i = 0; i < places.size(); ++i)
            candidates.push_back({places[i], places[(i + 1) % places.size()], 0.0});
        return;
    }
    const auto points = frame.toPlane(places);
    for (std::size_t i = 0; i < places.size(); ++i) {
        const std::size_t next = (i + 1) % places.size();
        const double length = detail::lengthAtMost(places[i], places[next]);
        const double reach = std::max(std::hypot(points[i].x, points[i].y), std::hypot(points[next].x, points[next].y));
        const double latitude = std::min(89.9, std::max(std::abs(places[i].lat), std::abs(places[next].lat)));
        const double bend = detail::curvatureWithin(latitude, reach + length) * length * length / 8.0;
        const double plane = std::max(0.0, plainDistance(points[i], points[next]) - bend);
        candidates.push_back(
            {places[i], places[next], plane / (1.0 + geodesy::LocalFrame::scaleError(Length::metres(reach + length)))});
    }
}

} // namespace

Length distanceToBoundary(const model::MultiPolygon& surface, model::Position place) {
    const geodesy::LocalFrame frame{place};
    const auto turned = detail::turnedNear(surface, place.lon);
    std::vector<Candidate> candidates;
    for (const auto& part : turned.parts) {
        addCandidates(part.shell, place, frame, candidates);
        for (const auto& hole : part.holes)
            addCandidates(hole, place, frame, candidates);
    }
    std::sort(candidates.begin(), candidates.end(),
              [](const Candidate& a, const Candidate& b) { return a.atLeast < b.atLeast; });
    double least = std::numeric_limits<double>::infinity();
    for (const auto& candidate : candidates) {
        if (candidate.atLeast >= least)
            break;
        least = std::min(least, searched(place, candidate.a, candidate.b));
    }
    return Length::metres(least);
}

Length distanceTo(const model::MultiPolygon& surface, model::Position place) {
    return contains(surface, place) ? Length{} : distanceToBoundary(surface, place);
}

} // namespace fencewright::geometry
