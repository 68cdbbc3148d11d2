#include "exchange/drawn_height.h"

#include "fault.h"
#include "geodesy/edge_meaning.h"
#include "geometry/spatial_index.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fencewright::exchange {

namespace {

using model::FenceKind;
using model::HeightLimit;
using model::HeightReference;

/// A floor at or below the ground is none: walls may reach down to it.
bool hasRealFloor(const std::optional<HeightLimit>& floor) {
    return floor && !(floor->reference == HeightReference::Ground && floor->value.length <= Length::metres(0));
}

/// From `low` to `high`, with the lines of EGM96's 15-minute grid between them.
std::vector<double> gridLines(double low, double high) {
    constexpr double kStep = 0.25;
    std::vector<double> lines{low};
    for (double line = std::floor(low / kStep) * kStep + kStep; line < high; line += kStep)
        lines.push_back(line);
    lines.push_back(high);
    return lines;
}

/// The separation is bilinear between the lines of its grid, and so takes its extremes over a box where the lines cross
/// each other and the box.
double safeMetresAboveSea(const HeightLimit& limit, FenceKind kind, const model::MultiPolygon& surface,
                          const geodesy::GroundHeight& ground) {
    double lowest = std::numeric_limits<double>::infinity();
    double highest = -lowest;
    for (const model::Polygon& part : surface.parts) {
        const geometry::Box box = geometry::boxOf(part);
        for (const double lon : gridLines(box.minX, box.maxX)) {
            for (const double lat : gridLines(box.minY, box.maxY)) {
                const model::Position place{geodesy::normalisedLongitude(lon), lat};
                const auto height = geodesy::aboveMeanSeaLevel(limit, place, ground);
                if (!height)
                    throw Fault{phrase("core", "The height is not known everywhere."), "", ""};
                lowest = std::min(lowest, height->inMetres());
                highest = std::max(highest, height->inMetres());
            }
        }
    }
    // To whole centimetres; the grid itself is only good to about a metre, but the number shall be on the safe side.
    constexpr double kRoundingDoubt = 1e-6;
    return kind == FenceKind::KeepOut ? std::ceil(highest * 100 + kRoundingDoubt) / 100
                                      : std::floor(lowest * 100 - kRoundingDoubt) / 100;
}

} // namespace

DrawnBand drawnBand(const model::Fence& fence, const model::MultiPolygon& surface,
                    const geodesy::GroundHeight& ground) {
    if (!fence.band.ceiling)
        return {};
    const HeightLimit& ceiling = *fence.band.ceiling;
    DrawnHeight drawn;
    drawn.extruded = fence.kind == FenceKind::KeepOut || !hasRealFloor(fence.band.floor);
    drawn.metres = ceiling.value.length.inMetres();
    if (ceiling.reference != HeightReference::Ground)
        drawn.mode = DrawnHeight::Mode::AboveMeanSeaLevel;
    if (ceiling.reference == HeightReference::Ellipsoid) {
        try {
            drawn.metres = safeMetresAboveSea(ceiling, fence.kind, surface, ground);
        } catch (const Fault& fault) {
            return {std::nullopt, fault.words().problem};
        }
    }
    return {drawn, {}};
}

Wording drawingFault(const compare::HeldFence& approved, const compare::HeldFence& held, const HeldDrawing& drawing,
                     const geodesy::GroundHeight& ground) {
    using Mode = HeldDrawing::Mode;
    if (drawing.mode == Mode::OnGround)
        return drawing.extruded ? Wording{phrase("core", "its walls have no height")} : Wording{};
    if (!approved.ceiling)
        return phrase("core", "it is drawn with a ceiling and has none");
    const bool keepIn = approved.kind == FenceKind::KeepIn;
    if (keepIn && drawing.extruded && hasRealFloor(approved.floor))
        return phrase("core", "its walls reach below its floor");
    const auto exceeds = [&](double metres) {
        return keepIn ? drawing.highestMetres > metres : drawing.lowestMetres < metres;
    };
    const Wording words = keepIn ? phrase("core", "it is drawn higher than its ceiling")
                                 : phrase("core", "it is drawn lower than its ceiling");
    const bool aboveGround = approved.ceiling->reference == HeightReference::Ground;
    if (aboveGround != (drawing.mode == Mode::AboveGround))
        return phrase("core", "its ceiling is drawn from another reference");
    if (aboveGround)
        return exceeds(approved.ceiling->value.length.inMetres()) ? words : Wording{};
    for (const model::Polygon& part : held.surface.parts) {
        for (const model::Position corner : part.shell.corners) {
            const auto height = geodesy::aboveMeanSeaLevel(*approved.ceiling, corner, ground);
            if (!height || exceeds(height->inMetres()))
                return words;
        }
    }
    return {};
}

} // namespace fencewright::exchange
