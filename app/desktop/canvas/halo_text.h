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

    /// Whether the text is drawn already: drawing one takes as long as writing a hundred.
    bool knows(const QString& text, const LabelStyle& style, qreal pixelRatio) const {
        return m_written.contains(keyOf(text, style, pixelRatio));
    }
    bool knowsSize(const QString& text, const LabelStyle& style) const {
        return m_sizes.contains(keyOf(text, style, 1.0));
    }
    /// Width and height of the letters, without the halo.
    QSizeF sizeOf(const QString& text, const LabelStyle& style) const;
    /// Writes with the middle of the letters at `centre`.
    void write(QPainter& painter, const QPointF& centre, const QString& text, const LabelStyle& style);

private:
    struct Key {
        QString text;
        QRgb ink = 0;
        int pixelSize = 0;
        bool bold = false;
        qreal pixelRatio = 1.0;

        bool operator==(const Key&) const = default;
        friend size_t qHash(const Key& key, size_t seed = 0) {
            return qHashMulti(seed, key.text, key.ink, key.pixelSize, key.bold, key.pixelRatio);
        }
    };
    static Key keyOf(const QString& text, const LabelStyle& style, qreal pixelRatio) {
        return {text, style.ink.rgba(), style.pixelSize, style.bold, pixelRatio};
    }
    const QImage& written(const QString& text, const LabelStyle& style, qreal pixelRatio);

    QFont fontOf(const LabelStyle& style) const;

    QFont m_font;
    QHash<Key, QImage> m_written;
    mutable QHash<Key, QSizeF> m_sizes;
};

} // namespace fencewright::desktop
