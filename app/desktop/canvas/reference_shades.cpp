#include "desktop/canvas/reference_shades.h"

#include <array>
#include <utility>

namespace fencewright::desktop {

// After Liang and Barsky, ACM TOG 3 (1984) 1-22.
bool Shades::clip(QPointF& a, QPointF& b) {
    constexpr double low = -1.0, high = kSize + 1.0;
    double from = 0.0, to = 1.0;
    const QPointF d = b - a;
    for (const auto& [step, room] : {std::pair{-d.x(), a.x() - low}, std::pair{d.x(), high - a.x()},
                                     std::pair{-d.y(), a.y() - low}, std::pair{d.y(), high - a.y()}}) {
        if (step == 0.0) {
            if (room < 0.0)
                return false;
        } else if (step < 0.0) {
            from = std::max(from, room / step);
        } else {
            to = std::min(to, room / step);
        }
    }
    if (from > to)
        return false;
    b = a + d * to;
    a = a + d * from;
    return true;
}

QImage Shades::image(QRgb colour) const {
    if (std::all_of(m_shade.begin(), m_shade.end(), [](std::uint8_t shade) { return shade == 0; }))
        return {};
    QImage image{int(kSize), int(kSize), QImage::Format_ARGB32_Premultiplied};
    std::array<QRgb, 256> colours{};
    for (int shade = 0; shade < 256; ++shade)
        colours[std::size_t(shade)] = qPremultiply(qRgba(qRed(colour), qGreen(colour), qBlue(colour), shade));
    const std::uint8_t* shade = m_shade.data();
    for (int y = 0; y < int(kSize); ++y) {
        auto* row = reinterpret_cast<QRgb*>(image.scanLine(y));
        for (int x = 0; x < int(kSize); ++x)
            row[x] = colours[*shade++];
    }
    return image;
}

} // namespace fencewright::desktop
