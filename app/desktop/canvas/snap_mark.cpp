#include "desktop/canvas/snap_mark.h"

#include "desktop/palette.h"

#include <QPainterPath>

namespace fencewright::desktop {
namespace {

constexpr double kRadius = 8.0;

QPainterPath markOf(SnapKind kind) {
    QPainterPath path;
    const auto stroke = [&](double x1, double y1, double x2, double y2) {
        path.moveTo(x1, y1);
        path.lineTo(x2, y2);
    };
    constexpr double r = kRadius;
    switch (kind) {
    case SnapKind::Corner: // a ring around it
        path.addEllipse(QPointF{}, r, r);
        break;
    case SnapKind::Place: // a ring within a ring
        path.addEllipse(QPointF{}, r + 2.0, r + 2.0);
        path.addEllipse(QPointF{}, r - 2.0, r - 2.0);
        break;
    case SnapKind::Crossing: // four strokes that leave the middle free
        for (const double x : {-1.0, 1.0})
            for (const double y : {-1.0, 1.0})
                stroke(x * 3.5, y * 3.5, x * r, y * r);
        break;
    case SnapKind::Midpoint: // two halves of a ring
        path.arcMoveTo(-r, -r, 2.0 * r, 2.0 * r, 40.0);
        path.arcTo(-r, -r, 2.0 * r, 2.0 * r, 40.0, 100.0);
        path.arcMoveTo(-r, -r, 2.0 * r, 2.0 * r, 220.0);
        path.arcTo(-r, -r, 2.0 * r, 2.0 * r, 220.0, 100.0);
        break;
    case SnapKind::Edge: // a bar on each side
        stroke(-r, -r * 0.8, -r, r * 0.8);
        stroke(r, -r * 0.8, r, r * 0.8);
        break;
    case SnapKind::Square: // the corner of a set square
        path.moveTo(-r, -r);
        path.lineTo(-r, r);
        path.lineTo(r, r);
        path.moveTo(-r, r - 6.0);
        path.lineTo(-r + 6.0, r - 6.0);
        path.lineTo(-r + 6.0, r);
        break;
    case SnapKind::InLine: // three dots
        for (const double x : {-r - 3.0, 0.0, r + 3.0})
            path.addEllipse(QPointF{x, 0.0}, 2.0, 2.0);
        break;
    case SnapKind::Parallel: // two leaning strokes
        stroke(-r, r, -1.0, -r);
        stroke(1.0, r, r, -r);
        break;
    }
    return path;
}

} // namespace

void paintSnapMark(QPainter& painter, const QPointF& at, SnapKind kind) {
    const QPainterPath path = markOf(kind).translated(at);
    QColor casing = QColor::fromRgba(kMapCasing);
    casing.setAlpha(235);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen{casing, 4.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
    painter.drawPath(path);
    painter.setPen(QPen{QColor::fromRgba(kMapInk), 1.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
    painter.drawPath(path);
}

void paintSnap(QPainter& painter, const ViewTransform& view, const Snap& snap) {
    QColor casing = QColor::fromRgba(kMapCasing);
    casing.setAlpha(200);
    QPen dashes{QColor::fromRgba(kMapInk), 1.0, Qt::CustomDashLine, Qt::FlatCap};
    dashes.setDashPattern({5.0, 4.0});
    const QRectF seen = QRectF{QPointF{}, view.size()}.adjusted(-4000, -4000, 4000, 4000);
    for (const auto& [from, to] : snap.guides) {
        const auto a = view.widgetOf(from), b = view.widgetOf(to);
        // Dashes of a line that leads far out of sight would take for ever.
        if (!a || !b || !seen.contains(*a) || !seen.contains(*b))
            continue;
        painter.setPen(QPen{casing, 2.6});
        painter.drawLine(*a, *b);
        painter.setPen(dashes);
        painter.drawLine(*a, *b);
    }
    if (const auto at = view.widgetOf(snap.place))
        paintSnapMark(painter, *at, snap.kind);
}

} // namespace fencewright::desktop
