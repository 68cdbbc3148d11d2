#include "airspace/clear_area.h"

#include "airspace/outline.h"
#include "geometry/containment.h"
#include "geometry/validity.h"
#include "support/random_geometry.h"

#include <GeographicLib/Geodesic.hpp>

#include <QtTest>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

using namespace fencewright;
using model::FenceKind;
using model::MultiPolygon;
using model::Position;

// What clearArea() promises, held against its definition place by place. The distances are GeographicLib's geodesics
// (C. F. F. Karney, MIT licence) to the boundary of the operating area, and that is told here, edge by edge: those of
// keep-outs, and of keep-ins where no other keep-in goes on beside them.

namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

double metresBetween(Position a, Position b) {
    double metres = 0.0;
    GeographicLib::Geodesic::WGS84().Inverse(a.lat, a.lon, b.lat, b.lon, metres);
    return metres;
}

Position along(Position a, Position b, double t) { return {std::lerp(a.lon, b.lon, t), std::lerp(a.lat, b.lat, t)}; }

struct Edge {
    Position from, to;
};

std::vector<Edge> edgesOf(const MultiPolygon& surface) {
    std::vector<Edge> edges;
    const auto add = [&](const model::Ring& ring) {
        for (std::size_t i = 0; i < ring.corners.size(); ++i)
            edges.push_back({ring.corners[i], ring.corners[(i + 1) % ring.corners.size()]});
    };
    for (const auto& part : surface.parts) {
        add(part.shell);
        std::for_each(part.holes.begin(), part.holes.end(), add);
    }
    return edges;
}

/// By crossings of a ray to the east.
bool isInside(const std::vector<Edge>& edges, Position place) {
    bool inside = false;
    for (const auto& [a, b] : edges)
        if ((a.lat > place.lat) != (b.lat > place.lat) &&
            place.lon < a.lon + (place.lat - a.lat) / (b.lat - a.lat) * (b.lon - a.lon))
            inside = !inside;
    return inside;
}

/// The operating area as its definition has it, near one place of the earth.
class Ground {
public:
    Ground(const model::FenceSet& set, Position middle) : m_middle{middle} {
        for (const auto& fence : set.fences) {
            MultiPolygon outline = airspace::outline(fence, set.sites);
            bring(outline);
            (fence.kind == FenceKind::KeepIn ? m_keepIns : m_keepOuts).push_back(edgesOf(outline));
        }
        for (const auto& edges : m_keepOuts)
            m_boundary.insert(m_boundary.end(), edges.begin(), edges.end());
        for (const auto& edges : m_keepIns)
            for (const Edge& edge : edges)
                addWhereNothingGoesOn(edge);
    }

    /// Longitudes as near to the middle as they go.
    void bring(MultiPolygon& surface) const {
        for (auto& part : surface.parts) {
            const double turns = 360.0 * std::round((part.shell.corners.front().lon - m_middle.lon) / 360.0);
            for (auto& corner : part.shell.corners)
                corner.lon -= turns;
            for (auto& hole : part.holes)
                for (auto& corner : hole.corners)
                    corner.lon -= turns;
        }
    }

    [[nodiscard]] bool permits(Position place) const {
        const auto holds = [&](const std::vector<Edge>& edges) { return isInside(edges, place); };
        return std::any_of(m_keepIns.begin(), m_keepIns.end(), holds) &&
               std::none_of(m_keepOuts.begin(), m_keepOuts.end(), holds);
    }

    /// Metres to the nearest place of the boundary: of the edges that look nearest on a flat earth, by geodesics to
    /// ever closer places of each.
    [[nodiscard]] double toBoundary(Position place) const {
        const double squeeze = std::cos(place.lat * kDegree);
        const auto flat = [&](const Edge& edge) {
            const double ax = (edge.from.lon - place.lon) * squeeze, ay = edge.from.lat - place.lat;
            const double bx = (edge.to.lon - edge.from.lon) * squeeze, by = edge.to.lat - edge.from.lat;
            const double length = bx * bx + by * by;
            const double t = length > 0.0 ? std::clamp(-(ax * bx + ay * by) / length, 0.0, 1.0) : 0.0;
            return std::hypot(ax + t * bx, ay + t * by);
        };
        double nearest = HUGE_VAL;
        for (const Edge& edge : m_boundary)
            nearest = std::min(nearest, flat(edge));
        double least = HUGE_VAL;
        for (const Edge& edge : m_boundary)
            if (flat(edge) <= nearest * 1.02 + 1e-6)
                least = std::min(least, toEdge(edge, place));
        return least;
    }

private:
    static double toEdge(const Edge& edge, Position place) {
        const auto at = [&](double t) { return metresBetween(place, along(edge.from, edge.to, t)); };
        constexpr double golden = 0.618033988749895; // of the two places one is a place of the round before
        double low = 0.0, high = 1.0, a = 1.0 - golden, b = golden, atA = at(a), atB = at(b);
        for (int i = 0; i < 52; ++i) { // to the 1e-11th part of the edge
            if (atA < atB) {
                high = b, b = a, atB = atA;
                a = high - golden * (high - low), atA = at(a);
            } else {
                low = a, a = b, atA = atB;
                b = low + golden * (high - low), atB = at(b);
            }
        }
        return std::min({at(0.0), at(1.0), atA, atB});
    }

    void addWhereNothingGoesOn(const Edge& edge) {
        std::vector<double> cuts{0.0, 1.0};
        const double dx = edge.to.lon - edge.from.lon, dy = edge.to.lat - edge.from.lat, length = dx * dx + dy * dy;
        const auto addPlace = [&](Position place) {
            const double t = ((place.lon - edge.from.lon) * dx + (place.lat - edge.from.lat) * dy) / length;
            if (t > 0.0 && t < 1.0)
                cuts.push_back(t);
        };
        if (length == 0.0)
            return;
        for (const auto& others : m_keepIns)
            for (const auto& [a, b] : others) {
                const double ex = b.lon - a.lon, ey = b.lat - a.lat, across = dx * ey - dy * ex;
                const double fx = a.lon - edge.from.lon, fy = a.lat - edge.from.lat;
                if (std::abs(across) > 1e-18) {
                    const double t = (fx * ey - fy * ex) / across, s = (fx * dy - fy * dx) / across;
                    if (t > 0.0 && t < 1.0 && s >= -1e-9 && s <= 1.0 + 1e-9)
                        cuts.push_back(t);
                } else if (std::abs(fx * dy - fy * dx) < 1e-15) {
                    addPlace(a);
                    addPlace(b);
                }
            }
        std::sort(cuts.begin(), cuts.end());
        for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
            if (cuts[i + 1] - cuts[i] < 1e-12)
                continue;
            const Position middle = along(edge.from, edge.to, (cuts[i] + cuts[i + 1]) / 2.0);
            const double beside = 1e-10 / std::sqrt(length); // some hundredths of a millimetre
            const auto goesOn = [&](double side) {
                const Position place{middle.lon - side * beside * dy, middle.lat + side * beside * dx};
                return std::any_of(m_keepIns.begin(), m_keepIns.end(),
                                   [&](const std::vector<Edge>& edges) { return isInside(edges, place); });
            };
            if (!goesOn(1.0) || !goesOn(-1.0))
                m_boundary.push_back({along(edge.from, edge.to, cuts[i]), along(edge.from, edge.to, cuts[i + 1])});
        }
    }

    Position m_middle;
    std::vector<std::vector<Edge>> m_keepIns, m_keepOuts;
    std::vector<Edge> m_boundary;
};

/// Fences at random around a place: blobs with and without holes, halves that share an edge, corners that meet, quilts
/// of rectangles, narrow necks; some of them a turn of longitude off.
class Land {
public:
    explicit Land(unsigned seed) : m_random{seed} {
        constexpr std::array latitudes{0.0, 46.2, -33.5, 70.0, -70.0, 12.5};
        constexpr std::array longitudes{8.7, 180.0, -179.999, 0.0, -122.3};
        middle = {longitudes[seed % longitudes.size()], latitudes[seed / 5 % latitudes.size()]};
        m_size = m_random.magnitude(200.0, 4000.0); // metres
        margin = m_size * m_random.magnitude(0.005, 0.12);
        switch (m_random.whole(0, 3)) {
        case 0:
            add(FenceKind::KeepIn, blob(0.0, 0.0, 1.0));
            break;
        case 1:
            quilt();
            break;
        case 2:
            neck();
            break;
        default:
            for (int i = m_random.whole(2, 4); i > 0; --i)
                add(FenceKind::KeepIn, blob(m_random.between(-0.8, 0.8), m_random.between(-0.8, 0.8), 0.7));
        }
        for (int i = m_random.whole(0, 6); i > 0; --i)
            keepOut();
    }

    /// Somewhere there, in parts of its size.
    Position at(double x, double y) const {
        const double degrees = m_size / 111'000.0;
        return {middle.lon + x * degrees / std::cos(middle.lat * kDegree), middle.lat + y * degrees};
    }
    tests::RandomGeometry& random() { return m_random; }

    model::FenceSet set;
    Position middle;
    double margin = 0.0;

private:
    void add(FenceKind kind, model::Shape shape) {
        model::Fence made;
        made.id = {std::to_string(set.fences.size())};
        made.kind = kind;
        made.shape = std::move(shape);
        if (auto* drawn = std::get_if<model::DrawnPolygon>(&made.shape)) {
            if (!geometry::isValid(drawn->polygon))
                drawn->polygon.holes.clear();
            if (kind == FenceKind::KeepOut && m_random.chance(0.1))
                for (auto& corner : drawn->polygon.shell.corners)
                    corner.lon += middle.lon < 0.0 ? 360.0 : -360.0;
        }
        set.fences.append(std::move(made));
    }
    model::Ring star(double x, double y, double radius, int corners) {
        model::Ring ring;
        for (int i = 0; i < corners; ++i) {
            const double angle = 2.0 * std::numbers::pi * i / corners, reach = radius * m_random.between(0.35, 1.0);
            ring.corners.push_back(at(x + reach * std::cos(angle), y + reach * std::sin(angle)));
        }
        return ring;
    }
    model::DrawnPolygon blob(double x, double y, double radius) {
        model::DrawnPolygon drawn{{star(x, y, radius, m_random.whole(4, 20)), {}}};
        if (m_random.chance(0.3))
            drawn.polygon.holes.push_back(star(x, y, radius * 0.25, m_random.whole(3, 9)));
        return drawn;
    }
    model::DrawnPolygon rectangle(double west, double south, double east, double north) {
        const Position low = at(west, south), high = at(east, north);
        return {{{{low, {high.lon, low.lat}, high, {low.lon, high.lat}}}, {}}};
    }
    /// Columns of rectangles: edges shared whole and in part, corners in the middle of another's edge.
    void quilt() {
        const int columns = m_random.whole(2, 3);
        for (int column = 0; column < columns; ++column) {
            const double west = -1.0 + 2.0 * column / columns, east = -1.0 + 2.0 * (column + 1) / columns;
            double south = -1.0;
            for (int rows = m_random.whole(1, 3); rows > 0; --rows) {
                const double north = rows == 1 ? 1.0 : south + (1.0 - south) * m_random.between(0.2, 0.8);
                if (!m_random.chance(0.1))
                    add(FenceKind::KeepIn, rectangle(west, south, east, north));
                south = north;
            }
        }
    }
    /// Two rectangles with a strip between them, about as wide as two margins.
    void neck() {
        const double half = margin / m_size * m_random.between(0.5, 2.0);
        add(FenceKind::KeepIn, rectangle(-1.0, -0.8, -0.3, 0.8));
        add(FenceKind::KeepIn, rectangle(-0.3, -half, 0.3, half));
        add(FenceKind::KeepIn, rectangle(0.3, -0.8, 1.0, 0.8));
    }
    void keepOut() {
        const double x = m_random.between(-1.0, 1.0), y = m_random.between(-1.0, 1.0);
        switch (m_random.whole(0, 3)) {
        case 0: // of the coarse grid of the quilts, so that edges coincide
            add(FenceKind::KeepOut, rectangle(std::round(x * 3) / 3, std::round(y * 3) / 3,
                                              std::round(x * 3) / 3 + 1.0 / 3, std::round(y * 3) / 3 + 1.0 / 3));
            break;
        case 1:
            add(FenceKind::KeepOut, model::Circle{at(x, y), {Length::metres(m_size * 0.1), ""}});
            break;
        case 2:
            add(FenceKind::KeepOut, model::Corridor{{at(x, y), at(-y, x)},
                                                    {Length::metres(m_size * 0.02), ""},
                                                    {Length::metres(m_size * 0.02), ""}});
            break;
        default:
            add(FenceKind::KeepOut, blob(x, y, 0.3));
        }
    }

    tests::RandomGeometry m_random;
    double m_size = 0.0;
};

QByteArray described(unsigned seed, Position place, double margin, double metres) {
    return QString("seed %1: %2 %3 lies %4 m from the boundary, with a margin of %5 m")
        .arg(seed)
        .arg(place.lon, 0, 'f', 12)
        .arg(place.lat, 0, 'f', 12)
        .arg(metres, 0, 'f', 6)
        .arg(margin, 0, 'f', 6)
        .toUtf8();
}

} // namespace

class ClearAreaReferenceTest : public QObject {
    Q_OBJECT

private slots:
    void everyPlaceKeepsTheMargin_andHardlyAnyIsLost() {
        constexpr unsigned kSeeds = 600;
        int held = 0, wanted = 0, empty = 0;
        for (unsigned seed = 1; seed <= kSeeds; ++seed) {
            Land land{seed};
            const auto outlines = airspace::outlines(land.set);
            MultiPolygon clear = airspace::clearArea(land.set, outlines, Length::metres(land.margin),
                                                     {std::chrono::year{2026} / 6 / 1, {}}, {})
                                     .surface;
            const Ground ground{land.set, land.middle};
            ground.bring(clear);
            for (const auto& part : clear.parts)
                QVERIFY2(geometry::isValid(part), qPrintable(QString("seed %1").arg(seed)));
            empty += clear.empty() ? 1 : 0;

            // On its boundary, where it is nearest to what is forbidden.
            const auto edges = edgesOf(clear);
            for (int i = 0; i < 40 && !edges.empty(); ++i) {
                const Edge& edge = edges[std::size_t(land.random().whole(0, int(edges.size()) - 1))];
                const Position place = along(edge.from, edge.to, i % 2 == 0 ? 0.0 : land.random().between(0.0, 1.0));
                const double metres = ground.toBoundary(place);
                QVERIFY2(ground.permits(place) && metres >= land.margin, described(seed, place, land.margin, metres));
                // A hair further out is not clear any more, and so must not be farther than that.
                QVERIFY2(metres <= land.margin * 1.0025 + 0.01, described(seed, place, land.margin, metres));
                ++held;
            }
            // Anywhere.
            const geometry::PreparedSurface inClear{clear};
            for (int i = 0; i < 60; ++i) {
                const Position place = land.at(land.random().between(-1.4, 1.4), land.random().between(-1.4, 1.4));
                const bool isClear = inClear.contains(place);
                const bool permitted = ground.permits(place);
                QVERIFY2(permitted || !isClear, described(seed, place, land.margin, 0.0));
                if (!permitted)
                    continue;
                const double metres = ground.toBoundary(place);
                if (isClear)
                    QVERIFY2(metres >= land.margin, described(seed, place, land.margin, metres));
                else
                    QVERIFY2(metres <= land.margin * 1.0025 + 0.01, described(seed, place, land.margin, metres));
                ++wanted;
            }
        }
        QVERIFY(held > 18'000);
        QVERIFY(wanted > 8'000);
        QVERIFY(empty < 100);
    }
};

QTEST_APPLESS_MAIN(ClearAreaReferenceTest)
#include "clear_area_test.moc"
