#pragma once

#include "model/edit.h"
#include "model/fence_set.h"
#include "model/position.h"
#include "model/thing.h"
#include "units/angle.h"
#include "units/length.h"

#include <optional>
#include <span>

namespace fencewright::airspace {

/// How shapes are put elsewhere on the ground: the pivot comes to lie at `to`, and everything keeps its distance and
/// its bearing from it, turned and scaled.
struct Placing {
    model::Position pivot;
    model::Position to;
    Angle turn;         ///< clockwise
    double scale = 1.0; ///< by which lengths are multiplied; over zero

    bool operator==(const Placing&) const = default;
};

/// Along the geodesic that leaves the pivot with that azimuth.
[[nodiscard]] Placing movedAlong(const model::Position& pivot, Angle azimuth, Length way);
/// North along the meridian, and east by as many degrees of longitude as a geodesic crosses that sets out due east in
/// the middle latitude. The opposite move leads back, however often it is made: to the rounding of degrees.
/// @throws Fault  past a pole.
[[nodiscard]] Placing movedBy(const model::Position& pivot, Length east, Length north);
[[nodiscard]] Placing turnedBy(const model::Position& pivot, Angle clockwise);
[[nodiscard]] Placing scaledBy(const model::Position& pivot, double factor);

/// The edit that puts those things elsewhere. Corners of polygons, lines and parcels, middles of circles, sites and
/// homes are moved; radii, widths of corridors and the closing of gaps are scaled, and lose the words in which they
/// were typed. A setback fence follows its site and keeps its distance, which has its own reasons; so do a site's
/// position error and a home's landing radius.
///
/// Worked out in two local frames, one around the pivot and one around where it goes: between two corners within
/// `reach` of the pivot, the geodesic is as long as it was, times `scale`, and angles at corners are kept, in radians,
/// to LocalFrame::scaleError(reach) + LocalFrame::scaleError(reach * scale); the areas of geodesic polygons to three
/// times as much. Of a move alone, which leaves each corner where it was in its frame, lengths keep to a twentieth of
/// it. Edges stay straight in longitude and latitude: what a long one encloses beside its geodesic changes with its
/// bearing and its latitude.
///
/// The pivot itself comes to lie at `to` to the last bit, and a placing that does nothing changes no bit. Longitudes
/// of one shape stay continuous; its first lies in [-180, 180].
/// Side: none; what is made is what the person has asked for.
/// @throws Fault  nothing is chosen, or it is not in the set; a setback without its site; a scale that is not over
/// zero; a place farther than 1000 km from the pivot, or one that would come beyond 89 degrees of latitude.
[[nodiscard]] model::Edit placed(const model::FenceSet& set, std::span<const model::Thing> things,
                                 const Placing& placing);
/// One thing elsewhere, as placed() puts it; a setback as it is.
/// @throws Fault  as placed(), for what is wrong with the placing or the places.
[[nodiscard]] model::Fence placed(model::Fence fence, const Placing& placing);
[[nodiscard]] model::Site placed(model::Site site, const Placing& placing);
[[nodiscard]] model::Home placed(model::Home home, const Placing& placing);

/// The middle of the box, in longitude and latitude, around the places of those things, circles with their radius;
/// none: they have no place. A setback has none of its own.
[[nodiscard]] std::optional<model::Position> pivotOf(const model::FenceSet& set, std::span<const model::Thing> things);

/// Of the places of a thing, corners and middles, the one nearest to a place; none: it has none of its own. Nearest in
/// degrees, those of longitude shortened as the place's latitude has it.
/// @throws Fault  there is no such thing in the set.
[[nodiscard]] std::optional<model::Position> nearestPlaceOf(const model::FenceSet& set, const model::Thing& thing,
                                                            const model::Position& to);

} // namespace fencewright::airspace
