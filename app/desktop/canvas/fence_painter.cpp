#include "desktop/canvas/fence_painter.h"

#include "desktop/palette.h"

#include <QPolygonF>

namespace fencewright::desktop {

void FencePainter::paint(QPainter& painter, const ViewTransform& view,
                         const std::vector<std::shared_ptr<const session::OutlinedFence>>& outlined) {
    painter.setRenderHint(QPainter::Antialiasing);
    for (const auto& one : outlined)
        for (const model::Polygon& part : one->surface.parts) {
            QPolygonF corners;
            for (const QPointF& point : view.planeOf(part.shell.corners))
                corners << view.toWidget(point);
            painter.setPen(QPen{QColor::fromRgba(kMapCasing), 5.0});
            painter.drawPolygon(corners);
            painter.setPen(
                QPen{QColor::fromRgba(one->fence->kind == model::FenceKind::KeepIn ? kMapKeepIn : kMapKeepOut), 2.5});
            painter.drawPolygon(corners);
        }
}

} // namespace fencewright::desktop
