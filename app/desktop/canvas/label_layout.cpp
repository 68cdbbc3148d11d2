#include "desktop/canvas/label_layout.h"

#include <algorithm>

namespace fencewright::desktop {
namespace {

constexpr double kRoomPixels = 3.0; // between one label and the next

} // namespace

std::optional<QPointF> LabelLayout::place(const QSizeF& size, std::span<const QPointF> centres,
                                          const std::function<bool(const QRectF&)>& avoid) {
    std::optional<std::pair<QPointF, QRectF>> makeshift;
    for (const QPointF& centre : centres) {
        const QRectF wanted = QRectF{centre - QPointF{size.width() / 2.0, size.height() / 2.0}, size}.adjusted(
            -kRoomPixels, -kRoomPixels, kRoomPixels, kRoomPixels);
        if (!m_seen.contains(wanted) ||
            std::any_of(m_taken.begin(), m_taken.end(), [&](const QRectF& taken) { return taken.intersects(wanted); }))
            continue;
        if (!avoid(wanted)) {
            m_taken.push_back(wanted);
            return centre;
        }
        if (!makeshift)
            makeshift = {centre, wanted};
    }
    if (!makeshift)
        return std::nullopt;
    m_taken.push_back(makeshift->second);
    return makeshift->first;
}

std::vector<QPointF> besideSymbol(const QPointF& symbol, double radius, const QSizeF& label) {
    const double across = radius + 5.0 + label.width() / 2.0, up = radius + 4.0 + label.height() / 2.0;
    return {symbol + QPointF{across, 0}, symbol - QPointF{across, 0}, symbol + QPointF{0, up}, symbol - QPointF{0, up}};
}

} // namespace fencewright::desktop
