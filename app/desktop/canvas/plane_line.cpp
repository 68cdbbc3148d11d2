#include "desktop/canvas/plane_line.h"

#include <algorithm>
#include <utility>

namespace fencewright::desktop {
namespace {

void keepFarthest(std::span<const QPointF> line, std::vector<bool>& kept, double tolerance) {
    std::vector<std::pair<std::size_t, std::size_t>> pending{{0, line.size() - 1}};
    while (!pending.empty()) {
        const auto [first, last] = pending.back();
        pending.pop_back();
        const QPointF begin = line[first], along = line[last] - begin;
        const double squared = QPointF::dotProduct(along, along), inverse = squared > 0.0 ? 1.0 / squared : 0.0;
        double farthest = tolerance * tolerance;
        std::size_t at = 0;
        for (std::size_t i = first + 1; i < last; ++i) {
            const QPointF to = line[i] - begin;
            const double part = std::min(std::max(QPointF::dotProduct(to, along) * inverse, 0.0), 1.0);
            const QPointF off = to - along * part;
            const double d = QPointF::dotProduct(off, off);
            if (d > farthest) {
                farthest = d;
                at = i;
            }
        }
        if (at == 0)
            continue;
        kept[at] = true;
        pending.emplace_back(first, at);
        pending.emplace_back(at, last);
    }
}

/// Cuts a ring at one border; `inside` is the signed distance to it.
template <class Inside> QPolygonF cut(const QPolygonF& ring, Inside inside) {
    QPolygonF result;
    result.reserve(ring.size() + 4);
    for (qsizetype i = 0; i < ring.size(); ++i) {
        const QPointF& from = ring[i == 0 ? ring.size() - 1 : i - 1];
        const QPointF& to = ring[i];
        const double a = inside(from), b = inside(to);
        if ((a < 0.0) != (b < 0.0))
            result << from + (to - from) * (a / (a - b));
        if (b >= 0.0)
            result << to;
    }
    return result;
}

} // namespace

std::vector<QPointF> decimated(std::span<const QPointF> line, double tolerance, bool closed) {
    std::vector<QPointF> thinned;
    thinned.reserve(line.size());
    const auto isFar = [&](const QPointF& off) { return QPointF::dotProduct(off, off) > tolerance * tolerance / 4.0; };
    for (const QPointF& point : line)
        if (thinned.empty() || isFar(point - thinned.back()))
            thinned.push_back(point);
    if (!closed && thinned.size() > 1)
        thinned.back() = line.back();
    if (thinned.size() < 4)
        return thinned;
    std::vector<bool> kept(thinned.size(), false);
    kept.front() = kept.back() = true;
    keepFarthest(thinned, kept, tolerance / 2.0);
    std::size_t count = 0;
    for (std::size_t i = 0; i < thinned.size(); ++i)
        if (kept[i])
            thinned[count++] = thinned[i];
    thinned.resize(count);
    return thinned;
}

QPolygonF clippedRing(const QPolygonF& ring, const QRectF& to) {
    if (to.contains(ring.boundingRect()))
        return ring;
    QPolygonF result = cut(ring, [&](const QPointF& p) { return p.x() - to.left(); });
    result = cut(result, [&](const QPointF& p) { return to.right() - p.x(); });
    result = cut(result, [&](const QPointF& p) { return p.y() - to.top(); });
    return cut(result, [&](const QPointF& p) { return to.bottom() - p.y(); });
}

std::vector<QPolygonF> clippedLine(const QPolygonF& line, const QRectF& to) {
    std::vector<QPolygonF> pieces;
    bool open = false;
    for (qsizetype i = 1; i < line.size(); ++i) {
        const QPointF from = line[i - 1], along = line[i] - line[i - 1];
        double enter = 0.0, leave = 1.0;
        bool seen = true;
        const auto border = [&](double p, double q) {
            if (p == 0.0) {
                seen = seen && q >= 0.0;
                return;
            }
            const double t = q / p;
            if (p < 0.0)
                enter = std::max(enter, t);
            else
                leave = std::min(leave, t);
        };
        border(-along.x(), from.x() - to.left());
        border(along.x(), to.right() - from.x());
        border(-along.y(), from.y() - to.top());
        border(along.y(), to.bottom() - from.y());
        if (!seen || enter > leave) {
            open = false;
            continue;
        }
        if (!open || enter > 0.0)
            pieces.push_back(QPolygonF{} << from + along * enter);
        pieces.back() << from + along * leave;
        open = leave == 1.0;
    }
    return pieces;
}

double signedDoubleArea(std::span<const QPointF> ring) {
    double sum = 0.0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        // Relative to the first point: plane coordinates are large, and rings small.
        const QPointF a = ring[i] - ring[0], b = ring[(i + 1) % ring.size()] - ring[0];
        sum += a.x() * b.y() - b.x() * a.y();
    }
    return sum;
}

QRectF boundsOf(std::span<const QPointF> points) {
    if (points.empty())
        return {};
    double minX = points.front().x(), maxX = minX, minY = points.front().y(), maxY = minY;
    for (const QPointF& point : points) {
        minX = std::min(minX, point.x());
        maxX = std::max(maxX, point.x());
        minY = std::min(minY, point.y());
        maxY = std::max(maxY, point.y());
    }
    return {minX, minY, maxX - minX, maxY - minY};
}

} // namespace fencewright::desktop
