#pragma once

#include "model/position.h"
#include "units/angle.h"

#include <optional>

namespace fencewright::geodesy {

// Places on an edge that is straight in longitude and latitude, found by what is true on the ground: where a way meets
// it at a right angle, where a direction meets it. Longitudes of an edge are continuous, those of other places may be
// on any turn.

/// A place on an edge from `a` to `b`, at `along` of it in [0, 1].
struct EdgePlace {
    double along = 0.0;
    model::Position place;
};

/// The azimuth at a place of the edge, in [0, 360). An edge is no geodesic: it has another azimuth at each place.
/// Error: 1e-12 degrees. @pre  not at a pole; `a` and `b` differ.
[[nodiscard]] Angle azimuthAlong(const model::Position& a, const model::Position& b, const model::Position& at);

/// Where the geodesic from a place meets the edge at a right angle; none where that lies beyond the edge's ends or the
/// place lies on the edge.
/// Error: the right angle is kept to 1e-9 m on the ground, for ways and edges of up to 50 km.
/// @throws Fault  as inverse().
[[nodiscard]] std::optional<EdgePlace> footOn(const model::Position& a, const model::Position& b,
                                              const model::Position& from);

/// Where the geodesic that leaves a place with that azimuth, or the opposite one, meets the edge; none where it does
/// not, or runs along it. Of an edge through the place itself, the place.
/// Error: 1e-9 m across the geodesic, for ways and edges of up to 50 km.
/// @throws Fault  as inverse().
[[nodiscard]] std::optional<EdgePlace> meetingWith(const model::Position& a, const model::Position& b,
                                                   const model::Position& from, Angle azimuth);

/// Where two edges cross or touch, exactly straight in longitude and latitude; none of parallel ones. Its longitude is
/// on the turn of `a`.
/// Error: rounding, divided by the sine of the angle between them; under 1e-5 of a right angle they count as parallel.
[[nodiscard]] std::optional<model::Position> crossingOf(const model::Position& a, const model::Position& b,
                                                        const model::Position& c, const model::Position& d);

} // namespace fencewright::geodesy
