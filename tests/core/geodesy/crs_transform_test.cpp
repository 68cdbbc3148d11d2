#include "geodesy/crs_transform.h"

#include "fault.h"
#include "geodesy/geodesic.h"

#include <QtTest>

#include <atomic>
#include <limits>
#include <random>
#include <thread>

using namespace fencewright;
using geodesy::CrsTransform;
using geodesy::PlanePoint;
using model::Position;

class CrsTransformTest : public QObject {
    Q_OBJECT

private slots:
    void describes_theSystem() {
        const CrsTransform utm{"EPSG:25829"};
        QCOMPARE(utm.name(), "ETRS89 / UTM zone 29N");
        QVERIFY(!utm.isGeographic());
        QCOMPARE(utm.metresPerUnit(), std::optional{1.0});
        QVERIFY(!utm.datumShiftUnknown());

        const CrsTransform degrees{"EPSG:4326"};
        QVERIFY(degrees.isGeographic());
        QVERIFY(!degrees.metresPerUnit());

        // EPSG 2229, NAD83 / California zone 5 (ftUS): US survey foot, 1200/3937 m.
        const CrsTransform feet{"EPSG:2229"};
        QVERIFY(std::abs(*feet.metresPerUnit() - 1200.0 / 3937.0) < 1e-15);
        // EPSG 2222, NAD83 / Arizona East (ft): international foot.
        QCOMPARE(CrsTransform{"EPSG:2222"}.metresPerUnit(), std::optional{0.3048});
    }

    // The axis order of files, whatever the authority's: 4326 is latitude first with EPSG, 3035 northing first, 2193
    // northing first.
    void axes_areThoseOfFiles() {
        const Position place{10.0, 52.0};
        for (const char* crs : {"EPSG:4326", "EPSG:4258", "OGC:CRS84"}) {
            const auto read = CrsTransform{crs}.toWgs84(std::vector<PlanePoint>{{10.0, 52.0}});
            QVERIFY2(read[0] && geodesy::inverse(*read[0], place).length.inMetres() < 1.0, crs);
        }
        // EPSG 3035 has 52 N 10 E, its natural origin, at northing 3210000, easting 4321000 (its definition).
        const auto europe = CrsTransform{"EPSG:3035"}.toWgs84(std::vector<PlanePoint>{{4321000.0, 3210000.0}});
        QVERIFY(europe[0] && geodesy::inverse(*europe[0], place).length.inMetres() < 0.01);
        // EPSG 2193 has 0 N 173 E at northing 10000000, easting 1600000 (its definition).
        const auto zealand = CrsTransform{"EPSG:2193"}.fromWgs84(std::vector<Position>{{173.0, -41.0}});
        QVERIFY(zealand[0] && std::abs(zealand[0]->x - 1600000.0) < 1.0 && zealand[0]->y > 5e6 && zealand[0]->y < 6e6);
    }

    void reads_allFormsOfDefinition_data() {
        QTest::addColumn<QString>("crs");
        QTest::newRow("PROJ string") << "+proj=utm +zone=29 +ellps=GRS80 +towgs84=0,0,0,0,0,0,0 +units=m +no_defs";
        QTest::newRow("PROJ string of a datum") << "+proj=utm +zone=29 +datum=WGS84";
        QTest::newRow("compound") << "EPSG:25829+5773";
        QTest::newRow("WKT 1")
            << R"(PROJCS["ETRS89 / UTM zone 29N",GEOGCS["ETRS89",DATUM["European_Terrestrial_Reference_System_1989",SPHEROID["GRS 1980",6378137,298.257222101]],PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["latitude_of_origin",0],PARAMETER["central_meridian",-9],PARAMETER["scale_factor",0.9996],PARAMETER["false_easting",500000],PARAMETER["false_northing",0],UNIT["metre",1]])";
        QTest::newRow("WKT 2")
            << R"(PROJCRS["zone 29",BASEGEOGCRS["WGS 84",DATUM["World Geodetic System 1984",ELLIPSOID["WGS 84",6378137,298.257223563]]],CONVERSION["zone 29",METHOD["Transverse Mercator",ID["EPSG",9807]],PARAMETER["Latitude of natural origin",0,ANGLEUNIT["degree",0.0174532925199433]],PARAMETER["Longitude of natural origin",-9,ANGLEUNIT["degree",0.0174532925199433]],PARAMETER["Scale factor at natural origin",0.9996,SCALEUNIT["unity",1]],PARAMETER["False easting",500000,LENGTHUNIT["metre",1]],PARAMETER["False northing",0,LENGTHUNIT["metre",1]]],CS[Cartesian,2],AXIS["easting",east],AXIS["northing",north],LENGTHUNIT["metre",1]])";
        QTest::newRow("WKT of a shapefile")
            << R"(PROJCS["ETRS_1989_UTM_Zone_29N",GEOGCS["GCS_ETRS_1989",DATUM["D_ETRS_1989",SPHEROID["GRS_1980",6378137.0,298.257222101]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]],PROJECTION["Transverse_Mercator"],PARAMETER["False_Easting",500000.0],PARAMETER["False_Northing",0.0],PARAMETER["Central_Meridian",-9.0],PARAMETER["Scale_Factor",0.9996],PARAMETER["Latitude_Of_Origin",0.0],UNIT["Meter",1.0]])";
    }
    void reads_allFormsOfDefinition() {
        QFETCH(QString, crs);
        const CrsTransform transform{crs.toStdString()};
        QVERIFY(!transform.isGeographic());
        QCOMPARE(transform.metresPerUnit(), std::optional{1.0});
        // On the central meridian at the equator by definition.
        const auto read = transform.toWgs84(std::vector<PlanePoint>{{500000.0, 0.0}});
        QVERIFY(read[0] && geodesy::inverse(*read[0], {-9.0, 0.0}).length.inMetres() < 0.01);
        QVERIFY(!transform.datumShiftUnknown());
    }

    void refuses_whatCannotBeRelated_data() {
        QTest::addColumn<QString>("crs");
        QTest::newRow("nothing") << "";
        QTest::newRow("no CRS") << "hello";
        QTest::newRow("no such code") << "EPSG:999999";
        QTest::newRow("an operation") << "+proj=pipeline +step +proj=axisswap +order=2,1";
        QTest::newRow("an ellipsoid") << "EPSG:7030";
        QTest::newRow("a datum") << "urn:ogc:def:datum:EPSG::6326";
        QTest::newRow("heights only") << "EPSG:5773";
        QTest::newRow("geocentric") << "EPSG:4978";
        QTest::newRow("engineering") << R"(LOCAL_CS["Site grid",UNIT["metre",1]])";
        QTest::newRow("engineering, WKT 2")
            << R"(ENGCRS["Site grid",EDATUM["Site"],CS[Cartesian,2],AXIS["x",east],AXIS["y",north],LENGTHUNIT["metre",1]])";
        QTest::newRow("broken WKT") << R"(PROJCS["x",GEOGCS["y")";
        QTest::newRow("broken JSON") << R"({"type": "ProjectedCRS")";
        QTest::newRow("deep WKT") << QString{"PROJCS["}.repeated(20000);
        QTest::newRow("deep JSON") << QString{"{\"base_crs\":"}.repeated(15000);
        QTest::newRow("far too long") << QString(1'000'000, 'x');
        QTest::newRow("a grid that is missing") << "+proj=longlat +ellps=bessel +nadgrids=none-such.gsb";
        QTest::newRow("another body") << "+proj=longlat +a=1737400 +b=1737400 +no_defs";
    }
    void refuses_whatCannotBeRelated() {
        QFETCH(QString, crs);
        try {
            const CrsTransform transform{crs.toStdString()};
            QFAIL("taken");
        } catch (const Fault& fault) {
            QVERIFY(!fault.problem().empty() && !fault.remedy().empty() && fault.place().size() < 200);
        }
    }

    void datumShift_isKnownOrSaidToBeUnknown() {
        // ED50: EPSG lists transformations with metres of accuracy.
        const CrsTransform known{"EPSG:23030"};
        (void)known.toWgs84(std::vector<PlanePoint>{{500000.0, 4.5e6}});
        QVERIFY(!known.datumShiftUnknown());
        QVERIFY(known.accuracy() && known.accuracy()->inMetres() >= 0.5 && known.accuracy()->inMetres() < 50.0);
        // An ellipsoid alone says nothing of the datum.
        const CrsTransform unknown{"+proj=utm +zone=10 +ellps=clrk66"};
        (void)unknown.toWgs84(std::vector<PlanePoint>{{500000.0, 4.5e6}});
        QVERIFY(unknown.datumShiftUnknown());
        QVERIFY(!unknown.accuracy());
        // A grid that the definition calls optional, and that is not there, shifts nothing.
        const CrsTransform gridless{"+proj=longlat +ellps=bessel +nadgrids=@none-such.gsb"};
        (void)gridless.toWgs84(std::vector<PlanePoint>{{10.0, 50.0}});
        QVERIFY(gridless.datumShiftUnknown());
        QVERIFY(!gridless.accuracy());
    }

    void bulk_leavesOutWhatDoesNotTransform() {
        const CrsTransform utm{"EPSG:25829"};
        const double infinite = std::numeric_limits<double>::infinity();
        const auto read = utm.toWgs84(
            std::vector<PlanePoint>{{500000, 5e6}, {infinite, 0}, {std::nan(""), 1}, {1e30, 1e30}, {500001, 5e6}});
        QVERIFY(read[0] && read[4]);
        QVERIFY(!read[1] && !read[2] && !read[3]);
        const auto back = utm.fromWgs84(std::vector<Position>{{-9, 45}, {0, 91}, {infinite, 0}, {351, 45}});
        QVERIFY(back[0] && back[3] && !back[1] && !back[2]);
        QVERIFY(std::abs(back[0]->x - back[3]->x) < 1e-6);
        QVERIFY(utm.toWgs84({}).empty());
        QVERIFY(utm.fromWgs84({}).empty());
    }

    void longitudes_areBroughtIntoRange() {
        // EPSG 3832, WGS 84 / PDC Mercator, has its middle at 150 E and runs on over the antimeridian.
        const CrsTransform pacific{"EPSG:3832"};
        const auto points = pacific.fromWgs84(std::vector<Position>{{179.0, 10.0}, {-179.0, 10.0}, {181.0, 10.0}});
        QVERIFY(points[1]->x > points[0]->x && std::abs(points[1]->x - points[2]->x) < 1e-6);
        const auto back = pacific.toWgs84(std::vector<PlanePoint>{*points[1]});
        QVERIFY(std::abs(back[0]->lon + 179.0) < 1e-9);
    }

    void fromWgs84_undoesToWgs84() {
        constexpr unsigned seed = 5;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> unit{-1.0, 1.0};
        for (const char* crs :
             {"EPSG:25829", "EPSG:3857", "EPSG:27700", "EPSG:2100", "EPSG:26917", "EPSG:2193", "EPSG:4258"}) {
            const CrsTransform transform{crs};
            std::vector<Position> places;
            const auto middle = QByteArray{crs} == "EPSG:2193"    ? Position{173, -41}
                                : QByteArray{crs} == "EPSG:2100"  ? Position{23, 39}
                                : QByteArray{crs} == "EPSG:26917" ? Position{-80, 37}
                                                                  : Position{-4, 53};
            for (int i = 0; i < 300; ++i)
                places.push_back({middle.lon + 2.0 * unit(random), middle.lat + 2.0 * unit(random)});
            const auto points = transform.fromWgs84(places);
            std::vector<PlanePoint> plane;
            for (const auto& point : points) {
                QVERIFY2(point, crs);
                plane.push_back(*point);
            }
            const auto back = transform.toWgs84(plane);
            for (std::size_t i = 0; i < places.size(); ++i)
                // Between datums, heights are taken as zero on both sides: that costs millimetres.
                QVERIFY2(back[i] && geodesy::inverse(*back[i], places[i]).length.inMetres() < 0.005, crs);
        }
    }

    // What was found for one is copied for the next: on every thread it must answer the very same, also where PROJ
    // chooses among several ways by the place (NAD27, OSGB36), and after so many other systems that it has to be found
    // anew.
    void everyOneOfASystem_answersTheSame_onAnyThread() {
        const std::vector<std::string> systems{"EPSG:4267",  "EPSG:27700", "EPSG:2100",
                                               "EPSG:26917", "EPSG:3857",  "EPSG:32629"};
        constexpr unsigned seed = 11;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> lon{-130.0, 30.0}, lat{25.0, 65.0};
        std::vector<Position> places;
        for (int i = 0; i < 200; ++i)
            places.push_back({lon(random), lat(random)});
        struct Answer {
            std::vector<std::optional<PlanePoint>> points;
            std::string name;
            std::optional<double> unit;
            bool geographic = false, unknown = false, smooth = false;
            std::optional<Length> accuracy;
        };
        const auto asked = [&](const std::string& crs) {
            const CrsTransform transform{crs};
            Answer answer{
                {}, transform.name(), transform.metresPerUnit(), transform.isGeographic(), false, transform.isSmooth(),
                {}};
            answer.points = transform.fromWgs84(places);
            answer.unknown = transform.datumShiftUnknown();
            answer.accuracy = transform.accuracy();
            return answer;
        };
        const auto isSame = [](const Answer& a, const Answer& b) {
            bool same = a.name == b.name && a.unit == b.unit && a.geographic == b.geographic &&
                        a.unknown == b.unknown && a.accuracy == b.accuracy && a.smooth == b.smooth &&
                        a.points.size() == b.points.size();
            for (std::size_t i = 0; same && i < a.points.size(); ++i)
                same = a.points[i].has_value() == b.points[i].has_value() &&
                       (!a.points[i] || (a.points[i]->x == b.points[i]->x && a.points[i]->y == b.points[i]->y));
            return same;
        };
        std::vector<Answer> first;
        for (const std::string& crs : systems)
            first.push_back(asked(crs));
        QVERIFY(first.back().smooth && !first.front().smooth); // both kinds are there
        for (int round = 0; round < 2; ++round) {
            std::atomic<int> wrong{0};
            std::vector<std::thread> threads;
            for (int i = 0; i < 4; ++i)
                threads.emplace_back([&] {
                    for (std::size_t at = 0; at < systems.size(); ++at)
                        wrong += isSame(asked(systems[at]), first[at]) ? 0 : 1;
                });
            for (std::thread& thread : threads)
                thread.join();
            QCOMPARE(wrong.load(), 0);
            for (int zone = 1; zone <= 40; ++zone)
                QVERIFY(!CrsTransform{"EPSG:" + std::to_string(32600 + zone)}.isGeographic());
        }
    }

    void moving_keepsTheObjectUsable() {
        CrsTransform a{"EPSG:25829"};
        CrsTransform b{std::move(a)};
        a = CrsTransform{"EPSG:3857"};
        QVERIFY(b.toWgs84(std::vector<PlanePoint>{{500000, 5e6}})[0]);
        QVERIFY(a.toWgs84(std::vector<PlanePoint>{{0, 0}})[0]);
        QVERIFY_EXCEPTION_THROWN(CrsTransform{"EPSG:5773"}, Fault);
    }
};

QTEST_APPLESS_MAIN(CrsTransformTest)
#include "crs_transform_test.moc"
