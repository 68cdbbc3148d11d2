#include "fault.h"
#include "geodesy/geodesic.h"
#include "geometry/containment.h"
#include "geometry/offset.h"
#include "geometry/validity.h"
#include "support/random_geometry.h"

#include <GeographicLib/Geodesic.hpp>

#include <QtTest>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

using namespace fencewright;
using geometry::Side;
using model::Position;

// What grown() with a width on each side promises, held against its definition in geometry/offset.h, place by place.
// The geodesics that judge are GeographicLib's (C. F. F. Karney, MIT licence); the direction of a lon/lat edge on the
// ellipsoid is told by its radii of curvature, from the definition of WGS 84 (a = 6378137 m, f = 1 / 298.257223563).

namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

struct Way {
    double metres = 0.0, azimuth = 0.0; ///< degrees, at its start
};
Way way(Position from, Position to) {
    Way found;
    double there = 0.0;
    GeographicLib::Geodesic::WGS84().Inverse(from.lat, from.lon, to.lat, to.lon, found.metres, found.azimuth, there);
    return found;
}
Position going(Position from, double azimuth, double metres) {
    Position to;
    GeographicLib::Geodesic::WGS84().Direct(from.lat, from.lon, azimuth, metres, to.lat, to.lon);
    to.lon = from.lon + std::remainder(to.lon - from.lon, 360.0);
    return to;
}

Position along(Position a, Position b, double t) { return {std::lerp(a.lon, b.lon, t), std::lerp(a.lat, b.lat, t)}; }

/// Of the edge from a to b, at a latitude.
double azimuthOf(Position a, Position b, double lat) {
    constexpr double f = 1.0 / 298.257223563, squared = f * (2.0 - f);
    const double s = std::sin(lat * kDegree), w = 1.0 - squared * s * s;
    const double east = (b.lon - a.lon) * std::cos(lat * kDegree) / std::sqrt(w); // radii by a
    const double north = (b.lat - a.lat) * (1.0 - squared) / (w * std::sqrt(w));
    return std::atan2(east, north) / kDegree;
}

/// How much of the way from `at` to the place goes forward along a direction, and how much to its right.
struct Seen {
    double metres = 0.0, forward = 0.0, right = 0.0;
};
Seen seen(Position at, Position place, double azimuth) {
    const Way to = way(at, place);
    const double angle = (to.azimuth - azimuth) * kDegree;
    return {to.metres, to.metres * std::cos(angle), to.metres * std::sin(angle)};
}

/// Which widths are enough for the place to be in: the place is in where one of them is no more than that side's width.
struct Nearest {
    double left = HUGE_VAL, right = HUGE_VAL; ///< metres to the nearest locally nearest place with it on that side
};

/// By definition: every locally nearest place of the line, with the side on which it sees the place.
class Definition {
public:
    Definition(const model::LineString& given, double left, double right)
        : m_left{left}, m_right{right}, m_wide{std::max(left, right)}, m_narrow{std::min(left, right)} {
        for (const auto& place : given)
            if (m_line.empty() || m_line.back() != place)
                m_line.push_back(place);
    }

    [[nodiscard]] Nearest nearest(Position place) const {
        Nearest found;
        const auto add = [&](double metres, bool onRight) {
            double& side = onRight ? found.right : found.left;
            side = std::min(side, metres);
        };
        for (std::size_t i = 0; i + 1 < m_line.size(); ++i)
            foot(i, place, add);
        for (std::size_t i = 0; i < m_line.size(); ++i)
            corner(i, place, add);
        return found;
    }
    [[nodiscard]] bool grows(Position place) const {
        const Nearest near = nearest(place);
        return near.left <= m_left || near.right <= m_right;
    }
    [[nodiscard]] bool shrinks(Position place) const {
        const Nearest near = nearest(place);
        if (std::min(near.left, near.right) <= m_narrow)
            return true;
        const double wider = m_left > m_right ? near.left : near.right;
        const double narrower = m_left > m_right ? near.right : near.left;
        return wider <= m_wide && narrower > m_wide;
    }

private:
    template <class Add> void foot(std::size_t i, Position place, const Add& add) const {
        const Position a = m_line[i], b = m_line[i + 1];
        // Where the distance has its least value, going forward is neither nearer nor farther: by bisection, among
        // pieces on which that is so once.
        const auto forward = [&](double t) {
            const Position at = along(a, b, t);
            return seen(at, place, azimuthOf(a, b, at.lat)).forward;
        };
        const int pieces = 1 + static_cast<int>(way(a, b).metres / 3000.0);
        double low = 0.0, atLow = forward(0.0);
        for (int k = 1; k <= pieces; ++k) {
            const double high = static_cast<double>(k) / pieces, atHigh = forward(high);
            if (atLow > 0.0 && atHigh < 0.0) {
                // Regula falsi by the Illinois rule: the distance along the edge is nearly linear in its place.
                double from = low, to = high, f = atLow, g = atHigh;
                int side = 0;
                double t = from;
                for (int step = 0; step < 30; ++step) {
                    t = (from * g - to * f) / (g - f);
                    const double at = forward(t);
                    if (std::abs(at) < 1e-7)
                        break;
                    if (at > 0.0) {
                        from = t, f = at;
                        if (side == 1)
                            g /= 2.0;
                        side = 1;
                    } else {
                        to = t, g = at;
                        if (side == -1)
                            f /= 2.0;
                        side = -1;
                    }
                }
                const Position at = along(a, b, t);
                const Seen from90 = seen(at, place, azimuthOf(a, b, at.lat));
                add(from90.metres, from90.right > 0.0);
            }
            low = high, atLow = atHigh;
        }
    }
    template <class Add> void corner(std::size_t i, Position place, const Add& add) const {
        const Position at = m_line[i];
        const bool first = i == 0, last = i + 1 == m_line.size();
        const Seen before = first ? Seen{} : seen(at, place, azimuthOf(m_line[i - 1], at, at.lat));
        const Seen after = last ? Seen{} : seen(at, place, azimuthOf(at, m_line[i + 1], at.lat));
        if ((!first && before.forward < 0.0) || (!last && after.forward > 0.0))
            return; // a place next to it on the line is nearer
        if (first || last) {
            const Seen& end = first ? after : before;
            return add(end.metres, end.right > 0.0);
        }
        const Position p = m_line[i - 1], q = m_line[i + 1];
        const long double turn =
            (static_cast<long double>(at.lon) - p.lon) * (static_cast<long double>(q.lat) - at.lat) -
            (static_cast<long double>(at.lat) - p.lat) * (static_cast<long double>(q.lon) - at.lon);
        if (turn >= 0.0L)
            add(before.metres, true); // a turn to the left has its outer side on the right
        if (turn <= 0.0L)
            add(before.metres, false);
    }

    model::LineString m_line;
    double m_left, m_right, m_wide, m_narrow;
};

/// Whether some place no farther than the promised error from the place, or every one of two dozen, is in.
template <class In> bool isNearlyIn(Position place, double error, const In& in) {
    for (const double part : {1.0, 0.5, 0.2})
        for (int k = 0; k < 12; ++k)
            if (in(going(place, 30.0 * k + 7.0, error * part)))
                return true;
    return false;
}

QByteArray described(unsigned seed, const model::LineString& line, double left, double right, Position at) {
    return "seed " + QByteArray::number(seed) + " left " + QByteArray::number(left, 'g', 17) + " right " +
           QByteArray::number(right, 'g', 17) + " at " + QByteArray::number(at.lon, 'g', 17) + " " +
           QByteArray::number(at.lat, 'g', 17) + " " + QByteArray::fromStdString(tests::asWkt(line)).left(2000);
}

bool allValid(const model::MultiPolygon& surface) {
    return std::all_of(surface.parts.begin(), surface.parts.end(),
                       [](const model::Polygon& part) { return geometry::isValid(part); });
}

/// Where what is held against the definition differs from it most likely: near the widths, near the ends, at bends.
Position somewhere(tests::RandomGeometry& random, const model::LineString& line, double left, double right) {
    const auto i = static_cast<std::size_t>(random.whole(0, static_cast<int>(line.size()) - 2));
    const double t = random.chance(0.4) ? double(random.whole(0, 1)) : random.between(0.0, 1.0);
    const Position at = along(line[i], line[i + 1], t);
    const double width = random.chance(0.5) ? left : right;
    const double metres = random.chance(0.6) ? width * random.between(0.997, 1.003) + random.between(-0.01, 0.01)
                                             : std::max(left, right) * random.between(0.0, 1.1);
    if (line[i] == line[i + 1])
        return going(at, random.between(0.0, 360.0), std::max(0.0, metres));
    const double azimuth = azimuthOf(line[i], line[i + 1], at.lat);
    const double angle = random.chance(0.5)   ? (random.chance(0.5) ? 90.0 : -90.0) + random.between(-0.1, 0.1)
                         : random.chance(0.3) ? random.between(-0.1, 0.1) + (random.chance(0.5) ? 180.0 : 0.0)
                                              : random.between(0.0, 360.0);
    return going(at, azimuth + angle, std::max(0.0, metres));
}

} // namespace

class CorridorTest : public QObject {
    Q_OBJECT

private slots:
    void corridor_keepsBothWidths() {
        constexpr unsigned kCases = 1000;
        int inside = 0, outside = 0;
        for (unsigned seed = 1; seed <= kCases; ++seed) {
            tests::RandomGeometry random{seed};
            const model::LineString line = random.line();
            const double wide = random.magnitude(1.0, random.chance(0.9) ? 500.0 : 10'000.0);
            const double narrow = random.chance(0.3) ? 0.0 : wide * random.between(0.0, 1.0);
            const bool leftIsWide = random.chance(0.5);
            const double left = leftIsWide ? wide : narrow, right = leftIsWide ? narrow : wide;
            if (std::adjacent_find(line.begin(), line.end(), std::not_equal_to{}) == line.end())
                continue; // one place: see below
            const auto outer = geometry::grown(line, Length::metres(left), Length::metres(right), Side::Grow);
            const auto inner = geometry::grown(line, Length::metres(left), Length::metres(right), Side::Shrink);
            QVERIFY2(allValid(outer) && allValid(inner), described(seed, line, left, right, {}));
            QVERIFY2(geometry::contains(outer, inner), described(seed, line, left, right, {}));
            const geometry::PreparedSurface inOuter{outer}, inInner{inner};
            const Definition definition{line, left, right};
            const double error = 0.002 * wide + 0.005;
            for (int i = 0; i < 12; ++i) {
                const Position place = somewhere(random, line, left, right);
                const bool grows = definition.grows(place), shrinks = definition.shrinks(place);
                ++(grows ? inside : outside);
                // The safe side, exactly.
                QVERIFY2(!grows || inOuter.contains(place), described(seed, line, left, right, place));
                QVERIFY2(shrinks || !inInner.contains(place), described(seed, line, left, right, place));
                // And hardly more than that.
                if (!grows && inOuter.contains(place))
                    QVERIFY2(isNearlyIn(place, error, [&](Position near) { return definition.grows(near); }),
                             described(seed, line, left, right, place));
                if (shrinks && !inInner.contains(place))
                    QVERIFY2(isNearlyIn(place, error, [&](Position near) { return !definition.shrinks(near); }),
                             described(seed, line, left, right, place));
            }
        }
        QVERIFY(inside > 2000 && outside > 2000); // the places tell both
        qInfo("%d places inside, %d outside", inside, outside);
    }

    // Elementary geometry: L (l + r) for the bands, and a quarter of a circle on each side of each end.
    void areaOfAStraightCorridor_data() {
        QTest::addColumn<double>("left");
        QTest::addColumn<double>("right");
        QTest::newRow("10 and 25 m") << 10.0 << 25.0;
        QTest::newRow("25 and 10 m") << 25.0 << 10.0;
        QTest::newRow("nothing and 25 m") << 0.0 << 25.0;
        QTest::newRow("400 and 150 m") << 400.0 << 150.0;
    }
    void areaOfAStraightCorridor() {
        QFETCH(double, left);
        QFETCH(double, right);
        const Position from{10.0, 47.0}, to = going(from, 63.0, 1000.0);
        const double expected =
            way(from, to).metres * (left + right) + std::numbers::pi / 2.0 * (left * left + right * right);
        const auto area = [&](Side side) {
            return geodesy::measure(geometry::grown({from, to}, Length::metres(left), Length::metres(right), side))
                .area.inSquareMetres();
        };
        // The error of the widths, along the boundary.
        const double slack = (0.002 * std::max(left, right) + 0.005) * (2000.0 + 6.0 * (left + right)) + 1.0;
        QCOMPARE_GE(area(Side::Grow), expected - 0.1);
        QCOMPARE_LE(area(Side::Grow), expected + slack);
        QCOMPARE_LE(area(Side::Shrink), expected + 0.1);
        QCOMPARE_GE(area(Side::Shrink), expected - slack);
    }

    void equalWidths_areTheOneWidth() {
        const model::LineString line{{10.0, 47.0}, {10.01, 47.0}, {10.01, 47.01}};
        for (const Side side : {Side::Grow, Side::Shrink})
            QVERIFY(geometry::grown(line, Length::metres(30), Length::metres(30), side) ==
                    geometry::grown(line, Length::metres(30), side));
    }

    void aLineOfOnePlace_hasNoSides() {
        const model::LineString line{{10.0, 47.0}, {10.0, 47.0}};
        QVERIFY(geometry::grown(line, Length::metres(10), Length::metres(30), Side::Grow) ==
                geometry::grown(line, Length::metres(30), Side::Grow));
        QVERIFY(geometry::grown(line, Length::metres(10), Length::metres(30), Side::Shrink) ==
                geometry::grown(line, Length::metres(10), Side::Shrink));
        QVERIFY(geometry::grown({}, Length::metres(10), Length::metres(30), Side::Grow).empty());
    }

    void aLineTooLargeForOneFrame_isCut() {
        const model::LineString line{{10.0, 60.0}, {12.0, 61.0}, {14.0, 60.5}};
        const auto outer = geometry::grown(line, Length::metres(2000), Length::metres(500), Side::Grow);
        const auto inner = geometry::grown(line, Length::metres(2000), Length::metres(500), Side::Shrink);
        QVERIFY(allValid(outer) && allValid(inner));
        QCOMPARE(outer.parts.size(), std::size_t{1});
        QCOMPARE(inner.parts.size(), std::size_t{1}); // no slits where frames meet
        QVERIFY(geometry::contains(outer, inner));
        const geometry::PreparedSurface inOuter{outer}, inInner{inner};
        const Definition definition{line, 2000.0, 500.0};
        tests::RandomGeometry random{9};
        for (int i = 0; i < 2000; ++i) {
            const Position place = somewhere(random, line, 2000.0, 500.0);
            QVERIFY2(!definition.grows(place) || inOuter.contains(place), described(9, line, 2000, 500, place));
            QVERIFY2(definition.shrinks(place) || !inInner.contains(place), described(9, line, 2000, 500, place));
        }
    }

    void whatCannotBeKept_isRefused() {
        const model::LineString line{{10.0, 47.0}, {10.01, 47.0}};
        for (const double wrong : {-1.0, 300'000.0, double(NAN), double(INFINITY)}) {
            QVERIFY_EXCEPTION_THROWN((void)geometry::grown(line, Length::metres(wrong), Length::metres(5), Side::Grow),
                                     Fault);
            QVERIFY_EXCEPTION_THROWN(
                (void)geometry::grown(line, Length::metres(5), Length::metres(wrong), Side::Shrink), Fault);
        }
        QVERIFY_EXCEPTION_THROWN(
            (void)geometry::grown({{10.0, 89.5}, {10.1, 89.5}}, Length::metres(1), Length::metres(5), Side::Grow),
            Fault);
    }
};

QTEST_APPLESS_MAIN(CorridorTest)
#include "corridor_test.moc"
