#include "airspace/outline.h"

#include "fault.h"
#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/offset.h"
#include "geometry/validity.h"
#include "support/random_geometry.h"

#include <QtTest>

#include <limits>

using namespace fencewright;
using model::FenceKind;
using model::MultiPolygon;

namespace {

model::Fence fenceOf(FenceKind kind, model::Shape shape) {
    model::Fence fence;
    fence.id = {"fence"};
    fence.name = "North bank";
    fence.kind = kind;
    fence.shape = std::move(shape);
    return fence;
}

MultiPolygon outlineOf(FenceKind kind, model::Shape shape, const model::Roster<model::Site>& sites = {}) {
    return airspace::outline(fenceOf(kind, std::move(shape)), sites);
}

model::Polygon square(double lon, double lat, double size) {
    return {{{{lon, lat}, {lon + size, lat}, {lon + size, lat + size}, {lon, lat + size}}, false}, {}};
}

model::Roster<model::Site> siteOf(model::SiteGeometry geometry, double errorMetres) {
    model::Site site;
    site.id = {"site"};
    site.geometry = std::move(geometry);
    site.positionError = {Length::metres(errorMetres), ""};
    model::Roster<model::Site> sites;
    sites.append(site);
    return sites;
}

model::Setback setback(double metres) { return {{"site"}, {Length::metres(metres), ""}}; }

constexpr auto kKinds = {FenceKind::KeepIn, FenceKind::KeepOut};

} // namespace

class OutlineTest : public QObject {
    Q_OBJECT

private slots:
    void drawnPolygon_isTakenAsItIs() {
        auto polygon = square(10, 50, 0.01);
        polygon.holes.push_back(square(10.002, 50.002, 0.001).shell);
        for (const auto kind : kKinds)
            QCOMPARE(outlineOf(kind, model::DrawnPolygon{polygon}), MultiPolygon{{polygon}});
    }

    void drawnPolygon_isRepairedToTheSafeSide() {
        // A bow tie: two triangles, one wound each way.
        const model::Polygon bowTie{{{{0, 0}, {0.01, 0.01}, {0.01, 0}, {0, 0.01}}, false}, {}};
        const auto out = outlineOf(FenceKind::KeepOut, model::DrawnPolygon{bowTie});
        const auto in = outlineOf(FenceKind::KeepIn, model::DrawnPolygon{bowTie});
        for (const double lon : {0.001, 0.009})
            QVERIFY(geometry::contains(out, model::Position{lon, 0.005}));
        QVERIFY(geometry::contains(out, in));
    }

    void drawnPolygon_neverErrs_onScribbles() {
        for (int seed = 1; seed <= 1000; ++seed) {
            tests::RandomGeometry random{static_cast<unsigned>(seed + 600'000)};
            const model::DrawnPolygon shape{random.scribble()};
            const auto out = outlineOf(FenceKind::KeepOut, shape), in = outlineOf(FenceKind::KeepIn, shape);
            QVERIFY2(geometry::contains(out, in), qPrintable(QString("seed %1").arg(seed)));
            for (const auto& surface : {out, in})
                for (const auto& part : surface.parts)
                    QVERIFY2(geometry::isValid(part), qPrintable(QString("seed %1").arg(seed)));
        }
    }

    void circle_isAroundItsCentre() {
        const model::Circle circle{{10, 50}, {Length::metres(500), "500 m"}};
        const auto out = outlineOf(FenceKind::KeepOut, circle), in = outlineOf(FenceKind::KeepIn, circle);
        for (double azimuth = 0.0; azimuth < 360.0; azimuth += 7.0) {
            const auto edge = geodesy::direct(circle.centre, Angle::degrees(azimuth), Length::metres(500));
            QVERIFY(geometry::contains(out, edge));
            QVERIFY(!geometry::contains(in, edge));
        }
        QVERIFY(geometry::contains(out, in));
    }

    void setback_followsItsSite() {
        auto sites = siteOf(model::Position{10, 50}, 3.0);
        const auto before = outlineOf(FenceKind::KeepOut, setback(400), sites);
        QVERIFY(geometry::contains(before, geodesy::direct({10, 50}, Angle::degrees(33), Length::metres(403))));
        QVERIFY(!geometry::contains(before, geodesy::direct({10, 50}, Angle::degrees(33), Length::metres(403.5))));
        sites = siteOf(model::Position{11, 50}, 3.0);
        QVERIFY(!geometry::touches(before, outlineOf(FenceKind::KeepOut, setback(400), sites)));
    }

    void setback_ofAreaSite_containsTheArea() {
        const auto area = square(10, 50, 0.01);
        const auto sites = siteOf(area, 5.0);
        QVERIFY(geometry::contains(outlineOf(FenceKind::KeepOut, setback(100), sites), MultiPolygon{{area}}));
        QVERIFY(geometry::contains(outlineOf(FenceKind::KeepIn, setback(100), sites), MultiPolygon{{area}}));
        // With an error of 20 m, the true area holds only what lies 20 m inside the stated one for certain.
        const auto close = outlineOf(FenceKind::KeepIn, setback(5), siteOf(area, 20.0));
        QVERIFY(!close.empty());
        QVERIFY(geometry::contains(geometry::eroded({{area}}, Length::metres(15), geometry::Side::Shrink), close));
    }

    void corridor_containsItsLine() {
        const model::Corridor corridor{
            {{10, 50}, {10.01, 50.001}, {10.005, 50.01}}, {Length::metres(30), ""}, {Length::metres(20), ""}};
        for (const auto kind : kKinds)
            for (const auto& place : corridor.line)
                QVERIFY(geometry::contains(outlineOf(kind, corridor), place));
    }

    void withoutExtent_isEmpty() {
        const auto sites = siteOf(model::Position{10, 50}, 10.0);
        for (const auto kind : kKinds) {
            QVERIFY(outlineOf(kind, model::Circle{{10, 50}, {}}).empty());
            QVERIFY(outlineOf(kind, model::Corridor{{{10, 50}, {10, 51}}, {}, {}}).empty());
            QVERIFY(outlineOf(kind, model::Corridor{{}, {Length::metres(5), ""}, {Length::metres(5), ""}}).empty());
            QVERIFY(outlineOf(kind, setback(50)).empty()); // its site is gone
            QVERIFY(outlineOf(kind, model::ParcelUnion{}).empty());
            QVERIFY(outlineOf(kind, model::DrawnPolygon{}).empty());
        }
        QVERIFY(outlineOf(FenceKind::KeepIn, setback(10), sites).empty()); // nearer than the error
        QVERIFY(outlineOf(FenceKind::KeepIn, setback(5), sites).empty());
    }

    void parcelUnion_unitesParcels_andClosesGaps() {
        // Two parcels 1 m apart (1.4e-5 degrees of longitude at 50 N).
        model::ParcelUnion shape;
        shape.parcels = {{"7", {{square(10, 50, 0.01)}}}, {"8", {{square(10.010014, 50, 0.01)}}}};
        QCOMPARE(outlineOf(FenceKind::KeepIn, shape).parts.size(), std::size_t{2});
        QVERIFY(airspace::closedGaps(fenceOf(FenceKind::KeepIn, shape)).empty());
        shape.closing = {Length::metres(2), "2 m"};
        QCOMPARE(outlineOf(FenceKind::KeepIn, shape).parts.size(), std::size_t{1});
        QVERIFY(!airspace::closedGaps(fenceOf(FenceKind::KeepIn, shape)).empty());
        QVERIFY(airspace::closedGaps(fenceOf(FenceKind::KeepIn, model::Circle{})).empty());
    }

    void faults_nameTheFence() {
        constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
        const std::vector<model::Shape> shapes{model::DrawnPolygon{{{{{kNan, 0}, {1, 0}, {1, 1}}, false}, {}}},
                                               model::DrawnPolygon{{{{{0, 89.5}, {1, 89.5}, {1, 89.6}}, false}, {}}},
                                               model::Circle{{0, 95}, {Length::metres(10), ""}},
                                               model::Circle{{0, 0}, {Length::metres(-10), ""}}};
        for (const auto& shape : shapes) {
            try {
                (void)outlineOf(FenceKind::KeepOut, shape);
                QFAIL("no fault");
            } catch (const Fault& fault) {
                QVERIFY2(fault.place().find("North bank") != std::string::npos, fault.what());
                QVERIFY(!fault.remedy().empty());
            }
        }
    }
};

QTEST_APPLESS_MAIN(OutlineTest)
#include "outline_test.moc"
