#include "audit/detail/drawn.h"
#include "audit/rule.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <utility>

namespace fencewright::audit {
namespace {

// Common practice, no published source: an edge pair that is nowhere wider than a tenth of a metre and at least twenty
// times as long is a slip of the hand, not land.
constexpr double kNeedleWidthMetres = 0.1;
constexpr double kNeedleSlenderness = 20.0;
constexpr double kMetresPerDegree = 111195.0; // of a sphere of 6371 km; figures here need two digits

/// Whether the two edges at the tip lie so close together that they enclose next to nothing.
bool isNeedle(model::Position before, model::Position tip, model::Position after) {
    const double squeeze = std::cos(tip.lat * std::numbers::pi / 180.0);
    const double ax = (before.lon - tip.lon) * squeeze * kMetresPerDegree,
                 ay = (before.lat - tip.lat) * kMetresPerDegree;
    const double bx = (after.lon - tip.lon) * squeeze * kMetresPerDegree, by = (after.lat - tip.lat) * kMetresPerDegree;
    const double shorter = std::min(std::hypot(ax, ay), std::hypot(bx, by));
    const double longer = std::max(std::hypot(ax, ay), std::hypot(bx, by));
    if (!(ax * bx + ay * by > 0.0) || longer == 0.0)
        return false;
    const double width = std::abs(ax * by - ay * bx) / longer;
    return width > 0.0 && width < kNeedleWidthMetres && shorter > kNeedleSlenderness * width && shorter > 1.0;
}

void reportNeedles(const Subject& subject, const Report& report, const model::Fence& fence, std::size_t number,
                   std::size_t ring) {
    const auto& polygon = *detail::drawnPolygons(fence)[number];
    const auto& corners = (ring == 0 ? polygon.shell : polygon.holes[ring - 1]).corners;
    if (corners.size() < 4)
        return;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const auto &before = corners[(i + corners.size() - 1) % corners.size()],
                   &after = corners[(i + 1) % corners.size()];
        if (!isNeedle(before, corners[i], after))
            continue;
        Finding finding;
        finding.fence = fence.id;
        finding.place = corners[i];
        finding.words = phrase("core", "%1: %2 runs out to here and back less than 0.1 m beside itself.")(
            detail::beginWith(fence), detail::ringWords(fence, number, ring));
        auto without = polygon;
        auto& left = (ring == 0 ? without.shell : without.holes[ring - 1]).corners;
        left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
        finding.repair = detail::safeRepair(subject, detail::withDrawn(fence, number, {{without}}),
                                            phrase("core", "Remove a spike of %1")(detail::nameOf(fence)));
        report(std::move(finding));
    }
}

} // namespace

constinit extern const Rule ringSpike{
    .id = "ring.spike",
    .title = phrase("core", "Spike"),
    .why = phrase(
        "core",
        "An edge that runs out and back along itself encloses nothing, but flight systems may refuse it or follow it."),
    .remedy = phrase("core", "Remove the corner at its tip."),
    .severity = Severity::Error,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        detail::DrawnRepairs repairs{subject};
        detail::reportDrawn(
            subject, report, {geometry::FaultKind::Spike},
            [](const model::Fence& fence, const DrawnFault& one) {
                return phrase("core", "%1 runs out to here and straight back.")(
                    detail::ringWords(fence, one.polygon, one.fault.ring));
            },
            [&](const model::Fence& fence, const DrawnFault& one) { return repairs.of(fence, one.polygon); });
        for (const auto& fence : subject.set.fences) {
            if (!fence.enabled)
                continue;
            const auto polygons = detail::drawnPolygons(fence);
            for (std::size_t number = 0; number < polygons.size(); ++number)
                for (std::size_t ring = 0; ring <= polygons[number]->holes.size(); ++ring)
                    reportNeedles(subject, report, fence, number, ring);
        }
    }};

} // namespace fencewright::audit
