#include "desktop/canvas/boundary_raster.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>
#include <utility>

namespace fencewright::desktop {
namespace {

// Longer edges are taken in pieces: the pixels about a piece are few, those about a long slanting edge many.
constexpr double kPiecePixels = 8.0;
constexpr float kFar = 1e9F;

/// A number for each pixel of a group, computed with at once.
using Group = float __attribute__((vector_size(16)));

Group smaller(const Group& a, const Group& b) { return a < b ? a : b; }
Group larger(const Group& a, const Group& b) { return a > b ? a : b; }

} // namespace

struct BoundaryRaster::Layer {
    std::size_t field;
    float half;     ///< of the width, and half a pixel
    float farthest; ///< its square
    float inner;    ///< the square up to which it is covered wholly
    float alpha, red, green, blue;
    QRgb colour;

    bool coversWholly(float square) const { return alpha == 1.0F && square <= inner; }
};

BoundaryRaster::Block::Block() {
    for (auto& field : squares)
        field.fill(kFar);
}

BoundaryRaster::BoundaryRaster(const QRectF& seen, qreal pixelRatio)
    : m_origin{std::floor(seen.left() * pixelRatio) / pixelRatio, std::floor(seen.top() * pixelRatio) / pixelRatio},
      m_ratio{pixelRatio}, m_columns{std::max(1, int(std::ceil(seen.width() * pixelRatio + 1.0)) / kBlock + 1)},
      m_rows{std::max(1, int(std::ceil(seen.height() * pixelRatio + 1.0)) / kBlock + 1)},
      m_painted{kBlock, kBlock, QImage::Format_ARGB32_Premultiplied} {
    m_blocks.resize(std::size_t(m_columns) * std::size_t(m_rows));
    m_painted.setDevicePixelRatio(m_ratio);
    m_painted.fill(0);
}

BoundaryRaster::Block& BoundaryRaster::blockAt(int column, int row) {
    const std::size_t at = std::size_t(row) * std::size_t(m_columns) + std::size_t(column);
    if (!m_blocks[at]) {
        m_used.push_back(at);
        if (m_wiped.empty()) {
            m_blocks[at] = std::make_unique<Block>();
        } else {
            m_blocks[at] = std::move(m_wiped.back());
            m_wiped.pop_back();
        }
    }
    return *m_blocks[at];
}

bool BoundaryRaster::mayReach(const QPointF& from, const QPointF& to, double reach) const {
    const QPointF a = (from - m_origin) * m_ratio, b = (to - m_origin) * m_ratio;
    const double room = reach * m_ratio + 0.5; // and half a pixel, for the edge is smooth
    const double right = m_columns * kBlock, bottom = m_rows * kBlock;
    return std::max(a.x(), b.x()) >= -room && std::min(a.x(), b.x()) <= right + room &&
           std::max(a.y(), b.y()) >= -room && std::min(a.y(), b.y()) <= bottom + room;
}

void BoundaryRaster::add(Field field, const QPointF& from, const QPointF& to, double reach) {
    if (!mayReach(from, to, reach))
        return;
    const QPointF a = (from - m_origin) * m_ratio, b = (to - m_origin) * m_ratio;
    const double room = reach * m_ratio + 0.5;
    const double across = std::max(std::abs(b.x() - a.x()), std::abs(b.y() - a.y()));
    const int pieces = across <= kPiecePixels / 2.0 ? 1 : int(std::ceil(std::sqrt(2.0) * across / kPiecePixels));
    for (int i = 0; i < pieces; ++i) {
        const QPointF p = a + (b - a) * (double(i) / pieces), q = a + (b - a) * (double(i + 1) / pieces);
        addPiece(field, float(p.x()), float(p.y()), float(q.x()), float(q.y()), float(room));
    }
}

void BoundaryRaster::addPiece(Field field, float ax, float ay, float bx, float by, float reach) {
    // The middles of the pixels lie half a pixel on.
    const int left = std::max(0, int(std::floor(std::min(ax, bx) - reach)));
    const int right = std::min(m_columns * kBlock - 1, int(std::floor(std::max(ax, bx) + reach)));
    const int top = std::max(0, int(std::floor(std::min(ay, by) - reach)));
    const int bottom = std::min(m_rows * kBlock - 1, int(std::floor(std::max(ay, by) + reach)));
    if (left > right || top > bottom)
        return;
    const float dx = bx - ax, dy = by - ay, square = dx * dx + dy * dy;
    const float inverse = square > 0.0F ? 1.0F / square : 0.0F;
    const Group steps{0.5F, 1.5F, 2.5F, 3.5F}, none{}, one{1.0F, 1.0F, 1.0F, 1.0F};
    for (int row = top / kBlock; row <= bottom / kBlock; ++row)
        for (int column = left / kBlock; column <= right / kBlock; ++column) {
            Block& block = blockAt(column, row);
            // Whole groups: that some of their pixels are beyond the reach does no harm.
            const int from = std::max(left - column * kBlock, 0) / kGroup;
            const int to = std::min(right - column * kBlock, kBlock - 1) / kGroup;
            const auto near = std::uint16_t(((2U << to) - 1U) & ~((1U << from) - 1U));
            const int y1 = std::min(bottom - row * kBlock, kBlock - 1);
            for (int y = std::max(top - row * kBlock, 0); y <= y1; ++y) {
                block.near[std::size_t(field)][std::size_t(y)] |= near;
                const float py = float(row * kBlock + y) + 0.5F - ay;
                float* squares = &block.squares[std::size_t(field)][std::size_t(y * kBlock)];
                for (int group = from; group <= to; ++group) {
                    const Group px = steps + (float(column * kBlock + group * kGroup) - ax);
                    const Group along = smaller(one, larger(none, (px * dx + py * dy) * inverse));
                    const Group ex = px - along * dx, ey = py - along * dy;
                    Group known;
                    std::memcpy(&known, squares + group * kGroup, sizeof known);
                    known = smaller(known, ex * ex + ey * ey);
                    std::memcpy(squares + group * kGroup, &known, sizeof known);
                }
            }
        }
}

/// Paints what is near in the block, and wipes it.
/// @return  the part of the picture in which something was painted.
QRect BoundaryRaster::paintBlock(Block& block, std::span<const Layer> layers) {
    std::array<float, 2> farthest{}; // of each field, in which a layer paints
    for (const Layer& layer : layers)
        farthest[layer.field] = std::max(farthest[layer.field], layer.farthest);
    const auto isEmpty = [&](std::size_t at) {
        std::array<Group, 2> group;
        for (std::size_t field = 0; field < 2; ++field)
            std::memcpy(&group[field], &block.squares[field][at], sizeof(Group));
        const auto within = (group[0] < farthest[0]) | (group[1] < farthest[1]);
        std::array<std::uint64_t, 2> halves;
        std::memcpy(halves.data(), &within, sizeof within);
        return (halves[0] | halves[1]) == 0;
    };
    int top = kBlock, bottom = -1;
    unsigned columns = 0;
    for (std::size_t y = 0; y < kBlock; ++y) {
        const unsigned near = unsigned{block.near[0][y]} | block.near[1][y];
        if (near == 0)
            continue;
        top = std::min(top, int(y));
        bottom = int(y);
        columns |= near;
        auto* pixels = reinterpret_cast<QRgb*>(m_painted.scanLine(int(y)));
        for (unsigned rest = near; rest != 0; rest &= rest - 1) {
            const std::size_t from = std::size_t(std::countr_zero(rest)) * kGroup;
            if (isEmpty(y * kBlock + from))
                continue; // as it is: nothing
            for (std::size_t x = from, end = x + kGroup; x < end; ++x) {
                const std::array distances{block.squares[0][y * kBlock + x], block.squares[1][y * kBlock + x]};
                // What lies under a coat that covers it wholly is not seen.
                std::size_t first = layers.size() - 1;
                if (layers[first].coversWholly(distances[layers[first].field])) {
                    pixels[x] = layers[first].colour;
                    continue;
                }
                while (first > 0 && !layers[first].coversWholly(distances[layers[first].field]))
                    --first;
                float red = 0, green = 0, blue = 0, alpha = 0;
                for (const Layer& layer : layers.subspan(first)) {
                    const float distance = distances[layer.field];
                    if (distance >= layer.farthest)
                        continue;
                    const float cover =
                        distance <= layer.inner ? layer.alpha : (layer.half - std::sqrt(distance)) * layer.alpha;
                    const float under = 1.0F - cover;
                    red = red * under + layer.red * cover;
                    green = green * under + layer.green * cover;
                    blue = blue * under + layer.blue * cover;
                    alpha = alpha * under + cover;
                }
                const auto byte = [](float value) { return int(value * 255.0F + 0.5F); };
                pixels[x] = alpha > 0.0F ? qRgba(byte(red), byte(green), byte(blue), byte(alpha)) : 0;
            }
        }
        for (std::size_t field = 0; field < 2; ++field)
            for (unsigned rest = std::exchange(block.near[field][y], std::uint16_t{0}); rest != 0; rest &= rest - 1)
                std::fill_n(&block.squares[field][y * kBlock + std::size_t(std::countr_zero(rest)) * kGroup], kGroup,
                            kFar);
    }
    if (columns == 0)
        return {};
    const int left = std::countr_zero(columns) * kGroup, right = int(std::bit_width(columns)) * kGroup;
    return {left, top, right - left, bottom - top + 1};
}

void BoundaryRaster::paint(QPainter& painter, std::span<const Coat> coats) {
    std::vector<Layer> layers;
    for (const Coat& coat : coats) {
        const float half = float(coat.width * m_ratio / 2.0) + 0.5F, inner = half - 1.0F;
        layers.push_back({std::size_t(coat.field), half, half * half, inner < 0.0F ? -1.0F : inner * inner,
                          coat.colour.alphaF(), coat.colour.redF(), coat.colour.greenF(), coat.colour.blueF(),
                          coat.colour.rgba()});
    }
    for (const std::size_t at : std::exchange(m_used, {})) {
        std::unique_ptr<Block> block = std::move(m_blocks[at]);
        const QRect part = paintBlock(*block, layers);
        m_wiped.push_back(std::move(block));
        if (part.isEmpty())
            continue;
        const std::size_t columns = std::size_t(m_columns);
        const QPointF corner =
            m_origin +
            QPointF(double(at % columns) * kBlock + part.x(), double(at / columns) * kBlock + part.y()) / m_ratio;
        painter.drawImage(corner, m_painted, QRectF{part});
        for (int y = part.top(); y <= part.bottom(); ++y)
            std::fill_n(reinterpret_cast<QRgb*>(m_painted.scanLine(y)) + part.left(), part.width(), QRgb{0});
    }
}

} // namespace fencewright::desktop
