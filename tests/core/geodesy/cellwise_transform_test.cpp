// Polynomials against what they stand for: PROJ's own answers.

#include "geodesy/cellwise_transform.h"

#include <QtTest>

#include <bit>
#include <random>

using namespace fencewright;
using namespace fencewright::geodesy;

namespace {

constexpr double kCell = 10'000.0;

bool sameBits(const model::Position& a, const model::Position& b) {
    return std::bit_cast<std::uint64_t>(a.lon) == std::bit_cast<std::uint64_t>(b.lon) &&
           std::bit_cast<std::uint64_t>(a.lat) == std::bit_cast<std::uint64_t>(b.lat);
}

} // namespace

class CellwiseTransformTest : public QObject {
    Q_OBJECT

private slots:
    void places_areThoseOfProj_data() {
        QTest::addColumn<QString>("crs");
        QTest::addColumn<double>("northing");
        for (const char* crs : {"EPSG:32629", "EPSG:25829", "EPSG:2193", "EPSG:2100", "EPSG:32733"})
            for (const double northing : {1'200'000.0, 4'700'000.0, 7'900'000.0})
                QTest::addRow("%s, %g", crs, northing) << crs << northing;
        // Where longitudes change too fast.
        QTest::newRow("pole") << "EPSG:32629" << 9'950'000.0;
    }
    void places_areThoseOfProj() {
        QFETCH(QString, crs);
        QFETCH(double, northing);
        const CrsTransform proj{crs.toStdString()};
        QVERIFY(proj.isSmooth());
        CellwiseTransform cells{proj, kCell};
        std::mt19937 random{11};
        std::uniform_real_distribution<double> easting{100'000.0, 900'000.0}, along{0.0, 60'000.0};
        std::vector<PlanePoint> points;
        for (int i = 0; i < 20'000; ++i)
            points.push_back({easting(random), northing + along(random)});
        const auto expected = proj.toWgs84(points);
        int served = 0;
        for (std::size_t i = 0; i < points.size(); ++i)
            if (const auto place = cells.toWgs84(points[i])) {
                ++served;
                QVERIFY(expected[i]);
                QVERIFY2(std::abs(place->lon - expected[i]->lon) <= 1e-12 &&
                             std::abs(place->lat - expected[i]->lat) <= 1e-12,
                         qPrintable(QString{"%1 %2"}.arg(points[i].x, 0, 'f', 3).arg(points[i].y, 0, 'f', 3)));
            }
        QVERIFY2(northing > 9e6 ? served == 0 : served > 19'000, QByteArray::number(served));
    }

    void samePlace_hasTheSameAnswer_whateverWasAskedBefore() {
        // Also on the borders of cells, and one step of a double beside them.
        for (const char* crs : {"EPSG:32629", "EPSG:2222"}) { // in feet, a cell has no whole number of units
            const CrsTransform proj{crs};
            const double cell = kCell / proj.metresPerUnit().value_or(1.0);
            QVERIFY(proj.isSmooth());
            CellwiseTransform cells{proj, cell};
            int served = 0;
            for (int row = 100; row < 700; ++row)
                for (const double way : {-1e30, 0.0, 1e30}) {
                    const double border = row * cell;
                    const PlanePoint point{50.5 * cell, way == 0.0 ? border : std::nextafter(border, way)};
                    const auto alone = CellwiseTransform{proj, cell}.toWgs84(point);
                    for (const double before : {-0.5, 0.5}) {
                        (void)cells.toWgs84({50.5 * cell, (row + before) * cell});
                        const auto place = cells.toWgs84(point);
                        QCOMPARE(place.has_value(), alone.has_value());
                        QVERIFY(!place || sameBits(*place, *alone));
                        served += place ? 1 : 0;
                    }
                }
            QVERIFY(served > 1'500);
        }
    }

    void othersAreLeftToProj() {
        // Several ways by area, grids, other projections, degrees.
        for (const char* crs : {"EPSG:27700", "EPSG:31467", "EPSG:3857", "EPSG:3035", "EPSG:4326", "EPSG:4258"}) {
            const CrsTransform proj{crs};
            QVERIFY2(!proj.isSmooth(), crs);
            CellwiseTransform cells{proj, kCell};
            QVERIFY2(!cells.toWgs84({500'000.0, 400'000.0}), crs);
        }
        const CrsTransform proj{"EPSG:32629"};
        CellwiseTransform cells{proj, kCell};
        for (const double far :
             {1e15, -1e300, std::numeric_limits<double>::infinity(), std::numeric_limits<double>::quiet_NaN()})
            QVERIFY(!cells.toWgs84({far, 4.7e6}));
        QVERIFY(cells.toWgs84({500'000.0, 4.7e6}));
    }
};

QTEST_GUILESS_MAIN(CellwiseTransformTest)
#include "cellwise_transform_test.moc"
