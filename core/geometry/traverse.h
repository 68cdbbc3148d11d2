#pragma once

#include "geodesy/local_frame.h"
#include "geometry/side.h"
#include "model/polygon.h"
#include "units/angle.h"
#include "units/area.h"
#include "units/length.h"
#include "units/measure_notation.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fencewright::geometry {

/// Which way a curve of a deed bends, seen along it.
enum class Turn { Left, Right };

/// One course of a deed (metes and bounds): straight, or an arc of a circle.
struct Course {
    Angle azimuth; ///< clockwise from the deed's north; of a curve, that of its chord
    Length length; ///< of a curve, that of its chord
    struct Curve {
        Length radius;
        Angle centralAngle; ///< over 0, under 360 degrees
        Turn turn = Turn::Right;

        bool operator==(const Curve&) const = default;
    };
    std::optional<Curve> curve;

    bool operator==(const Course&) const = default;
};

/// Reads the courses of a deed, one a line: a direction and a length ("S 68°05'35\" W 472.68 ft", "248.0931 30 ch"), or
/// a length and a direction ("120 m 45"), or a curve: "curve right, radius 200 ft, arc 104.72 ft" starts along the
/// course before it; with "chord N 12°30' E 103.53 ft" it lies as its chord says. Instead of the arc, "angle 30°00'"
/// gives the angle at the centre. Empty lines and what follows a # are passed over.
/// @param unitless  the unit system of a length without a unit: metres or feet.
/// @throws Fault  names the line and shows what can be written.
[[nodiscard]] std::vector<Course> parseCourses(std::string_view text, units::System unitless);

/// A traverse in its own plane: the start at (0, 0), y to the deed's north, metres.
struct TraverseFigure {
    /// The start, and the end of each course: one more than courses.
    std::vector<geodesy::PlanePoint> points;
    std::vector<std::optional<Course::Curve>> curves; ///< of each course
};
[[nodiscard]] TraverseFigure figureOf(const std::vector<Course>& courses);

/// How well the last course comes back to the start.
struct Closure {
    double eastMetres = 0.0; ///< from the start to where the last course ends
    double northMetres = 0.0;
    Length misclosure;
    Length perimeter;                ///< along the courses, arcs as arcs
    std::optional<double> precision; ///< perimeter / misclosure: 12100 of "1 : 12 100"; none where it closes exactly
    /// What the figure encloses, arcs as arcs, closed by a straight line where it does not close; in its plane.
    Area area;
};
[[nodiscard]] Closure closureOf(const TraverseFigure& figure);

/// The figure closed by the compass rule: each course takes a share of the misclosure by its length. Curves keep their
/// central angles.
/// Source: Bowditch's rule, as every textbook has it; checked against a published example.
[[nodiscard]] TraverseFigure closedByCompassRule(const TraverseFigure& figure);

/// The figure laid on the earth.
struct TraversePlacement {
    model::Position start;
    Angle deedNorth; ///< the true azimuth of the deed's north: grid, magnetic or assumed
};
/// The ring of corners, the last not repeating the first (what is left of a misclosure is closed by a straight edge).
/// Arcs become corners on the side that is asked for, within `arcTolerance` of the arc.
/// Side: Grow contains the figure, Shrink is contained in it, as far as arcs are concerned (to 1e-7 m where an arc
/// begins and ends); the ends of courses are exact to LocalFrame's scale error within the figure's reach.
/// @throws Fault  fewer than three corners, a figure that reaches over 20 km from its start, or beyond 85 degrees.
[[nodiscard]] model::Ring ringOf(const TraverseFigure& figure, const TraversePlacement& placement, Side side,
                                 Length arcTolerance = Length::metres(0.01));

} // namespace fencewright::geometry
