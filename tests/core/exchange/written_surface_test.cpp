#include "exchange/written_surface.h"

#include "fault.h"
#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/simplify.h"
#include "support/delivered_file.h"

#include <QtTest>

#include <cmath>
#include <numbers>
#include <random>

using namespace fencewright;
using geometry::Side;
using model::MultiPolygon;
using model::Position;

namespace {

double area(const MultiPolygon& surface) { return geodesy::measure(surface).area.inSquareMetres(); }

bool isExactIn(double value, int decimals) { return QString::number(value, 'f', decimals).toDouble() == value; }

} // namespace

class WrittenSurfaceTest : public QObject {
    Q_OBJECT

private slots:
    // Slanted edges over the antimeridian between corners that need no rounding: all that moves is where they are cut.
    void slantedEdges_areCutToTheSafeSide() {
        constexpr unsigned kSeed = 180;
        constexpr int kRuns = 1000;
        std::mt19937 random{kSeed};
        const auto real = [&](double low, double high) {
            return std::uniform_real_distribution<double>{low, high}(random);
        };
        int refused = 0;
        int cut = 0;
        for (int run = 0; run < kRuns; ++run) {
            const int decimals = 5 + run % 5;
            const double grid = std::pow(10, decimals);
            const Position middle{run % 2 ? 180.0 : -180.0, real(-70, 70)};
            MultiPolygon surface{{{}}};
            const int corners = std::uniform_int_distribution<int>{3, 8}(random);
            for (int i = 0; i < corners; ++i) {
                const double angle = 2 * std::numbers::pi * (i + real(0, 0.7)) / corners;
                const double radius = real(0.002, 0.01);
                surface.parts[0].shell.corners.push_back(
                    {std::round((middle.lon + radius * std::cos(angle)) * grid) / grid,
                     std::round((middle.lat + radius * std::sin(angle)) * grid) / grid});
            }
            const Side side = run % 3 ? Side::Grow : Side::Shrink;
            const QString where = QString{"seed %1, run %2"}.arg(kSeed).arg(run);
            exchange::WrittenSurface result;
            try {
                result = exchange::writtenSurface(surface, side, decimals, 0);
            } catch (const Fault&) {
                ++refused;
                continue;
            }
            for (const model::Polygon& part : result.surface.parts)
                for (const Position corner : part.shell.corners) {
                    QVERIFY2(std::abs(corner.lon) <= 180, qPrintable(where));
                    QVERIFY2(isExactIn(corner.lon, decimals) && isExactIn(corner.lat, decimals), qPrintable(where));
                }
            const MultiPolygon whole = support::joinedBeside(result.surface, surface);
            QVERIFY2(side == Side::Grow ? geometry::contains(whole, surface) : geometry::contains(surface, whole),
                     qPrintable(where));
            // Two units of the last decimal along the boundary of under 10 km bound what was added or lost.
            const double bound = 2 * 111'320 / grid * 10'000;
            QVERIFY2(std::abs(area(whole) - area(surface)) <= bound, qPrintable(where));
            cut += result.surface.parts.size() > 1;
        }
        qInfo("%d of %d refused, %d cut", refused, kRuns, cut);
        QVERIFY(refused < kRuns / 50);
        QVERIFY(cut > kRuns / 2);
    }

    void surfacesOffTheAntimeridian_keepTheirCorners() {
        const MultiPolygon surface{{{{{{8, 50}, {8.01, 50}, {8.01, 50.01}, {8, 50.01}}}, {}}}};
        for (const Side side : {Side::Grow, Side::Shrink}) {
            const auto result = exchange::writtenSurface(surface, side, 7, 0);
            QVERIFY(geometry::sameArea(result.surface, surface));
            QCOMPARE(result.cornersAdded, 0U);
            QCOMPARE(result.cost.inSquareMetres(), 0.0);
        }
    }

    void longitudesBeyondATurn_comeBack() {
        const MultiPolygon surface{{{{{{368, 50}, {368.01, 50}, {368.01, 50.01}, {368, 50.01}}}, {}}}};
        const auto result = exchange::writtenSurface(surface, Side::Grow, 7, 0);
        for (const Position corner : result.surface.parts.at(0).shell.corners)
            QVERIFY(corner.lon >= 8 && corner.lon < 8.011);
        QCOMPARE(exchange::writtenPlace({368, 50}), (Position{8, 50}));
        QCOMPARE(exchange::writtenPlace({180, 50}), (Position{180, 50}));
        QCOMPARE(exchange::writtenPlace({-180, 50}), (Position{-180, 50}));
    }

    void budget_comesBeforeCornersOnLongEdges() {
        const MultiPolygon county{{{{{{8, 60}, {8.5, 60}, {8.5, 60.2}, {8, 60.2}}}, {}}}};
        const auto free = exchange::writtenSurface(county, Side::Shrink, 7, 0);
        QVERIFY(free.cornersAdded > 4 && !free.longEdgesLeft);
        const auto bound = exchange::writtenSurface(county, Side::Shrink, 7, 6);
        QVERIFY(bound.cornersAdded == 0 && bound.longEdgesLeft && !bound.overBudget);
        QVERIFY(geometry::cornerCount(bound.surface) <= 6);
    }
};

QTEST_APPLESS_MAIN(WrittenSurfaceTest)
#include "written_surface_test.moc"
