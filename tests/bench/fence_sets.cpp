#include "bench/fence_sets.h"

#include <cmath>
#include <numbers>
#include <random>

namespace fencewright::bench {
namespace {

// The middle of the county (orthophoto.h), WGS 84.
constexpr model::Position kMiddle{-7.30505, 42.16962};

model::Ring rough(const model::Position& middle, double radiusLat, int corners, std::mt19937& random) {
    std::uniform_real_distribution<double> some{-0.01, 0.01}, turn{0.0, 2 * std::numbers::pi};
    const double start = turn(random), wide = 1.0 / std::cos(middle.lat * std::numbers::pi / 180.0);
    model::Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2 * std::numbers::pi * i / corners;
        const double radius = radiusLat * (1.0 + 0.2 * std::sin(5 * angle + start) + some(random));
        ring.corners.push_back({middle.lon + wide * radius * std::cos(angle), middle.lat + radius * std::sin(angle)});
    }
    return ring;
}

} // namespace

geometry::Box countyBox(double kilometres) {
    const double lat = kilometres / 2 / 111.2, lon = lat / std::cos(kMiddle.lat * std::numbers::pi / 180.0);
    return {kMiddle.lon - lon, kMiddle.lat - lat, kMiddle.lon + lon, kMiddle.lat + lat};
}

model::FenceSet fences(int count, int cornersEach, const geometry::Box& box, double partOfWidth) {
    std::mt19937 random{3};
    std::uniform_real_distribution<double> lon{box.minX, box.maxX}, lat{box.minY, box.maxY};
    model::FenceSet set;
    set.title = "Bench";
    for (int i = 0; i < count; ++i) {
        model::Fence fence;
        fence.id = model::freshId<model::Fence>();
        fence.name = "Fence " + std::to_string(i + 1);
        fence.kind = i == 0 ? model::FenceKind::KeepIn : model::FenceKind::KeepOut;
        const double radius = (box.maxY - box.minY) * (i == 0 ? 0.6 : partOfWidth / 2);
        const model::Position middle = i == 0 ? model::Position{(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2}
                                              : model::Position{lon(random), lat(random)};
        fence.shape = model::DrawnPolygon{{rough(middle, radius, cornersEach, random), {}}};
        set.fences.append(std::move(fence));
    }
    return set;
}

} // namespace fencewright::bench
