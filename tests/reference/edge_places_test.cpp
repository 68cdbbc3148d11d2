// Right angles and directions onto straight lon/lat edges, against GeographicLib's geodesics.

#include "geodesy/edge_places.h"

#include <GeographicLib/Geodesic.hpp>

#include <QtTest>

#include <random>

using namespace fencewright;
using model::Position;

namespace {

struct Way {
    double metres = 0.0;
    double azimuthAtStart = 0.0;
    double azimuthAtEnd = 0.0;
};

Way way(Position from, Position to) {
    Way found;
    GeographicLib::Geodesic::WGS84().Inverse(from.lat, from.lon, to.lat, to.lon, found.metres, found.azimuthAtStart,
                                             found.azimuthAtEnd);
    return found;
}

double azimuthOfEdge(Position a, Position b, Position at) {
    // The chord of a short stretch of the edge, half of it on either side of the place.
    const double stretch = 1e-5 / std::hypot(b.lon - a.lon, b.lat - a.lat);
    const Position before{at.lon - stretch * (b.lon - a.lon), at.lat - stretch * (b.lat - a.lat)};
    const Position after{at.lon + stretch * (b.lon - a.lon), at.lat + stretch * (b.lat - a.lat)};
    const Way chord = way(before, after);
    return (chord.azimuthAtStart + chord.azimuthAtEnd) / 2.0;
}

/// A place in the same region; some of the cases lie far north, some across the antimeridian, some are tiny.
struct Cases {
    std::mt19937 random;
    Position middle;
    double reach = 0.0;

    explicit Cases(unsigned seed) : random{seed} {
        const double latitudes[] = {46.2, -33.0, 0.01, 78.0, -66.0};
        const double longitudes[] = {-8.7, 151.0, 180.0, -179.999, 0.0};
        const double reaches[] = {0.2, 0.01, 0.0005};
        middle = {longitudes[random() % 5], latitudes[random() % 5]};
        reach = reaches[random() % 3];
    }
    Position place() {
        std::uniform_real_distribution<double> off{-reach, reach};
        return {middle.lon + off(random), middle.lat + off(random)};
    }
};

} // namespace

class EdgePlacesReferenceTest : public QObject {
    Q_OBJECT

private slots:
    void foot_isARightAngle() {
        int found = 0;
        for (unsigned seed = 1; seed <= 2000; ++seed) {
            Cases cases{seed};
            const Position a = cases.place(), b = cases.place(), from = cases.place();
            const auto foot = geodesy::footOn(a, b, from);
            if (!foot)
                continue;
            ++found;
            const Way back = way(foot->place, from);
            const double off =
                back.metres * std::cos((back.azimuthAtStart - azimuthOfEdge(a, b, foot->place)) * M_PI / 180.0);
            QVERIFY2(std::abs(off) < 1e-3 + 2e-8 * back.metres,
                     qPrintable(QString("seed %1: %2 m").arg(seed).arg(off)));
            // And on the edge, exactly straight.
            const double cross =
                (b.lon - a.lon) * (foot->place.lat - a.lat) - (b.lat - a.lat) * (foot->place.lon - a.lon);
            QVERIFY2(std::abs(cross) / std::hypot(b.lon - a.lon, b.lat - a.lat) < 1e-13,
                     qPrintable(QString::number(seed)));
        }
        QVERIFY2(found > 500, qPrintable(QString::number(found)));
    }

    void meeting_liesOnTheGeodesic() {
        int found = 0;
        for (unsigned seed = 1; seed <= 2000; ++seed) {
            Cases cases{seed};
            const Position a = cases.place(), b = cases.place(), from = cases.place();
            const double azimuth = double(cases.random() % 36000) / 100.0;
            const auto met = geodesy::meetingWith(a, b, from, Angle::degrees(azimuth));
            if (!met)
                continue;
            ++found;
            const Way there = way(from, met->place);
            const double off = there.metres * std::sin((there.azimuthAtStart - azimuth) * M_PI / 180.0);
            QVERIFY2(std::abs(off) < 1e-6, qPrintable(QString("seed %1: %2 m").arg(seed).arg(off)));
        }
        QVERIFY2(found > 400, qPrintable(QString::number(found)));
    }

    void crossing_liesOnBothEdges() {
        int found = 0;
        for (unsigned seed = 1; seed <= 2000; ++seed) {
            Cases cases{seed};
            const Position a = cases.place(), b = cases.place(), c = cases.place(), d = cases.place();
            // Exact planar arithmetic in long doubles: whether each edge has the other's ends on its two sides.
            const auto side = [](Position p, Position q, Position r) {
                const long double px = p.lon, py = p.lat;
                return (q.lon - px) * (r.lat - py) - (q.lat - py) * (r.lon - px);
            };
            const bool cross = (side(a, b, c) > 0) != (side(a, b, d) > 0) && (side(c, d, a) > 0) != (side(c, d, b) > 0);
            const auto at = geodesy::crossingOf(a, b, c, d);
            QVERIFY2(at.has_value() == cross, qPrintable(QString::number(seed)));
            if (!at)
                continue;
            ++found;
            const double sine =
                std::abs(double((b.lon - a.lon) * (d.lat - c.lat) - (b.lat - a.lat) * (d.lon - c.lon))) /
                std::hypot(b.lon - a.lon, b.lat - a.lat) / std::hypot(d.lon - c.lon, d.lat - c.lat);
            const double off = std::abs(double(side(c, d, *at))) / std::hypot(d.lon - c.lon, d.lat - c.lat);
            QVERIFY2(off < 1e-13 / sine, qPrintable(QString("seed %1: %2 degrees").arg(seed).arg(off)));
            // A turn further on it is the same place.
            const auto turned = geodesy::crossingOf(a, b, {c.lon + 360.0, c.lat}, {d.lon + 360.0, d.lat});
            QVERIFY(turned && std::abs(turned->lon - at->lon) < 1e-11 / sine);
        }
        QVERIFY2(found > 200, qPrintable(QString::number(found)));
    }
};

QTEST_GUILESS_MAIN(EdgePlacesReferenceTest)
#include "edge_places_test.moc"
