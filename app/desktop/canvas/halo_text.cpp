#include "desktop/canvas/halo_text.h"

#include "desktop/palette.h"

#include <QFontMetricsF>
#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr double kHaloPixels = 1.8;

} // namespace

QFont HaloText::fontOf(const LabelStyle& style) const {
    QFont font = m_font;
    font.setPixelSize(style.pixelSize);
    font.setBold(style.bold);
    return font;
}

QSizeF HaloText::sizeOf(const QString& text, const LabelStyle& style) const {
    const Key key = keyOf(text, style, 1.0);
    if (const QSizeF* known = m_sizes.object(key))
        return *known;
    const QFontMetricsF metrics{fontOf(style)};
    const QSizeF size{metrics.horizontalAdvance(text), metrics.capHeight() + metrics.descent()};
    m_sizes.insert(key, new QSizeF{size});
    return size;
}

void HaloText::write(QPainter& painter, const QPointF& centre, const QString& text, const LabelStyle& style) {
    const qreal ratio = painter.device()->devicePixelRatioF();
    m_written.setMaxCost(kViewsKept * qsizetype(painter.device()->width()) * painter.device()->height());
    const QImage image = written(text, style, ratio);
    const QSizeF size = image.deviceIndependentSize();
    // On whole device pixels, or the letters blur.
    const auto whole = [&](double value) { return std::round(value * ratio) / ratio; };
    painter.drawImage(QPointF{whole(centre.x() - size.width() / 2.0), whole(centre.y() - size.height() / 2.0)}, image);
}

QImage HaloText::written(const QString& text, const LabelStyle& style, qreal pixelRatio) {
    const Key key = keyOf(text, style, pixelRatio);
    if (const QImage* known = m_written.object(key))
        return *known;
    const QFont font = fontOf(style);
    const QFontMetricsF metrics{font};
    const QSizeF letters = sizeOf(text, style);
    constexpr double room = kHaloPixels + 2.0;
    const QSizeF size{std::ceil(letters.width() + 2 * room), std::ceil(metrics.height() + 2 * room)};
    QImage image{(size * pixelRatio).toSize(), QImage::Format_ARGB32_Premultiplied};
    image.setDevicePixelRatio(pixelRatio);
    image.fill(Qt::transparent);
    QPainter painter{&image};
    painter.setRenderHint(QPainter::Antialiasing);
    // The middle of the capitals is the middle of the picture.
    QPainterPath path;
    path.addText(QPointF{room, (size.height() + metrics.capHeight()) / 2.0}, font, text);
    QColor halo = QColor::fromRgba(kMapCasing);
    halo.setAlphaF(0.92F);
    painter.strokePath(path, QPen{halo, 2.0 * kHaloPixels, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
    painter.fillPath(path, style.ink);
    painter.end();
    // A copy, for the picture that was painted on keeps what the painter worked with: many times its own size.
    const QImage kept = image.copy();
    m_written.insert(key, new QImage{kept}, std::max(1, qRound(size.width() * size.height())));
    return kept;
}

} // namespace fencewright::desktop
