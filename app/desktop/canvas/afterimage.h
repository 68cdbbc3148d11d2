#pragma once

#include <QPainter>
#include <QPixmap>
#include <QTransform>

#include "desktop/canvas/view_transform.h"

namespace fencewright::desktop {

/// A picture of the map as it was: shown in its place, turned and stretched as the view is now, until the map has been
/// drawn anew.
class Afterimage {
public:
    bool isNull() const { return m_picture.isNull(); }
    void keep(QPixmap picture, const ViewTransform& view);
    void drop() { m_picture = {}; }
    void paint(QPainter& painter, const ViewTransform& view) const;
    /// As it was, carried along by a gesture.
    void paint(QPainter& painter, const QTransform& carried) const;

private:
    QPixmap m_picture;
    ViewTransform m_view;
};

} // namespace fencewright::desktop
