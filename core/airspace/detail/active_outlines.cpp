#include "airspace/detail/active_outlines.h"

#include "geometry/containment.h"

#include <algorithm>

namespace fencewright::airspace::detail {
namespace {

/// Whether heights have to be compared above the ellipsoid, so that the answer depends on the place.
bool dependsOnPlace(const model::Fence& fence, const Moment& moment) {
    const auto differs = [&](const std::optional<model::HeightLimit>& limit) {
        return limit && moment.height && limit->reference != moment.height->reference;
    };
    return differs(fence.band.floor) || differs(fence.band.ceiling);
}

/// Where the ground or the geoid decides, it is asked at every corner and in the middle.
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

ActiveOutlines activeOutlines(const model::FenceSet& set, const Outlines& outlines, const Moment& moment,
                              const geodesy::GroundHeight& ground) {
    ActiveOutlines active;
    for (const auto& fence : set.fences) {
        const auto found = outlines.find(fence.id);
        if (found == outlines.end() || found->second.empty() ||
            !isActiveAnywhereThatCounts(fence, found->second, moment, ground))
            continue;
        (fence.kind == model::FenceKind::KeepIn ? active.permitted : active.forbidden)
            .push_back({&fence, &found->second});
    }
    return active;
}

} // namespace fencewright::airspace::detail
