#include "desktop/canvas/reference_tile.h"

#include "desktop/canvas/plane_line.h"
#include "desktop/palette.h"
#include "fault.h"

#include <QPainter>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace fencewright::desktop {
namespace {

constexpr int kSize = ReferenceTile::kPixels;
constexpr double kRoom = 6.0;       // pixels around the tile: half of the widest line, and a point's disc
constexpr double kFitBound = 0.125; // pixels that the fitted way from the earth may be off
constexpr std::size_t kBetweenReports = 2048;
constexpr int kLineShade = 150;  // of 255
constexpr int kLeastShade = 60;  // of a line where lines stand close
constexpr int kSpeckShade = 22;  // of what is smaller than a pixel
constexpr int kMostSpecks = 110; // of many of these
constexpr double kApart = 8.0;   // pixels across: larger things have lines of full shade

/// From the earth to the pixels of one tile. Near the tile by polynomials of second degree through nine places, which
/// is a hundred times faster than the projection; elsewhere, and where these are not near enough, by the plane.
class TileMap {
public:
    TileMap(const ReferenceTile& tile, const geodesy::MapPlane& plane) : m_tile{tile}, m_plane{plane} {
        for (int i = 0; i <= 8; ++i)
            for (int k = 0; k <= 8; ++k) {
                const double x = -kRoom + (kSize + 2 * kRoom) * i / 8, y = -kRoom + (kSize + 2 * kRoom) * k / 8;
                const model::Position place = plane.toEarth(
                    geodesy::PlanePoint{tile.left + x * tile.metresPerPixel, tile.top - y * tile.metresPerPixel});
                m_box.add(place.lon, place.lat);
            }
        // What the border bulges between the samples.
        const double dx = (m_box.maxX - m_box.minX) / 50, dy = (m_box.maxY - m_box.minY) / 50;
        m_box = {m_box.minX - dx, m_box.minY - dy, m_box.maxX + dx, m_box.maxY + dy};
        m_fit = {m_box.minX - 25 * dx, m_box.minY - 25 * dy, m_box.maxX + 25 * dx, m_box.maxY + 25 * dy};
        fit();
    }

    /// In longitude and latitude: all that can be seen in the tile.
    const geometry::Box& box() const { return m_box; }

    std::optional<QPointF> toPixels(const model::Position& place) const {
        if (m_fitted && place.lon >= m_fit.minX && place.lon <= m_fit.maxX && place.lat >= m_fit.minY &&
            place.lat <= m_fit.maxY)
            return fitted(place);
        return exact(place);
    }

private:
    std::optional<QPointF> exact(const model::Position& place) const {
        try {
            const geodesy::PlanePoint plane = m_plane.toPlane(place);
            const QPointF at{(plane.x - m_tile.left) / m_tile.metresPerPixel,
                             (m_tile.top - plane.y) / m_tile.metresPerPixel};
            return std::abs(at.x()) < 1e9 && std::abs(at.y()) < 1e9 ? std::optional{at} : std::nullopt;
        } catch (const Fault&) {
            return std::nullopt; // it has no place on this map; the import has spoken of it
        }
    }
    QPointF fitted(const model::Position& place) const {
        const double u = (place.lon - m_middle.lon) * m_perLon, v = (place.lat - m_middle.lat) * m_perLat;
        const auto along = [u](const std::array<double, 3>& c) { return c[0] + u * (c[1] + u * c[2]); };
        const auto value = [&](const std::array<std::array<double, 3>, 3>& c) {
            return along(c[0]) + v * (along(c[1]) + v * along(c[2]));
        };
        return {value(m_x), value(m_y)};
    }
    void fit() {
        m_middle = {(m_fit.minX + m_fit.maxX) / 2, (m_fit.minY + m_fit.maxY) / 2};
        m_perLon = 2.0 / (m_fit.maxX - m_fit.minX);
        m_perLat = 2.0 / (m_fit.maxY - m_fit.minY);
        const auto placeAt = [&](double u, double v) {
            return model::Position{m_middle.lon + u / m_perLon, m_middle.lat + v / m_perLat};
        };
        // Through -1, 0, 1 in each direction.
        const auto through = [](double a, double b, double c) { return std::array{b, (c - a) / 2, (a + c) / 2 - b}; };
        std::array<std::array<double, 3>, 3> xs{}, ys{};
        for (int v = -1; v <= 1; ++v) {
            std::array<QPointF, 3> row;
            for (int u = -1; u <= 1; ++u) {
                const auto at = exact(placeAt(u, v));
                if (!at)
                    return;
                row[std::size_t(u + 1)] = *at;
            }
            xs[std::size_t(v + 1)] = through(row[0].x(), row[1].x(), row[2].x());
            ys[std::size_t(v + 1)] = through(row[0].y(), row[1].y(), row[2].y());
        }
        for (std::size_t i = 0; i < 3; ++i) {
            const auto x = through(xs[0][i], xs[1][i], xs[2][i]), y = through(ys[0][i], ys[1][i], ys[2][i]);
            for (std::size_t k = 0; k < 3; ++k) {
                m_x[k][i] = x[k];
                m_y[k][i] = y[k];
            }
        }
        for (const double u : {-1.0, -0.5, 0.5, 1.0})
            for (const double v : {-1.0, -0.5, 0.5, 1.0}) {
                const model::Position place = placeAt(u, v);
                const auto at = exact(place);
                if (!at || distanceOf(*at - fitted(place)) > kFitBound)
                    return;
            }
        m_fitted = true;
    }
    static double distanceOf(const QPointF& d) { return std::hypot(d.x(), d.y()); }

    const ReferenceTile& m_tile;
    const geodesy::MapPlane& m_plane;
    geometry::Box m_box, m_fit;
    bool m_fitted = false;
    model::Position m_middle;
    double m_perLon = 1.0, m_perLat = 1.0;
    std::array<std::array<double, 3>, 3> m_x{}, m_y{};
};

/// Shades of white, one byte a pixel.
class Shades {
public:
    void line(QPointF a, QPointF b, int shade) {
        if (!clip(a, b))
            return;
        int x = int(std::floor(a.x())), y = int(std::floor(a.y()));
        const int toX = int(std::floor(b.x())), toY = int(std::floor(b.y()));
        // Source: Bresenham, "Algorithm for computer control of a digital plotter", IBM Systems Journal 4 (1965) 25-30.
        const int dx = std::abs(toX - x), dy = -std::abs(toY - y);
        const int stepX = x < toX ? 1 : -1, stepY = y < toY ? 1 : -1;
        for (int error = dx + dy;;) {
            mark(x, y, shade);
            if (x == toX && y == toY)
                return;
            const int doubled = 2 * error;
            if (doubled >= dy) {
                error += dy;
                x += stepX;
            }
            if (doubled <= dx) {
                error += dx;
                y += stepY;
            }
        }
    }
    void mark(int x, int y, int shade) {
        if (unsigned(x) < kSize && unsigned(y) < kSize) {
            std::uint8_t& at = m_shade[std::size_t(y * kSize + x)];
            at = std::max(at, std::uint8_t(shade));
            m_any = true;
        }
    }
    void speck(int x, int y) {
        if (unsigned(x) < kSize && unsigned(y) < kSize) {
            std::uint8_t& at = m_shade[std::size_t(y * kSize + x)];
            at = std::max(at, std::uint8_t(std::min(at + kSpeckShade, kMostSpecks)));
            m_any = true;
        }
    }
    QImage image() const {
        if (!m_any)
            return {};
        QImage image{kSize, kSize, QImage::Format_ARGB32_Premultiplied};
        const QColor white = QColor::fromRgba(kMapCasing);
        std::array<QRgb, 256> colours{};
        for (int shade = 0; shade < 256; ++shade)
            colours[std::size_t(shade)] = qPremultiply(qRgba(white.red(), white.green(), white.blue(), shade));
        for (int y = 0; y < kSize; ++y) {
            auto* row = reinterpret_cast<QRgb*>(image.scanLine(y));
            for (int x = 0; x < kSize; ++x)
                row[x] = colours[m_shade[std::size_t(y * kSize + x)]];
        }
        return image;
    }

private:
    /// The part of the line near the tile (Liang and Barsky, ACM TOG 3 (1984) 1-22).
    static bool clip(QPointF& a, QPointF& b) {
        constexpr double low = -1.0, high = kSize + 1.0;
        double from = 0.0, to = 1.0;
        const QPointF d = b - a;
        for (const auto& [step, room] : {std::pair{-d.x(), a.x() - low}, std::pair{d.x(), high - a.x()},
                                         std::pair{-d.y(), a.y() - low}, std::pair{d.y(), high - a.y()}}) {
            if (step == 0.0) {
                if (room < 0.0)
                    return false;
            } else if (step < 0.0) {
                from = std::max(from, room / step);
            } else {
                to = std::min(to, room / step);
            }
        }
        if (from > to)
            return false;
        b = a + d * to;
        a = a + d * from;
        return true;
    }

    std::vector<std::uint8_t> m_shade = std::vector<std::uint8_t>(std::size_t(kSize) * kSize);
    bool m_any = false;
};

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

QImage drawnDense(const ReferenceTile& tile, const TileMap& map, const Progress& progress) {
    Shades shades;
    visitSeen(tile, map, progress, [&](std::size_t feature, const geometry::Box& box, double turn, const QSizeF& size) {
        const double across = std::max(size.width(), size.height());
        if (across < 1.0 && (across > 0.0)) {
            if (const auto at = map.toPixels({(box.minX + box.maxX) / 2 - turn, (box.minY + box.maxY) / 2}))
                shades.speck(int(std::floor(at->x())), int(std::floor(at->y())));
            return;
        }
        const int shade = int(std::clamp(kLineShade * across / kApart, double(kLeastShade), double(kLineShade)));
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
                for (const int dx : {0, -1})
                    for (const int dy : {0, -1})
                        shades.mark(int(std::round(from->x())) + dx, int(std::round(from->y())) + dy, kLineShade);
        });
    });
    return shades.image();
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
