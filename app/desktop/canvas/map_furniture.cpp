#include "desktop/canvas/map_furniture.h"

#include "desktop/canvas/symbol.h"
#include "desktop/palette.h"
#include "units/number_notation.h"

#include <QFontMetricsF>
#include <QPainterPath>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <vector>

namespace fencewright::desktop {
namespace {

constexpr double kMarginPixels = 16.0;
constexpr int kTextPixels = 12;

QFont textFont(QFont font, int pixels) {
    font.setPixelSize(pixels);
    return font;
}

/// The largest of 1, 2, 5 times a power of ten that is not above.
double niceBelow(double value) {
    const double power = std::pow(10.0, std::floor(std::log10(value)));
    for (const double step : {5.0, 2.0})
        if (step * power <= value)
            return step * power;
    return power;
}

QString wholeWords(double value, const char* unit) {
    const int decimals = value >= 10.0 || value == std::round(value) ? 0 : value >= 1.0 ? 1 : 2;
    return QString::fromStdString(units::fixed(value, decimals)) + ' ' + unit;
}
QString metricWords(Length length) {
    return length.inMetres() >= 1000.0 ? wholeWords(length.inKilometres(), "km") : wholeWords(length.inMetres(), "m");
}
QString usWords(Length length) {
    return length.inStatuteMiles() >= 1.0 ? wholeWords(length.inStatuteMiles(), "mi")
                                          : wholeWords(length.inFeet(), "ft");
}

/// Where the line meets the map's rim, and how steep it is there.
struct RimCrossing {
    QPointF at;
    bool steep = false;
};

std::vector<RimCrossing> crossings(const QPolygonF& line, const QRectF& rim) {
    std::vector<RimCrossing> found;
    const std::array sides{QLineF{rim.topLeft(), rim.topRight()}, QLineF{rim.topLeft(), rim.bottomLeft()},
                           QLineF{rim.bottomLeft(), rim.bottomRight()}, QLineF{rim.topRight(), rim.bottomRight()}};
    for (const QLineF& side : sides)
        for (qsizetype i = 0; i + 1 < line.size(); ++i) {
            QPointF at;
            const QLineF part{line[i], line[i + 1]};
            if (part.intersects(side, &at) == QLineF::BoundedIntersection)
                found.push_back({at, std::abs(part.dy()) > std::abs(part.dx())});
        }
    return found;
}

/// The label as a path with its baseline's left end at (0, 0): leading figures raised and small, the principal ones
/// large.
QPainterPath labelPath(const GridLabel& label, const QFont& font, int pixels) {
    QFont large = textFont(font, pixels), small = textFont(font, std::max(pixels - 4, 8));
    large.setBold(!label.lead.isEmpty() || !label.tail.isEmpty());
    QPainterPath path;
    double x = 0.0;
    const double raised = -QFontMetricsF{large}.capHeight() + QFontMetricsF{small}.capHeight();
    path.addText(QPointF{x, raised}, small, label.lead);
    x += QFontMetricsF{small}.horizontalAdvance(label.lead);
    path.addText(QPointF{x, 0.0}, large, label.main);
    x += QFontMetricsF{large}.horizontalAdvance(label.main);
    path.addText(QPointF{x, 0.0}, small, label.tail);
    return path;
}

/// What its path measures, near enough for finding room: outlines of letters are dear.
QSizeF labelSize(const GridLabel& label, const QFont& font, int pixels) {
    QFont large = textFont(font, pixels);
    large.setBold(!label.lead.isEmpty() || !label.tail.isEmpty());
    const QFontMetricsF metrics{large}, small{textFont(font, std::max(pixels - 4, 8))};
    return {small.horizontalAdvance(label.lead) + metrics.horizontalAdvance(label.main) +
                small.horizontalAdvance(label.tail),
            metrics.capHeight()};
}

void paintHaloPath(QPainter& painter, const QPainterPath& path, const QColor& colour) {
    QColor halo = QColor::fromRgba(kMapCasing);
    halo.setAlphaF(0.9F);
    painter.strokePath(path, QPen{halo, 3.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
    painter.fillPath(path, colour);
}

/// Writes the labels of lines at the rim; `write` gets the label and where its middle lies.
void layOutLabels(const GridLines& grid, const QRectF& widget, LabelLayout& layout, const QFont& font, int pixels,
                  const std::function<void(const GridLabel&, const QPointF&)>& write) {
    constexpr double inset = 12.0, apart = 5.0;
    const QRectF rim = widget.adjusted(inset, inset, -inset, -inset);
    for (const GridLine& line : grid.lines) {
        if (line.label.isEmpty())
            continue;
        const QSizeF size = labelSize(line.label, font, pixels);
        std::vector<QPointF> centres;
        for (const RimCrossing& crossing : crossings(line.shape, rim)) {
            // Beside a steep line, above a flat one; at the left the label begins at the rim, at the right it ends.
            const double along = crossing.at.x() > rim.center().x() && !crossing.steep ? -1.0 : 1.0;
            const QPointF off{(size.width() / 2.0 + apart) * along,
                              crossing.steep ? 0.0 : -size.height() / 2.0 - apart};
            centres.push_back(crossing.at + off);
        }
        if (const auto centre = layout.place(size, centres, [](const QRectF&) { return false; }))
            write(line.label, *centre);
    }
}

QPainterPath labelPathAt(const QPointF& centre, const GridLabel& label, const QFont& font, int pixels) {
    QPainterPath path = labelPath(label, font, pixels);
    path.translate(centre - path.boundingRect().center());
    return path;
}

} // namespace

ScaleBar scaleBar(double metresPerPixel, double widestPixels, units::System system) {
    const Length widest = Length::metres(metresPerPixel * widestPixels);
    Length length;
    if (system == units::System::Metric)
        length = Length::metres(niceBelow(widest.inMetres()));
    else if (widest.inStatuteMiles() >= 1.0)
        length = Length::statuteMiles(niceBelow(widest.inStatuteMiles()));
    else
        length = Length::feet(niceBelow(widest.inFeet()));
    const QString metric = metricWords(length), us = usWords(length);
    return {length, length.inMetres() / metresPerPixel,
            system == units::System::Metric ? metric + " · " + us : us + " · " + metric};
}

QColor groundColour(bool dark) { return dark ? QColor{0x2B3138} : QColor{0xECEDE6}; }

void paintGround(QPainter& painter, const ViewTransform& view, bool dark, const GridLines& lines, const QFont& font,
                 std::span<const QRectF> covered) {
    const QRectF widget{QPointF{}, view.size()};
    painter.fillRect(widget, groundColour(dark));
    painter.setRenderHint(QPainter::Antialiasing);
    // A pen of no width is a pixel wide, and costs a tenth of one that is a pixel wide by its number.
    painter.setPen(QPen{dark ? QColor{0x3A434C} : QColor{0xD9DCD2}, 0.0});
    for (const GridLine& line : lines.lines)
        painter.drawPolyline(line.shape);
    LabelLayout layout{widget};
    layout.block(northArrowPlate(widget));
    constexpr double barRoom = 320.0, barHeight = 52.0;
    layout.block({0.0, widget.height() - barHeight, barRoom, barHeight});
    for (const QRectF& place : covered)
        layout.block(place);
    const QColor text = dark ? QColor{0x8F9AA5} : QColor{0x7B8478};
    constexpr int pixels = 11;
    painter.setFont(textFont(font, pixels));
    const QFontMetricsF metrics{painter.font()};
    layOutLabels(lines, widget, layout, font, pixels, [&](const GridLabel& label, const QPointF& centre) {
        if (!label.lead.isEmpty() || !label.tail.isEmpty()) {
            painter.fillPath(labelPathAt(centre, label, font, pixels), text);
            return;
        }
        // Of one size throughout, it is written with the letters that Qt keeps: outlines of letters are dear.
        painter.setPen(text);
        painter.drawText(centre - metrics.tightBoundingRect(label.main).center(), label.main);
    });
}

void paintGridLines(QPainter& painter, const GridLines& grid) {
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(Qt::NoBrush);
    const auto stroke = [&](int alpha, QRgb colour, double step, double square, double zone, bool dashed) {
        QColor ink = QColor::fromRgba(colour);
        ink.setAlpha(alpha);
        for (const GridLine& line : grid.lines) {
            const double width = line.kind == GridLine::Kind::Step     ? step
                                 : line.kind == GridLine::Kind::Square ? square
                                                                       : zone;
            QPen pen{ink, width, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin};
            if (dashed && line.kind == GridLine::Kind::Zone)
                pen.setDashPattern({8.0, 3.0});
            painter.setPen(pen);
            painter.drawPolyline(line.shape);
        }
    };
    stroke(120, kMapCasing, 2.6, 3.8, 5.0, false);
    stroke(170, kMapInk, 0.9, 1.7, 2.2, true);
}

void paintGridLabels(QPainter& painter, const GridLines& grid, const QRectF& widget, LabelLayout& layout,
                     const QFont& font) {
    painter.setRenderHint(QPainter::Antialiasing);
    const QColor ink = QColor::fromRgba(kMapInk);
    QFont large = textFont(font, 18);
    large.setBold(true);
    for (const GridRegion& region : grid.regions) {
        QPainterPath path;
        path.addText(QPointF{}, large, region.name);
        const QRectF box = path.boundingRect();
        // Where all is one, its name stands in the corner; else each in the middle of its own.
        constexpr double inset = 30.0;
        const QPointF corner{inset + box.width() / 2.0, inset + box.height() / 2.0};
        const QPointF centre = grid.regions.size() == 1 ? corner : region.middle;
        if (const auto at = layout.place(box.size(), std::array{centre}, [](const QRectF&) { return false; })) {
            path.translate(*at - box.center());
            paintHaloPath(painter, path, ink);
        }
    }
    constexpr int pixels = 13;
    layOutLabels(grid, widget, layout, font, pixels, [&](const GridLabel& label, const QPointF& centre) {
        paintHaloPath(painter, labelPathAt(centre, label, font, pixels), ink);
    });
}

QRectF scaleBarPlate(const QRectF& widget, const ScaleBar& bar, const QFont& font) {
    constexpr double height = 28.0;
    const double textWidth = QFontMetricsF{textFont(font, kTextPixels)}.horizontalAdvance(bar.words);
    return {kMarginPixels, widget.height() - kMarginPixels - height, bar.pixels + textWidth + 34.0, height};
}

QRectF paintScaleBar(QPainter& painter, const QRectF& widget, double metresPerPixel, units::System system,
                     const QFont& font) {
    const ScaleBar bar = scaleBar(metresPerPixel, kWidestScaleBar, system);
    const QFont words = textFont(font, kTextPixels);
    const QRectF plate = scaleBarPlate(widget, bar, font);
    paintPlate(painter, plate);
    const QColor ink = QColor::fromRgba(kMapInk);
    const double y = std::round(plate.center().y()) + 0.5 + 2.0, left = plate.left() + 12.0;
    painter.setPen(QPen{ink, 2.0, Qt::SolidLine, Qt::FlatCap});
    painter.drawLine(QPointF{left, y}, QPointF{left + bar.pixels, y});
    for (const double share : {0.0, 1.0})
        painter.drawLine(QPointF{left + bar.pixels * share, y - 5.0}, QPointF{left + bar.pixels * share, y + 1.0});
    painter.setPen(QPen{ink, 1.0, Qt::SolidLine, Qt::FlatCap});
    painter.drawLine(QPointF{left + bar.pixels / 2.0, y - 3.0}, QPointF{left + bar.pixels / 2.0, y});
    painter.setFont(words);
    painter.setPen(ink);
    painter.drawText(QRectF{QPointF{left + bar.pixels + 10.0, plate.top()}, plate.bottomRight()}, Qt::AlignVCenter,
                     bar.words);
    return plate;
}

QRectF northArrowPlate(const QRectF& widget) {
    constexpr double across = 34.0;
    return {widget.width() - kMarginPixels - across, kMarginPixels, across, across};
}

QRectF paintNorthArrow(QPainter& painter, const QRectF& widget, const ViewTransform& view, double carriedDegrees) {
    const QRectF plate = northArrowPlate(widget);
    const QPointF middle = plate.center();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{QColor{0x1B, 0x24, 0x30, 40}, 1.0});
    painter.setBrush(QColor{255, 255, 255, 236});
    painter.drawEllipse(plate);
    const double angle = carriedDegrees - view.trueUpAzimuth();
    painter.save();
    painter.translate(middle);
    painter.rotate(angle);
    const QColor ink = QColor::fromRgba(kMapInk);
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink);
    painter.drawPolygon(QPolygonF{} << QPointF{0, -11} << QPointF{5.5, 9} << QPointF{0, 5.5});
    painter.setPen(QPen{ink, 1.2, Qt::SolidLine, Qt::RoundCap, Qt::MiterJoin});
    painter.setBrush(Qt::NoBrush);
    painter.drawPolygon(QPolygonF{} << QPointF{0, -10.4} << QPointF{-5, 8.6} << QPointF{0, 5.5});
    painter.restore();
    return plate;
}

} // namespace fencewright::desktop
