#include "desktop/canvas/retained_layer.h"

#include <QElapsedTimer>

#include <cmath>
#include <cstring>

namespace fencewright::desktop {
namespace {

constexpr double kAFrameNanoseconds = 1.5e6;
// Fills of more rows than these Qt spreads over threads and waits for them, however long they wait for a processor.
constexpr int kBandRows = 90;

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
    QElapsedTimer clock;
    clock.start();
    const auto isLate = [&] { return double(clock.nsecsElapsed()) > kAFrameNanoseconds; };
    if (!shift) {
        const QSize size = (view.size() * ratio).toSize();
        if (m_picture.size() != size || m_picture.devicePixelRatio() != ratio) {
            m_picture = QImage{size, QImage::Format_ARGB32_Premultiplied};
            m_picture.setDevicePixelRatio(ratio);
        }
        renderInto(m_picture.rect(), render, Finish::Rough);
        m_rough = m_picture.rect();
    } else {
        if (!shift->isNull()) {
            scroll(m_picture, *shift);
            m_rough.translate(*shift);
            QRegion uncovered{m_picture.rect()};
            uncovered -= m_picture.rect().translated(*shift);
            m_rough = m_rough.intersected(m_picture.rect()).subtracted(uncovered);
            for (const QRect& strip : uncovered)
                for (int top = strip.top(); top <= strip.bottom(); top += kBandRows) {
                    const QRect band = strip.intersected({strip.left(), top, strip.width(), kBandRows});
                    const Finish finish = isLate() ? Finish::Rough : Finish::Fine;
                    renderInto(band, render, finish);
                    if (finish == Finish::Rough)
                        m_rough += band;
                }
        }
        for (const QRect& changed : m_changed)
            m_rough +=
                QRectF{QPointF{changed.topLeft()} * ratio, QSizeF{changed.size()} * ratio}.toAlignedRect().intersected(
                    m_picture.rect());
    }
    // Some more of what is rough.
    while (!m_rough.isEmpty() && !isLate()) {
        const QRect first = *m_rough.begin();
        const QRect band = first.intersected({first.left(), first.top(), first.width(), kBandRows});
        renderInto(band, render, Finish::Fine);
        m_rough -= band;
    }
    m_changed = {};
    m_stale = false;
    m_planeNumber = view.planeNumber();
    m_metresPerPixel = view.metresPerPixel();
    m_centre = view.centre();
    painter.drawImage(QPointF{}, m_picture);
}

void RetainedLayer::renderInto(const QRect& devicePixels, const Render& render, Finish finish) {
    const qreal ratio = m_picture.devicePixelRatio();
    const QRectF widget{QPointF{devicePixels.topLeft()} / ratio, QSizeF{devicePixels.size()} / ratio};
    QPainter painter{&m_picture};
    painter.setClipRect(widget);
    painter.setCompositionMode(QPainter::CompositionMode_Source);
    painter.fillRect(widget, Qt::transparent);
    painter.setCompositionMode(QPainter::CompositionMode_SourceOver);
    render(painter, widget, finish);
}

} // namespace fencewright::desktop
