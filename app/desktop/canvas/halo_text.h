#pragma once

#include <QColor>
#include <QFont>
#include <QHash>
#include <QImage>
#include <QPainter>
#include <QString>

namespace fencewright::desktop {

/// How a label on the map looks.
struct LabelStyle {
    QColor ink;
    int pixelSize = 13;
    bool bold = true;
};

/// Writes text with a white halo, so that it reads on any imagery. Each text is drawn once and kept.
class HaloText {
public:
    explicit HaloText(const QFont& font) : m_font{font} {}

    /// Width and height of the letters, without the halo.
    QSizeF sizeOf(const QString& text, const LabelStyle& style);
    /// Writes with the middle of the letters at `centre`.
    void write(QPainter& painter, const QPointF& centre, const QString& text, const LabelStyle& style);

private:
    struct Written {
        QImage image;
        QSizeF letters;
    };
    const Written& written(const QString& text, const LabelStyle& style, qreal pixelRatio);

    QFont m_font;
    QHash<QString, Written> m_written;
};

} // namespace fencewright::desktop
