#pragma once

#include <QColor>
#include <QIconEngine>
#include <QString>

namespace fencewright::desktop {

/// An SVG of lines in one colour, drawn afresh for every size and every scale of the screen, so that it is sharp on
/// all.
class LineIcon : public QIconEngine {
public:
    LineIcon(QString path, QColor colour, QColor disabled);

    void paint(QPainter* painter, const QRect& rect, QIcon::Mode mode, QIcon::State state) override;
    QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) override;
    QPixmap scaledPixmap(const QSize& size, QIcon::Mode mode, QIcon::State state, qreal scale) override;
    QIconEngine* clone() const override { return new LineIcon{*this}; }

private:
    QString m_path;
    QColor m_colour;
    QColor m_disabled;
};

} // namespace fencewright::desktop
