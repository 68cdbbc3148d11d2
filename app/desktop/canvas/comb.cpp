#include "desktop/canvas/comb.h"

#include "desktop/canvas/plane_line.h"

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

// A bend sharper than this begins a new row of ticks, so that they stand free of the corner.
constexpr double kSharpBendCosine = 0.87758256189037276; // of half a radian
// Between edges shorter than this a bend is roughness of the line, and no corner.
constexpr double kShortEdgePixels = 5.0;
constexpr double kRoughnessPixels = 3.0;

} // namespace

std::vector<QLineF> combOf(const QPolygonF& given, CombSide side, const QRectF& seen) {
    const auto squaredLength = [](const QPointF& along) { return QPointF::dotProduct(along, along); };
    constexpr double same = 1e-12; // pixels, squared
    std::vector<QPointF> ring;
    ring.reserve(std::size_t(given.size()));
    for (const QPointF& point : given)
        if (ring.empty() || squaredLength(point - ring.back()) > same)
            ring.push_back(point);
    while (ring.size() > 1 && squaredLength(ring.front() - ring.back()) <= same)
        ring.pop_back();
    if (ring.size() < 3)
        return {};
    // A rough line points everywhere: its comb stands on a smoother one beneath it.
    constexpr double shortEdge = kShortEdgePixels * kShortEdgePixels;
    std::size_t shortEdges = 0;
    for (std::size_t i = 0; i < ring.size(); ++i)
        shortEdges += squaredLength(ring[i + 1 == ring.size() ? 0 : i + 1] - ring[i]) < shortEdge;
    if (shortEdges * 2 > ring.size())
        if (std::vector<QPointF> smoother = decimated(ring, 2.0 * kRoughnessPixels, true); smoother.size() >= 3)
            ring = std::move(smoother);
    const std::size_t count = ring.size();
    const auto edge = [&](std::size_t i) { return ring[(i + 1) % count] - ring[i % count]; };
    const auto isSharp = [&](std::size_t corner) {
        const QPointF before = edge(corner + count - 1), after = edge(corner);
        const double squareBefore = squaredLength(before), squareAfter = squaredLength(after);
        if (squareBefore < shortEdge || squareAfter < shortEdge)
            return false;
        const double along = QPointF::dotProduct(before, after);
        return along < 0.0 || along * along < kSharpBendCosine * kSharpBendCosine * squareBefore * squareAfter;
    };
    // With y down, a positive area means clockwise to the eye, the inside to the right of the way; and (-y, x) points
    // to the right.
    const bool inside = side == CombSide::Inside;
    const double turn = (signedDoubleArea(ring) > 0.0) == inside ? 1.0 : -1.0;

    std::size_t start = 0;
    while (start < count && !isSharp(start))
        ++start;
    const std::size_t firstCorner = start == count ? 0 : start;

    std::vector<QLineF> ticks;
    const QRectF reach = seen.adjusted(-kCombTickPixels, -kCombTickPixels, kCombTickPixels, kCombTickPixels);
    for (std::size_t done = 0; done < count;) {
        std::size_t edges = 0;
        double length = 0.0;
        do {
            const QPointF along = edge(firstCorner + done + edges);
            length += std::hypot(along.x(), along.y());
            ++edges;
        } while (done + edges < count && !isSharp((firstCorner + done + edges) % count));
        const double rows = std::max(1.0, std::round(length / kCombSpacingPixels));
        const double spacing = length / rows;
        double next = length < kCombSpacingPixels / 2.0 ? length + 1.0 : spacing / 2.0;
        double passed = 0.0;
        for (std::size_t i = 0; i < edges; ++i) {
            const QPointF from = ring[(firstCorner + done + i) % count], along = edge(firstCorner + done + i);
            const double edgeLength = std::hypot(along.x(), along.y());
            const QPointF direction = edgeLength > 0.0 ? along / edgeLength : QPointF{};
            const QPointF normal = QPointF{-direction.y(), direction.x()} * (turn * kCombTickPixels);
            // Leap over what cannot be seen: a long edge may reach far beyond the widget.
            const QRectF box = QRectF{from, from + along}.normalized();
            if (!box.adjusted(-1, -1, 1, 1).intersects(reach)) {
                if (next < passed + edgeLength)
                    next += std::ceil((passed + edgeLength - next) / spacing) * spacing;
            } else {
                for (; next < passed + edgeLength; next += spacing) {
                    const QPointF foot = from + direction * (next - passed);
                    if (reach.contains(foot))
                        ticks.emplace_back(foot, foot + normal);
                }
            }
            passed += edgeLength;
        }
        done += edges;
    }
    return ticks;
}

} // namespace fencewright::desktop
