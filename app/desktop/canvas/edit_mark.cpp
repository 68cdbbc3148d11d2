#include "desktop/canvas/edit_mark.h"

#include "desktop/canvas/near_plane.h"
#include "desktop/canvas/plane_line.h"
#include "desktop/palette.h"

#include <QPainterPath>

#include <cmath>

namespace fencewright::desktop {
namespace {

QColor casing(int alpha) {
    QColor colour = QColor::fromRgba(kMapCasing);
    colour.setAlpha(alpha);
    return colour;
}

QColor colourOf(model::FenceKind kind) {
    return QColor::fromRgba(kind == model::FenceKind::KeepIn ? kMapKeepIn : kMapKeepOut);
}

void draw(QPainter& painter, const QPainterPath& path, const QColor& colour, double width) {
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen{casing(235), width + 2.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
    painter.drawPath(path);
    painter.setPen(QPen{colour, width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
    painter.drawPath(path);
}

/// A line with a barb at its end.
void addArrow(QPainterPath& path, const QPointF& from, const QPointF& to, double barb) {
    const QLineF line{from, to};
    const QPointF along = (to - from) / line.length(), across{-along.y(), along.x()};
    path.moveTo(from);
    path.lineTo(to);
    path.moveTo(to - along * barb + across * barb);
    path.lineTo(to);
    path.lineTo(to - along * barb - across * barb);
}

} // namespace

void paintChosenEdge(QPainter& painter, const ViewTransform& view, const model::Fence& fence, const Edge& edge) {
    const auto ends = endsOf(fence, edge);
    const auto from = ends ? view.widgetOf(ends->a) : std::nullopt;
    const auto to = ends ? view.widgetOf(ends->b) : std::nullopt;
    if (!from || !to)
        return;
    const std::vector<QPolygonF> seen = clippedLine(QPolygonF{} << *from << *to, QRectF{QPointF{}, view.size()});
    if (seen.empty() || seen.front().size() < 2)
        return;
    const QLineF line{seen.front().first(), seen.front().last()};
    const QColor colour = colourOf(fence.kind);
    QPainterPath path;
    path.moveTo(line.p1());
    path.lineTo(line.p2());
    painter.setRenderHint(QPainter::Antialiasing);
    draw(painter, path, colour, 3.4);
    constexpr double shortest = 24.0, inset = 5.0, reach = 17.0, barb = 4.5; // pixels
    if (line.length() < shortest)
        return;
    const QPointF across = QPointF{line.dy(), -line.dx()} / line.length();
    QPainterPath arrows;
    for (const double side : {-1.0, 1.0})
        addArrow(arrows, line.center() + across * (side * inset), line.center() + across * (side * reach), barb);
    draw(painter, arrows, colour, 1.8);
}

void paintDial(QPainter& painter, const ViewTransform& view, const Dial& dial) {
    const auto middle = view.widgetOf(dial.middle);
    if (!middle || dial.squares.empty())
        return;
    const QColor ink = QColor::fromRgba(kMapInk);
    painter.setRenderHint(QPainter::Antialiasing);
    // The squares say how large the screen has it.
    const auto first = view.widgetOf(dial.squares.front());
    if (!first)
        return;
    const double ring = distanceBetween(*middle, *first) * Dial::kRingPixels / Dial::kSquarePixels;
    const auto widthOf = [&](Dial::Part part) { return dial.held == part ? 3.0 : 1.8; };

    QPainterPath circle;
    circle.addEllipse(*middle, ring, ring);
    draw(painter, circle, ink, widthOf(Dial::Part::Ring));
    // Barbs along the ring, where it runs up and down on the screen: it goes round.
    QPainterPath barbs;
    for (const double side : {-1.0, 1.0}) {
        const QPointF at = *middle + QPointF{side * ring, 0.0};
        barbs.moveTo(at + QPointF{-5.0, -side * 4.0});
        barbs.lineTo(at + QPointF{0.0, side * 3.0});
        barbs.lineTo(at + QPointF{5.0, -side * 4.0});
    }
    draw(painter, barbs, ink, 1.8);

    QPainterPath cross;
    constexpr double arm = 9.0, gap = 2.5;
    for (const QPointF& way : {QPointF{1, 0}, QPointF{-1, 0}, QPointF{0, 1}, QPointF{0, -1}}) {
        cross.moveTo(*middle + way * gap);
        cross.lineTo(*middle + way * arm);
    }
    draw(painter, cross, ink, widthOf(Dial::Part::Middle));

    for (const model::Position& place : dial.squares) {
        const auto at = view.widgetOf(place);
        if (!at)
            continue;
        const double half = dial.held == Dial::Part::Square ? 6.0 : 5.0;
        const QRectF square{at->x() - half, at->y() - half, 2 * half, 2 * half};
        painter.setPen(QPen{casing(235), 4.6});
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(square);
        painter.setPen(QPen{ink, 1.8, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin});
        painter.setBrush(casing(255));
        painter.drawRect(square);
    }

    if (!dial.hand)
        return;
    const auto was = view.widgetOf(dial.hand->first), is = view.widgetOf(dial.hand->second);
    if (!was || !is)
        return;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen{casing(225), 4.0, Qt::SolidLine, Qt::RoundCap});
    painter.drawLine(*middle, *was);
    painter.drawLine(*middle, *is);
    QPen dashes{ink, 1.4, Qt::CustomDashLine, Qt::FlatCap};
    dashes.setDashPattern({3.0, 3.0});
    painter.setPen(dashes);
    painter.drawLine(*middle, *was);
    painter.setPen(QPen{ink, 1.8, Qt::SolidLine, Qt::RoundCap});
    painter.drawLine(*middle, *is);
}

} // namespace fencewright::desktop
