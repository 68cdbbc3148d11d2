#include "desktop/canvas/reference_tile_map.h"

#include "fault.h"

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr int kSize = ReferenceTile::kPixels;
constexpr double kFitBound = 0.125;     // pixels that the fitted way from the earth may be off
constexpr double kStraightBound = 0.03; // and that a straight way may part from that

} // namespace

TileMap::TileMap(const ReferenceTile& tile, const geodesy::MapPlane& plane) : m_tile{tile}, m_plane{plane} {
    for (int i = 0; i <= 8; ++i)
        for (int k = 0; k <= 8; ++k) {
            const double x = -kRoom + (kSize + 2 * kRoom) * i / 8, y = -kRoom + (kSize + 2 * kRoom) * k / 8;
            const model::Position place = plane.toEarth(
                geodesy::PlanePoint{tile.left + x * tile.metresPerPixel, tile.top - y * tile.metresPerPixel});
            m_box.add(place.lon, place.lat);
        }
    // What the border bulges between the samples.
    const double dx = (m_box.maxX - m_box.minX) / 50, dy = (m_box.maxY - m_box.minY) / 50;
    m_box = {m_box.minX - dx, m_box.minY - dy, m_box.maxX + dx, m_box.maxY + dy};
    m_fit = {m_box.minX - 25 * dx, m_box.minY - 25 * dy, m_box.maxX + 25 * dx, m_box.maxY + 25 * dy};
    fit();
}

std::optional<QPointF> TileMap::exact(const model::Position& place) const {
    try {
        const geodesy::PlanePoint plane = m_plane.toPlane(place);
        const QPointF at{(plane.x - m_tile.left) / m_tile.metresPerPixel,
                         (m_tile.top - plane.y) / m_tile.metresPerPixel};
        return std::abs(at.x()) < 1e9 && std::abs(at.y()) < 1e9 ? std::optional{at} : std::nullopt;
    } catch (const Fault&) {
        return std::nullopt; // it has no place on this map; the import has spoken of it
    }
}

void TileMap::fit() {
    m_middle = {(m_fit.minX + m_fit.maxX) / 2, (m_fit.minY + m_fit.maxY) / 2};
    m_perLon = 2.0 / (m_fit.maxX - m_fit.minX);
    m_perLat = 2.0 / (m_fit.maxY - m_fit.minY);
    const auto placeAt = [&](double u, double v) {
        return model::Position{m_middle.lon + u / m_perLon, m_middle.lat + v / m_perLat};
    };
    // Through -1, 0, 1 in each direction.
    const auto through = [](double a, double b, double c) { return std::array{b, (c - a) / 2, (a + c) / 2 - b}; };
    Coefficients xs{}, ys{};
    for (int v = -1; v <= 1; ++v) {
        std::array<QPointF, 3> row;
        for (int u = -1; u <= 1; ++u) {
            const auto at = exact(placeAt(u, v));
            if (!at)
                return;
            row[std::size_t(u + 1)] = *at;
        }
        xs[std::size_t(v + 1)] = through(row[0].x(), row[1].x(), row[2].x());
        ys[std::size_t(v + 1)] = through(row[0].y(), row[1].y(), row[2].y());
    }
    double bend = 0.0; // pixels at most, where u and v change by one from anywhere in the fit
    for (std::size_t i = 0; i < 3; ++i) {
        const auto x = through(xs[0][i], xs[1][i], xs[2][i]), y = through(ys[0][i], ys[1][i], ys[2][i]);
        for (std::size_t k = 0; k < 3; ++k) {
            m_x[k][i] = x[k];
            m_y[k][i] = y[k];
            if (i + k >= 2)
                bend += std::hypot(x[k], y[k]) * (i + k == 2 ? 1.0 : i + k == 3 ? 5.0 : 16.0);
        }
    }
    for (const double u : {-1.0, -0.5, 0.5, 1.0})
        for (const double v : {-1.0, -0.5, 0.5, 1.0}) {
            const model::Position place = placeAt(u, v);
            const auto at = exact(place);
            const QPointF off = at ? *at - fitted(place) : QPointF{1.0, 1.0};
            if (std::hypot(off.x(), off.y()) > kFitBound)
                return;
        }
    m_fitted = true;
    // The bend falls with the square of the size, and where u changes by one lies a tile's breadth at least.
    m_straightPixels = kSize * std::min(1.0, 2.0 * std::sqrt(kStraightBound / std::max(bend, 1e-12)));
}

} // namespace fencewright::desktop
