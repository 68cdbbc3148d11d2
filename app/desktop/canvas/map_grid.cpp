#include "desktop/canvas/map_grid.h"

#include "geodesy/utm_grid.h"
#include "units/number_notation.h"

#include <QRectF>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace fencewright::desktop {
namespace {

using geodesy::GridCell;
using geodesy::PlanePoint;
using geodesy::UtmGrid;
using model::Position;

constexpr double kGapPixels = 110.0; // between two lines, at least
constexpr double kGapOfDegrees = 150.0;
constexpr double kMostLines = 200.0; // of a family; a view over a pole has them all
constexpr int kSegments = 16;        // of a line that bends in the plane
constexpr double kSquare = 100'000.0;

/// "46°12′30″ N" or "46.205° N", with as many digits as the step needs.
QString degreeWords(double degrees, double step, bool latitude, geodesy::Notation notation) {
    const QChar side = latitude ? (degrees < 0.0 ? 'S' : 'N') : (degrees < 0.0 ? 'W' : 'E');
    const double size = std::abs(degrees);
    if (notation == geodesy::Notation::DecimalDegrees) {
        const int decimals = std::clamp(int(std::ceil(-std::log10(step) - 1e-9)), 0, 7);
        return QString::fromStdString(units::fixed(size, decimals)) + QChar{0x00B0} + ' ' + side;
    }
    const auto hundredths = std::llround(size * 360000.0);
    const auto whole = hundredths / 360000, minutes = hundredths / 6000 % 60, rest = hundredths % 6000;
    QString words = QString::number(whole) + QChar{0x00B0};
    if (step < 1.0)
        words += QStringLiteral("%1").arg(minutes, 2, 10, QLatin1Char{'0'}) + QChar{0x2032};
    if (step < 1.0 / 60.0 - 1e-9) {
        words += QStringLiteral("%1").arg(rest / 100, 2, 10, QLatin1Char{'0'});
        if (step < 1.0 / 3600.0 - 1e-9)
            words += QStringLiteral(".%1").arg(rest % 100, 2, 10, QLatin1Char{'0'});
        words += QChar{0x2033};
    }
    return words + ' ' + side;
}

QPolygonF shapeOf(const ViewTransform& view, const std::vector<Position>& places) {
    QPolygonF shape;
    const std::vector<QPointF> points = view.planeOf(places);
    for (const QPointF& point : points)
        shape << view.toWidget(point);
    if (points.empty()) // one of them lies out of the plane's reach
        for (const Position& place : places)
            if (const auto at = view.widgetOf(place))
                shape << *at;
    return shape;
}

bool isSeen(const QPolygonF& shape, const ViewTransform& view) {
    const QRectF box = shape.boundingRect();
    const QSizeF size = view.size();
    return shape.size() > 1 && box.left() <= size.width() && box.right() >= 0.0 && box.top() <= size.height() &&
           box.bottom() >= 0.0;
}

void addMeridian(GridLines& all, const ViewTransform& view, double lon, double south, double north, GridLine line) {
    std::vector<Position> places;
    for (int i = 0; i <= kSegments; ++i)
        places.push_back({lon, std::clamp(std::lerp(south, north, double(i) / kSegments), -89.9, 89.9)});
    line.shape = shapeOf(view, places);
    line.northward = true;
    if (isSeen(line.shape, view))
        all.lines.push_back(std::move(line));
}

void addParallel(GridLines& all, const ViewTransform& view, double lat, double west, double east, GridLine line) {
    std::vector<Position> places;
    for (int i = 0; i <= kSegments; ++i)
        places.push_back({std::lerp(west, east, double(i) / kSegments), lat});
    line.shape = shapeOf(view, places);
    if (isSeen(line.shape, view))
        all.lines.push_back(std::move(line));
}

GridLines graticule(const ViewTransform& view, geodesy::Notation notation) {
    GridLines all;
    const geometry::Box seen = view.visibleLonLat();
    // A degree on the screen is that of the view's middle, however the map is turned.
    constexpr double metresPerDegree = 111'200.0, most = 30.0;
    const double middle = view.earthAt({view.size().width() / 2.0, view.size().height() / 2.0}).lat;
    const double gap = view.groundMetresPerPixel() * kGapOfDegrees / metresPerDegree;
    const double stepLat = niceDegrees(std::min(gap, most), notation);
    const double stepLon = niceDegrees(std::min(gap / std::max(std::cos(middle * M_PI / 180.0), 0.01), most), notation);
    if ((seen.maxX - seen.minX) / stepLon < kMostLines)
        for (double n = std::ceil(seen.minX / stepLon); n * stepLon <= seen.maxX; ++n) {
            const double lon = n * stepLon, shown = std::remainder(lon, 360.0);
            addMeridian(all, view, lon, seen.minY, seen.maxY,
                        {{}, {}, true, 0, shown, {{}, degreeWords(shown, stepLon, false, notation), {}}});
        }
    if ((seen.maxY - seen.minY) / stepLat < kMostLines)
        for (double n = std::ceil(seen.minY / stepLat); n * stepLat <= seen.maxY; ++n) {
            const double lat = n * stepLat;
            if (std::abs(lat) < 89.95)
                addParallel(all, view, lat, seen.minX, seen.maxX,
                            {{}, {}, false, 0, lat, {{}, degreeWords(lat, stepLat, true, notation), {}}});
        }
    return all;
}

/// 1, 2 or 5 times a power of ten, from a metre to the side of a square.
double niceMetres(double atLeast) {
    const double power = std::pow(10.0, std::floor(std::log10(std::max(atLeast, 1.0))));
    for (const double step : {1.0, 2.0, 5.0, 10.0})
        if (step * power >= atLeast)
            return std::min(step * power, kSquare);
    return kSquare;
}

/// The trade's way: hundreds of kilometres small, tens and ones large, metres small where the lines are that near.
GridLabel metreLabel(double metres, double step, bool easting, bool military, bool whole) {
    const auto value = std::llround(metres);
    const auto kilometres = value / 1000;
    GridLabel label;
    if (!military)
        label.lead = QString::number(kilometres / 100);
    label.main = QStringLiteral("%1").arg(kilometres % 100, 2, 10, QLatin1Char{'0'});
    if (step < 1000.0 || (whole && !military))
        label.tail = QStringLiteral("%1").arg(value % 1000, 3, 10, QLatin1Char{'0'});
    label.tail += whole && !military ? (easting ? QStringLiteral(" mE") : QStringLiteral(" mN"))
                                     : (easting ? QStringLiteral("E") : QStringLiteral("N"));
    return label;
}

/// What of the line lies within the cell, in one or more parts.
std::vector<std::vector<Position>> within(const GridCell& cell, const std::vector<Position>& line) {
    std::vector<std::vector<Position>> parts;
    bool joined = false;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const Position &from = line[i], &to = line[i + 1];
        double enter = 0.0, leave = 1.0;
        const auto cut = [&](double start, double way, double least, double most) {
            if (way == 0.0) {
                if (start < least || start > most)
                    leave = -1.0;
                return;
            }
            const double a = (least - start) / way, b = (most - start) / way;
            enter = std::max(enter, std::min(a, b));
            leave = std::min(leave, std::max(a, b));
        };
        cut(from.lon, to.lon - from.lon, cell.west, cell.east);
        cut(from.lat, to.lat - from.lat, cell.south, cell.north);
        if (enter >= leave) {
            joined = false;
            continue;
        }
        const auto at = [&](double share) {
            return Position{std::lerp(from.lon, to.lon, share), std::lerp(from.lat, to.lat, share)};
        };
        if (!joined || enter > 0.0)
            parts.push_back({at(enter)});
        parts.back().push_back(at(leave));
        joined = leave == 1.0;
    }
    return parts;
}

/// A cell with its grid, on the turn on which it is seen.
struct SeenCell {
    GridCell cell;
    const UtmGrid& grid;
    double turn; ///< degrees between the grid's longitudes and those of the view

    std::vector<Position> toEarth(const std::vector<PlanePoint>& points) const {
        std::vector<Position> places = grid.toEarth(points);
        for (Position& place : places)
            place.lon += turn;
        return places;
    }
    std::vector<PlanePoint> toGrid(std::vector<Position> places) const {
        for (Position& place : places)
            place.lon -= turn;
        return grid.toGrid(places);
    }
};

void addCellLines(GridLines& all, const ViewTransform& view, const SeenCell& one, const geometry::Box& seen,
                  double step, bool military) {
    const GridCell& cell = one.cell;
    const geometry::Box part{std::max(seen.minX, cell.west), std::max(seen.minY, cell.south),
                             std::min(seen.maxX, cell.east), std::min(seen.maxY, cell.north)};
    if (part.empty())
        return;
    std::vector<Position> rim;
    for (int i = 0; i <= kSegments; ++i) {
        const double lon = std::lerp(part.minX, part.maxX, double(i) / kSegments);
        const double lat = std::lerp(part.minY, part.maxY, double(i) / kSegments);
        rim.insert(rim.end(), {{lon, part.minY}, {lon, part.maxY}, {part.minX, lat}, {part.maxX, lat}});
    }
    geometry::Box metres;
    for (const PlanePoint& point : one.toGrid(rim))
        metres.add(point.x, point.y);
    const auto family = [&](bool easting, double from, double to, double otherFrom, double otherTo) {
        if ((to - from) / step > kMostLines)
            return;
        bool first = true;
        for (double n = std::ceil(from / step); n * step <= to; ++n) {
            const double value = n * step;
            std::vector<PlanePoint> points;
            for (int i = 0; i <= kSegments; ++i) {
                const double other = std::lerp(otherFrom, otherTo, double(i) / kSegments);
                points.push_back(easting ? PlanePoint{value, other} : PlanePoint{other, value});
            }
            const double shown = easting ? value : UtmGrid::shownNorthing(value, cell.isNorth());
            for (const auto& places : within(cell, one.toEarth(points))) {
                GridLine line;
                line.shape = shapeOf(view, places);
                if (!isSeen(line.shape, view))
                    continue;
                line.kind = std::fmod(shown, kSquare) == 0.0 ? GridLine::Kind::Square : GridLine::Kind::Step;
                line.northward = easting;
                line.zone = cell.zone;
                line.value = shown;
                line.label = metreLabel(shown, step, easting, military, std::exchange(first, false));
                all.lines.push_back(std::move(line));
            }
        }
    };
    family(true, metres.minX, metres.maxX, metres.minY, metres.maxY);
    family(false, metres.minY, metres.maxY, metres.minX, metres.maxX);

    const GridLine border{{}, GridLine::Kind::Zone, false, cell.zone, 0.0, {}};
    const auto onSight = [](double value, double least, double most) { return value >= least && value <= most; };
    if (onSight(cell.west, seen.minX, seen.maxX))
        addMeridian(all, view, cell.west, part.minY, part.maxY, border);
    if (onSight(cell.south, seen.minY, seen.maxY))
        addParallel(all, view, cell.south, part.minX, part.maxX, border);
    constexpr double end = 84.0; // of UTM
    if (cell.north == end && onSight(end, seen.minY, seen.maxY))
        addParallel(all, view, end, part.minX, part.maxX, border);
}

/// Names of what is seen, each in the middle of what is seen of it.
void addRegions(GridLines& all, const ViewTransform& view, const std::vector<SeenCell>& cells, bool military) {
    struct Sum {
        QPointF sum;
        int count = 0;
        const SeenCell* cell = nullptr;
    };
    std::map<std::pair<std::string, std::string>, Sum> found; // zone and band, square
    constexpr int across = 12;
    std::map<const SeenCell*, std::vector<std::pair<QPointF, Position>>> within;
    for (int x = 0; x < across; ++x)
        for (int y = 0; y < across; ++y) {
            const QPointF at{(x + 0.5) * view.size().width() / across, (y + 0.5) * view.size().height() / across};
            const Position place = view.earthAt(at);
            for (const SeenCell& one : cells)
                if (place.lon >= one.cell.west && place.lon < one.cell.east && place.lat >= one.cell.south &&
                    place.lat < one.cell.north)
                    within[&one].emplace_back(at, place);
        }
    for (const auto& [cell, points] : within) {
        std::vector<Position> places;
        for (const auto& point : points)
            places.push_back(point.second);
        const std::vector<PlanePoint> metres = military ? cell->toGrid(places) : std::vector<PlanePoint>(places.size());
        for (std::size_t i = 0; i < points.size(); ++i) {
            Sum& sum = found[{cell->cell.name(), military ? cell->grid.squareOf(metres[i]) : std::string{}}];
            sum.sum += points[i].first;
            ++sum.count;
        }
    }
    const bool oneCell = within.size() == 1;
    constexpr int least = 2; // samples: of a mere corner nothing is said
    for (const auto& [name, sum] : found) {
        if (sum.count < least)
            continue;
        QString words = QString::fromStdString(name.first);
        if (military)
            words = oneCell && found.size() > 1 ? QString::fromStdString(name.second)
                                                : words + ' ' + QString::fromStdString(name.second);
        all.regions.push_back({words, sum.sum / sum.count});
    }
}

GridLines metricGrid(const ViewTransform& view, bool military) {
    GridLines all;
    const geometry::Box seen = view.visibleLonLat();
    const double step = niceMetres(view.groundMetresPerPixel() * kGapPixels);
    std::map<int, UtmGrid> grids;
    std::vector<SeenCell> cells;
    for (const GridCell& cell : geodesy::gridCellsMeeting(seen.minX, seen.minY, seen.maxX, seen.maxY)) {
        const UtmGrid& grid = grids.try_emplace(cell.zone, cell.zone).first->second;
        const double turn = 360.0 * std::round((cell.west + 3.0 - (6.0 * cell.zone - 183.0)) / 360.0);
        cells.push_back({cell, grid, turn});
    }
    constexpr std::size_t most = 200; // cells: so many are a globe, and no map
    if (cells.size() > most)
        return all;
    for (const SeenCell& cell : cells)
        addCellLines(all, view, cell, seen, step, military);
    addRegions(all, view, cells, military);
    return all;
}

} // namespace

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

GridLines gridLines(const ViewTransform& view, session::MapGrid grid, geodesy::Notation notation) {
    switch (grid) {
    case session::MapGrid::None:
        break;
    case session::MapGrid::Degrees:
        return graticule(view, notation);
    case session::MapGrid::Utm:
        return metricGrid(view, false);
    case session::MapGrid::Mgrs:
        return metricGrid(view, true);
    }
    return {};
}

} // namespace fencewright::desktop
