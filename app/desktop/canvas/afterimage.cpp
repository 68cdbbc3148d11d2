#include "desktop/canvas/afterimage.h"

#include <cmath>
#include <utility>

namespace fencewright::desktop {

void Afterimage::keep(QPixmap picture, const ViewTransform& view) {
    m_picture = std::move(picture);
    m_view = view;
}

void Afterimage::paint(QPainter& painter, const ViewTransform& view) const {
    if (isNull())
        return;
    // Two places of it say how it lies in the view of now.
    const QSizeF size = m_view.size();
    const QPointF left{0.0, size.height() / 2.0}, right{size.width(), size.height() / 2.0};
    const auto from = view.widgetOf(m_view.earthAt(left)), to = view.widgetOf(m_view.earthAt(right));
    if (!from || !to)
        return;
    const QPointF way = *to - *from;
    const double stretch = std::hypot(way.x(), way.y()) / size.width();
    constexpr double most = 64.0; // beyond that it is a blur, or a speck
    if (!(stretch < most && stretch > 1.0 / most))
        return;
    QTransform carried;
    carried.translate(from->x(), from->y());
    carried.rotateRadians(std::atan2(way.y(), way.x()));
    carried.scale(stretch, stretch);
    carried.translate(-left.x(), -left.y());
    paint(painter, carried);
}

void Afterimage::paint(QPainter& painter, const QTransform& carried) const {
    painter.save();
    painter.setTransform(carried, true);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.drawPixmap(QPointF{}, m_picture);
    painter.restore();
}

} // namespace fencewright::desktop
