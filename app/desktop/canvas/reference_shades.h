#pragma once

#include <QImage>
#include <QPointF>

#include "desktop/canvas/reference_tile.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <vector>

namespace fencewright::desktop {

/// Shades of white on a tile, one byte a pixel. What lies beside the tile is left out.
class Shades {
public:
    /// Coordinates of pixels in whole numbers.
    struct Pixel {
        int x, y;
    };
    [[nodiscard]] static Pixel pixelOf(const QPointF& at) {
        constexpr double most = 1e9;
        return {int(std::floor(std::clamp(at.x(), -most, most))), int(std::floor(std::clamp(at.y(), -most, most)))};
    }

    /// All pixels from one to the other, wherever the two lie.
    void line(QPointF a, QPointF b, int shade) {
        if (clip(a, b))
            line(pixelOf(a), pixelOf(b), shade);
    }
    /// The same, for two that are not far from the tile.
    void line(Pixel from, const Pixel& to, int shade) {
        // Source: Bresenham, "Algorithm for computer control of a digital plotter", IBM Systems Journal 4 (1965) 25-30.
        const int dx = std::abs(to.x - from.x), dy = -std::abs(to.y - from.y);
        const int stepX = from.x < to.x ? 1 : -1, stepY = from.y < to.y ? 1 : -1;
        for (int error = dx + dy;;) {
            mark(from, shade);
            if (from.x == to.x && from.y == to.y)
                return;
            const int doubled = 2 * error;
            if (doubled >= dy) {
                error += dy;
                from.x += stepX;
            }
            if (doubled <= dx) {
                error += dx;
                from.y += stepY;
            }
        }
    }
    void mark(const Pixel& at, int shade) {
        if (unsigned(at.x) < kSize && unsigned(at.y) < kSize)
            brighten(m_shade[std::size_t(at.y) * kSize + std::size_t(at.x)], shade);
    }
    /// One more of what is too small to be seen.
    void speck(const Pixel& at, int shade, int most) {
        if (unsigned(at.x) < kSize && unsigned(at.y) < kSize) {
            std::uint8_t& own = m_shade[std::size_t(at.y) * kSize + std::size_t(at.x)];
            brighten(own, std::min(own + shade, most));
        }
    }
    /// In a colour; null where nothing was drawn.
    [[nodiscard]] QImage image(QRgb colour) const;

private:
    static constexpr unsigned kSize = ReferenceTile::kPixels;
    static void brighten(std::uint8_t& pixel, int shade) { pixel = std::max(pixel, std::uint8_t(shade)); }
    /// The part of the line near the tile.
    static bool clip(QPointF& a, QPointF& b);

    std::vector<std::uint8_t> m_shade = std::vector<std::uint8_t>(std::size_t(kSize) * kSize);
};

} // namespace fencewright::desktop
