#pragma once

#include "model/edit.h"
#include "model/fence_set.h"
#include "model/thing.h"
#include "name_giver.h"
#include "progress.h"

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// Fences, sites and homes as text that travels from one document to another, most often over the clipboard: GeoJSON by
// RFC 7946, so that other programs read the outlines, with a foreign member (6.1) that holds each thing as it is.
namespace fencewright::store {

inline constexpr std::size_t kLongestClipping = 16 * 1024 * 1024; ///< bytes
inline constexpr std::size_t kMostClippedFeatures = 20'000;
inline constexpr std::size_t kMostClippedCorners = 500'000;

using ClippedThing = model::Thing;

struct Clipping {
    std::string text;
    std::size_t fences = 0;
    std::size_t sites = 0; ///< with those that setbacks need
    std::size_t homes = 0;
    std::size_t confidential = 0; ///< of the sites: the person's own copying takes them along
};

/// Shells counter-clockwise, holes clockwise, cut at the antimeridian. A setback takes its site along.
/// Side: the geometry is the fence's outline, the safe side out; the foreign member is exact.
/// @throws Fault  nothing is there to copy, or the text would be longer than can be pasted. @throws Cancelled
[[nodiscard]] Clipping clipped(const model::FenceSet& set, std::span<const ClippedThing> things,
                               const Progress& progress = {});

/// Corners and centres that clipped() writes, those of outlines not counted: what it takes its time for.
[[nodiscard]] std::size_t clippedCorners(const model::FenceSet& set, std::span<const ClippedThing> things);

/// What a text holds.
struct Pasting {
    std::vector<model::Fence> fences;
    std::vector<model::Site> sites;
    std::vector<model::Home> homes;
    std::size_t own = 0;        ///< things as they were copied
    std::size_t foreign = 0;    ///< made of geometries: areas became keep-outs, places and lines sites
    std::size_t leftOpen = 0;   ///< rings whose last place was not the first: taken as closed, and marked so
    std::size_t heights = 0;    ///< places with a third number, which was left out
    std::size_t unwrapped = 0;  ///< rings and lines with an edge of over 180 degrees, which goes the short way now
    std::size_t unreadable = 0; ///< features without a geometry
};

/// Side: exact.
/// @throws Fault  too long, nested too deeply, not JSON, not GeoJSON, numbers that are no place on the earth: says what
/// and in which feature. Nothing of such a text is taken. @throws Cancelled
/// @param named  what the text does not name: "Pasted area", "Pasted site".
[[nodiscard]] Pasting pasted(std::string_view text, const NameGiver& named = {}, const Progress& progress = {});

/// All of it added to the set in one edit: under fresh identities where theirs are taken, and then unlocked, under
/// names of their own.
struct PastingEdit {
    model::Edit edit;
    std::vector<ClippedThing> things;
};
/// @throws Fault  a setback's site is neither in the text nor in the set: names it.
/// @param named  what has a name that is taken: "Nest copy", "Nest copy 2".
[[nodiscard]] PastingEdit pastedInto(const model::FenceSet& set, Pasting pasting, const NameGiver& named = {});

} // namespace fencewright::store
