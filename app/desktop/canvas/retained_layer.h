#pragma once

#include <QColor>
#include <QImage>
#include <QPainter>
#include <QRectF>
#include <QRegion>

#include "desktop/canvas/view_transform.h"

#include <functional>
#include <optional>
#include <vector>

namespace fencewright::desktop {

/// A picture of part of the map that moves along with the view: after a pan only the strips that came into sight are
/// painted, after a change only what changed.
///
/// What takes long is painted roughly first, and then finely, a few bands in each frame, so that no frame takes much
/// longer than another. The picture runs on from its last row and column to its first, so that a pan moves nothing in
/// memory.
class RetainedLayer {
public:
    enum class Finish { Rough, Fine };
    /// Paints what lies in the rectangle, in widget coordinates. Must not depend on where the view lies.
    using Render = std::function<void(QPainter& painter, const QRectF& seen, Finish finish)>;

    /// Everything is to be painted anew.
    void invalidate() { m_stale = true; }
    /// What lies in the rectangle of the view painted next is.
    void invalidate(const QRectF& widget) { m_changed += widget.toAlignedRect(); }

    /// @param ground  what lies under all of it, where that is of one colour: it is then part of the picture, which is
    ///                copied instead of blended. Where a ground is told no more, what was painted stays as it was.
    void paint(QPainter& painter, const ViewTransform& view, const std::optional<QColor>& ground, const Render& render);
    /// Whether the picture painted last is as fine as it gets: if not, it is to be painted again soon.
    bool isComplete() const { return !m_stale && m_rough.isEmpty(); }

private:
    std::optional<QPoint> shiftTo(const ViewTransform& view, qreal ratio) const;
    void renderInto(const QRect& devicePixels, const Render& render, Finish finish);
    /// A rectangle of the view, cut where the picture ends and begins anew: each piece, and how far from its place in
    /// the view it lies in the picture.
    struct Piece {
        QRect inView;
        QPoint toPicture;
    };
    std::vector<Piece> pieces(const QRect& devicePixels) const;
    void lay(const std::optional<QColor>& ground);

    QImage m_picture;
    QPoint m_origin; ///< where in the picture the view's upper left pixel lies
    std::optional<QColor> m_ground;
    bool m_isOpaque = false; ///< all of the picture has a ground
    std::uint64_t m_planeNumber = 0;
    double m_metresPerPixel = 0.0;
    QPointF m_centre;
    bool m_stale = true;
    QRegion m_changed; ///< in the widget
    QRegion m_rough;   ///< what is still to be painted finely, in pixels of the picture
};

} // namespace fencewright::desktop
