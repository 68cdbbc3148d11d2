#include "desktop/line_icon.h"

#include <QFile>
#include <QPainter>
#include <QPixmapCache>
#include <QSvgRenderer>

namespace fencewright::desktop {

LineIcon::LineIcon(QString path, QColor colour, QColor disabled)
    : m_path{std::move(path)}, m_colour{colour}, m_disabled{disabled} {}

void LineIcon::paint(QPainter* painter, const QRect& rect, QIcon::Mode mode, QIcon::State state) {
    const qreal ratio = painter->device() ? painter->device()->devicePixelRatioF() : 1.0;
    painter->drawPixmap(rect, scaledPixmap((QSizeF{rect.size()} * ratio).toSize(), mode, state, ratio));
}

QPixmap LineIcon::pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) {
    return scaledPixmap(size, mode, state, 1.0);
}

QPixmap LineIcon::scaledPixmap(const QSize& size, QIcon::Mode mode, QIcon::State, qreal) {
    const QColor colour = mode == QIcon::Disabled ? m_disabled : m_colour;
    const QString key =
        QStringLiteral("line icon %1 %2 %3x%4").arg(m_path, colour.name()).arg(size.width()).arg(size.height());
    QPixmap drawn;
    if (QPixmapCache::find(key, &drawn))
        return drawn;
    QFile file{m_path};
    if (!file.open(QIODevice::ReadOnly))
        return {};
    QByteArray svg = file.readAll();
    svg.replace("currentColor", colour.name().toLatin1());
    QSvgRenderer renderer{svg};
    renderer.setAspectRatioMode(Qt::KeepAspectRatio);
    drawn = QPixmap{size};
    drawn.fill(Qt::transparent);
    QPainter painter{&drawn};
    painter.setRenderHint(QPainter::Antialiasing);
    renderer.render(&painter);
    painter.end();
    QPixmapCache::insert(key, drawn);
    return drawn;
}

} // namespace fencewright::desktop
