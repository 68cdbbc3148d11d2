#pragma once

#include "model/edit.h"
#include "model/fence_set.h"
#include "model/position.h"
#include "model/thing.h"
#include "name_giver.h"
#include "units/length.h"
#include "units/stated_length.h"
#include "wording.h"

#include <span>
#include <vector>

namespace fencewright::airspace {

// New fences out of those that are there. Each function answers one edit, which one step undoes. What the fences
// enclose is taken from their outlines, so that circles, corridors, setbacks and parcels become drawn polygons; where
// the result falls into several parts, each is a fence ("Reservoir", "Reservoir 2"), the largest first. Side: to
// rounding, the safe side of the fence that is made (see geometry/sided_overlay.h and geometry/cutting.h): a keep-out
// contains what its name says exactly, a keep-in lies in it.
// @throws Fault  a fence is not there, or encloses nothing; what is asked cannot be done: says why, and what to do; as
// outline().

struct Reshaped {
    model::Edit edit;
    std::vector<model::FenceId> fences; ///< what came of it, in the order of its making
    std::vector<Wording> notes;         ///< what a person would not expect
};

/// One fence of all: the first, with its name, heights, times and basis, and the shape of the union; the others go.
/// @throws Fault  also where they differ in kind, heights, times, or in being switched off: what one forbids at other
/// times than the other cannot be said by one fence.
[[nodiscard]] Reshaped united(const model::FenceSet& set, std::span<const model::FenceId> ids);

/// What all of them share, as the first; the others go.
/// @throws Fault  as united(), and where they share nothing.
[[nodiscard]] Reshaped intersected(const model::FenceSet& set, std::span<const model::FenceId> ids);

/// `from` without the surface of the others, which stay as they are. Of a keep-out only what they enclose for certain
/// is taken: inside their true radius, and for a setback by the site's position error less.
/// @throws Fault  also where they do not overlap, or nothing would be left.
[[nodiscard]] Reshaped subtracted(const model::FenceSet& set, const model::FenceId& from,
                                  std::span<const model::FenceId> removed);

/// The fences cut into pieces along a line; those that it does not cut stay as they are. The largest piece keeps the
/// identity.
/// @throws Fault  also where it cuts none of them, or ends inside one.
[[nodiscard]] Reshaped cutAlong(const model::FenceSet& set, std::span<const model::FenceId> ids,
                                const model::LineString& line);

/// Those that have holes, without them.
/// @throws Fault  also where none has.
[[nodiscard]] Reshaped holesFilled(const model::FenceSet& set, std::span<const model::FenceId> ids);

/// Each outline drawn corner by corner, free to be edited; it follows no site any more. Drawn ones stay as they are.
/// @throws Fault  also where all are drawn ones.
[[nodiscard]] Reshaped asPolygons(const model::FenceSet& set, std::span<const model::FenceId> ids);

enum class OffsetDirection { Outward, Inward };

/// A further fence at a true ground distance around a fence, or inside it, with the heights and times of that fence,
/// and without a basis: whoever stated that one's did not state this one's. Copies of circles stay circles, and outward
/// ones of setbacks go on to follow the site.
/// @param kind  of the copy: the side to which its outline errs.
/// @throws Fault  also where the distance is not positive, or nothing is left inside.
[[nodiscard]] Reshaped offsetCopy(const model::FenceSet& set, const model::FenceId& id, const StatedLength& distance,
                                  OffsetDirection direction, model::FenceKind kind);

using Thing = model::Thing;

/// How far a thing moves along the ground.
struct GroundShift {
    Length east;
    Length north;
};

struct Duplicated {
    model::Edit edit;
    std::vector<Thing> things; ///< the copies: sites, then the others in the order of the given
    std::vector<Wording> notes;
};

/// Copies under identities of their own, not locked, moved along the ground with their size and direction kept.
/// Setbacks among them follow the copy of their site where it is among them, too, or else the site itself. Fences of
/// parcels are copied as polygons, for parcels lie where they lie. They are moved as placed() moves them (placing.h).
/// @param named  "Nest copy", then "Nest copy 2".
/// @throws Fault  also where nothing is given, and as placed().
[[nodiscard]] Duplicated duplicated(const model::FenceSet& set, std::span<const Thing> things, const GroundShift& shift,
                                    const NameGiver& named = {});

} // namespace fencewright::airspace
