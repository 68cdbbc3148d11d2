#include "desktop/canvas/map_furniture.h"

#include "desktop/canvas/symbol.h"
#include "desktop/palette.h"
#include "units/number_notation.h"

#include <QFontMetricsF>
#include <QPainterPath>

#include <algorithm>
#include <array>
#include <cmath>

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

/// "46°12′30″" or "46.205°", with as many digits as the step needs.
QString degreeWords(double degrees, double step, bool latitude, geodesy::Notation notation) {
    const QChar side = latitude ? (degrees < 0.0 ? 'S' : 'N') : (degrees < 0.0 ? 'W' : 'E');
    const double size = std::abs(degrees);
    if (notation == geodesy::Notation::DecimalDegrees) {
        const int decimals = std::clamp(int(std::ceil(-std::log10(step) - 1e-9)), 0, 7);
        return QString::fromStdString(units::fixed(size, decimals)) + "° " + side;
    }
    const auto hundredths = std::llround(size * 360000.0);
    const auto whole = hundredths / 360000, minutes = hundredths / 6000 % 60, rest = hundredths % 6000;
    QString words = QString::number(whole) + QChar{0x00B0};
    if (step < 1.0)
        words += QStringLiteral("%1′").arg(minutes, 2, 10, QLatin1Char{'0'});
    if (step < 1.0 / 60.0 - 1e-9) {
        words += QStringLiteral("%1").arg(rest / 100, 2, 10, QLatin1Char{'0'});
        if (step < 1.0 / 3600.0 - 1e-9)
            words += QStringLiteral(".%1").arg(rest % 100, 2, 10, QLatin1Char{'0'});
        words += QChar{0x2033};
    }
    return words + ' ' + side;
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

double niceDegrees(double atLeast, geodesy::Notation notation) {
    if (notation == geodesy::Notation::DecimalDegrees) {
        const double power = std::pow(10.0, std::floor(std::log10(atLeast)));
        for (const double step : {1.0, 2.0, 5.0})
            if (step * power >= atLeast)
                return step * power;
        return 10.0 * power;
    }
    constexpr double minute = 1.0 / 60.0, second = 1.0 / 3600.0;
    constexpr std::array steps{0.01 * second, 0.02 * second, 0.05 * second, 0.1 * second, 0.2 * second, 0.5 * second,
                               second,        2 * second,    5 * second,    10 * second,  15 * second,  30 * second,
                               minute,        2 * minute,    5 * minute,    10 * minute,  15 * minute,  30 * minute,
                               1.0,           2.0,           5.0,           10.0,         15.0,         30.0};
    const auto* found = std::find_if(steps.begin(), steps.end(), [&](double step) { return step >= atLeast; });
    return found == steps.end() ? steps.back() : *found;
}

QColor groundColour(bool dark) { return dark ? QColor{0x2B3138} : QColor{0xECEDE6}; }

void paintGround(QPainter& painter, const ViewTransform& view, bool dark, geodesy::Notation notation,
                 const QFont& font) {
    const QSizeF size = view.size();
    painter.fillRect(QRectF{QPointF{}, size}, groundColour(dark));
    const geometry::Box seen = view.visibleLonLat();
    constexpr double lineGapPixels = 150.0;
    const double stepLon = niceDegrees((seen.maxX - seen.minX) / size.width() * lineGapPixels, notation);
    const double stepLat = niceDegrees((seen.maxY - seen.minY) / size.height() * lineGapPixels, notation);
    const QColor line = dark ? QColor{0x3A434C} : QColor{0xD9DCD2};
    const QColor text = dark ? QColor{0x8F9AA5} : QColor{0x7B8478};
    painter.setFont(textFont(font, 11));
    painter.setRenderHint(QPainter::Antialiasing);

    // In a wide view the lines are curves of the frame: some points each.
    constexpr int points = 12;
    const auto curve = [&](auto placeAt) {
        QPolygonF shape;
        for (int i = 0; i <= points; ++i)
            if (const auto at = view.widgetOf(placeAt(double(i) / points)))
                shape << *at;
        painter.setPen(QPen{line, 1.0});
        painter.drawPolyline(shape);
        return shape;
    };
    constexpr double most = 200.0; // lines; a view over a pole has them all
    if ((seen.maxX - seen.minX) / stepLon < most)
        for (double n = std::ceil(seen.minX / stepLon); n * stepLon <= seen.maxX; ++n) {
            const double lon = n * stepLon;
            const QPolygonF shape = curve([&](double share) {
                return model::Position{lon, std::clamp(std::lerp(seen.minY, seen.maxY, share), -89.9, 89.9)};
            });
            if (shape.isEmpty())
                continue;
            painter.setPen(text);
            painter.drawText(QPointF{shape.last().x() + 4.0, 15.0},
                             degreeWords(std::remainder(lon, 360.0), stepLon, false, notation));
        }
    if ((seen.maxY - seen.minY) / stepLat < most)
        for (double n = std::ceil(seen.minY / stepLat); n * stepLat <= seen.maxY; ++n) {
            const double lat = n * stepLat;
            if (std::abs(lat) > 89.9)
                continue;
            const QPolygonF shape = curve([&](double share) {
                return model::Position{std::lerp(seen.minX, seen.maxX, share), lat};
            });
            if (shape.isEmpty())
                continue;
            constexpr double furnitureRoom = 52.0; // the scale bar stands in that corner
            if (shape.first().y() > size.height() - furnitureRoom)
                continue;
            painter.setPen(text);
            painter.drawText(QPointF{6.0, shape.first().y() - 4.0}, degreeWords(lat, stepLat, true, notation));
        }
}

QRectF paintScaleBar(QPainter& painter, const QRectF& widget, double metresPerPixel, units::System system,
                     const QFont& font) {
    const ScaleBar bar = scaleBar(metresPerPixel, 140.0, system);
    const QFont words = textFont(font, kTextPixels);
    const double textWidth = QFontMetricsF{words}.horizontalAdvance(bar.words);
    const double height = 28.0;
    const QRectF plate{kMarginPixels, widget.height() - kMarginPixels - height, bar.pixels + textWidth + 34.0, height};
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
    painter.drawText(QRectF{left + bar.pixels + 10.0, plate.top(), textWidth + 2.0, height}, Qt::AlignVCenter,
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
