#include "desktop/canvas/retained_layer.h"

#include <QElapsedTimer>

#include <cmath>
#include <cstring>

namespace fencewright::desktop {
namespace {

/// Moves what the picture shows, in place; what comes in from the edges is left as it was.
void scroll(QImage& picture, const QPoint& by) {
    const int width = picture.width() - std::abs(by.x()), height = picture.height() - std::abs(by.y());
    const int fromX = std::max(-by.x(), 0), toX = std::max(by.x(), 0);
    uchar* bits = picture.bits();
    const qsizetype line = picture.bytesPerLine();
    for (int i = 0; i < height; ++i) {
        // Downwards from the last row, so that no row is overwritten before it has moved.
        const int from = by.y() > 0 ? height - 1 - i : i - by.y();
        std::memmove(bits + (from + by.y()) * line + toX * 4, bits + from * line + fromX * 4, std::size_t(width) * 4);
    }
}

} // namespace

/// How far the picture moves to fit the view, in device pixels; nothing where it does not fit by moving.
std::optional<QPoint> RetainedLayer::shiftTo(const ViewTransform& view, qreal ratio) const {
    if (m_stale || m_picture.isNull() || m_planeNumber != view.planeNumber() ||
        m_metresPerPixel != view.metresPerPixel() || m_picture.devicePixelRatio() != ratio ||
        m_picture.size() != (view.size() * ratio).toSize())
        return std::nullopt;
    const double x = (m_centre.x() - view.centre().x()) / m_metresPerPixel * ratio;
    const double y = (view.centre().y() - m_centre.y()) / m_metresPerPixel * ratio;
    constexpr double offPixel = 0.02; // more, and lines painted now would not meet those painted before
    if (std::abs(x - std::round(x)) > offPixel || std::abs(y - std::round(y)) > offPixel ||
        std::abs(x) >= m_picture.width() || std::abs(y) >= m_picture.height())
        return std::nullopt;
    return QPoint{int(std::round(x)), int(std::round(y))};
}

void RetainedLayer::paint(QPainter& painter, const ViewTransform& view, const Render& render) {
    const qreal ratio = painter.device()->devicePixelRatioF();
    const std::optional<QPoint> shift = shiftTo(view, ratio);
    if (!shift) {
        const QSize size = (view.size() * ratio).toSize();
        if (m_picture.size() != size || m_picture.devicePixelRatio() != ratio) {
            m_picture = QImage{size, QImage::Format_ARGB32_Premultiplied};
            m_picture.setDevicePixelRatio(ratio);
        }
        QElapsedTimer timer;
        timer.start();
        renderInto(m_picture.rect(), render);
        m_fullPaintMilliseconds = double(timer.nsecsElapsed()) / 1e6;
    } else {
        if (!shift->isNull()) {
            scroll(m_picture, *shift);
            const int width = m_picture.width(), height = m_picture.height();
            const int x = shift->x(), y = shift->y();
            if (x != 0)
                renderInto(x > 0 ? QRect{0, 0, x, height} : QRect{width + x, 0, -x, height}, render);
            if (y != 0)
                renderInto(y > 0 ? QRect{0, 0, width, y} : QRect{0, height + y, width, -y}, render);
        }
        for (const QRectF& changed : m_changed) {
            const QRectF device{changed.topLeft() * ratio, changed.size() * ratio};
            if (const QRect pixels = device.toAlignedRect().intersected(m_picture.rect()); !pixels.isEmpty())
                renderInto(pixels, render);
        }
    }
    m_changed.clear();
    m_stale = false;
    m_planeNumber = view.planeNumber();
    m_metresPerPixel = view.metresPerPixel();
    m_centre = view.centre();
    painter.drawImage(QPointF{}, m_picture);
}

void RetainedLayer::renderInto(const QRect& devicePixels, const Render& render) {
    const qreal ratio = m_picture.devicePixelRatio();
    const QRectF widget{QPointF{devicePixels.topLeft()} / ratio, QSizeF{devicePixels.size()} / ratio};
    QPainter painter{&m_picture};
    painter.setClipRect(widget);
    painter.setCompositionMode(QPainter::CompositionMode_Source);
    painter.fillRect(widget, Qt::transparent);
    painter.setCompositionMode(QPainter::CompositionMode_SourceOver);
    render(painter, widget);
}

bool RetainedLayer::paintStretched(QPainter& painter, const ViewTransform& view) const {
    if (m_picture.isNull() || m_stale || m_planeNumber != view.planeNumber())
        return false;
    const QSizeF size = m_picture.deviceIndependentSize();
    const double scale = m_metresPerPixel / view.metresPerPixel();
    const QPointF middle = view.toWidget(m_centre);
    painter.drawImage(QRectF{middle - QPointF{size.width(), size.height()} * (scale / 2.0), size * scale}, m_picture);
    return true;
}

} // namespace fencewright::desktop
