#include "desktop/canvas/retained_layer.h"

#include "desktop/canvas/picture_window.h"

#include <QElapsedTimer>

#include <cmath>

namespace fencewright::desktop {
namespace {

constexpr double kAFrameNanoseconds = 1.0e6;
// Fills of more rows than these Qt spreads over threads and waits for them, however long they wait for a processor.
constexpr int kBandRows = 60;

int wrapped(int value, int size) { return (value % size + size) % size; }

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

std::vector<RetainedLayer::Piece> RetainedLayer::pieces(const QRect& devicePixels) const {
    std::vector<Piece> pieces;
    const QRect picture = m_picture.rect();
    for (const int y : {-m_origin.y(), picture.height() - m_origin.y()})
        for (const int x : {-m_origin.x(), picture.width() - m_origin.x()})
            if (const QRect piece = picture.translated(x, y).intersected(devicePixels); !piece.isEmpty())
                pieces.push_back({piece, {-x, -y}});
    return pieces;
}

/// Sees to it that what is painted from now on has the ground, and all that was painted has it if there is one.
void RetainedLayer::lay(const std::optional<QColor>& ground) {
    if (ground && m_ground && *ground != *m_ground)
        m_stale = true; // what was painted has another
    if (ground && !m_isOpaque && !m_stale) {
        QPainter painter{&m_picture};
        painter.setCompositionMode(QPainter::CompositionMode_DestinationOver);
        painter.fillRect(QRectF{QPointF{}, m_picture.deviceIndependentSize()}, *ground);
    }
    m_isOpaque = ground.has_value();
    m_ground = ground;
}

void RetainedLayer::paint(QPainter& painter, const ViewTransform& view, const std::optional<QColor>& ground,
                          const Render& render) {
    const qreal ratio = painter.device()->devicePixelRatioF();
    QElapsedTimer clock;
    clock.start();
    const auto isLate = [&] { return double(clock.nsecsElapsed()) > kAFrameNanoseconds; };
    if (!shiftTo(view, ratio))
        m_stale = true;
    lay(ground);
    if (m_stale) {
        const QSize size = (view.size() * ratio).toSize();
        if (m_picture.size() != size || m_picture.devicePixelRatio() != ratio) {
            m_picture = QImage{size, QImage::Format_ARGB32_Premultiplied};
            m_picture.setDevicePixelRatio(ratio);
        }
        m_origin = {};
        renderInto(m_picture.rect(), render, Finish::Rough);
        m_rough = m_picture.rect();
    } else {
        if (const QPoint shift = *shiftTo(view, ratio); !shift.isNull()) {
            m_origin = {wrapped(m_origin.x() - shift.x(), m_picture.width()),
                        wrapped(m_origin.y() - shift.y(), m_picture.height())};
            m_rough.translate(shift);
            QRegion uncovered{m_picture.rect()};
            uncovered -= m_picture.rect().translated(shift);
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
    const QImage::Format format = m_isOpaque ? QImage::Format_RGB32 : m_picture.format();
    for (const Piece& piece : pieces(m_picture.rect()))
        painter.drawImage(QPointF{piece.inView.topLeft()} / ratio,
                          windowOf(m_picture, piece.inView.translated(piece.toPicture), format));
}

void RetainedLayer::renderInto(const QRect& devicePixels, const Render& render, Finish finish) {
    const qreal ratio = m_picture.devicePixelRatio();
    for (const Piece& piece : pieces(devicePixels)) {
        const QRectF widget{QPointF{piece.inView.topLeft()} / ratio, QSizeF{piece.inView.size()} / ratio};
        QPainter painter{&m_picture};
        painter.translate(QPointF{piece.toPicture} / ratio);
        painter.setClipRect(widget);
        painter.setCompositionMode(QPainter::CompositionMode_Source);
        painter.fillRect(widget, m_ground.value_or(Qt::transparent));
        painter.setCompositionMode(QPainter::CompositionMode_SourceOver);
        render(painter, widget, finish);
    }
}

} // namespace fencewright::desktop
