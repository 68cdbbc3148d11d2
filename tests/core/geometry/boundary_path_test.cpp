#include "geometry/boundary_path.h"

#include "geodesy/geodesic.h"
#include "geometry/overlay.h"
#include "support/random_geometry.h"

#include <QtTest>

#include <algorithm>
#include <cmath>

using namespace fencewright;
using namespace fencewright::geometry;
using model::LineString;
using model::Position;

namespace {

const LineString kSquare{{10.0, 50.0}, {10.01, 50.0}, {10.01, 50.01}, {10.0, 50.01}};

BoundaryPlace randomPlace(const BoundaryLine& line, tests::RandomGeometry& random) {
    BoundaryPlace at{0, std::size_t(random.whole(0, int(line.edges()) - 1)), 0.0};
    if (random.chance(0.5))
        at.along = random.between(0.001, 0.999);
    return at;
}

/// The same by the plainest walk there is: corner after corner of the ring written twice.
LineString walked(const BoundaryLine& ring, const BoundaryPlace& from, const BoundaryPlace& to) {
    const double begin = double(from.edge) + from.along, count = double(ring.corners.size());
    double end = double(to.edge) + to.along;
    if (end < begin)
        end += count;
    LineString path;
    for (std::size_t i = 0; i < 2 * ring.corners.size(); ++i)
        if (double(i) > begin && double(i) < end)
            path.push_back(ring.corners[i % ring.corners.size()]);
    return path;
}

/// A convex area with one side cut into a run of corners that stray from it by some millimetres, as a line of a land
/// record does; and a new area drawn from a place on that side to another, with its third corner outside.
struct Neighbours {
    LineString ring;
    std::size_t first = 0, last = 0; ///< the edges of that side
    Position apex;
};
Neighbours neighboursAt(tests::RandomGeometry& random) {
    const Position middle{random.chance(0.1) ? 180.0 : random.between(-180.0, 180.0), random.between(-80.0, 80.0)};
    const double size = random.magnitude(20.0, 3000.0), turned = random.between(0.0, 360.0);
    const auto at = [&](double azimuth, double metres) {
        return geodesy::direct(middle, Angle::degrees(azimuth), Length::metres(metres));
    };
    const Position a = at(turned, size), b = at(turned + random.between(50.0, 110.0), size);
    Neighbours made;
    made.ring.push_back(a);
    const int corners = random.whole(1, 12);
    std::vector<double> alongs;
    for (int i = 0; i < corners; ++i)
        alongs.push_back(random.between(0.02, 0.98));
    std::sort(alongs.begin(), alongs.end());
    for (const double along : alongs) {
        const Position on{a.lon + along * (b.lon - a.lon), a.lat + along * (b.lat - a.lat)};
        made.ring.push_back(geodesy::direct(on, Angle::degrees(random.between(0.0, 360.0)),
                                            Length::metres(random.between(0.0005, 0.004))));
    }
    made.last = made.ring.size() - 1;
    made.ring.push_back(b);
    made.ring.push_back(at(turned + 180.0, size));
    made.apex = at(turned + random.between(30.0, 50.0), 3.0 * size);
    return made;
}

double squareMetres(const model::MultiPolygon& surface) { return geodesy::measure(surface).area.inSquareMetres(); }

} // namespace

class BoundaryPathTest : public QObject {
    Q_OBJECT

private slots:
    void pathAlong_givesTheCornersBetween_inBothSenses() {
        const BoundaryLine ring{kSquare};
        const BoundaryPlace west{0, 3, 0.5}, north{0, 2, 0.25};
        QVERIFY((pathAlong(ring, north, west, Sense::Forward) == LineString{kSquare[3]}));
        QVERIFY((pathAlong(ring, north, west, Sense::Backward) == LineString{kSquare[2], kSquare[1], kSquare[0]}));
        // A corner is an end, and not between.
        QVERIFY((pathAlong(ring, {0, 1, 0.0}, {0, 3, 0.0}, Sense::Forward) == LineString{kSquare[2]}));
        QVERIFY((pathAlong(ring, {0, 1, 0.0}, {0, 3, 0.0}, Sense::Backward) == LineString{kSquare[0]}));
        QVERIFY(pathAlong(ring, west, west, Sense::Forward).empty());
        // On one edge: straight on, or all the way round.
        QVERIFY(pathAlong(ring, {0, 0, 0.2}, {0, 0, 0.8}, Sense::Forward).empty());
        QVERIFY((pathAlong(ring, {0, 0, 0.2}, {0, 0, 0.8}, Sense::Backward) ==
                 LineString{kSquare[0], kSquare[3], kSquare[2], kSquare[1]}));
        QVERIFY((pathAlong(ring, {0, 0, 0.8}, {0, 0, 0.2}, Sense::Forward) ==
                 LineString{kSquare[1], kSquare[2], kSquare[3], kSquare[0]}));
        QVERIFY((pathAlong(ring, {0, 0, 0.0}, {0, 0, 0.5}, Sense::Backward) ==
                 LineString{kSquare[3], kSquare[2], kSquare[1]}));
    }

    void pathAlong_ofAnOpenLine_endsAtItsEnds() {
        const BoundaryLine line{kSquare, false};
        QVERIFY((pathAlong(line, {0, 0, 0.0}, {0, 2, 1.0}, Sense::Forward) == LineString{kSquare[1], kSquare[2]}));
        QVERIFY((pathAlong(line, {0, 2, 1.0}, {0, 0, 0.0}, Sense::Backward) == LineString{kSquare[2], kSquare[1]}));
        const MeasuredBoundary measured{line};
        QCOMPARE(measured.shorterSense({0, 2, 0.5}, {0, 0, 0.5}), Sense::Backward);
        QVERIFY(!measured.after({0, 2, 0.5}, Length::kilometres(5), Sense::Forward));
    }

    void pathAlong_isThePlainWalk_andTheSameWayBack() {
        for (unsigned seed = 0; seed < 1000; ++seed) {
            tests::RandomGeometry random{seed};
            const LineString corners = random.polygon().shell.corners;
            const BoundaryLine ring{corners};
            const BoundaryPlace from = randomPlace(ring, random), to = randomPlace(ring, random);
            const LineString forward = pathAlong(ring, from, to, Sense::Forward);
            QVERIFY2(forward == walked(ring, from, to), qPrintable(QString{"seed %1"}.arg(seed)));
            LineString back = pathAlong(ring, to, from, Sense::Backward);
            std::reverse(back.begin(), back.end());
            QVERIFY2(back == forward, qPrintable(QString{"seed %1"}.arg(seed)));
        }
    }

    void nearestOn_aCorner_isThatCorner_onTheTurnOfThePlace() {
        const std::vector<BoundaryLine> lines{{kSquare}};
        const auto corner = nearestOn(lines, {370.01, 50.01});
        QVERIFY(corner);
        QCOMPARE(corner->at, (BoundaryPlace{0, 2, 0.0}));
        QVERIFY(std::abs(corner->place.lon - 370.01) < 1e-12);
        const auto own = nearestOn(lines, kSquare[3]);
        QVERIFY(own->place == kSquare[3]);
        QCOMPARE(own->distance.inMetres(), 0.0);
        QVERIFY(!nearestOn({}, kSquare[3]));
        const std::vector<BoundaryLine> open{{kSquare, false}};
        QCOMPARE(nearestOn(open, kSquare[3])->at, (BoundaryPlace{0, 2, 1.0}));
    }

    void nearestOn_findsWhatLiesOnAnEdge() {
        for (unsigned seed = 0; seed < 1000; ++seed) {
            tests::RandomGeometry random{seed};
            const LineString corners = random.polygon().shell.corners;
            const std::vector<BoundaryLine> ring{{corners}};
            const Position place = placeOn(ring.front(), randomPlace(ring.front(), random));
            if (std::abs(place.lat) > 89.0)
                continue; // a degree of longitude has no length there
            const auto found = nearestOn(ring, place);
            // Between doubles of 180 degrees lie 3e-9 m.
            QVERIFY2(found->distance.inMetres() < 1e-6, qPrintable(QString{"seed %1"}.arg(seed)));
            QVERIFY2(geodesy::inverse(found->place, place).length.inMetres() < 2e-6,
                     qPrintable(QString{"seed %1"}.arg(seed)));
        }
    }

    void lengths_areThoseOfTheLinesThemselves() {
        for (unsigned seed = 0; seed < 200; ++seed) {
            tests::RandomGeometry random{seed};
            const LineString corners = random.polygon().shell.corners;
            const BoundaryLine ring{corners};
            const BoundaryPlace from = randomPlace(ring, random), to = randomPlace(ring, random);
            const MeasuredBoundary measured{ring};
            const Sense sense = measured.shorterSense(from, to);
            QVERIFY(measured.between(from, to, sense) <= measured.between(from, to, opposite(sense)));
            for (const Sense way : {Sense::Forward, Sense::Backward}) {
                LineString whole = pathAlong(ring, from, to, way);
                whole.insert(whole.begin(), placeOn(ring, from));
                whole.push_back(placeOn(ring, to));
                const double metres = geodesy::lengthOf(whole).inMetres();
                const double told = measured.between(from, to, way).inMetres();
                QVERIFY2(
                    std::abs(told - metres) <= 1e-5 * double(whole.size()) + 1e-9 * metres,
                    qPrintable(QString{"seed %1: %2 for %3"}.arg(seed).arg(told, 0, 'g', 12).arg(metres, 0, 'g', 12)));
                // And back to where that length leads.
                const auto after = measured.after(from, Length::metres(told), way);
                if (from == to || told == 0.0)
                    continue;
                QVERIFY(after);
                const double off = geodesy::inverse(placeOn(ring, *after), placeOn(ring, to)).length.inMetres();
                QVERIFY2(off <= 1e-5 + 1e-9 * metres, qPrintable(QString{"seed %1: %2 m off"}.arg(seed).arg(off)));
            }
        }
    }

    void after_aLength_followsTheCorners() {
        // A degree of the equator: 111,319.49079 m (WGS 84, NIMA TR8350.2: a = 6378137 m; a pi / 180).
        const LineString corners{{0.0, 0.0}, {1.0, 0.0}, {1.0, 1.0}};
        const MeasuredBoundary measured{BoundaryLine{corners}};
        const auto half = measured.after({}, Length::metres(111319.49079327358 / 2.0), Sense::Forward);
        QCOMPARE(half->edge, std::size_t{0});
        QVERIFY(std::abs(half->along - 0.5) < 1e-10);
        QVERIFY(!measured.after({}, Length::kilometres(1000), Sense::Forward));
    }

    void conformed_onlyWhereTheLineRunsAlongTheLeg() {
        const double centimetre = 1.0 / 111'000'00.0; // of latitude, roughly
        const LineString ring{{0.0, 0.0}, {0.01, 0.5 * centimetre}, {0.02, 0.0}, {0.02, 0.02}, {0.0, 0.02}};
        const BoundaryLine line{ring};
        const auto near = conformedTo(line, ring[0], {0, 0, 0.0}, ring[2], {0, 2, 0.0}, Length::metres(0.01));
        QVERIFY(near && *near == LineString{ring[1]});
        QVERIFY(!conformedTo(line, ring[0], {0, 0, 0.0}, ring[2], {0, 2, 0.0}, Length::metres(0.004)));
        QVERIFY(!conformedTo(line, ring[0], {0, 0, 0.0}, ring[3], {0, 3, 0.0}, Length::metres(0.01)));
        // Along an edge of it there is nothing to take over.
        const auto edge = conformedTo(line, ring[2], {0, 2, 0.0}, ring[3], {0, 3, 0.0}, Length::metres(0.01));
        QVERIFY(edge && edge->empty());
    }

    void neighbours_drawnAlongABoundary_leaveNoGap_andNoOverlap() {
        double mostLeft = 0.0;
        int slivers = 0;
        for (unsigned seed = 0; seed < 1000; ++seed) {
            tests::RandomGeometry random{seed};
            const Neighbours made = neighboursAt(random);
            const BoundaryLine line{made.ring};
            BoundaryPlace from{0, std::size_t(random.whole(0, int(made.last) / 2)), random.chance(0.5) ? 0.3 : 0.0};
            BoundaryPlace to{0, std::size_t(random.whole(int(made.last) / 2 + 1, int(made.last))),
                             random.chance(0.5) ? 0.7 : 0.0};
            if (random.chance(0.5))
                std::swap(from, to);
            const Position begin = placeOn(line, from), end = placeOn(line, to);
            const auto between = conformedTo(line, begin, from, end, to, Length::metres(0.01));
            const QByteArray which = "seed " + QByteArray::number(seed);
            QVERIFY2(between, which);
            LineString drawn{begin};
            drawn.insert(drawn.end(), between->begin(), between->end());
            drawn.push_back(end);
            drawn.push_back({begin.lon + std::remainder(made.apex.lon - begin.lon, 360.0), made.apex.lat});
            const model::MultiPolygon neighbour{{{{made.ring}, {}}}}, fence{{{{drawn}, {}}}};
            const model::MultiPolygon both[]{neighbour, fence};
            const model::MultiPolygon whole = united(both);
            const double overlap = squareMetres(intersection(neighbour, fence));
            // Without a gap they are what the rest of the neighbour's ring and the new corner enclose, found by the
            // plain walk.
            const bool onwards = from.edge < to.edge;
            LineString around = onwards ? walked(line, to, from) : walked(line, from, to);
            around.insert(around.begin(), onwards ? end : begin);
            around.insert(around.end(), {onwards ? begin : end, drawn.back()});
            const double gap = squareMetres(difference({{{{around}, {}}}}, whole));
            const double beyond = squareMetres(difference(whole, {{{{around}, {}}}}));
            // Corners of an overlay are rounded by up to 6e-8 m, doubles by 3e-9 m.
            const double rounding = 2e-7 * geodesy::measure(fence).perimeter.inMetres();
            QVERIFY2(overlap <= rounding, which + QByteArray::number(overlap));
            QVERIFY2(gap <= rounding, which + ": " + QByteArray::number(gap));
            QVERIFY2(beyond <= rounding, which + ": " + QByteArray::number(beyond));
            mostLeft = std::max({mostLeft, overlap, gap, beyond});
            // The straight leg would have left something in most cases: else this would show nothing.
            const model::MultiPolygon straight{{{{{drawn.front(), drawn[drawn.size() - 2], drawn.back()}}, {}}}};
            if (!between->empty() && squareMetres(intersection(neighbour, straight)) > 1e-4)
                ++slivers;
        }
        QVERIFY2(slivers > 400, qPrintable(QString::number(slivers)));
        qInfo("%d of 1000 straight legs would have overlapped; at most %.1e m2 are left", slivers, mostLeft);
    }
};

QTEST_GUILESS_MAIN(BoundaryPathTest)
#include "boundary_path_test.moc"
