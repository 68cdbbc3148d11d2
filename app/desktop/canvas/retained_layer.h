#pragma once

#include <QImage>
#include <QPainter>
#include <QRectF>
#include <QRegion>

#include "desktop/canvas/view_transform.h"

#include <functional>
#include <optional>

namespace fencewright::desktop {

/// A picture of part of the map that moves along with the view: after a pan only the strips that came into sight are
/// painted, after a change only what changed.
///
/// What takes long is painted roughly first, and then finely, a few bands in each frame, so that no frame takes much
/// longer than another.
class RetainedLayer {
public:
    enum class Finish { Rough, Fine };
    /// Paints what lies in the rectangle, in widget coordinates. Must not depend on where the view lies.
    using Render = std::function<void(QPainter& painter, const QRectF& seen, Finish finish)>;

    /// Everything is to be painted anew.
    void invalidate() { m_stale = true; }
    /// What lies in the rectangle of the view painted next is.
    void invalidate(const QRectF& widget) { m_changed += widget.toAlignedRect(); }

    void paint(QPainter& painter, const ViewTransform& view, const Render& render);
    /// Whether the picture painted last is as fine as it gets: if not, it is to be painted again soon.
    bool isComplete() const { return !m_stale && m_rough.isEmpty(); }

private:
    std::optional<QPoint> shiftTo(const ViewTransform& view, qreal ratio) const;
    void renderInto(const QRect& devicePixels, const Render& render, Finish finish);

    QImage m_picture;
    std::uint64_t m_planeNumber = 0;
    double m_metresPerPixel = 0.0;
    QPointF m_centre;
    bool m_stale = true;
    QRegion m_changed; ///< in the widget
    QRegion m_rough;   ///< what is still to be painted finely, in pixels of the picture
};

} // namespace fencewright::desktop
