#pragma once

#include <QImage>
#include <QPainter>
#include <QRectF>

#include "desktop/canvas/view_transform.h"

#include <functional>
#include <optional>
#include <vector>

namespace fencewright::desktop {

/// A picture of part of the map that moves along with the view: after a pan only the strips that came into sight are
/// painted, after a change only what changed.
class RetainedLayer {
public:
    /// Paints what lies in the rectangle, in widget coordinates. Must not depend on where the view lies.
    using Render = std::function<void(QPainter& painter, const QRectF& seen)>;

    /// Everything is to be painted anew.
    void invalidate() { m_stale = true; }
    /// What lies in the rectangle of the present view is.
    void invalidate(const QRectF& widget) { m_changed.push_back(widget); }

    void paint(QPainter& painter, const ViewTransform& view, const Render& render);
    /// The last picture, stretched to the view: for the moments of a zoom in which painting takes too long.
    /// @return  whether there is one.
    bool paintStretched(QPainter& painter, const ViewTransform& view) const;

    /// How long the last full painting took.
    double fullPaintMilliseconds() const { return m_fullPaintMilliseconds; }

private:
    std::optional<QPoint> shiftTo(const ViewTransform& view, qreal ratio) const;
    void renderInto(const QRect& devicePixels, const Render& render);

    QImage m_picture;
    std::uint64_t m_planeNumber = 0;
    double m_metresPerPixel = 0.0;
    QPointF m_centre;
    bool m_stale = true;
    std::vector<QRectF> m_changed;
    double m_fullPaintMilliseconds = 0.0;
};

} // namespace fencewright::desktop
