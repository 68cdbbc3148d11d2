#include "airspace/outline.h"
#include "geodesy/geodesic.h"
#include "geometry/offset.h"

#include <GeographicLib/Geodesic.hpp>

#include <QtTest>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

using namespace fencewright;
using geometry::Side;
using model::Position;

// The geodesic library that judges here is GeographicLib (C. F. F. Karney, MIT licence), used in tests only. Edges of
// all results are straight in longitude and latitude (RFC 7946, 3.1.1).

namespace {

double ground(Position a, Position b) {
    double metres = 0.0;
    GeographicLib::Geodesic::WGS84().Inverse(a.lat, a.lon, b.lat, b.lon, metres);
    return metres;
}

Position between(Position a, Position b, double t) { return {std::lerp(a.lon, b.lon, t), std::lerp(a.lat, b.lat, t)}; }

/// The least distance from a place to a lon/lat edge: a scan, then golden section around its best.
double toEdge(Position place, Position a, Position b) {
    if (a == b)
        return ground(place, a);
    double best = HUGE_VAL, bestT = 0.0;
    constexpr int kSteps = 8;
    for (int i = 0; i <= kSteps; ++i) {
        const double t = static_cast<double>(i) / kSteps, metres = ground(place, between(a, b, t));
        if (metres < best) {
            best = metres;
            bestT = t;
        }
    }
    double low = std::max(0.0, bestT - 1.0 / kSteps), high = std::min(1.0, bestT + 1.0 / kSteps);
    constexpr double kGolden = 0.618033988749895; // of the two places one is a place of the round before
    const auto at = [&](double t) { return ground(place, between(a, b, t)); };
    double left = high - kGolden * (high - low), right = low + kGolden * (high - low);
    double atLeft = at(left), atRight = at(right);
    for (int i = 0; i < 30; ++i) {
        best = std::min({best, atLeft, atRight});
        if (atLeft < atRight) {
            high = right, right = left, atRight = atLeft;
            left = high - kGolden * (high - low), atLeft = at(left);
        } else {
            low = left, left = right, atLeft = atRight;
            right = low + kGolden * (high - low), atRight = at(right);
        }
    }
    return std::min({best, atLeft, atRight});
}

struct Edge {
    Position a, b;
};
using Edges = std::vector<Edge>;

double toEdges(Position place, const Edges& edges) {
    // No place of an edge is nearer than its middle less its longer half.
    std::vector<std::pair<double, const Edge*>> byBound;
    for (const auto& edge : edges) {
        const auto middle = between(edge.a, edge.b, 0.5);
        const double half = std::max(ground(edge.a, middle), ground(middle, edge.b));
        byBound.emplace_back(ground(place, middle) - 1.1 * half, &edge);
    }
    std::sort(byBound.begin(), byBound.end());
    double best = HUGE_VAL;
    for (const auto& [bound, edge] : byBound) {
        if (bound > best)
            break;
        best = std::min(best, toEdge(place, edge->a, edge->b));
    }
    return best;
}

Edges edgesOf(const model::Ring& ring) {
    Edges edges;
    for (std::size_t i = 0; i < ring.corners.size(); ++i)
        edges.push_back({ring.corners[i], ring.corners[(i + 1) % ring.corners.size()]});
    return edges;
}
Edges edgesOf(const model::Polygon& polygon) {
    Edges edges = edgesOf(polygon.shell);
    for (const auto& hole : polygon.holes)
        for (const auto& edge : edgesOf(hole))
            edges.push_back(edge);
    return edges;
}
Edges edgesOf(const model::LineString& line) {
    Edges edges;
    for (std::size_t i = 0; i + 1 < line.size(); ++i)
        edges.push_back({line[i], line[i + 1]});
    return edges;
}

/// Corners of all rings, and places along their edges.
std::vector<Position> boundaryPlaces(const model::MultiPolygon& surface, int perEdge = 4) {
    std::vector<Position> places;
    for (const auto& part : surface.parts)
        for (const auto& edge : edgesOf(part))
            for (int i = 0; i < perEdge; ++i)
                places.push_back(between(edge.a, edge.b, static_cast<double>(i) / perEdge));
    return places;
}

struct Range {
    double least = HUGE_VAL, most = 0.0;
};
Range distances(const model::MultiPolygon& surface, const Edges& source, int perEdge = 4) {
    Range range;
    for (const auto& place : boundaryPlaces(surface, perEdge)) {
        const double metres = toEdges(place, source);
        range.least = std::min(range.least, metres);
        range.most = std::max(range.most, metres);
    }
    return range;
}

/// The two sides of the promise, as offset.h gives it.
bool neverShort(Range range, double distance) { return range.least >= distance; }
bool hardlyMore(Range range, double distance) { return range.most <= distance * 1.001 + 0.002; }
bool neverLong(Range range, double distance) { return range.most <= distance; }
bool hardlyLess(Range range, double distance) { return range.least >= distance * 0.999 - 0.002; }

QString shown(Range range) {
    return QString::number(range.least, 'f', 6) + " to " + QString::number(range.most, 'f', 6);
}

model::Fence setbackOf(model::SiteId site, model::FenceKind kind, Length distance) {
    model::Fence fence;
    fence.kind = kind;
    fence.shape = model::Setback{site, {distance, ""}};
    return fence;
}

model::Site siteAt(model::SiteGeometry geometry, Length error = {}) {
    model::Site site;
    site.id = {"site"};
    site.geometry = std::move(geometry);
    site.positionError = {error, ""};
    return site;
}

model::MultiPolygon setback(const model::SiteGeometry& geometry, model::FenceKind kind, Length distance,
                            Length error = {}) {
    model::Roster<model::Site> sites;
    sites.append(siteAt(geometry, error));
    return airspace::outline(setbackOf({"site"}, kind, distance), sites);
}

constexpr auto kOut = model::FenceKind::KeepOut;
constexpr auto kIn = model::FenceKind::KeepIn;

} // namespace

class SetbackTest : public QObject {
    Q_OBJECT

private slots:
    void setback_ofPoint_isNeverShort_data() {
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        QTest::addColumn<double>("metres");
        // 1/3 and 1/4 statute mile: 536.448 and 402.336 m exactly, by the definition of the mile (1609.344 m).
        for (const double metres : {402.336, 536.448, 1.0, 30.0, 1609.344, 10'000.0, 50'000.0})
            for (const double lat : {0.0, 45.0, 70.0, 85.0, -45.0, -70.0, -88.9})
                for (const double lon : {-109.5, 0.0, 179.9995, -180.0})
                    QTest::addRow("%g m at %g, %g", metres, lon, lat) << lon << lat << metres;
        QTest::newRow("150 km at 60") << 10.0 << 60.0 << 150'000.0;
        QTest::newRow("200 km at 0") << 10.0 << 0.0 << 200'000.0;
        QTest::newRow("200 km at 75") << 179.0 << 75.0 << 200'000.0;
    }
    void setback_ofPoint_isNeverShort() {
        QFETCH(double, lon);
        QFETCH(double, lat);
        QFETCH(double, metres);
        const Position nest{lon, lat};
        const auto keepOut = setback(nest, kOut, Length::metres(metres));
        QCOMPARE(keepOut.parts.size(), 1U);
        auto range = distances(keepOut, {{nest, nest}}, 8);
        QVERIFY2(neverShort(range, metres) && hardlyMore(range, metres), qPrintable(shown(range)));
        QVERIFY2(range.most <= metres * 1.001 + 0.002, qPrintable(shown(range)));
        const auto keepIn = setback(nest, kIn, Length::metres(metres));
        QCOMPARE(keepIn.parts.size(), 1U);
        range = distances(keepIn, {{nest, nest}}, 8);
        QVERIFY2(neverLong(range, metres) && hardlyLess(range, metres), qPrintable(shown(range)));
        for (const auto& surface : {keepOut, keepIn})
            QVERIFY(surface.parts.front().shell.corners.size() <= 400);
    }

    void setback_ofLine_isNeverShort_data() {
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        QTest::addColumn<double>("span"); // degrees of latitude that the line takes
        QTest::addColumn<double>("metres");
        for (const double lat : {0.0, 45.0, -70.0, 85.0})
            for (const double lon : {12.0, 179.99})
                for (const double span : {0.001, 0.05})
                    for (const double metres : {5.0, 402.336})
                        QTest::addRow("%g m, %g degrees at %g, %g", metres, span, lon, lat)
                            << lon << lat << span << metres;
        QTest::newRow("30 m around 30 km at 60") << 20.0 << 60.0 << 0.3 << 30.0;
        QTest::newRow("20 km around 60 km at 70") << 20.0 << 70.0 << 0.5 << 20'000.0;
        QTest::newRow("frames: 800 m around 700 km at 60") << 20.0 << 60.0 << 5.0 << 800.0;
    }
    void setback_ofLine_isNeverShort() {
        QFETCH(double, lon);
        QFETCH(double, lat);
        QFETCH(double, span);
        QFETCH(double, metres);
        const double stretch = span / std::cos(lat * std::numbers::pi / 180.0);
        // Bends to both sides, a shallow one, a sharp one.
        const model::LineString line{{lon, lat},
                                     {lon + stretch * 0.5, lat + span * 0.01},
                                     {lon + stretch, lat},
                                     {lon + stretch * 0.2, lat + span * 0.3},
                                     {lon + stretch * 0.25, lat + span * 0.9}};
        const auto source = edgesOf(line);
        const int perEdge = span > 1.0 ? 1 : 2;
        auto range = distances(setback(line, kOut, Length::metres(metres)), source, perEdge);
        QVERIFY2(neverShort(range, metres) && hardlyMore(range, metres), qPrintable(shown(range)));
        range = distances(setback(line, kIn, Length::metres(metres)), source, perEdge);
        QVERIFY2(neverLong(range, metres) && hardlyLess(range, metres), qPrintable(shown(range)));
    }

    void setback_ofPolygon_isNeverShort_data() { setback_ofLine_isNeverShort_data(); }
    void setback_ofPolygon_isNeverShort() {
        QFETCH(double, lon);
        QFETCH(double, lat);
        QFETCH(double, span);
        QFETCH(double, metres);
        const double stretch = span / std::cos(lat * std::numbers::pi / 180.0);
        const auto at = [&](double x, double y) { return Position{lon + stretch * x, lat + span * y}; };
        // Reflex corners, a shallow dent, a hole.
        const model::Polygon polygon{{{at(0, 0), at(1, 0), at(1, 1), at(0.6, 0.4), at(0.5, 0.41), at(0, 1)}, false},
                                     {{{at(0.1, 0.1), at(0.1, 0.35), at(0.35, 0.35), at(0.35, 0.1)}, false}}};
        const auto source = edgesOf(polygon);
        const int perEdge = span > 1.0 ? 1 : 2;
        auto range = distances(setback(polygon, kOut, Length::metres(metres)), source, perEdge);
        QVERIFY2(neverShort(range, metres) && hardlyMore(range, metres), qPrintable(shown(range)));
        range = distances(setback(polygon, kIn, Length::metres(metres)), source, perEdge);
        QVERIFY2(neverLong(range, metres) && hardlyLess(range, metres), qPrintable(shown(range)));

        // The margin inside: the other way round.
        const auto clear = geometry::eroded({{polygon}}, Length::metres(metres), Side::Shrink);
        if (!clear.empty()) {
            range = distances(clear, source, perEdge);
            QVERIFY2(neverShort(range, metres) && hardlyMore(range, metres), qPrintable(shown(range)));
            range = distances(geometry::eroded({{polygon}}, Length::metres(metres), Side::Grow), source, perEdge);
            QVERIFY2(neverLong(range, metres) && hardlyLess(range, metres), qPrintable(shown(range)));
        }
        QVERIFY(metres > 0.1 * span * 111'000.0 || !clear.empty());
    }

    void setback_addsPositionError() {
        const Position nest{-109.5, 38.5};
        auto range = distances(setback(nest, kOut, Length::metres(402.336), Length::metres(7.5)), {{nest, nest}});
        QVERIFY2(neverShort(range, 409.836) && hardlyMore(range, 409.836), qPrintable(shown(range)));
        range = distances(setback(nest, kIn, Length::metres(402.336), Length::metres(7.5)), {{nest, nest}});
        QVERIFY2(neverLong(range, 394.836) && hardlyLess(range, 394.836), qPrintable(shown(range)));
    }

    // Calculated with GeodSolve (GeographicLib's tool): the places where a half-mile (804.672 m) circle passes.
    void setback_passesThroughCalculatedPlaces_data() {
        QTest::addColumn<Position>("nest");
        QTest::addColumn<Position>("onCircle");
        const Position utah{-109.5, 38.5}, alaska{-150.0, 64.0};
        QTest::newRow("north of 38.5 N") << utah << Position{-109.5, 38.50724890364};
        QTest::newRow("east of 38.5 N") << utah << Position{-109.49077557628, 38.49999963675};
        QTest::newRow("south of 38.5 N") << utah << Position{-109.5, 38.49275108736};
        QTest::newRow("north of 64 N") << alaska << Position{-150.0, 64.007218252};
        QTest::newRow("east of 64 N") << alaska << Position{-149.983555215, 63.999999069};
        QTest::newRow("south of 64 N") << alaska << Position{-150.0, 63.992781740};
    }
    void setback_passesThroughCalculatedPlaces() {
        QFETCH(Position, nest);
        QFETCH(Position, onCircle);
        constexpr double kHalfMile = 804.672;
        const auto keepOut = setback(nest, kOut, Length::metres(kHalfMile));
        const auto keepIn = setback(nest, kIn, Length::metres(kHalfMile));
        // The published digits give the place to about a tenth of a millimetre.
        QVERIFY(toEdges(onCircle, edgesOf(keepOut.parts.front())) <= 0.001 * kHalfMile + 0.002);
        QVERIFY(toEdges(onCircle, edgesOf(keepIn.parts.front())) <= 0.001 * kHalfMile + 0.002);
    }

    // The shortfall of a circle drawn as a regular polygon with its corners on the circle: r (1 - cos(pi / n)).
    void check_catchesChords_data() {
        QTest::addColumn<int>("corners");
        QTest::addColumn<double>("shortfall");
        QTest::newRow("32") << 32 << 3.875;
        QTest::newRow("64") << 64 << 0.969;
        QTest::newRow("128") << 128 << 0.242;
        QTest::newRow("256") << 256 << 0.061;
    }
    void check_catchesChords() {
        QFETCH(int, corners);
        QFETCH(double, shortfall);
        const Position nest{-109.5, 38.5};
        model::Ring ring;
        for (int i = 0; i < corners; ++i) {
            Position corner;
            GeographicLib::Geodesic::WGS84().Direct(nest.lat, nest.lon, 360.0 * i / corners, 804.672, corner.lat,
                                                    corner.lon);
            ring.corners.push_back(corner);
        }
        const auto range = distances({{{ring, {}}}}, {{nest, nest}}, 8);
        QVERIFY(!neverShort(range, 804.672));
        QVERIFY2(std::abs(804.672 - range.least - shortfall) < 0.002, qPrintable(shown(range)));
    }

    // "804.672 m" of Web Mercator is 353.7 by 353.3 m on the ground at 64 N (its scale there is 2.275 by 2.278), and
    // 630.6 by 628.0 m at 38.5 N.
    void check_catchesWebMercator_data() {
        QTest::addColumn<double>("lat");
        QTest::addColumn<double>("wide");
        QTest::addColumn<double>("high");
        QTest::newRow("64 N") << 64.0 << 353.7 << 353.3;
        QTest::newRow("38.5 N") << 38.5 << 630.6 << 628.0;
    }
    void check_catchesWebMercator() {
        QFETCH(double, lat);
        QFETCH(double, wide);
        QFETCH(double, high);
        constexpr double kRadius = 6378137.0, kDegree = std::numbers::pi / 180.0; // EPSG:3857
        const Position nest{-150.0, lat};
        const double x = kRadius * nest.lon * kDegree;
        const double y = kRadius * std::asinh(std::tan(lat * kDegree));
        model::Ring ring;
        for (int i = 0; i < 256; ++i) {
            const double angle = 2.0 * std::numbers::pi * i / 256, radius = 804.672 / std::cos(std::numbers::pi / 256);
            ring.corners.push_back({(x + radius * std::cos(angle)) / kRadius / kDegree,
                                    std::atan(std::sinh((y + radius * std::sin(angle)) / kRadius)) / kDegree});
        }
        const auto range = distances({{{ring, {}}}}, {{nest, nest}});
        QVERIFY(!neverShort(range, 804.672));
        QVERIFY2(std::abs(range.least - high) < 0.2, qPrintable(shown(range)));
        QVERIFY2(std::abs(range.most - wide) < 0.2, qPrintable(shown(range)));
    }

    // Areas of full circles by pi r2 (the sphere's and the ellipsoid's curvature are far below the digits given).
    void setback_areaFollowsCircle_data() {
        QTest::addColumn<double>("metres");
        QTest::addColumn<double>("squareMetres");
        QTest::newRow("1/4 mi") << 402.336 << 508'543.0;
        QTest::newRow("1/2 mi") << 804.672 << 2'034'172.0;
        QTest::newRow("1 mi") << 1609.344 << 8'136'688.0;
    }
    void setback_areaFollowsCircle() {
        QFETCH(double, metres);
        QFETCH(double, squareMetres);
        const Position nest{-109.5, 38.5};
        const auto area = [&](model::FenceKind kind) {
            return geodesy::measure(setback(nest, kind, Length::metres(metres))).area.inSquareMetres();
        };
        QCOMPARE_GE(area(kOut), squareMetres - 1.0);
        QCOMPARE_LE(area(kOut), squareMetres * 1.002 + 20.0);
        QCOMPARE_LE(area(kIn), squareMetres + 1.0);
        QCOMPARE_GE(area(kIn), squareMetres * 0.998 - 20.0);
    }
};

QTEST_APPLESS_MAIN(SetbackTest)
#include "setback_test.moc"
