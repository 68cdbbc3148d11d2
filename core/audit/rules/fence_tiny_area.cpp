#include "audit/detail/drawn.h"
#include "audit/rule.h"
#include "geodesy/geodesic.h"
#include "geometry/spatial_index.h"
#include "units/measure_notation.h"

#include <utility>

namespace fencewright::audit {
namespace {

constexpr Area kTiny = Area::squareMetres(10.0); // common practice, no published source: about three metres square

/// Spares the measuring of what is large by its box: a thousandth of a degree is over 100 m north and south.
bool small(const model::MultiPolygon& outline) {
    const auto box = geometry::boxOf(outline);
    return box.maxX - box.minX < 0.001 || box.maxY - box.minY < 0.001;
}

} // namespace

constinit extern const Rule fenceTinyArea{
    .id = "fence.tiny-area",
    .title = phrase("core", "Fence is tiny"),
    .why = phrase(
        "core",
        "No aircraft can be kept in or out of a place smaller than itself; it is most likely a slip of the hand."),
    .remedy = phrase("core", "Check its corners or its radius, or delete it."),
    .severity = Severity::Doubt,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        for (const auto& fence : subject.set.fences) {
            const auto outline = subject.outlines.find(fence.id);
            if (!fence.enabled || outline == subject.outlines.end() || outline->second.empty() ||
                !small(outline->second))
                continue;
            const auto area = geodesy::measure(outline->second).area;
            if (area >= kTiny)
                continue;
            Finding finding;
            finding.fence = fence.id;
            finding.place = detail::placeOf(subject, fence.id);
            finding.words = phrase("core", "%1 encloses only %2.")(detail::beginWith(fence),
                                                                   units::formatArea(area, units::System::Metric));
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
