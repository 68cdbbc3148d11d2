#include "geometry/traverse.h"

#include "fault.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fencewright::geometry {

namespace {

using geodesy::PlanePoint;

constexpr double kReachMetres = 20'000.0;

PlanePoint operator+(PlanePoint a, PlanePoint b) { return {a.x + b.x, a.y + b.y}; }
PlanePoint operator-(PlanePoint a, PlanePoint b) { return {a.x - b.x, a.y - b.y}; }
PlanePoint operator*(PlanePoint a, double factor) { return {a.x * factor, a.y * factor}; }
double cross(PlanePoint a, PlanePoint b) { return a.x * b.y - a.y * b.x; }
double lengthOf(PlanePoint a) { return std::hypot(a.x, a.y); }

/// Of an arc, between its ends.
double segmentArea(double chord, const Course::Curve& curve) {
    const double angle = curve.centralAngle.inRadians();
    const double radius = chord / 2.0 / std::sin(angle / 2.0);
    return radius * radius / 2.0 * (angle - std::sin(angle));
}

double courseLength(PlanePoint from, PlanePoint to, const std::optional<Course::Curve>& curve) {
    const double chord = lengthOf(to - from);
    if (!curve)
        return chord;
    const double angle = curve->centralAngle.inRadians();
    return chord / 2.0 / std::sin(angle / 2.0) * angle;
}

/// Counter-clockwise positive; with the last point joined to the first.
double signedArea(const TraverseFigure& figure) {
    double twice = 0.0;
    for (std::size_t i = 0; i < figure.points.size(); ++i)
        twice += cross(figure.points[i], figure.points[(i + 1) % figure.points.size()]);
    double area = twice / 2.0;
    for (std::size_t i = 0; i < figure.curves.size(); ++i)
        if (const auto& curve = figure.curves[i]) {
            const double segment = segmentArea(lengthOf(figure.points[i + 1] - figure.points[i]), *curve);
            // A curve that turns left bulges to the right of its chord, where a counter-clockwise figure has its
            // outside.
            area += curve->turn == Turn::Left ? segment : -segment;
        }
    return area;
}

/// The corners between the ends of an arc: on it, or on its tangents.
/// @param bend  how far the middle of an edge that is straight in longitude and latitude may lie off the plane's
/// straight line, for each square metre of the edge's length.
std::vector<PlanePoint> arcCorners(PlanePoint from, PlanePoint to, const Course::Curve& curve, bool outsideOfCircle,
                                   double tolerance, double bend) {
    const PlanePoint chord = to - from;
    const double angle = curve.centralAngle.inRadians();
    const double half = angle / 2.0;
    const double radius = lengthOf(chord) / 2.0 / std::sin(half);
    // To the centre: right of the chord for a curve to the right, or on the other side of an arc over half a circle.
    const PlanePoint right{chord.y / lengthOf(chord), -chord.x / lengthOf(chord)};
    const PlanePoint middle = (from + to) * 0.5;
    const double side = curve.turn == Turn::Right ? 1.0 : -1.0;
    const PlanePoint centre = middle + right * (side * radius * std::cos(half));
    // The sagitta of a step is radius (1 - cos(step / 2)), and of its tangents radius (1 / cos(step / 2) - 1).
    const double ratio = std::clamp(tolerance / radius, 1e-9, 0.5);
    const double largest = 2.0 * std::acos(1.0 - ratio / (1.0 + ratio));
    const auto steps = static_cast<std::size_t>(std::clamp(std::ceil(angle / largest), 2.0, 20'000.0));
    const double step = angle / static_cast<double>(steps);
    const PlanePoint start = from - centre;
    const double turn = -side; // to the right is clockwise
    const auto at = [&](double along, double far) {
        const double by = turn * along;
        return centre + PlanePoint{start.x * std::cos(by) - start.y * std::sin(by),
                                   start.x * std::sin(by) + start.y * std::cos(by)} *
                            far;
    };
    std::vector<PlanePoint> corners;
    if (outsideOfCircle) {
        const double edge = 2.0 * radius * std::tan(step / 2.0);
        const double far = (1.0 + 1e-12 + bend * edge * edge / radius) / std::cos(step / 2.0);
        for (std::size_t i = 0; i < steps; ++i)
            corners.push_back(at((static_cast<double>(i) + 0.5) * step, far));
    } else {
        const double edge = 2.0 * radius * std::sin(step / 2.0);
        for (std::size_t i = 1; i < steps; ++i)
            corners.push_back(at(static_cast<double>(i) * step, 1.0 - 1e-12 - bend * edge * edge / radius));
    }
    return corners;
}

} // namespace

TraverseFigure figureOf(const std::vector<Course>& courses) {
    TraverseFigure figure;
    figure.points.push_back({0.0, 0.0});
    for (const Course& course : courses) {
        const double azimuth = course.azimuth.inRadians();
        figure.points.push_back(figure.points.back() +
                                PlanePoint{std::sin(azimuth), std::cos(azimuth)} * course.length.inMetres());
        figure.curves.push_back(course.curve);
    }
    return figure;
}

Closure closureOf(const TraverseFigure& figure) {
    Closure closure;
    if (figure.points.empty())
        return closure;
    const PlanePoint off = figure.points.back() - figure.points.front();
    closure.eastMetres = off.x;
    closure.northMetres = off.y;
    closure.misclosure = Length::metres(lengthOf(off));
    double perimeter = 0.0;
    for (std::size_t i = 0; i < figure.curves.size(); ++i)
        perimeter += courseLength(figure.points[i], figure.points[i + 1], figure.curves[i]);
    closure.perimeter = Length::metres(perimeter);
    // Less than the rounding of the sums is no misclosure.
    if (lengthOf(off) > perimeter * 1e-13)
        closure.precision = perimeter / lengthOf(off);
    closure.area = Area::squareMetres(std::abs(signedArea(figure)));
    return closure;
}

TraverseFigure closedByCompassRule(const TraverseFigure& figure) {
    TraverseFigure closed = figure;
    const Closure closure = closureOf(figure);
    const double perimeter = closure.perimeter.inMetres();
    if (!(perimeter > 0.0))
        return closed;
    double run = 0.0;
    for (std::size_t i = 0; i < figure.curves.size(); ++i) {
        run += courseLength(figure.points[i], figure.points[i + 1], figure.curves[i]);
        closed.points[i + 1] =
            figure.points[i + 1] - PlanePoint{closure.eastMetres, closure.northMetres} * (run / perimeter);
    }
    closed.points.back() = closed.points.front();
    return closed;
}

model::Ring ringOf(const TraverseFigure& figure, const TraversePlacement& placement, Side side, Length arcTolerance) {
    constexpr double northernmost = 85.0; // degrees
    if (!(std::abs(placement.start.lat) <= northernmost))
        throw Fault{phrase("core", "The traverse starts beyond 85 degrees of latitude."), "",
                    phrase("core", "Draw it corner by corner.")};
    const bool counterClockwise = signedArea(figure) > 0.0;
    // A parallel is curved by tan(latitude) over the earth's radius, a meridian next to the frame's less than by one.
    constexpr double leastRadiusMetres = 6.33e6;
    const double bend =
        (std::abs(std::tan(placement.start.lat * std::numbers::pi / 180.0)) + 1.0) / (8.0 * leastRadiusMetres);
    std::vector<PlanePoint> corners;
    for (std::size_t i = 0; i < figure.curves.size(); ++i) {
        corners.push_back(figure.points[i]);
        if (const auto& curve = figure.curves[i]) {
            const bool bulgesOut = (curve->turn == Turn::Left) == counterClockwise;
            const auto arc = arcCorners(figure.points[i], figure.points[i + 1], *curve,
                                        bulgesOut == (side == Side::Grow), arcTolerance.inMetres(), bend);
            corners.insert(corners.end(), arc.begin(), arc.end());
        }
    }
    if (!figure.points.empty()) {
        const double span = closureOf(figure).perimeter.inMetres();
        if (lengthOf(figure.points.back() - figure.points.front()) > span * 1e-13)
            corners.push_back(figure.points.back());
    }
    if (corners.size() < 3)
        throw Fault{phrase("core", "The courses enclose nothing: a fence needs at least three corners."), "",
                    phrase("core", "Add the courses that are missing.")};
    const double turn = placement.deedNorth.inRadians();
    for (PlanePoint& corner : corners) {
        // What pointed to the deed's north points to its azimuth.
        corner = {corner.x * std::cos(turn) + corner.y * std::sin(turn),
                  -corner.x * std::sin(turn) + corner.y * std::cos(turn)};
        if (!(lengthOf(corner) <= kReachMetres))
            throw Fault{phrase("core", "The traverse reaches more than 20 km from its start."), "",
                        phrase("core", "Check the lengths and their units; draw so large an area in parts.")};
    }
    const geodesy::LocalFrame frame{placement.start};
    model::Ring ring;
    ring.corners = frame.toEarth(corners);
    ring.corners.front() = placement.start;
    return ring;
}

} // namespace fencewright::geometry
