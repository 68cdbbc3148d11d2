#include "desktop/canvas/snap.h"

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
                             const std::optional<model::FenceId>& except = {}) {
        m_snapper.setFences(m_outlines.outlined(m_set), m_outlines.places());
        return m_snapper.snap(pointer, Length::metres(8), m_set, references, except);
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
        const auto found = snap(metresFrom(50, 6));
        QVERIFY(found.has_value());
        QCOMPARE(found->reason, QString{"edge of School"});
        // On the straight line in longitude and latitude between the two corners.
        const model::Position a = metresFrom(0, 0), b = metresFrom(100, 0);
        const double share = (found->place.lon - a.lon) / (b.lon - a.lon);
        QCOMPARE_LE(std::abs(a.lat + share * (b.lat - a.lat) - found->place.lat), 1e-12);
        QCOMPARE_LE(std::abs(share - 0.5), 1e-3);
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
        const auto edge = snap(metresFrom(-3, 50), layers);
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
        QVERIFY(!snap(metresFrom(100, 0))); // its corners are of our making
        model::Home home;
        home.id = model::freshId<model::Home>();
        home.name = "Dam crest";
        home.place = metresFrom(500, 0);
        m_set.homes.append(home);
        QCOMPARE(snap(metresFrom(503, 0))->reason, QString{"Dam crest"});
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
                    fence.shape = model::Corridor{{line[0], line[1], line[2]}, {Length::metres(5), ""}};
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
                const auto found = snap(pointer);
                const QString where = QString("seed %1, round %2").arg(seed).arg(round);
                QVERIFY2(found.has_value() == (corner < 8.0 || edge < 8.0), qPrintable(where));
                if (!found)
                    continue;
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

    void acrossTheAntimeridian_fencesAreFoundOnEitherTurn() {
        m_set.fences.append(drawnFence("Reef", {{179.99, -17.0}, {180.01, -17.0}, {180.01, -16.98}}));
        const auto found = snap({-179.99, -17.0});
        QVERIFY(found.has_value());
        QCOMPARE(found->reason, QString{"corner of Reef"});
    }
};

QTEST_GUILESS_MAIN(SnapTest)
#include "snap_test.moc"
