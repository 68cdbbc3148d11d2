#include "desktop/canvas/snap.h"

#include "airspace/outline.h"
#include "app/desktop/tools/tool_driver.h"
#include "desktop/canvas/identify.h"
#include "desktop/canvas/near_plane.h"
#include "session/drawn_lines.h"
#include "support/kept_layer.h"

#include <QtTest>

#include <numbers>
#include <random>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

ReferenceSource parcelLayer(const std::vector<model::Polygon>& parcels) {
    exchange::VectorContent content;
    content.fields = {"NUMBER"};
    for (std::size_t i = 0; i < parcels.size(); ++i) {
        exchange::Feature feature;
        feature.attributes = {std::to_string(17 + i)};
        feature.parts = {parcels[i]};
        content.features.push_back(feature);
        content.extent.add(geometry::boxOf(parcels[i]));
    }
    return {"layer", "Land record", support::keptLayer(content), std::nullopt, 0, 1.0};
}

model::Polygon square(double east, double north, double side) {
    return {{{metresFrom(east, north), metresFrom(east + side, north), metresFrom(east + side, north + side),
              metresFrom(east, north + side)}},
            {}};
}

} // namespace

class SnapTest : public QObject {
    Q_OBJECT

    model::FenceSet m_set;
    session::OutlineCache m_outlines;
    Snapper m_snapper;

    std::optional<Snap> snap(model::Position pointer, const std::vector<ReferenceSource>& references = {},
                             const Selection& except = {}, const SnapBy& by = {}) {
        m_snapper.setFences(m_outlines.outlined(m_set), m_outlines.places());
        return m_snapper.snap(pointer, Length::metres(8), m_set, references, except, by);
    }
    static SnapBy drawn(std::vector<model::Position> last, const QStringList& off = {}) {
        return {SnapKinds::without(off), {std::move(last), {}}};
    }

private slots:
    void init() { m_set = {}; }

    void corner_winsOverANearerEdge_andIsTheVerySameNumber() {
        m_set.fences.append(drawnFence("School", square(0, 0, 100).shell.corners));
        const auto found = snap(metresFrom(5, 0.5)); // half a metre off the edge, five off the corner
        QVERIFY(found.has_value());
        QVERIFY(found->place == metresFrom(0, 0));
        QCOMPARE(found->reason, QString{"corner of School"});
    }

    void edge_drawsToItsNearestPlace() {
        m_set.fences.append(drawnFence("School", square(0, 0, 100).shell.corners));
        const auto found = snap(metresFrom(30, 6));
        QVERIFY(found.has_value());
        QCOMPARE(found->reason, QString{"edge of School"});
        // On the straight line in longitude and latitude between the two corners.
        const model::Position a = metresFrom(0, 0), b = metresFrom(100, 0);
        const double share = (found->place.lon - a.lon) / (b.lon - a.lon);
        QCOMPARE_LE(std::abs(a.lat + share * (b.lat - a.lat) - found->place.lat), 1e-12);
        QCOMPARE_LE(std::abs(share - 0.3), 1e-3);
    }

    void beyondTheTolerance_nothing() {
        m_set.fences.append(drawnFence("School", square(0, 0, 100).shell.corners));
        QVERIFY(!snap(metresFrom(50, 9)));
        QVERIFY(!snap(metresFrom(-9, -9)));
    }

    void exceptedFence_isLeftOut() {
        const auto school = drawnFence("School", square(0, 0, 100).shell.corners);
        m_set.fences.append(school);
        QVERIFY(!snap(metresFrom(1, 1), {}, school.id));
    }

    void parcels_giveTheirNumber() {
        const std::vector layers{parcelLayer({square(0, 0, 100), square(100, 0, 100)})};
        const auto corner = snap(metresFrom(202, 1), layers);
        QVERIFY(corner.has_value());
        QVERIFY(corner->place == metresFrom(200, 0));
        QCOMPARE(corner->reason, QString{"corner of Parcel 18"});
        const auto edge = snap(metresFrom(-3, 30), layers);
        QCOMPARE(edge->reason, QString{"edge of Parcel 17"});
    }

    void parcelsAt_findsTheUppermost_andHonoursHoles() {
        model::Polygon withHole = square(0, 0, 300);
        withHole.holes.push_back(square(100, 100, 100).shell);
        const std::vector layers{parcelLayer({withHole, square(20, 20, 30)})};
        QVERIFY(parcelsAt(layers, metresFrom(150, 150)).empty());
        const auto both = parcelsAt(layers, metresFrom(30, 30));
        QCOMPARE(both.size(), std::size_t{2});
        QCOMPARE(QString::fromStdString(both[0].parcel.number), QString{"18"});
        QCOMPARE(parcelsAt(layers, metresFrom(250, 250)).size(), std::size_t{1});
        // A turn further on, as a view across the antimeridian has it.
        model::Position turned = metresFrom(250, 250);
        turned.lon += 360.0;
        QCOMPARE(parcelsAt(layers, turned).size(), std::size_t{1});
    }

    void layerThatIsStillRead_isNotPickedFrom() {
        // Its parcels have no numbers yet: a fence made of them would lose the land record's.
        std::vector layers{parcelLayer({square(0, 0, 300)})};
        QVERIFY(!parcelsAt(layers, metresFrom(250, 250)).empty());
        QVERIFY(!featuresAt(layers, metresFrom(250, 250), Length::metres(1)).empty());
        for (ReferenceSource& layer : layers)
            layer.isWhole = false;
        QVERIFY(parcelsAt(layers, metresFrom(250, 250)).empty());
        QVERIFY(featuresAt(layers, metresFrom(250, 250), Length::metres(1)).empty());
    }

    void circlesSitesAndHomes_drawToTheirMiddle() {
        auto circle = drawnFence("Store", {});
        circle.shape = model::Circle{metresFrom(0, 0), {Length::metres(100), ""}};
        m_set.fences.append(circle);
        QCOMPARE(snap(metresFrom(3, 3))->reason, QString{"centre of Store"});
        model::Home home;
        home.id = model::freshId<model::Home>();
        home.name = "Dam crest";
        home.place = metresFrom(500, 0);
        m_set.homes.append(home);
        QCOMPARE(snap(metresFrom(503, 0))->reason, QString{"Dam crest"});
    }

    void outlines_comeAfterWhatIsDrawn_theirCornersFirst() {
        auto circle = drawnFence("Store", {});
        circle.shape = model::Circle{metresFrom(0, 0), {Length::metres(100), ""}};
        m_set.fences.append(circle);
        const model::LineString ring = airspace::outline(circle, {}).parts.front().shell.corners;
        const auto aside = [](const model::Position& place, double metres) {
            return geodesy::direct(place, geodesy::inverse(metresFrom(0, 0), place).azimuthAtStart,
                                   Length::metres(metres));
        };
        const auto corner = snap(aside(ring[5], 3.0));
        QVERIFY(corner);
        QCOMPARE(corner->reason, QString{"corner of Store (outline)"});
        QVERIFY(corner->place == ring[5]); // to the last bit: there a neighbour leaves no gap
        const SnapBy edges{SnapKinds::without({"corner"}), {}};
        QCOMPARE(snap(aside(ring[5], 3.0), {}, {}, edges)->reason, QString{"edge of Store (outline)"});
        // An edge that somebody has drawn goes before, though it is farther off.
        const model::Position near = aside(ring[5], 5.0);
        const Angle outward = geodesy::inverse(metresFrom(0, 0), near).azimuthAtStart;
        m_set.fences.append(
            drawnFence("School", {geodesy::direct(near, outward + Angle::degrees(90), Length::metres(40)),
                                  geodesy::direct(near, outward - Angle::degrees(90), Length::metres(80)),
                                  geodesy::direct(near, outward, Length::metres(300))}));
        QCOMPARE(snap(aside(ring[5], 1.0))->reason, QString{"edge of School"});
    }

    void randomSets_snapAsLookingAtEveryCornerAndEdge() {
        int corners = 0, edges = 0;
        for (unsigned seed = 1; seed <= 50; ++seed) {
            std::mt19937 random{seed};
            std::uniform_real_distribution<double> off{-300.0, 300.0};
            const NearPlane plane{metresFrom(0, 0)};
            m_set = {};
            for (int i = 0; i < 25; ++i) {
                model::LineString line;
                const QPointF centre{off(random), off(random)};
                const int count = i % 5 == 0 ? 400 : 3 + int(random() % 9);
                for (int c = 0; c < count; ++c) {
                    const double angle = 2.0 * std::numbers::pi * c / count;
                    const double r = 40.0 + double(random() % 1000) / 100.0;
                    line.push_back(plane.toEarth(centre + QPointF{r * std::cos(angle), r * std::sin(angle)}));
                }
                model::Fence fence = drawnFence("one", line);
                if (i % 5 == 1)
                    fence.shape =
                        model::Corridor{{line[0], line[1], line[2]}, {Length::metres(5), ""}, {Length::metres(5), ""}};
                if (i % 5 == 2)
                    fence.shape = model::ParcelUnion{{{"1", {{{{line}, {}}}}}}, {}};
                m_set.fences.append(fence);
            }
            for (int round = 0; round < 24; ++round) {
                const model::Position pointer = plane.toEarth({off(random), off(random)});
                const NearPlane near{pointer};
                double corner = 8.0, edge = 8.0;
                model::Position nearest;
                for (const model::Fence& fence : m_set.fences)
                    session::forEachDrawnLine(fence.shape, [&](const model::LineString& line, bool closed) {
                        for (std::size_t i = 0; i < line.size(); ++i) {
                            const QPointF at = near.toPlane(line[i]);
                            if (const double d = distanceBetween(at, {}); d < corner) {
                                corner = d;
                                nearest = line[i];
                            }
                            if (i + 1 < line.size() || closed)
                                edge = std::min(
                                    edge, distanceBetween(
                                              nearestOnSegment({}, at, near.toPlane(line[(i + 1) % line.size()])), {}));
                        }
                    });
                const auto found = snap(pointer, {}, {}, drawn({}, {"crossing", "midpoint"}));
                const QString where = QString("seed %1, round %2").arg(seed).arg(round);
                if (corner >= 8.0 && edge >= 8.0) { // nothing drawn is near: an outline, at most
                    QVERIFY2(!found || found->reason.contains("(outline)"), qPrintable(where));
                    continue;
                }
                QVERIFY2(found, qPrintable(where));
                if (corner < 8.0) {
                    ++corners;
                    QVERIFY2(found->place == nearest, qPrintable(where));
                } else {
                    ++edges;
                    QVERIFY2(std::abs(distanceBetween(near.toPlane(found->place), {}) - edge) < 1e-6,
                             qPrintable(where));
                }
                model::Fence moved = m_set.fences[random() % m_set.fences.size()];
                if (auto* drawn = std::get_if<model::DrawnPolygon>(&moved.shape))
                    drawn->polygon.shell.corners.front().lat += 1e-4;
                m_set = model::applied(m_set, model::replaceFence(m_set, moved, "Move"));
            }
        }
        QVERIFY2(corners > 100 && edges > 50, qPrintable(QString("%1 corners, %2 edges").arg(corners).arg(edges)));
    }

    void midpoint_isHalfway_toTheLastBit() {
        m_set.fences.append(drawnFence("Utility land", square(0, 0, 100).shell.corners));
        const auto found = snap(metresFrom(48, 5));
        QVERIFY(found.has_value());
        QCOMPARE(found->reason, QString{"midpoint of Utility land"});
        QVERIFY(found->kind == SnapKind::Midpoint);
        const model::Position a = metresFrom(0, 0), b = metresFrom(100, 0);
        QVERIFY((found->place == model::Position{(a.lon + b.lon) / 2.0, (a.lat + b.lat) / 2.0}));
        // Switched off, the edge is left.
        QCOMPARE(snap(metresFrom(48, 5), {}, {}, drawn({}, {"midpoint"}))->reason, QString{"edge of Utility land"});
    }

    void crossing_ofAFenceAndAParcel_liesOnBoth() {
        m_set.fences.append(drawnFence("School", square(0, 0, 100).shell.corners));
        const std::vector layers{parcelLayer({square(30, -20, 200)})};
        const auto found = snap(metresFrom(33, 3), layers);
        QVERIFY(found.has_value());
        QCOMPARE(found->reason, QString{"crossing of School and Parcel 17"});
        QVERIFY(found->kind == SnapKind::Crossing);
        // Exact planar arithmetic in longitude and latitude: on both straight edges, in long doubles.
        const auto off = [&](model::Position a, model::Position b) {
            const long double x = b.lon - static_cast<long double>(a.lon), y = b.lat - static_cast<long double>(a.lat);
            return std::abs((x * (found->place.lat - static_cast<long double>(a.lat)) -
                             y * (found->place.lon - static_cast<long double>(a.lon))) /
                            std::hypot(x, y));
        };
        QCOMPARE_LE(double(off(metresFrom(0, 0), metresFrom(100, 0))), 1e-14);
        QCOMPARE_LE(double(off(metresFrom(30, -20), metresFrom(30, 180))), 1e-14);
        // A corner within reach goes before it, however near the crossing is; without reference layers it is an edge.
        QCOMPARE(snap(metresFrom(33, 3), layers, {}, drawn({}, {"reference"}))->reason, QString{"edge of School"});
        m_set.fences.append(drawnFence("Post", {metresFrom(36, 3), metresFrom(60, 40), metresFrom(80, 60)}));
        QCOMPARE(snap(metresFrom(31, 1), layers)->reason, QString{"corner of Post"});
    }

    void directions_areSquareToAndInLineWithTheLastLeg() {
        const SnapBy by = drawn({metresFrom(0, 0), metresFrom(300, 100)});
        const model::Position from = metresFrom(300, 100);
        const double last = geodesy::inverse(from, metresFrom(0, 0)).azimuthAtStart.inDegrees() + 180.0;
        const auto turn = [&](const Snap& snap) {
            return std::remainder(geodesy::inverse(from, snap.place).azimuthAtStart.inDegrees() - last, 360.0);
        };
        const auto square = snap(metresFrom(203, 400), {}, {}, by);
        QVERIFY(square.has_value());
        QCOMPARE(square->reason, QString{"square to the last leg"});
        QVERIFY(square->kind == SnapKind::Square);
        QVERIFY(!square->guides.empty());
        QCOMPARE_LE(std::abs(turn(*square) + 90.0), 1e-9);
        const auto onward = snap(metresFrom(601, 205), {}, {}, by);
        QVERIFY(onward.has_value());
        QCOMPARE(onward->reason, QString{"in line with the last leg"});
        QCOMPARE_LE(std::abs(turn(*onward)), 1e-9);
        // Back over the last leg is no extension; and what is switched off is not there.
        QVERIFY(!snap(metresFrom(150, 52), {}, {}, by));
        QVERIFY(!snap(metresFrom(203, 400), {}, {}, drawn(by.line.last, {"square"})));
    }

    void rightAngle_ontoAnEdge_goesBeforeTheEdge() {
        m_set.fences.append(drawnFence("School", {metresFrom(0, 0), metresFrom(400, 60), metresFrom(0, -300)}));
        const model::Position from = metresFrom(150, 200);
        const auto found = snap(metresFrom(178, 22), {}, {}, drawn({from}));
        QVERIFY(found.has_value());
        QCOMPARE(found->reason, QString{"square onto edge of School"});
        const model::Position a = metresFrom(0, 0), b = metresFrom(400, 60);
        // Against the plane: within some hundred metres the two differ by less than a millimetre.
        const NearPlane plane{found->place};
        const QPointF edge = plane.toPlane(b) - plane.toPlane(a), way = plane.toPlane(from);
        QCOMPARE_LE(std::abs(QPointF::dotProduct(edge, way)) / std::hypot(edge.x(), edge.y()), 1e-3);
        // Farther along, it is the edge.
        QCOMPARE(snap(metresFrom(250, 38), {}, {}, drawn({from}))->reason, QString{"edge of School"});
    }

    void standingOnAnEdge_offersItsRightAngle() {
        m_set.fences.append(drawnFence("School", square(0, 0, 400).shell.corners));
        const auto onEdge = snap(metresFrom(100, 2));
        QVERIFY(onEdge.has_value());
        const auto found = snap(metresFrom(103, -200), {}, {}, drawn({onEdge->place}));
        QVERIFY(found.has_value());
        QCOMPARE(found->reason, QString{"square to edge of School"});
        const double edge = geodesy::inverse(onEdge->place, metresFrom(400, 0)).azimuthAtStart.inDegrees();
        const double way = geodesy::inverse(onEdge->place, found->place).azimuthAtStart.inDegrees();
        QCOMPARE_LE(std::abs(std::remainder(way - edge - 90.0, 360.0)), 1e-2);
    }

    void parallel_toAnEdgeNearby() {
        const std::vector layers{parcelLayer({square(0, 0, 300)})};
        const model::Position from = metresFrom(20, -40);
        const auto found = snap(metresFrom(200, -37), layers, {}, drawn({from}));
        QVERIFY(found.has_value());
        QCOMPARE(found->reason, QString{"parallel to edge of Parcel 17"});
        QVERIFY(found->kind == SnapKind::Parallel);
        // In the plane of a map: the same rise over the same run as the edge.
        const NearPlane plane{from};
        const QPointF edge = plane.toPlane(metresFrom(300, 0)) - plane.toPlane(metresFrom(0, 0));
        const QPointF way = plane.toPlane(found->place);
        QCOMPARE_LE(std::abs(way.y() / way.x() - edge.y() / edge.x()), 1e-4);
        QVERIFY(!snap(metresFrom(200, -37), layers, {}, drawn({from}, {"parallel"})));
    }

    void heldDirection_meetsEdges_andNothingElse() {
        m_set.fences.append(drawnFence("School", square(0, 0, 100).shell.corners));
        SnapBy by = drawn({metresFrom(-100, 50)});
        by.line.held = Angle::degrees(90.0);
        const auto found = snap(metresFrom(-3, 56), {}, {}, by);
        QVERIFY(found.has_value());
        QCOMPARE(found->reason, QString{"edge of School"});
        QCOMPARE_LE(std::abs(geodesy::inverse(metresFrom(-100, 50), found->place).azimuthAtStart.inDegrees() - 90.0),
                    1e-7);
        QVERIFY(!snap(metresFrom(-300, 50), {}, {}, by)); // behind
        QVERIFY(!snap(metresFrom(-50, 50), {}, {}, by));
    }

    void tenThousandFences_areSnappedToWithinAFrame() {
        for (int i = 0; i < 10'000; ++i)
            m_set.fences.append(
                drawnFence("one", square(double(i % 100) * 60.0, double(i / 100) * 60.0, 50).shell.corners));
        (void)snap(metresFrom(0, 0)); // the outlines are computed
        QElapsedTimer timer;
        timer.start();
        constexpr int times = 200;
        const SnapBy by = drawn({metresFrom(-10, -10), metresFrom(3000, 3005)});
        for (int i = 0; i < times; ++i)
            (void)snap(metresFrom(3000.0 + i * 7.0, 2000.0 + i * 5.0), {}, {}, by);
        // A frame of 60 in a second has 16 ms; even under the sanitizers a tenth of a second is not reached.
        QCOMPARE_LE(double(timer.elapsed()) / times, 100.0);
        qInfo("%.3f ms for a snap among 10,000 fences", double(timer.nsecsElapsed()) / 1e6 / times);
    }

    void acrossTheAntimeridian_fencesAreFoundOnEitherTurn() {
        m_set.fences.append(drawnFence("Reef", {{179.99, -17.0}, {180.01, -17.0}, {180.01, -16.98}}));
        const auto found = snap({-179.99, -17.0});
        QVERIFY(found.has_value());
        QCOMPARE(found->reason, QString{"corner of Reef"});
    }
};

QTEST_GUILESS_MAIN(SnapTest)
#include "snap_test.moc"
