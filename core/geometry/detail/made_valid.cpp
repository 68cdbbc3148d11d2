#include "geometry/detail/made_valid.h"

#include "geometry/detail/geos_conversion.h"
#include "geometry/detail/soundness.h"
#include "geometry/overlay.h"
#include "geometry/validity.h"

#include <algorithm>
#include <iterator>
#include <span>
#include <utility>

namespace fencewright::geometry::detail {
namespace {

/// Each part valid; they may still overlap.
model::MultiPolygon withValidParts(const model::MultiPolygon& surface, Side side) {
    if (surface.empty())
        return surface;
    auto turned = turnedNear(surface, middleLongitude({{surface.parts.front()}}));
    model::MultiPolygon result;
    for (auto& part : turned.parts) {
        if (isValid(part)) {
            result.parts.push_back(std::move(part));
            continue;
        }
        auto pieces = repaired(part, side).surface;
        std::move(pieces.parts.begin(), pieces.parts.end(), std::back_inserter(result.parts));
    }
    return result;
}

} // namespace

model::MultiPolygon madeValid(const model::MultiPolygon& surface, Side side) {
    auto result = withValidParts(surface, side);
    if (requireExamined(result, "repair"))
        return result;
    return geometry::united(std::span{&result, 1});
}

} // namespace fencewright::geometry::detail
