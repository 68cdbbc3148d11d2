#include "airspace/operating_area.h"

#include "airspace/outline.h"
#include "geometry/containment.h"

#include <algorithm>
#include <vector>

namespace fencewright::airspace {
namespace {

/// Whether heights have to be compared above the ellipsoid, so that the answer depends on the place.
bool dependsOnPlace(const model::Fence& fence, const Moment& moment) {
    const auto differs = [&](const std::optional<model::HeightLimit>& limit) {
        return limit && moment.height && limit->reference != moment.height->reference;
    };
    return differs(fence.band.floor) || differs(fence.band.ceiling);
}

/// A fence is active as a whole. Where the ground or the geoid decides, it is asked at every corner and in the middle:
/// a keep-out holds if it does anywhere there, a keep-in only if it does everywhere.
bool isActiveAnywhereThatCounts(const model::Fence& fence, const model::MultiPolygon& outline, const Moment& moment,
                                const geodesy::GroundHeight& ground) {
    const auto active = [&](const model::Position& place) { return isActive(fence, moment, place, ground); };
    if (!dependsOnPlace(fence, moment))
        return active({});
    std::vector<model::Position> places;
    if (const auto middle = geometry::labelPlace(outline))
        places.push_back(*middle);
    for (const auto& part : outline.parts)
        places.insert(places.end(), part.shell.corners.begin(), part.shell.corners.end());
    return fence.kind == model::FenceKind::KeepOut ? std::any_of(places.begin(), places.end(), active)
                                                   : std::all_of(places.begin(), places.end(), active);
}

} // namespace

Outlines outlines(const model::FenceSet& set) {
    Outlines result;
    for (const auto& fence : set.fences)
        result.emplace(fence.id, outline(fence, set.sites));
    return result;
}

model::MultiPolygon operatingArea(const model::FenceSet& set, const Outlines& outlines, const Moment& moment,
                                  const geodesy::GroundHeight& ground) {
    std::uint64_t last = 0;
    return KeptOperatingArea{}
        .area(
            set, outlines, [&](const model::FenceId&) { return ++last; }, moment, ground)
        .surface;
}

geometry::KeptDifference::Result KeptOperatingArea::area(const model::FenceSet& set, const Outlines& outlines,
                                                         const OutlineNumber& number, const Moment& moment,
                                                         const geodesy::GroundHeight& ground,
                                                         const Progress& progress) {
    std::vector<geometry::KeptDifference::Numbered> permitted, forbidden;
    for (const auto& fence : set.fences) {
        const auto found = outlines.find(fence.id);
        if (found == outlines.end() || found->second.empty() ||
            !isActiveAnywhereThatCounts(fence, found->second, moment, ground))
            continue;
        (fence.kind == model::FenceKind::KeepIn ? permitted : forbidden).push_back({&found->second, number(fence.id)});
    }
    return permitted.empty() ? geometry::KeptDifference::Result{}
                             : m_difference.difference(permitted, forbidden, progress);
}

} // namespace fencewright::airspace
