#include "geometry/cutting.h"

#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/detail/corner_mending.h"
#include "geometry/spatial_index.h"
#include "geometry/validity.h"
#include "support/random_geometry.h"

#include <QtTest>

#include <array>
#include <cmath>
#include <set>

using namespace fencewright;
using geometry::Side;
using model::MultiPolygon;
using model::Polygon;
using model::Position;

namespace {

MultiPolygon box(double west, double south, double east, double north) {
    return {{Polygon{{{{west, south}, {east, south}, {east, north}, {west, north}}}, {}}}};
}

double planeArea(const Polygon& polygon) {
    const auto ofRing = [](const model::Ring& ring) {
        double twice = 0.0;
        const auto& c = ring.corners;
        for (std::size_t i = 1; i + 1 < c.size(); ++i)
            twice +=
                (c[i].lon - c[0].lon) * (c[i + 1].lat - c[0].lat) - (c[i].lat - c[0].lat) * (c[i + 1].lon - c[0].lon);
        return std::abs(twice) / 2.0;
    };
    double area = ofRing(polygon.shell);
    for (const auto& hole : polygon.holes)
        area -= ofRing(hole);
    return area;
}

/// With the piece on the left.
std::vector<std::array<double, 4>> edgesOf(const Polygon& polygon) {
    std::vector<std::array<double, 4>> edges;
    const auto add = [&](const model::Ring& ring, bool hole) {
        const auto& c = ring.corners;
        double twice = 0.0;
        for (std::size_t i = 1; i + 1 < c.size(); ++i)
            twice +=
                (c[i].lon - c[0].lon) * (c[i + 1].lat - c[0].lat) - (c[i].lat - c[0].lat) * (c[i + 1].lon - c[0].lon);
        for (std::size_t i = 0; i < c.size(); ++i) {
            const auto &a = c[i], &b = c[(i + 1) % c.size()];
            if ((twice > 0.0) != hole)
                edges.push_back({a.lon, a.lat, b.lon, b.lat});
            else
                edges.push_back({b.lon, b.lat, a.lon, a.lat});
        }
    };
    add(polygon.shell, false);
    for (const auto& hole : polygon.holes)
        add(hole, true);
    return edges;
}

double planeDistance(const MultiPolygon& surface, const Position& place) {
    double least = 1e300;
    for (const auto& part : surface.parts)
        for (const auto& [ax, ay, bx, by] : edgesOf(part)) {
            const double dx = bx - ax, dy = by - ay;
            const double along = ((place.lon - ax) * dx + (place.lat - ay) * dy) / (dx * dx + dy * dy);
            const double share = std::isfinite(along) ? std::clamp(along, 0.0, 1.0) : 0.0;
            least = std::min(least, std::hypot(place.lon - ax - share * dx, place.lat - ay - share * dy));
        }
    return least;
}

/// From outside to outside of the surface's box, by way of places in it: any, corners, places on edges.
model::LineString lineThrough(const MultiPolygon& surface, tests::RandomGeometry& random) {
    const auto reach = geometry::boxOf(surface);
    const double width = reach.maxX - reach.minX, height = reach.maxY - reach.minY;
    const auto corners = geometry::detail::cornersOf(std::array{surface});
    const auto any = [&] { return static_cast<std::size_t>(random.whole(0, static_cast<int>(corners.size()) - 1)); };
    model::LineString line{{reach.minX - width, random.between(reach.minY, reach.maxY)}};
    for (int i = random.whole(0, 3); i > 0; --i) {
        const double way = random.between(0.0, 1.0);
        if (way < 0.3) {
            line.push_back(corners[any()]);
        } else if (way < 0.5) { // along an edge
            const std::size_t at = any();
            line.push_back(corners[at]);
            line.push_back(corners[(at + 1) % corners.size()]);
        } else if (way < 0.7) { // to rounding on an edge
            const std::size_t at = any();
            const auto &a = corners[at], &b = corners[(at + 1) % corners.size()];
            const double share = random.between(0.0, 1.0);
            line.push_back({std::lerp(a.lon, b.lon, share), std::lerp(a.lat, b.lat, share)});
        } else {
            line.push_back({random.between(reach.minX, reach.maxX), random.between(reach.minY, reach.maxY)});
        }
    }
    line.push_back({reach.maxX + width, random.between(reach.minY - height, reach.maxY + height)});
    if (random.chance(0.1))
        for (auto& place : line)
            place.lon += 360.0;
    return line;
}

} // namespace

class CuttingTest : public QObject {
    Q_OBJECT

private slots:
    void aBox_isCutInTwo() {
        for (const auto side : {Side::Grow, Side::Shrink}) {
            const auto pieces = geometry::cutAlong(box(0, 0, 3, 1), {{2, -1}, {2, 2}}, side);
            QCOMPARE(pieces.size(), std::size_t{2});
            QVERIFY(geometry::sameArea({{pieces[0]}}, box(0, 0, 2, 1)));
            QVERIFY(geometry::sameArea({{pieces[1]}}, box(2, 0, 3, 1)));
        }
    }

    void aBend_andTheLineCrossingItself_makeTheirPieces() {
        const auto bent = geometry::cutAlong(box(0, 0, 4, 4), {{1, -1}, {1, 2}, {3, 2}, {3, -1}}, Side::Grow);
        QCOMPARE(bent.size(), std::size_t{2});
        QVERIFY(geometry::sameArea({{bent[1]}}, box(1, 0, 3, 2)));
        const auto looped = geometry::cutAlong(box(0, 0, 4, 4), {{-1, 1}, {3, 1}, {3, 3}, {1, 3}, {1, -1}}, Side::Grow);
        QCOMPARE(looped.size(), std::size_t{3});
    }

    void aHole_mayBePassed_butTheCutMustComeOutAgain() {
        auto ring = box(0, 0, 4, 4);
        ring.parts[0].holes = {{{{1, 1}, {1, 3}, {3, 3}, {3, 1}}}};
        QCOMPARE(geometry::cutAlong(ring, {{-1, 2}, {5, 2}}, Side::Shrink).size(), std::size_t{2});
        QVERIFY_EXCEPTION_THROWN((void)geometry::cutAlong(ring, {{-1, 2}, {2, 2}}, Side::Shrink), geometry::NotCut);
        const auto two = geometry::cutAlong(ring, {{2, 2}, {2, -1}, {3.5, -1}, {3.5, 5}}, Side::Grow);
        QCOMPARE(two.size(), std::size_t{2});
    }

    void endsOnTheBoundary_countAsOutside() {
        // As snapping leaves them: on the edge to rounding, on either side of it.
        const MultiPolygon slanted{{Polygon{{{{0, 0}, {3, 1}, {2, 4}, {-1, 3}}}, {}}}};
        for (int i = 1; i < 40; ++i) {
            const double s = i / 40.0;
            const Position from{std::lerp(0.0, 3.0, s), std::lerp(0.0, 1.0, s)};
            const Position to{std::lerp(2.0, -1.0, 1 - s), std::lerp(4.0, 3.0, 1 - s)};
            for (const auto side : {Side::Grow, Side::Shrink})
                QCOMPARE(geometry::cutAlong(slanted, {from, to}, side).size(), std::size_t{2});
        }
        QCOMPARE(geometry::cutAlong(slanted, {{0, 0}, {2, 4}}, Side::Grow).size(), std::size_t{2});
    }

    void linesThatDoNotCut_areRefused() {
        const auto one = box(0, 0, 3, 1);
        QVERIFY_EXCEPTION_THROWN((void)geometry::cutAlong(one, {{1, -1}, {1, 0.5}}, Side::Grow), Fault);
        QVERIFY_EXCEPTION_THROWN((void)geometry::cutAlong(one, {{4, -1}, {4, 2}}, Side::Grow), geometry::NotCut);
        QVERIFY_EXCEPTION_THROWN((void)geometry::cutAlong(one, {{-1, 1}, {4, 1}}, Side::Grow), geometry::NotCut);
        QVERIFY_EXCEPTION_THROWN((void)geometry::cutAlong(one, {{1, -1}, {1, -1}}, Side::Grow), Fault);
        QVERIFY_EXCEPTION_THROWN((void)geometry::cutAlong(one, {{1, -1}, {1, NAN}}, Side::Grow), Fault);
        QVERIFY_EXCEPTION_THROWN((void)geometry::cutAlong({}, {{1, -1}, {1, 2}}, Side::Grow), geometry::NotCut);
    }

    void piecesOfAnySurface_coverItToTheirSide_andMeetInTheSameCorners() {
        int cut = 0, uncut = 0, refused = 0, manyPieces = 0;
        for (unsigned seed = 1; seed <= 700; ++seed) {
            tests::RandomGeometry random{seed};
            const auto surface = random.surface();
            const auto line = lineThrough(surface, random);
            for (const auto side : {Side::Grow, Side::Shrink}) {
                const auto failure = QString{"seed %1, side %2"}.arg(seed).arg(side == Side::Grow ? "grow" : "shrink");
                std::vector<Polygon> pieces;
                try {
                    pieces = geometry::cutAlong(surface, line, side);
                } catch (const geometry::NotCut&) {
                    ++uncut;
                    continue;
                } catch (const Fault&) {
                    ++refused;
                    continue;
                }
                ++cut;
                manyPieces += pieces.size() > surface.parts.size() + 3;
                // Whether each place of the surface is in a piece, and the other way round: asked beside the corners.
                std::vector<geometry::PreparedSurface> inPieces;
                std::set<std::pair<double, double>> known;
                std::set<std::array<double, 4>> edges;
                double sum = 0.0;
                for (const auto& piece : pieces) {
                    const MultiPolygon alone{{piece}};
                    QVERIFY2(geometry::isValid(piece), qPrintable(failure));
                    if (side == Side::Shrink)
                        QVERIFY2(geometry::contains(surface, alone), qPrintable(failure));
                    inPieces.emplace_back(alone);
                    for (const auto& corner : geometry::detail::cornersOf(std::array{alone}))
                        known.emplace(corner.lon, corner.lat);
                    for (const auto& edge : edgesOf(piece))
                        edges.insert(edge);
                    sum += planeArea(piece);
                }
                const geometry::PreparedSurface inSurface{surface};
                for (const auto& [lon, lat] : known)
                    for (int i = 0; i < 10; ++i) {
                        const double away = random.magnitude(1e-13, 1e-8), angle = random.between(0.0, 2 * M_PI);
                        const Position place{lon + away * std::cos(angle), lat + away * std::sin(angle)};
                        const bool inAny = std::any_of(inPieces.begin(), inPieces.end(),
                                                       [&](const auto& piece) { return piece.contains(place); });
                        QVERIFY2(side == Side::Grow ? inAny || !inSurface.contains(place)
                                                    : !inAny || inSurface.contains(place),
                                 qPrintable(failure));
                    }
                // An edge of a piece is one of its neighbour, or lies on the boundary, but for slivers left out.
                for (const auto& [ax, ay, bx, by] : edges) {
                    const Position middle{(ax + bx) / 2.0, (ay + by) / 2.0};
                    QVERIFY2(edges.contains({bx, by, ax, ay}) || planeDistance(surface, middle) < 1e-10,
                             qPrintable(failure));
                }
                double whole = 0.0;
                for (const auto& part : surface.parts)
                    whole += planeArea(part);
                const auto reach = geometry::boxOf(surface);
                const double rounding =
                    4e-11 * (reach.maxX - reach.minX + reach.maxY - reach.minY) * static_cast<double>(known.size());
                QVERIFY2(std::abs(sum - whole) <= rounding, qPrintable(failure));
                for (const auto& piece : pieces)
                    QVERIFY2(geodesy::measure(pieces.front()).area >= geodesy::measure(piece).area,
                             qPrintable(failure));
            }
        }
        QVERIFY2(cut > 800 && manyPieces > 20 && uncut < 500,
                 qPrintable(QString{"%1 %2 %3"}.arg(cut).arg(manyPieces).arg(uncut)));
        QVERIFY2(refused * 50 <= cut, qPrintable(QString::number(refused)));
    }
};

QTEST_APPLESS_MAIN(CuttingTest)
#include "cutting_test.moc"
