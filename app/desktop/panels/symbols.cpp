#include "desktop/panels/symbols.h"

#include <QPainterPath>

namespace fencewright::desktop {
namespace {

constexpr double kStroke = 1.6;

QColor colourOf(audit::Severity severity, const Palette& palette) {
    switch (severity) {
    case audit::Severity::Error:
        return palette.error;
    case audit::Severity::Doubt:
        return palette.doubt;
    case audit::Severity::Note:
        break;
    }
    return palette.quietText;
}

} // namespace

void paintFenceSymbol(QPainter& painter, const QRectF& box, model::FenceKind kind, bool inForce,
                      const Palette& palette) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const bool keepIn = kind == model::FenceKind::KeepIn;
    const QColor colour = keepIn ? palette.keepIn : palette.keepOut;
    QPen pen{inForce ? colour : palette.quietText, inForce ? kStroke : 1.2};
    const QRectF frame = box.adjusted(1.5, keepIn ? 4.5 : 2.5, -1.5, -1.5);
    if (!inForce)
        pen.setDashPattern({2.2, 1.8});
    painter.setPen(pen);
    painter.drawRect(frame);
    if (inForce) {
        painter.setPen(QPen{colour, 1.2});
        const double tick = keepIn ? -3.5 : 4.0;
        for (int i = 1; i <= 3; ++i) {
            const double x = frame.left() + frame.width() * i / 4.0;
            painter.drawLine(QPointF{x, frame.top()}, QPointF{x, frame.top() + tick});
        }
    }
    painter.restore();
}

void paintSiteSymbol(QPainter& painter, const QRectF& box, const Palette& palette) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{palette.text, kStroke, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
    painter.drawPolygon(QPolygonF{{box.center().x(), box.top() + 2},
                                  {box.right() - 1.5, box.bottom() - 2},
                                  {box.left() + 1.5, box.bottom() - 2}});
    painter.restore();
}

void paintHomeSymbol(QPainter& painter, const QRectF& box, bool alternate, const Palette& palette) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    QPen pen{palette.text, kStroke, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin};
    if (alternate)
        pen.setDashPattern({1.6, 1.6});
    painter.setPen(pen);
    const QPointF middle = box.center();
    const double reach = box.width() / 2 - 1;
    painter.drawPolygon(QPolygonF{{middle.x(), middle.y() - reach},
                                  {middle.x() + reach, middle.y()},
                                  {middle.x(), middle.y() + reach},
                                  {middle.x() - reach, middle.y()}});
    painter.setPen(Qt::NoPen);
    painter.setBrush(palette.text);
    painter.drawEllipse(middle, 1.8, 1.8);
    painter.restore();
}

void paintSeverity(QPainter& painter, const QRectF& box, audit::Severity severity, const Palette& palette) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{colourOf(severity, palette), kStroke, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
    switch (severity) {
    case audit::Severity::Error:
        painter.drawRoundedRect(box.adjusted(1.5, 1.5, -1.5, -1.5), 1.5, 1.5);
        break;
    case audit::Severity::Doubt:
        painter.drawPolygon(QPolygonF{{box.center().x(), box.top() + 1},
                                      {box.right() - 0.5, box.bottom() - 1.5},
                                      {box.left() + 0.5, box.bottom() - 1.5}});
        break;
    case audit::Severity::Note:
        painter.drawEllipse(box.adjusted(2, 2, -2, -2));
        break;
    }
    painter.restore();
}

} // namespace fencewright::desktop
