#include "desktop/canvas/symbol.h"

#include "desktop/palette.h"

#include <QPainterPath>
#include <QPolygonF>

namespace fencewright::desktop {
namespace {

QColor white(int alpha = 255) {
    QColor colour = QColor::fromRgba(kMapCasing);
    colour.setAlpha(alpha);
    return colour;
}
QColor ink() { return QColor::fromRgba(kMapInk); }

QPolygonF triangle(const QPointF& at, double radius) {
    return QPolygonF{} << at + QPointF{0, -radius} << at + QPointF{radius * 0.92, radius * 0.72}
                       << at + QPointF{-radius * 0.92, radius * 0.72};
}
QPolygonF diamond(const QPointF& at, double radius) {
    return QPolygonF{} << at + QPointF{0, -radius} << at + QPointF{radius, 0} << at + QPointF{0, radius}
                       << at + QPointF{-radius, 0};
}

/// The same figure thrice: casing, edge, inside.
void paintFigure(QPainter& painter, const QPolygonF& figure, const QColor& edge, const QBrush& inside, double width) {
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen{white(235), width + 3.0, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
    painter.drawPolygon(figure);
    painter.setBrush(inside);
    painter.setPen(QPen{edge, width, Qt::SolidLine, Qt::RoundCap, Qt::MiterJoin});
    painter.drawPolygon(figure);
}

} // namespace

void paintSite(QPainter& painter, const QPointF& at, const QColor& edge, bool selected) {
    paintFigure(painter, triangle(at, kSiteRadiusPixels + (selected ? 2.0 : 0.0)), edge, white(), selected ? 3.2 : 2.2);
}

void paintHome(QPainter& painter, const QPointF& at, model::HomeKind kind, bool selected) {
    const double radius = kHomeRadiusPixels + (selected ? 2.0 : 0.0);
    const bool home = kind == model::HomeKind::Home;
    if (home) {
        paintFigure(painter, diamond(at, radius), ink(), white(), selected ? 3.2 : 2.4);
        painter.setPen(Qt::NoPen);
        painter.setBrush(ink());
        painter.drawEllipse(at, 3.2, 3.2);
        return;
    }
    // Hollow: two casings, one on each side of the edge, and the ground seen through the middle.
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen{white(235), 6.0, Qt::SolidLine, Qt::RoundCap, Qt::MiterJoin});
    painter.drawPolygon(diamond(at, radius - 1.5));
    painter.setPen(QPen{ink(), selected ? 3.2 : 2.4, Qt::SolidLine, Qt::RoundCap, Qt::MiterJoin});
    painter.drawPolygon(diamond(at, radius - 1.5));
}

void paintLandingRing(QPainter& painter, const QPointF& at, double radius) {
    if (radius < kHomeRadiusPixels + 3.0)
        return; // it would drown in the diamond
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen{white(200), 3.4});
    painter.drawEllipse(at, radius, radius);
    QPen dots{ink(), 1.4, Qt::CustomDashLine, Qt::FlatCap};
    dots.setDashPattern({3.0, 3.0});
    painter.setPen(dots);
    painter.drawEllipse(at, radius, radius);
}

void paintFinding(QPainter& painter, const QPointF& at, audit::Severity severity) {
    const Palette palette = lightPalette();
    switch (severity) {
    case audit::Severity::Error: {
        const double half = kFindingRadiusPixels - 1.0;
        const QRectF square{at.x() - half, at.y() - half, 2 * half, 2 * half};
        paintFigure(painter, QPolygonF{square}, palette.error, QColor{0xFFEFEA}, 2.2);
        painter.setPen(QPen{palette.error, 2.0, Qt::SolidLine, Qt::RoundCap});
        painter.drawLine(at + QPointF{-2.6, -2.6}, at + QPointF{2.6, 2.6});
        painter.drawLine(at + QPointF{-2.6, 2.6}, at + QPointF{2.6, -2.6});
        break;
    }
    case audit::Severity::Doubt:
        paintFigure(painter, triangle(at, kFindingRadiusPixels + 1.0), palette.doubt, QColor{0xFFF6DF}, 2.0);
        painter.setPen(QPen{palette.doubt, 1.8, Qt::SolidLine, Qt::RoundCap});
        painter.drawLine(at + QPointF{0, -3.2}, at + QPointF{0, 1.2});
        painter.drawPoint(at + QPointF{0, 4.0});
        break;
    case audit::Severity::Note:
        painter.setPen(QPen{white(235), 4.4});
        painter.setBrush(white());
        painter.drawEllipse(at, 4.5, 4.5);
        painter.setPen(QPen{ink(), 1.8});
        painter.drawEllipse(at, 4.5, 4.5);
        break;
    }
}

void paintHandle(QPainter& painter, const QPointF& at, const QColor& edge, bool chosen) {
    const double half = chosen ? 5.5 : 4.0;
    const QRectF square{at.x() - half, at.y() - half, 2 * half, 2 * half};
    painter.fillRect(square.adjusted(-2, -2, 2, 2), edge);
    painter.fillRect(square, chosen ? edge : white());
    if (chosen)
        painter.fillRect(square.adjusted(3, 3, -3, -3), white());
}

void paintMidpoint(QPainter& painter, const QPointF& at, const QColor& edge) {
    painter.setPen(QPen{edge, 1.4});
    painter.setBrush(white());
    painter.drawEllipse(at, 3.2, 3.2);
}

void paintPlate(QPainter& painter, const QRectF& plate) {
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{QColor{0x1B, 0x24, 0x30, 40}, 1.0});
    painter.setBrush(white(236));
    painter.drawRoundedRect(plate, 5.0, 5.0);
}

} // namespace fencewright::desktop
