#pragma once

#include <QColor>
#include <QImage>
#include <QPainter>
#include <QPointF>
#include <QRect>
#include <QRectF>

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

namespace fencewright::desktop {

/// Paints wide smooth lines by the distance of each pixel from them: all coats of a line in one go, and in a time that
/// does not grow with how rough it is. QPainter's strokes take some ten times as long for lines of many short edges.
/// Joins and ends are round. A pixel is covered as far as its middle lies within half the width, half a pixel more or
/// less.
class BoundaryRaster {
public:
    enum class Field { Line, Ticks };

    /// @param seen        what is painted, in the painter's coordinates.
    /// @param pixelRatio  device pixels in one of those.
    BoundaryRaster(const QRectF& seen, qreal pixelRatio);

    /// An edge of a line. Edges that lie over one another are painted once.
    /// @param reach  half the greatest width it will be painted with.
    void add(Field field, const QPointF& from, const QPointF& to, double reach);

    /// Whether an edge may come into what is painted.
    bool mayReach(const QPointF& from, const QPointF& to, double reach) const;

    /// What is painted along all edges of a field.
    struct Coat {
        Field field;
        double width;
        QColor colour;
    };
    /// Paints what was added since the last time, in the order given.
    void paint(QPainter& painter, std::span<const Coat> coats);

private:
    static constexpr int kBlock = 64; ///< device pixels
    static constexpr int kGroup = 4;  ///< pixels of a row that are looked at together

    /// The squares of the distances of the pixels of a square from the edges of each field; far, where nothing is near.
    struct Block {
        std::array<std::array<float, kBlock * kBlock>, 2> squares;
        /// By row: a bit for each group of pixels that something is near to.
        std::array<std::array<std::uint16_t, kBlock>, 2> near{};

        Block();
    };
    struct Layer;

    void addPiece(Field field, float ax, float ay, float bx, float by, float reach);
    Block& blockAt(int column, int row);
    QRect paintBlock(Block& block, std::span<const Layer> layers);

    QPointF m_origin;
    qreal m_ratio;
    int m_columns, m_rows;
    std::vector<std::unique_ptr<Block>> m_blocks; ///< by place; null: nothing is near
    std::vector<std::size_t> m_used;              ///< places of those that are not
    std::vector<std::unique_ptr<Block>> m_wiped;  ///< to be used again
    QImage m_painted;                             ///< one block
};

} // namespace fencewright::desktop
