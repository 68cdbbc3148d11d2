// Areas of what is united, cut and taken out against GeographicLib's PolygonArea, an independent library, and distances
// of copies against its Geodesic.

#include "airspace/reshaping.h"
#include "geometry/cutting.h"
#include "geometry/sided_overlay.h"
#include "support/random_geometry.h"

#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/PolygonArea.hpp>

#include <QtTest>

#include <array>
#include <cmath>

using namespace fencewright;
using geometry::Side;
using model::MultiPolygon;
using model::Polygon;
using model::Position;

namespace {

/// Edges are straight in longitude and latitude, the library's are geodesics: of each edge it gets many short pieces.
constexpr int kPieces = 40;

struct Measure {
    double area = 0.0, perimeter = 0.0;
};

Measure measured(const model::Ring& ring) {
    GeographicLib::PolygonArea sum{GeographicLib::Geodesic::WGS84()};
    for (std::size_t i = 0; i < ring.corners.size(); ++i) {
        const auto &a = ring.corners[i], &b = ring.corners[(i + 1) % ring.corners.size()];
        for (int k = 0; k < kPieces; ++k)
            sum.AddPoint(std::lerp(a.lat, b.lat, double(k) / kPieces), std::lerp(a.lon, b.lon, double(k) / kPieces));
    }
    Measure measure;
    sum.Compute(false, true, measure.perimeter, measure.area);
    measure.area = std::abs(measure.area);
    return measure;
}

Measure measured(const MultiPolygon& surface) {
    Measure all;
    for (const auto& part : surface.parts) {
        const auto shell = measured(part.shell);
        all.area += shell.area;
        all.perimeter += shell.perimeter;
        for (const auto& hole : part.holes) {
            const auto one = measured(hole);
            all.area -= one.area;
            all.perimeter += one.perimeter;
        }
    }
    return all;
}

/// A rough ring, with a hole in most of them.
MultiPolygon rough(tests::RandomGeometry& random, const Position& middle, double size) {
    const auto ring = [&](double from, double to, int count) {
        model::Ring made;
        for (int i = 0; i < count; ++i) {
            const double angle = 2.0 * M_PI * i / count, radius = size * random.between(from, to);
            made.corners.push_back({middle.lon + radius * std::cos(angle) / std::cos(middle.lat * M_PI / 180.0),
                                    middle.lat + radius * std::sin(angle)});
        }
        return made;
    };
    Polygon polygon{ring(0.4, 1.0, random.whole(5, 25)), {}};
    if (random.chance(0.7))
        polygon.holes.push_back(ring(0.1, 0.3, random.whole(3, 9)));
    return {{polygon}};
}

} // namespace

class ReshapingReferenceTest : public QObject {
    Q_OBJECT

private slots:
    void areas_addUp() {
        constexpr std::array middles{Position{8.0, 47.0}, Position{180.0, -16.0}, Position{-20.0, 70.0},
                                     Position{0.0, 0.0}};
        for (unsigned seed = 1; seed <= 40; ++seed) {
            tests::RandomGeometry random{seed};
            const auto& middle = middles[seed % middles.size()];
            const auto a = rough(random, middle, 0.01);
            const auto b = rough(
                random, {middle.lon + random.between(-0.01, 0.01), middle.lat + random.between(-0.01, 0.01)}, 0.01);
            for (const auto side : {Side::Grow, Side::Shrink}) {
                const auto failure = QString{"seed %1, side %2"}.arg(seed).arg(side == Side::Grow ? "grow" : "shrink");
                const auto ofA = measured(a), ofB = measured(b);
                const auto both = measured(geometry::intersection(a, b, side));
                const auto whole = measured(geometry::united(std::array{a, b}, side));
                const auto rest = measured(geometry::difference(a, b, side));
                // Corners are off by under 2e-11 degrees, two micrometres.
                const double rounding = 4e-6 * (ofA.perimeter + ofB.perimeter) + 1e-3;
                QVERIFY2(std::abs(ofA.area + ofB.area - both.area - whole.area) < rounding, qPrintable(failure));
                QVERIFY2(std::abs(ofA.area - both.area - rest.area) < rounding, qPrintable(failure));

                const double bearing = random.between(0.0, M_PI);
                const auto at = [&](double reach, double aside) {
                    return Position{middle.lon + reach * std::cos(bearing) - aside * std::sin(bearing),
                                    middle.lat + reach * std::sin(bearing) + aside * std::cos(bearing)};
                };
                const model::LineString line{at(-0.05, 0.001), at(-0.002, 0.0), at(0.003, 0.002), at(0.05, 0.0)};
                double pieces = 0.0;
                for (const auto& piece : geometry::cutAlong(a, line, side))
                    pieces += measured({{piece}}).area;
                QVERIFY2(std::abs(pieces - ofA.area) < rounding, qPrintable(failure));
            }
        }
    }

    // All of a keep-out's copy lies outside of 50 m, and none of it beyond 0.1 % and 2 mm more.
    void copies_standAtTheGeodesicDistance() {
        const auto& earth = GeographicLib::Geodesic::WGS84();
        tests::RandomGeometry random{17};
        for (int round = 0; round < 6; ++round) {
            const Position middle{round % 2 ? 180.0 : 25.0, round % 3 ? 47.0 : 70.0};
            const auto area = rough(random, middle, 0.005);
            model::FenceSet set;
            model::Fence fence;
            fence.id = model::freshId<model::Fence>();
            fence.name = "Area";
            fence.shape = model::DrawnPolygon{area.parts[0]};
            set.fences.append(fence);
            const auto made = airspace::offsetCopy(set, fence.id, {Length::metres(50), "50 m"},
                                                   airspace::OffsetDirection::Outward, model::FenceKind::KeepOut);
            const auto after = model::applied(set, made.edit);
            const auto& copy = std::get<model::DrawnPolygon>(after.fences[1].shape).polygon;
            std::vector<Position> boundary;
            for (std::size_t i = 0; i < area.parts[0].shell.corners.size(); ++i) {
                const auto& corners = area.parts[0].shell.corners;
                const auto &a = corners[i], &b = corners[(i + 1) % corners.size()];
                for (int k = 0; k < 400; ++k)
                    boundary.push_back({std::lerp(a.lon, b.lon, k / 400.0), std::lerp(a.lat, b.lat, k / 400.0)});
            }
            for (std::size_t number = 0; number < copy.shell.corners.size(); number += 9) {
                const auto& corner = copy.shell.corners[number];
                double least = 1e9;
                for (const auto& place : boundary) {
                    double metres = 0.0;
                    earth.Inverse(corner.lat, corner.lon, place.lat, place.lon, metres);
                    least = std::min(least, metres);
                }
                // Places of the boundary stand up to 3 m apart: within 0.03 m of the nearest.
                QVERIFY2(least >= 50.0 - 1e-6 && least <= 50.0 * 1.001 + 0.002 + 0.03,
                         qPrintable(QString{"round %1: %2"}.arg(round).arg(least)));
            }
        }
    }
};

QTEST_APPLESS_MAIN(ReshapingReferenceTest)
#include "reshaping_test.moc"
