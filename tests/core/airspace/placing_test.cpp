#include "airspace/placing.h"

#include "fault.h"
#include "geodesy/geodesic.h"
#include "support/random_geometry.h"

#include <QtTest>

#include <limits>

using namespace fencewright;
using airspace::Placing;
using model::Position;

namespace {

constexpr Position kMiddle{-8.733936, 46.208844};

model::Fence fenceOf(const std::string& name, model::Shape shape) {
    model::Fence fence;
    fence.id = model::freshId<model::Fence>();
    fence.name = name;
    fence.shape = std::move(shape);
    return fence;
}

Position at(double azimuth, double metres) {
    return geodesy::direct(kMiddle, Angle::degrees(azimuth), Length::metres(metres));
}

double metresBetween(const Position& a, const Position& b) { return geodesy::inverse(a, b).length.inMetres(); }

model::Polygon triangle(double metres) { return {{{at(0, metres), at(120, metres), at(240, metres)}, true}, {}}; }

/// One of each kind, around kMiddle.
struct Everything {
    model::FenceSet set;
    std::vector<model::Thing> things;

    template <class T> void add(model::Roster<T>& roster, T thing) {
        things.push_back(thing.id);
        roster.append(std::move(thing));
    }
    Everything() {
        auto polygon = triangle(500);
        polygon.holes.push_back(triangle(100).shell);
        add(set.fences, fenceOf("polygon", model::DrawnPolygon{polygon}));
        add(set.fences, fenceOf("circle", model::Circle{at(90, 300), {Length::feet(500), "500 ft"}}));
        add(set.fences, fenceOf("corridor", model::Corridor{{at(10, 200), at(80, 400)},
                                                            {Length::metres(20), "20 m"},
                                                            {Length::metres(30), "30 m"}}));
        const model::Parcel parcel{"12", {{triangle(50), triangle(60)}}};
        add(set.fences, fenceOf("parcels", model::ParcelUnion{{parcel}, {Length::metres(0.25), "0.25 m"}}));
        model::Site site;
        site.name = "nest";
        for (const model::SiteGeometry& geometry :
             {model::SiteGeometry{at(200, 100)}, model::SiteGeometry{model::LineString{at(1, 10), at(2, 20)}},
              model::SiteGeometry{triangle(30)}}) {
            site.id = model::freshId<model::Site>();
            site.geometry = geometry;
            site.positionError = {Length::metres(5), "5 m"};
            add(set.sites, site);
        }
        add(set.fences, fenceOf("setback", model::Setback{site.id, {Length::metres(100), "100 m"}}));
        model::Home home;
        home.id = model::freshId<model::Home>();
        home.name = "dam";
        home.place = at(300, 70);
        add(set.homes, home);
    }
    std::size_t fence(const std::string& name) const {
        std::size_t found = 0;
        while (set.fences[found].name != name)
            ++found;
        return found;
    }
};

template <class Shape> const Shape& shapeOf(const model::FenceSet& set, std::size_t fence) {
    return std::get<Shape>(set.fences[fence].shape);
}

} // namespace

class PlacingTest : public QObject {
    Q_OBJECT

private slots:
    void everyKind_isCarried() {
        const Everything all;
        Placing placing = airspace::movedAlong(kMiddle, Angle::degrees(30), Length::metres(1000));
        placing.turn = Angle::degrees(90);
        placing.scale = 2.0;
        const auto after = model::applied(all.set, airspace::placed(all.set, all.things, placing));
        const auto isAt = [&](const Position& place, double azimuth, double metres) {
            const Position wanted =
                geodesy::direct(placing.to, Angle::degrees(azimuth + 90), Length::metres(metres * 2));
            return metresBetween(place, wanted) < 0.01;
        };
        const auto& polygon = shapeOf<model::DrawnPolygon>(after, all.fence("polygon")).polygon;
        QVERIFY(isAt(polygon.shell.corners[1], 120, 500));
        QVERIFY(isAt(polygon.holes[0].corners[2], 240, 100));
        QVERIFY(polygon.shell.closureAssumed);
        const auto& circle = shapeOf<model::Circle>(after, all.fence("circle"));
        QVERIFY(isAt(circle.centre, 90, 300));
        QCOMPARE(circle.radius, (StatedLength{Length::feet(500) * 2.0, ""}));
        const auto& corridor = shapeOf<model::Corridor>(after, all.fence("corridor"));
        QVERIFY(isAt(corridor.line[1], 80, 400));
        QCOMPARE(corridor.left, (StatedLength{Length::metres(40), ""}));
        QCOMPARE(corridor.right, (StatedLength{Length::metres(60), ""}));
        const auto& parcels = shapeOf<model::ParcelUnion>(after, all.fence("parcels"));
        QVERIFY(isAt(parcels.parcels[0].surface.parts[1].shell.corners[0], 0, 60));
        QCOMPARE(parcels.closing, (StatedLength{Length::metres(0.5), ""}));
        QCOMPARE(parcels.parcels[0].number, std::string{"12"});
        QVERIFY(isAt(std::get<Position>(after.sites[0].geometry), 200, 100));
        QVERIFY(isAt(std::get<model::LineString>(after.sites[1].geometry)[1], 2, 20));
        QVERIFY(isAt(std::get<model::Polygon>(after.sites[2].geometry).shell.corners[2], 240, 30));
        QCOMPARE(after.sites[0].positionError, all.set.sites[0].positionError);
        QVERIFY(isAt(after.homes[0].place, 300, 70));
        QCOMPARE(after.homes[0].landingRadius, all.set.homes[0].landingRadius);
        // It follows its site, and its distance has its own reasons.
        QCOMPARE(after.fences[all.fence("setback")], all.set.fences[all.fence("setback")]);
    }

    void aMove_changesNoLength() {
        const Everything all;
        const auto placing = airspace::movedAlong(kMiddle, Angle::degrees(30), Length::kilometres(30));
        const auto after = model::applied(all.set, airspace::placed(all.set, all.things, placing));
        QCOMPARE(shapeOf<model::Circle>(after, all.fence("circle")).radius,
                 shapeOf<model::Circle>(all.set, all.fence("circle")).radius);
        QCOMPARE(shapeOf<model::Corridor>(after, all.fence("corridor")).left.asWritten, std::string{"20 m"});
    }

    void nothingToDo_changesNoBit() {
        for (int seed = 1; seed <= 200; ++seed) {
            tests::RandomGeometry random{static_cast<unsigned>(seed)};
            model::FenceSet set;
            set.fences.append(fenceOf("any", model::DrawnPolygon{random.scribble()}));
            const model::Thing things[] = {set.fences[0].id};
            const auto edit = airspace::placed(set, things, airspace::turnedBy(random.place(), Angle{}));
            QCOMPARE(model::applied(set, edit), set);
        }
    }

    void thePivot_comesWhereItIsPut_toTheLastBit() {
        const Everything all;
        const Position pivot = shapeOf<model::DrawnPolygon>(all.set, 0).polygon.shell.corners[1];
        for (const Position to : {Position{-8.7, 46.3}, Position{1.0 / 3.0, -46.2}}) {
            const auto after =
                model::applied(all.set, airspace::placed(all.set, all.things, {pivot, to, Angle::degrees(7), 1.5}));
            QCOMPARE(shapeOf<model::DrawnPolygon>(after, 0).polygon.shell.corners[1], to);
        }
    }

    void movesThereAndBack_doNotAddUp_data() {
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("lat");
        QTest::newRow("middle") << -8.73 << 46.2;
        QTest::newRow("80 degrees") << 25.0 << 80.0;
        QTest::newRow("antimeridian") << 179.99999 << -17.0;
    }
    void movesThereAndBack_doNotAddUp() {
        QFETCH(double, lon);
        QFETCH(double, lat);
        const Position middle{lon, lat};
        model::LineString corners;
        for (const double azimuth : {0.0, 100.0, 200.0, 300.0})
            corners.push_back(geodesy::direct(middle, Angle::degrees(azimuth), Length::metres(2000)));
        model::FenceSet set;
        set.fences.append(fenceOf("square", model::DrawnPolygon{{{corners}, {}}}));
        const model::Thing things[] = {set.fences[0].id};
        const auto original = set;
        for (int round = 0; round < 1000; ++round) {
            // Each from where the last has left it, with a pivot found anew: the worst that nudging by keys can do.
            const double step = round % 2 ? 10 : 0.3048;
            for (const double sign : {1.0, -1.0})
                set = model::applied(set, airspace::placed(set, things,
                                                           airspace::movedBy(*airspace::pivotOf(set, things),
                                                                             Length::metres(sign * step),
                                                                             Length::metres(sign * 2 * step))));
        }
        double worst = 0;
        for (std::size_t i = 0; i < corners.size(); ++i)
            worst = std::max(worst,
                             metresBetween(shapeOf<model::DrawnPolygon>(set, 0).polygon.shell.corners[i], corners[i]));
        QVERIFY2(worst < 1e-6, qPrintable(QString::number(worst)));
        qInfo("after 2000 moves: %.2g m off", worst);
    }

    void overTheAntimeridian_aShapeStaysInOnePiece() {
        model::FenceSet set;
        set.fences.append(
            fenceOf("atoll", model::DrawnPolygon{{{{{179.98, -17.0}, {179.99, -17.0}, {179.99, -16.99}}}, {}}}));
        const model::Thing things[] = {set.fences[0].id};
        const auto edit = airspace::placed(
            set, things, airspace::movedAlong({179.985, -16.995}, Angle::degrees(90), Length::metres(1600)));
        const auto& corners = shapeOf<model::DrawnPolygon>(model::applied(set, edit), 0).polygon.shell.corners;
        QVERIFY(corners[0].lon > 179.99 && corners[0].lon < 180.0);
        QVERIFY(corners[1].lon > 180.0 && corners[1].lon < 180.01);
        const auto far = airspace::placed(
            set, things, airspace::movedAlong({179.985, -16.995}, Angle::degrees(90), Length::kilometres(30)));
        for (const Position& corner : shapeOf<model::DrawnPolygon>(model::applied(set, far), 0).polygon.shell.corners)
            QVERIFY(corner.lon > -179.8 && corner.lon < -179.7);
    }

    void aSetback_isRefusedWithoutItsSite() {
        const Everything all;
        const auto& setback = all.set.fences[all.fence("setback")];
        const auto placing = airspace::movedAlong(kMiddle, {}, Length::metres(5));
        const model::Thing alone[] = {setback.id};
        try {
            (void)airspace::placed(all.set, alone, placing);
            QFAIL("it was moved");
        } catch (const Fault& fault) {
            QCOMPARE(fault.problem(),
                     std::string{"setback follows its site, and cannot be moved, turned or scaled alone."});
            QVERIFY(!fault.remedy().empty());
        }
        const model::Thing both[] = {setback.id, shapeOf<model::Setback>(all.set, all.fence("setback")).site};
        QCOMPARE(airspace::placed(all.set, both, placing).changes.size(), std::size_t{1});
    }

    void whatCannotBe_isRefused() {
        const Everything all;
        const auto refuses = [&](const Placing& placing, std::span<const model::Thing> things) {
            try {
                (void)airspace::placed(all.set, things, placing);
                return false;
            } catch (const Fault& fault) {
                return !fault.problem().empty() && !fault.remedy().empty();
            }
        };
        const auto nan = std::numeric_limits<double>::quiet_NaN();
        for (const double scale : {0.0, -1.0, nan, std::numeric_limits<double>::infinity(), 1e9})
            QVERIFY(refuses(airspace::scaledBy(kMiddle, scale), all.things));
        QVERIFY(refuses(airspace::turnedBy(kMiddle, Angle::degrees(nan)), all.things));
        QVERIFY(refuses(airspace::turnedBy(kMiddle, Angle::degrees(1)), {}));
        const model::Thing gone[] = {model::FenceId{"gone"}};
        QVERIFY(refuses(airspace::turnedBy(kMiddle, Angle::degrees(1)), gone));
        QVERIFY(refuses({kMiddle, {0, 88.999}, {}, 1.0}, all.things));
        QVERIFY(refuses({{60, 46}, {61, 46}, {}, 1.0}, all.things));
        QVERIFY_THROWS_EXCEPTION(Fault, (void)airspace::movedBy({0, 89}, {}, Length::kilometres(200)));
    }

    void titles_sayWhatIsDone() {
        const Everything all;
        const model::Thing one[] = {all.set.fences[0].id};
        const auto title = [&](const Placing& placing, std::span<const model::Thing> things) {
            return airspace::placed(all.set, things, placing).title.english();
        };
        QCOMPARE(title(airspace::movedBy(kMiddle, Length::metres(1), {}), one), std::string{"Move polygon"});
        QCOMPARE(title(airspace::turnedBy(kMiddle, Angle::degrees(9)), one), std::string{"Turn polygon"});
        QCOMPARE(title(airspace::scaledBy(kMiddle, 2), all.things), std::string{"Scale 9 things"});
    }

    void pivotOf_isTheMiddleOfTheBox() {
        model::FenceSet set;
        set.fences.append(fenceOf("a", model::DrawnPolygon{{{{{10, 50}, {11, 50}, {10, 52}}}, {}}}));
        set.fences.append(fenceOf("over the antimeridian", model::Corridor{{{179, 0}, {180.5, 1}}, {}, {}}));
        set.fences.append(fenceOf("beyond it", model::Corridor{{{-179.75, 0}, {-179.5, 1}}, {}, {}}));
        set.fences.append(fenceOf("circle", model::Circle{{10, 50}, {Length::metres(100), {}}}));
        set.fences.append(fenceOf("orphan", model::Setback{{"gone"}, {}}));
        const auto pivot = [&](std::vector<std::size_t> indices) {
            std::vector<model::Thing> things;
            for (const std::size_t index : indices)
                things.push_back(set.fences[index].id);
            return airspace::pivotOf(set, things);
        };
        QCOMPARE(*pivot({0}), (Position{10.5, 51}));
        QCOMPARE(*pivot({1, 2}), (Position{179.75, 0.5}));
        QVERIFY(metresBetween(*pivot({3}), {10, 50}) < 0.01);
        QVERIFY(!pivot({4}));
        QVERIFY(!pivot({}));
    }

    void nearestPlaceOf_isACornerOrMiddle() {
        const Everything all;
        const auto& polygon = shapeOf<model::DrawnPolygon>(all.set, 0).polygon;
        const auto nearest = [&](std::size_t thing, double azimuth, double metres) {
            Position place = at(azimuth, metres);
            place.lon += 360.0; // on another turn
            return *airspace::nearestPlaceOf(all.set, all.things[thing], place);
        };
        QCOMPARE(nearest(0, 121, 480), polygon.shell.corners[1]);
        QCOMPARE(nearest(0, 121, 120), polygon.holes[0].corners[1]);
        QCOMPARE(nearest(1, 0, 0), shapeOf<model::Circle>(all.set, 1).centre);
        QVERIFY(!airspace::nearestPlaceOf(all.set, all.set.fences[all.fence("setback")].id, kMiddle));
    }
};

QTEST_APPLESS_MAIN(PlacingTest)
#include "placing_test.moc"
