#include "desktop/canvas/inked_squares.h"

#include <cstdint>

namespace fencewright::desktop {
namespace {

constexpr int kSide = 64; // pixels

bool hasInk(const QImage& picture, const QRect& part) {
    for (int y = part.top(); y <= part.bottom(); ++y) {
        const auto* row = reinterpret_cast<const std::uint32_t*>(picture.constScanLine(y)) + part.left();
        std::uint32_t any = 0;
        for (int x = 0; x < part.width(); ++x)
            any |= row[x];
        if (any != 0)
            return true;
    }
    return false;
}

} // namespace

QRect InkedSquares::square(int column, int row) const {
    return QRect{column * kSide, row * kSide, kSide, kSide}.intersected(QRect{QPoint{}, m_size});
}

void InkedSquares::look(const QImage& picture, const QRect& devicePixels) {
    QRect seen = devicePixels.intersected(picture.rect());
    if (m_size != picture.size()) {
        m_size = picture.size();
        m_columns = (m_size.width() + kSide - 1) / kSide;
        m_inked.assign(std::size_t(m_columns) * std::size_t((m_size.height() + kSide - 1) / kSide), false);
        seen = picture.rect();
    }
    if (seen.isEmpty())
        return;
    for (int row = seen.top() / kSide; row <= seen.bottom() / kSide; ++row)
        for (int column = seen.left() / kSide; column <= seen.right() / kSide; ++column)
            m_inked[std::size_t(row) * std::size_t(m_columns) + std::size_t(column)] =
                hasInk(picture, square(column, row));
}

std::vector<QRect> InkedSquares::rectangles() const {
    std::vector<QRect> all;
    std::size_t above = 0; // where the rectangles that end with the last row begin
    for (std::size_t from = 0; from < m_inked.size(); from += std::size_t(m_columns)) {
        const int row = int(from / std::size_t(m_columns));
        std::vector<QRect> runs;
        for (int column = 0; column < m_columns; ++column) {
            if (!m_inked[from + std::size_t(column)])
                continue;
            const int first = column;
            while (column + 1 < m_columns && m_inked[from + std::size_t(column) + 1])
                ++column;
            runs.push_back(square(first, row).united(square(column, row)));
        }
        // A run as wide as the one above it goes on with it.
        std::vector<QRect> going;
        for (const QRect& run : runs) {
            QRect whole = run;
            for (std::size_t i = above; i < all.size(); ++i)
                if (all[i].left() == run.left() && all[i].right() == run.right()) {
                    whole = all[i].united(run);
                    all.erase(all.begin() + std::ptrdiff_t(i));
                    break;
                }
            going.push_back(whole);
        }
        above = all.size();
        all.insert(all.end(), going.begin(), going.end());
    }
    return all;
}

} // namespace fencewright::desktop
