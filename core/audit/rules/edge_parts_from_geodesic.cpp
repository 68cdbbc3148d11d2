#include "audit/detail/drawn.h"
#include "audit/rule.h"
#include "geodesy/edge_meaning.h"
#include "geodesy/geodesic.h"
#include "units/measure_notation.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <utility>

namespace fencewright::audit {
namespace {

constexpr Length kMost = Length::metres(0.1);

/// The edge of a fence that parts farthest.
struct Worst {
    Length parting, length;
    model::Position place;

    void look(const model::Ring& ring) {
        for (std::size_t i = 0; i < ring.corners.size(); ++i) {
            const auto &from = ring.corners[i], &to = ring.corners[(i + 1) % ring.corners.size()];
            if (mayPart(from, to))
                look(from, to);
        }
    }

private:
    /// Twice the sagitta of the geodesic on a sphere, L^2 tan(latitude) / 8R: spares the geodesics of short edges.
    static bool mayPart(model::Position from, model::Position to) {
        constexpr double radius = 6.371e6;
        const double latitude = std::max(std::abs(from.lat), std::abs(to.lat)) * std::numbers::pi / 180.0;
        const double along =
            std::hypot((to.lon - from.lon) * std::cos(latitude), to.lat - from.lat) * std::numbers::pi / 180.0 * radius;
        return along * along * std::tan(latitude) / (4.0 * radius) > kMost.inMetres() || along > 1e5;
    }
    void look(model::Position from, model::Position to) {
        const auto found = geodesy::partingFromGeodesic(from, to);
        if (found <= parting)
            return;
        parting = found;
        length = geodesy::lengthOf({from, to});
        place = {(from.lon + to.lon) / 2.0, (from.lat + to.lat) / 2.0};
    }
};

} // namespace

constinit extern const Rule edgeNotGeodesic{
    .id = "edge.parts-from-geodesic",
    .title = phrase("core", "Long edge"),
    .why = phrase("core", "Systems that draw an edge as the shortest path, and not straight in longitude and latitude, "
                          "put the boundary elsewhere."),
    .remedy = phrase("core", "Add corners on the edge; a delivery can add them by itself."),
    .severity = Severity::Note,
    .reach = Reach::Fence,
    .check = [](const Subject& subject, const Report& report) {
        for (const auto& fence : subject.set.fences) {
            const auto outline = subject.outlines.find(fence.id);
            if (!fence.enabled || outline == subject.outlines.end())
                continue;
            Worst worst;
            for (const auto& part : outline->second.parts) {
                worst.look(part.shell);
                for (const auto& hole : part.holes)
                    worst.look(hole);
            }
            if (worst.parting <= kMost)
                continue;
            Finding finding;
            finding.fence = fence.id;
            finding.place = worst.place;
            finding.words = phrase("core", "An edge of %1, %2 long, parts from the geodesic by %3.")(
                detail::nameOf(fence), units::formatLength(worst.length, units::System::Metric),
                units::formatLength(worst.parting, units::System::Metric));
            report(std::move(finding));
        }
    }};

} // namespace fencewright::audit
