#include "desktop/canvas/label_layout.h"

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr double kRoomPixels = 3.0; // between one label and the next

constexpr double kCellPixels = 64.0;

} // namespace

LabelLayout::LabelLayout(const QRectF& seen)
    : m_seen{seen}, m_columns{std::max(1, int(std::ceil(seen.width() / kCellPixels)))} {
    m_cells.resize(std::size_t(m_columns) * std::size_t(std::max(1.0, std::ceil(seen.height() / kCellPixels))));
}

/// Until one answers false.
template <class Visit> void LabelLayout::forCells(const QRectF& rect, Visit visit) const {
    const int rows = int(m_cells.size()) / m_columns;
    const auto cell = [](double at, int count) { return std::clamp(int(std::floor(at / kCellPixels)), 0, count - 1); };
    for (int y = cell(rect.top() - m_seen.top(), rows); y <= cell(rect.bottom() - m_seen.top(), rows); ++y)
        for (int x = cell(rect.left() - m_seen.left(), m_columns); x <= cell(rect.right() - m_seen.left(), m_columns);
             ++x)
            if (!visit(std::size_t(y * m_columns + x)))
                return;
}

void LabelLayout::block(const QRectF& taken) {
    if (!taken.intersects(m_seen))
        return;
    m_taken.push_back(taken);
    forCells(taken, [&](std::size_t cell) {
        m_cells[cell].push_back(m_taken.size() - 1);
        return true;
    });
}

bool LabelLayout::isFree(const QRectF& wanted) const {
    bool free = true;
    forCells(wanted, [&](std::size_t cell) {
        free = std::none_of(m_cells[cell].begin(), m_cells[cell].end(),
                            [&](std::size_t taken) { return m_taken[taken].intersects(wanted); });
        return free;
    });
    return free;
}

std::optional<QPointF> LabelLayout::place(const QSizeF& size, std::span<const QPointF> centres,
                                          const std::function<bool(const QRectF&)>& avoid) {
    std::optional<std::pair<QPointF, QRectF>> makeshift;
    for (const QPointF& centre : centres) {
        const QRectF wanted = QRectF{centre - QPointF{size.width() / 2.0, size.height() / 2.0}, size}.adjusted(
            -kRoomPixels, -kRoomPixels, kRoomPixels, kRoomPixels);
        if (!m_seen.contains(wanted) || !isFree(wanted))
            continue;
        if (!avoid(wanted)) {
            block(wanted);
            return centre;
        }
        if (!makeshift)
            makeshift = {centre, wanted};
    }
    if (!makeshift)
        return std::nullopt;
    block(makeshift->second);
    return makeshift->first;
}

std::vector<QPointF> besideSymbol(const QPointF& symbol, double radius, const QSizeF& label) {
    const double across = radius + 5.0 + label.width() / 2.0, up = radius + 4.0 + label.height() / 2.0;
    return {symbol + QPointF{across, 0}, symbol - QPointF{across, 0}, symbol + QPointF{0, up}, symbol - QPointF{0, up}};
}

} // namespace fencewright::desktop
