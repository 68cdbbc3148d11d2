#include "audit/detail/drawn.h"
#include "audit/rule.h"
#include "geodesy/geodesic.h"
#include "units/measure_notation.h"

#include <cstddef>

namespace fencewright::audit {
namespace {

const model::Ring& ringOf(const model::Polygon& polygon, std::size_t ring) {
    return ring == 0 ? polygon.shell : polygon.holes[ring - 1];
}
model::Ring& ringOf(model::Polygon& polygon, std::size_t ring) {
    return ring == 0 ? polygon.shell : polygon.holes[ring - 1];
}

} // namespace

constinit extern const Rule ringClosureAssumed{
    .id = "ring.closure-assumed",
    .title = phrase("core", "Closing edge assumed"),
    .why = phrase("core",
                  "The source left the outline open, so its last edge is a guess and may run where nobody meant it."),
    .remedy = phrase("core", "Look at the closing edge, and confirm it or add the missing corners."),
    .severity = Severity::Doubt,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        detail::reportDrawn(
            subject, report, {geometry::FaultKind::ClosureAssumed},
            [](const model::Fence& fence, const DrawnFault& one) {
                const auto& corners = ringOf(*detail::drawnPolygons(fence)[one.polygon], one.fault.ring).corners;
                const auto length = geodesy::inverse(corners.back(), corners.front()).length;
                return phrase("core", "%1 was not closed in its source; the closing edge of %2 is assumed.")(
                    detail::ringWords(fence, one.polygon, one.fault.ring),
                    units::formatLength(length, units::System::Metric));
            },
            [&](const model::Fence& fence, const DrawnFault& one) {
                auto polygon = *detail::drawnPolygons(fence)[one.polygon];
                ringOf(polygon, one.fault.ring).closureAssumed = false;
                return model::replaceFence(subject.set, detail::withDrawn(fence, one.polygon, {{polygon}}),
                                           phrase("core", "Confirm the closing edge of %1")(detail::nameOf(fence)));
            });
    }};

} // namespace fencewright::audit
