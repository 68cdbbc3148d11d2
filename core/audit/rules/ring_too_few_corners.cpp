#include "audit/detail/drawn.h"
#include "audit/rule.h"

#include <cstddef>

namespace fencewright::audit {

constinit extern const Rule ringTooFewCorners{
    .id = "ring.too-few-corners",
    .title = phrase("core", "Outline of fewer than three corners"),
    .why = phrase("core", "It encloses nothing, so it neither permits nor forbids."),
    .remedy = phrase("core", "Add corners, or delete it."),
    .severity = Severity::Error,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        detail::reportDrawn(
            subject, report, {geometry::FaultKind::TooFewCorners},
            [](const model::Fence& fence, const DrawnFault& one) {
                return phrase("core", "%1 has fewer than three different corners.")(
                    detail::ringWords(fence, one.polygon, one.fault.ring));
            },
            [&](const model::Fence& fence, const DrawnFault& one) -> std::optional<model::Edit> {
                if (one.fault.ring == 0)
                    return std::nullopt; // without its outline the fence is nothing: that is for a person to say
                auto polygon = *detail::drawnPolygons(fence)[one.polygon];
                polygon.holes.erase(polygon.holes.begin() + static_cast<std::ptrdiff_t>(one.fault.ring - 1));
                return detail::safeRepair(subject, detail::withDrawn(fence, one.polygon, {{polygon}}),
                                          phrase("core", "Remove the empty hole of %1")(detail::nameOf(fence)));
            });
    }};

} // namespace fencewright::audit
