#include "desktop/canvas/reference_tile.h"

#include "desktop/canvas/plane_line.h"
#include "desktop/canvas/reference_shades.h"
#include "desktop/canvas/reference_tile_map.h"
#include "desktop/palette.h"

#include <QPainter>

#include <algorithm>
#include <cmath>
#include <optional>

namespace fencewright::desktop {
namespace {

constexpr int kSize = ReferenceTile::kPixels;
constexpr double kRoom = TileMap::kRoom; // half of the widest line, and a point's disc, have room in it
constexpr std::size_t kBetweenReports = 2048;
constexpr int kLineShade = 150;  // of 255
constexpr int kLeastShade = 60;  // of a line where lines stand close
constexpr int kSpeckShade = 22;  // of what is smaller than a pixel
constexpr int kMostSpecks = 110; // of many of these
constexpr double kApart = 8.0;   // pixels across: larger things have lines of full shade

/// Calls `visit(feature, width, height)` with the size in pixels of each feature that may be seen.
template <class Visit>
void visitSeen(const ReferenceTile& tile, const TileMap& map, const Progress& progress, Visit&& visit) {
    const geometry::Box& box = map.box();
    const model::Position middle{(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2};
    const double reach = std::max(1e-9, (box.maxY - box.minY) / 64);
    const auto pixelsPerDegree = [&](const model::Position& along) {
        const auto a = map.toPixels(middle), b = map.toPixels(along);
        return a && b ? std::hypot(b->x() - a->x(), b->y() - a->y()) / reach : 0.0;
    };
    const double perLon = pixelsPerDegree({middle.lon + reach, middle.lat});
    const double perLat = pixelsPerDegree({middle.lon, middle.lat + reach});
    std::size_t seen = 0;
    for (const double turn : tile.layer->turnsOf(box)) {
        const geometry::Box turned{box.minX + turn, box.minY, box.maxX + turn, box.maxY};
        tile.layer->visitMeeting(turned, [&](std::size_t feature, const geometry::Box& at) {
            if (++seen % kBetweenReports == 0)
                progress.report(0.0, phrase("core", "Drawing"));
            visit(feature, at, turn, QSizeF{(at.maxX - at.minX) * perLon, (at.maxY - at.minY) * perLat});
            return true;
        });
    }
}

int shadeOfLines(double across) {
    return int(std::clamp(kLineShade * across / kApart, double(kLeastShade), double(kLineShade)));
}

void markPoint(const QPointF& at, Shades& shades) {
    const Shades::Pixel middle = Shades::pixelOf(at + QPointF{0.5, 0.5});
    for (const int dx : {0, -1})
        for (const int dy : {0, -1})
            shades.mark({middle.x + dx, middle.y + dy}, kLineShade);
}

/// The lines of a feature, wherever they lie.
void drawLines(const ReferenceTile& tile, const TileMap& map, std::size_t feature, double turn, int shade,
               Shades& shades) {
    tile.layer->visitLines(feature, [&](const reference::Layer::Line& line) {
        std::optional<QPointF> from, first;
        for (const model::Position& corner : line.corners) {
            const auto to = map.toPixels({corner.lon - turn, corner.lat});
            if (!to)
                return;
            if (from)
                shades.line(*from, *to, shade);
            else
                first = to;
            from = to;
        }
        if (line.closed && from)
            shades.line(*from, *first, shade);
        if (line.corners.size() == 1)
            markPoint(*from, shades);
    });
}

/// The same of a feature that is small: most of its edges lead to the next pixel, and no farther.
void drawSmallLines(const reference::Layer& layer, const TileMap::Straight& map, std::size_t feature, int shade,
                    Shades& shades, std::vector<model::Position>& room) {
    // Numbers above zero are rounded down by leaving off what follows the point. What is small and can be seen lies
    // within these bounds; what a damaged file puts elsewhere stays countable.
    constexpr int kShift = 2 * kSize;
    constexpr double kFarthest = 5.0 * kSize;
    TileMap::Straight shifted = map;
    shifted.x += kShift;
    shifted.y += kShift;
    const auto whole = [&](double at) { return int(std::min(std::max(at, 0.0), kFarthest)) - kShift; };
    const auto pixelOf = [&](const model::Position& corner) {
        return Shades::Pixel{whole(shifted.xAt(corner.lon, corner.lat)), whole(shifted.yAt(corner.lon, corner.lat))};
    };
    layer.visitLines(feature, room, [&](const reference::Layer::Line& line) {
        if (line.corners.empty())
            return;
        if (line.corners.size() == 1)
            return markPoint(
                {map.xAt(line.corners[0].lon, line.corners[0].lat), map.yAt(line.corners[0].lon, line.corners[0].lat)},
                shades);
        Shades::Pixel from = pixelOf(line.closed ? line.corners.back() : line.corners.front());
        for (const model::Position& corner : line.corners) {
            const Shades::Pixel to = pixelOf(corner);
            if (unsigned(to.x - from.x + 1) <= 2 && unsigned(to.y - from.y + 1) <= 2)
                shades.mark(to, shade);
            else
                shades.line(from, to, shade);
            from = to;
        }
    });
}

QImage drawnDense(const ReferenceTile& tile, const TileMap& map, const Progress& progress) {
    Shades shades;
    std::vector<model::Position> room;
    visitSeen(tile, map, progress, [&](std::size_t feature, const geometry::Box& box, double turn, const QSizeF& size) {
        const double across = std::max(size.width(), size.height());
        if (across < 1.0 && across > 0.0) {
            if (const auto at = map.toPixels({(box.minX + box.maxX) / 2 - turn, (box.minY + box.maxY) / 2}))
                shades.speck(Shades::pixelOf(*at), kSpeckShade, kMostSpecks);
            return;
        }
        auto straight = across > 0.0 ? map.straightIn({box.minX - turn, box.minY, box.maxX - turn, box.maxY}, across)
                                     : std::nullopt;
        if (straight) {
            straight->about.lon += turn;
            drawSmallLines(*tile.layer, *straight, feature, shadeOfLines(across), shades, room);
        } else {
            drawLines(tile, map, feature, turn, shadeOfLines(across), shades);
        }
    });
    return shades.image(kMapCasing);
}

QImage drawnByPainter(const ReferenceTile& tile, const TileMap& map, const Progress& progress) {
    const QRectF room{-kRoom, -kRoom, kSize + 2 * kRoom, kSize + 2 * kRoom};
    std::vector<QPolygonF> rings, lines;
    QPolygonF points;
    visitSeen(tile, map, progress, [&](std::size_t feature, const geometry::Box&, double turn, const QSizeF&) {
        tile.layer->visitLines(feature, [&](const reference::Layer::Line& line) {
            QPolygonF onTile;
            onTile.reserve(qsizetype(line.corners.size()));
            for (std::size_t i = 0; i < line.corners.size(); ++i) {
                const auto at = map.toPixels({line.corners[i].lon - turn, line.corners[i].lat});
                if (!at)
                    return;
                // What moves by less than half a pixel is not seen.
                if (onTile.isEmpty() || i + 1 == line.corners.size() ||
                    std::hypot(at->x() - onTile.last().x(), at->y() - onTile.last().y()) > 0.5)
                    onTile << *at;
            }
            if (line.corners.size() == 1)
                points << onTile.first();
            else if (line.closed)
                rings.push_back(clippedRing(onTile, room));
            else
                for (QPolygonF& piece : clippedLine(onTile, room))
                    lines.push_back(std::move(piece));
        });
    });
    std::erase_if(rings, [](const QPolygonF& ring) { return ring.isEmpty(); });
    if (rings.empty() && lines.empty() && points.isEmpty())
        return {};

    QImage image{kSize, kSize, QImage::Format_ARGB32_Premultiplied};
    image.fill(Qt::transparent);
    QPainter painter{&image};
    painter.setRenderHint(QPainter::Antialiasing);
    std::size_t stroked = 0;
    const auto stroke = [&](const QPen& pen) {
        painter.setPen(pen);
        painter.setBrush(Qt::NoBrush);
        for (const QPolygonF& ring : rings) {
            if (++stroked % 256 == 0)
                progress.report(0.5, phrase("core", "Drawing"));
            painter.drawPolygon(ring);
        }
        for (const QPolygonF& line : lines)
            painter.drawPolyline(line);
    };
    QColor dark = QColor::fromRgba(kMapInk), white = QColor::fromRgba(kMapCasing);
    dark.setAlpha(95);
    white.setAlpha(225);
    const double ratio = tile.pixelRatio;
    if (tile.style == LineStyle::Cased) {
        stroke(QPen{dark, 2.6 * ratio, Qt::SolidLine, Qt::FlatCap, Qt::BevelJoin});
        stroke(QPen{white, 1.1 * ratio, Qt::SolidLine, Qt::FlatCap, Qt::BevelJoin});
    } else {
        white.setAlpha(kLineShade);
        stroke(QPen{white, 0.0});
    }
    painter.setPen(QPen{dark, 1.2 * ratio});
    painter.setBrush(white);
    for (const QPointF& point : points)
        painter.drawEllipse(point, 2.6 * ratio, 2.6 * ratio);
    painter.end();
    // A copy, for the picture that was painted on keeps what the painter worked with.
    return image.copy();
}

} // namespace

QImage drawn(const ReferenceTile& tile, const geodesy::MapPlane& plane, const Progress& progress) {
    const TileMap map{tile, plane};
    return tile.style == LineStyle::Dense ? drawnDense(tile, map, progress) : drawnByPainter(tile, map, progress);
}

} // namespace fencewright::desktop
