#include "geodesy/geodesic.h"

#include "geodesy/detail/place_check.h"
#include "geodesy/detail/wgs84.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace fencewright::geodesy {

namespace {

constexpr double kRadians = std::numbers::pi / 180.0;

Angle bearing(double degrees) {
    if (degrees < 0.0)
        degrees += 360.0;
    return Angle::degrees(degrees < 360.0 ? degrees : 0.0);
}

RingMeasure geodesicMeasure(const std::vector<model::Position>& corners) {
    const geod_geodesic& earth = wgs84Geodesic();
    geod_polygon polygon;
    geod_polygon_init(&polygon, 0);
    for (const model::Position& corner : corners)
        geod_polygon_addpoint(&earth, &polygon, corner.lat, corner.lon);
    double area = 0.0;
    double perimeter = 0.0;
    geod_polygon_compute(&earth, &polygon, 0, 1, &area, &perimeter);
    return {Area::squareMetres(corners.size() < 3 ? 0.0 : std::abs(area)), Length::metres(perimeter)};
}

/// Six-point Gauss-Legendre rule on [0, 1]. Source: Abramowitz and Stegun, table 25.4.
struct Node {
    double at;
    double weight;
};
constexpr std::array<Node, 6> kNodes{{{0.5 - 0.5 * 0.932469514203152, 0.5 * 0.171324492379170},
                                      {0.5 - 0.5 * 0.661209386466265, 0.5 * 0.360761573048139},
                                      {0.5 - 0.5 * 0.238619186083197, 0.5 * 0.467913934572691},
                                      {0.5 + 0.5 * 0.238619186083197, 0.5 * 0.467913934572691},
                                      {0.5 + 0.5 * 0.661209386466265, 0.5 * 0.360761573048139},
                                      {0.5 + 0.5 * 0.932469514203152, 0.5 * 0.171324492379170}}};

struct EdgeMeasure {
    double length = 0.0;
    double areaToEquator = 0.0; ///< signed: positive for an edge to the east, north of the equator
};

/// An edge that is straight in longitude and latitude, integrated as it is: no geodesic stands in for it.
/// Area of a strip to the equator: Snyder, "Map projections", USGS Professional Paper 1395 (1987), equation 3-12.
EdgeMeasure lonLatEdge(model::Position from, model::Position to) {
    constexpr double a = kSemiMajorMetres;
    constexpr double e2 = kEccentricitySquared;
    const double e = std::sqrt(e2);
    const double width = (to.lon - from.lon) * kRadians;
    const double rise = (to.lat - from.lat) * kRadians;
    // Over a degree, the six points are good to the last digits of a double; far more pieces than a turn has degrees
    // come only from longitudes that mean nothing.
    const double degrees = std::max(std::abs(to.lon - from.lon), std::abs(to.lat - from.lat));
    const int pieces = static_cast<int>(std::clamp(std::ceil(degrees), 1.0, 3600.0));
    EdgeMeasure measure;
    for (int piece = 0; piece < pieces; ++piece) {
        for (const Node& node : kNodes) {
            const double latitude = from.lat * kRadians + rise * ((piece + node.at) / pieces);
            const double sine = std::sin(latitude);
            const double flattening = 1.0 - e2 * sine * sine;
            const double primeVertical = a / std::sqrt(flattening);
            const double meridional = primeVertical * (1.0 - e2) / flattening;
            const double share = node.weight / pieces;
            measure.length += share * std::hypot(meridional * rise, primeVertical * std::cos(latitude) * width);
            measure.areaToEquator +=
                share * width * (a * a * (1.0 - e2) / 2.0) * (sine / flattening + std::atanh(e * sine) / e);
        }
    }
    return measure;
}

RingMeasure lonLatMeasure(const std::vector<model::Position>& corners) {
    double area = 0.0;
    double perimeter = 0.0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const EdgeMeasure edge = lonLatEdge(corners[i], corners[(i + 1) % corners.size()]);
        area += edge.areaToEquator;
        perimeter += edge.length;
    }
    return {Area::squareMetres(corners.size() < 3 ? 0.0 : std::abs(area)), Length::metres(perimeter)};
}

} // namespace

Segment inverse(model::Position from, model::Position to) {
    requirePlace(from);
    requirePlace(to);
    const geod_geodesic& earth = wgs84Geodesic();
    double metres = 0.0;
    double start = 0.0;
    double end = 0.0;
    geod_inverse(&earth, from.lat, from.lon, to.lat, to.lon, &metres, &start, &end);
    if (metres == 0.0)
        return {};
    return {Length::metres(metres), bearing(start), bearing(end)};
}

model::Position direct(model::Position from, Angle azimuth, Length distance) {
    requirePlace(from);
    const geod_geodesic& earth = wgs84Geodesic();
    model::Position to;
    geod_gendirect(&earth, from.lat, from.lon, azimuth.inDegrees(), GEOD_LONG_UNROLL, distance.inMetres(), &to.lat,
                   &to.lon, nullptr, nullptr, nullptr, nullptr, nullptr, nullptr);
    return to;
}

RingMeasure measure(const model::Ring& ring, EdgeMeaning edges) {
    for (const model::Position& corner : ring.corners)
        requirePlace(corner);
    return edges == EdgeMeaning::Geodesic ? geodesicMeasure(ring.corners) : lonLatMeasure(ring.corners);
}

RingMeasure measure(const model::Polygon& polygon) {
    RingMeasure total = measure(polygon.shell, EdgeMeaning::LonLatLine);
    for (const model::Ring& hole : polygon.holes) {
        const RingMeasure less = measure(hole, EdgeMeaning::LonLatLine);
        total.area = total.area - less.area;
        total.perimeter = total.perimeter + less.perimeter;
    }
    total.area = std::max(total.area, Area{});
    return total;
}

RingMeasure measure(const model::MultiPolygon& surface) {
    RingMeasure total;
    for (const model::Polygon& part : surface.parts) {
        const RingMeasure more = measure(part);
        total.area = total.area + more.area;
        total.perimeter = total.perimeter + more.perimeter;
    }
    return total;
}

double areaToEquator(std::span<const model::Position> line) {
    double area = 0.0;
    for (std::size_t i = 1; i < line.size(); ++i)
        area += lonLatEdge(line[i - 1], line[i]).areaToEquator;
    return area;
}

Length lengthOf(const model::LineString& line) {
    for (const model::Position& place : line)
        requirePlace(place);
    double metres = 0.0;
    for (std::size_t i = 1; i < line.size(); ++i)
        metres += lonLatEdge(line[i - 1], line[i]).length;
    return Length::metres(metres);
}

} // namespace fencewright::geodesy
