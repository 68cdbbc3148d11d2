#pragma once

#include <QCache>
#include <QColor>
#include <QFont>
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

/// Writes text with a white halo, so that it reads on any imagery. Each text is drawn once and kept for as long as it
/// is not among those that were not written for longest.
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
    /// Of what is painted on, for names do not overlap: those of one view are all kept, and those of the one before.
    static constexpr int kViewsKept = 2;
    static constexpr int kKeptSizes = 4'000;

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
    QImage written(const QString& text, const LabelStyle& style, qreal pixelRatio);

    QFont fontOf(const LabelStyle& style) const;

    QFont m_font;
    QCache<Key, QImage> m_written; ///< by pixels of the view
    mutable QCache<Key, QSizeF> m_sizes{kKeptSizes};
};

} // namespace fencewright::desktop
