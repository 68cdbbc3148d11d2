#include "desktop/canvas/boundary_raster.h"

#include <QImage>

#include <algorithm>
#include <cmath>
#include <utility>

namespace fencewright::desktop {
namespace {

// Longer edges are taken in pieces: the pixels about a piece are few, those about a long slanting edge many.
constexpr double kPiecePixels = 8.0;
constexpr float kFar = 1e9F;

} // namespace

BoundaryRaster::BoundaryRaster(const QRectF& seen, qreal pixelRatio)
    : m_origin{std::floor(seen.left() * pixelRatio) / pixelRatio, std::floor(seen.top() * pixelRatio) / pixelRatio},
      m_ratio{pixelRatio}, m_columns{std::max(1, int(std::ceil(seen.width() * pixelRatio + 1.0)) / kBlock + 1)},
      m_rows{std::max(1, int(std::ceil(seen.height() * pixelRatio + 1.0)) / kBlock + 1)} {
    m_blocks.resize(std::size_t(m_columns) * std::size_t(m_rows));
}

BoundaryRaster::Block& BoundaryRaster::blockAt(int column, int row, Field field) {
    auto& block = m_blocks[std::size_t(row) * std::size_t(m_columns) + std::size_t(column)];
    if (!block)
        block.reset(new Block); // what it holds is set where it is used
    if (!std::exchange(block->used[std::size_t(field)], true))
        block->squares[std::size_t(field)].fill(kFar);
    return *block;
}

void BoundaryRaster::add(Field field, const QPointF& from, const QPointF& to, double reach) {
    const QPointF a = (from - m_origin) * m_ratio, b = (to - m_origin) * m_ratio;
    const double room = reach * m_ratio + 0.5; // and half a pixel, for the edge is smooth
    const double right = m_columns * kBlock, bottom = m_rows * kBlock;
    if (!(std::max(a.x(), b.x()) >= -room && std::min(a.x(), b.x()) <= right + room &&
          std::max(a.y(), b.y()) >= -room && std::min(a.y(), b.y()) <= bottom + room))
        return;
    const double length = std::hypot(b.x() - a.x(), b.y() - a.y());
    const int pieces = std::max(1, int(std::ceil(length / kPiecePixels)));
    for (int i = 0; i < pieces; ++i) {
        const QPointF p = a + (b - a) * (double(i) / pieces), q = a + (b - a) * (double(i + 1) / pieces);
        addPiece(field, float(p.x()), float(p.y()), float(q.x()), float(q.y()), float(room));
    }
}

void BoundaryRaster::addPiece(Field field, float ax, float ay, float bx, float by, float reach) {
    const int left = std::max(0, int(std::floor(std::min(ax, bx) - reach)));
    const int right = std::min(m_columns * kBlock - 1, int(std::ceil(std::max(ax, bx) + reach)));
    const int top = std::max(0, int(std::floor(std::min(ay, by) - reach)));
    const int bottom = std::min(m_rows * kBlock - 1, int(std::ceil(std::max(ay, by) + reach)));
    if (left > right || top > bottom)
        return;
    const float dx = bx - ax, dy = by - ay, square = dx * dx + dy * dy;
    const float inverse = square > 0.0F ? 1.0F / square : 0.0F;
    for (int row = top / kBlock; row <= bottom / kBlock; ++row)
        for (int column = left / kBlock; column <= right / kBlock; ++column) {
            float* squares = blockAt(column, row, field).squares[std::size_t(field)].data();
            const int x0 = std::max(left, column * kBlock), x1 = std::min(right, column * kBlock + kBlock - 1);
            for (int y = std::max(top, row * kBlock); y <= std::min(bottom, row * kBlock + kBlock - 1); ++y) {
                float* line = squares + (y - row * kBlock) * kBlock - column * kBlock;
                const float py = float(y) + 0.5F - ay;
                for (int x = x0; x <= x1; ++x) {
                    const float px = float(x) + 0.5F - ax;
                    const float along = std::min(1.0F, std::max(0.0F, (px * dx + py * dy) * inverse));
                    const float ex = px - along * dx, ey = py - along * dy;
                    line[x] = std::min(line[x], ex * ex + ey * ey);
                }
            }
        }
}

void BoundaryRaster::paint(QPainter& painter, std::span<const Coat> coats) const {
    struct Layer {
        std::size_t field;
        float half;     ///< of the width, and half a pixel
        float farthest; ///< its square
        float alpha;
        float red, green, blue;
    };
    std::vector<Layer> layers;
    for (const Coat& coat : coats) {
        const float half = float(coat.width * m_ratio / 2.0) + 0.5F;
        layers.push_back({std::size_t(coat.field), half, half * half, coat.colour.alphaF(), coat.colour.redF(),
                          coat.colour.greenF(), coat.colour.blueF()});
    }
    QImage image{kBlock, kBlock, QImage::Format_ARGB32_Premultiplied};
    image.setDevicePixelRatio(m_ratio);
    for (int row = 0; row < m_rows; ++row)
        for (int column = 0; column < m_columns; ++column) {
            const Block* block = m_blocks[std::size_t(row) * std::size_t(m_columns) + std::size_t(column)].get();
            if (!block)
                continue;
            int first = kBlock, last = -1; // rows with something in them
            for (int y = 0; y < kBlock; ++y) {
                auto* pixels = reinterpret_cast<QRgb*>(image.scanLine(y));
                bool any = false;
                for (int x = 0; x < kBlock; ++x) {
                    const std::size_t at = std::size_t(y * kBlock + x);
                    float red = 0, green = 0, blue = 0, alpha = 0;
                    for (const Layer& layer : layers) {
                        if (!block->used[layer.field])
                            continue;
                        const float distance = block->squares[layer.field][at];
                        if (distance >= layer.farthest)
                            continue;
                        const float cover = std::min(1.0F, layer.half - std::sqrt(distance)) * layer.alpha;
                        const float rest = 1.0F - cover;
                        red = red * rest + layer.red * cover;
                        green = green * rest + layer.green * cover;
                        blue = blue * rest + layer.blue * cover;
                        alpha = alpha * rest + cover;
                    }
                    if (alpha <= 0.0F) {
                        pixels[x] = 0;
                        continue;
                    }
                    any = true;
                    const auto byte = [](float value) { return int(value * 255.0F + 0.5F); };
                    pixels[x] = qRgba(byte(red), byte(green), byte(blue), byte(alpha));
                }
                if (any) {
                    first = std::min(first, y);
                    last = y;
                }
            }
            if (last < first)
                continue;
            const QPointF at = m_origin + QPointF(column * kBlock, row * kBlock + first) / m_ratio;
            painter.drawImage(at, image, QRectF(0, first, kBlock, last - first + 1));
        }
}

} // namespace fencewright::desktop
