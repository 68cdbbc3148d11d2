#include "geometry/boundary_net.h"

#include "geodesy/geodesic.h"
#include "support/random_geometry.h"

#include <QtTest>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace fencewright;
using namespace fencewright::geometry;
using model::LineString;
using model::Position;

namespace {

/// Parcels between streets that run north and east, at uneven distances: neighbours share their corners.
struct Grid {
    std::vector<double> lons, lats;
    std::vector<LineString> rings;

    Position at(std::size_t column, std::size_t row) const { return {lons[column], lats[row]}; }
    std::vector<BoundaryLine> lines() const {
        std::vector<BoundaryLine> all;
        for (const LineString& ring : rings)
            all.push_back({ring, true});
        return all;
    }
};
/// @param bricks  every second row has one parcel over two columns: corners of others lie on its edges.
Grid gridAt(tests::RandomGeometry& random, bool bricks) {
    Grid grid;
    const auto streets = [&](std::vector<double>& at, double first) {
        at.push_back(first);
        for (int i = random.whole(2, 4); i > 0; --i)
            at.push_back(at.back() + random.between(0.0002, 0.002));
    };
    streets(grid.lons, random.between(-179.0, 179.9));
    streets(grid.lats, random.between(-70.0, 70.0));
    for (std::size_t row = 0; row + 1 < grid.lats.size(); ++row)
        for (std::size_t column = 0; column + 1 < grid.lons.size(); ++column) {
            const std::size_t last = bricks && row % 2 == 1 && column + 2 < grid.lons.size() ? column + 2 : column + 1;
            LineString ring{grid.at(column, row), grid.at(last, row), grid.at(last, row + 1), grid.at(column, row + 1)};
            if (random.chance(0.5))
                std::reverse(ring.begin(), ring.end());
            std::rotate(ring.begin(), ring.begin() + random.whole(0, 3), ring.end());
            // Written on another turn of longitude, as a layer across the antimeridian is.
            if (random.chance(0.3))
                for (Position& corner : ring)
                    corner.lon += 360.0;
            grid.rings.push_back(std::move(ring));
            column = last - 1;
        }
    return grid;
}

/// All ways through a grid of streets by the method of Floyd and Warshall, over the crossings alone: knows nothing of
/// rings. Along a parallel an edge that is straight in degrees is longer than the geodesic, by 1e-8 of it at these
/// lengths; both are measured by pieces between crossings.
class Streets {
public:
    explicit Streets(const Grid& grid, bool bricks) : m_columns{grid.lons.size()} {
        const std::size_t count = m_columns * grid.lats.size();
        m_metres.assign(count, std::vector<double>(count, std::numeric_limits<double>::infinity()));
        const auto lay = [&](std::size_t c1, std::size_t r1, std::size_t c2, std::size_t r2) {
            const double metres = geodesy::inverse(grid.at(c1, r1), grid.at(c2, r2)).length.inMetres();
            m_metres[number(c1, r1)][number(c2, r2)] = m_metres[number(c2, r2)][number(c1, r1)] = metres;
        };
        const auto hasWall = [&](std::size_t column, std::size_t row) { // between (column, row) and (column, row + 1)
            if (!bricks || row % 2 == 0)
                return true;
            return column % 2 == 0 || column + 1 == m_columns;
        };
        for (std::size_t row = 0; row < grid.lats.size(); ++row)
            for (std::size_t column = 0; column < m_columns; ++column) {
                m_metres[number(column, row)][number(column, row)] = 0.0;
                if (column + 1 < m_columns)
                    lay(column, row, column + 1, row);
                if (row + 1 < grid.lats.size() && hasWall(column, row))
                    lay(column, row, column, row + 1);
            }
        for (std::size_t k = 0; k < count; ++k)
            for (std::size_t i = 0; i < count; ++i)
                for (std::size_t j = 0; j < count; ++j)
                    m_metres[i][j] = std::min(m_metres[i][j], m_metres[i][k] + m_metres[k][j]);
    }
    double metres(std::size_t c1, std::size_t r1, std::size_t c2, std::size_t r2) const {
        return m_metres[number(c1, r1)][number(c2, r2)];
    }

private:
    std::size_t number(std::size_t column, std::size_t row) const { return row * m_columns + column; }

    std::size_t m_columns;
    std::vector<std::vector<double>> m_metres;
};

} // namespace

class BoundaryNetTest : public QObject {
    Q_OBJECT

private slots:
    void ways_throughAGrid_areTheShortestThereAre_data() {
        QTest::addColumn<bool>("bricks");
        QTest::newRow("shared corners") << false;
        QTest::newRow("corners on edges") << true;
    }
    void ways_throughAGrid_areTheShortestThereAre() {
        QFETCH(bool, bricks);
        int changing = 0;
        for (unsigned seed = 0; seed < 150; ++seed) {
            tests::RandomGeometry random{seed};
            const Grid grid = gridAt(random, bricks);
            const BoundaryNet net{grid.lines()};
            const Streets streets{grid, bricks};
            for (int round = 0; round < 10; ++round) {
                const auto pick = [&](std::size_t size) { return std::size_t(random.whole(0, int(size) - 1)); };
                const std::size_t c1 = pick(grid.lons.size()), r1 = pick(grid.lats.size()), c2 = pick(grid.lons.size()),
                                  r2 = pick(grid.lats.size());
                const Position from = grid.at(c1, r1), to = grid.at(c2, r2);
                const auto way = net.way(net.standsOn(from), net.standsOn(to));
                const QByteArray which = "seed " + QByteArray::number(seed) + " round " + QByteArray::number(round);
                QVERIFY2(way, which);
                const double metres = streets.metres(c1, r1, c2, r2);
                // A change of line counts as a centimetre, so of several ways a longer one may be taken by as much.
                const double allowed = 0.01 * double(grid.rings.size()) + 1e-4;
                QVERIFY2(way->length.inMetres() >= metres - 1e-4, which);
                QVERIFY2(way->length.inMetres() <= metres + allowed, which);
                LineString whole = net.cornersOf(*way);
                for (const Position& corner : whole) {
                    const bool known = std::any_of(grid.rings.begin(), grid.rings.end(), [&](const LineString& ring) {
                        return std::find(ring.begin(), ring.end(), corner) != ring.end();
                    });
                    QVERIFY2(known, which); // to the last bit
                }
                whole.insert(whole.begin(), from);
                whole.push_back(to);
                double told = 0.0;
                for (std::size_t i = 1; i < whole.size(); ++i) {
                    const Position b{whole[i - 1].lon + std::remainder(whole[i].lon - whole[i - 1].lon, 360.0),
                                     whole[i].lat};
                    told += geodesy::inverse(whole[i - 1], b).length.inMetres();
                }
                QVERIFY2(std::abs(told - way->length.inMetres()) < 1e-3, which);
                changing += way->stretches.size() > 1 ? 1 : 0;
            }
        }
        QVERIFY2(changing > 500, qPrintable(QString::number(changing)));
    }

    void otherWay_setsOutElsewhere_andArrives() {
        const LineString west{{0.0, 0.0}, {0.001, 0.0}, {0.001, 0.001}, {0.0, 0.001}},
            east{{0.001, 0.0}, {0.002, 0.0}, {0.002, 0.001}, {0.001, 0.001}};
        const BoundaryNet net{{{west}, {east}}};
        const auto from = net.standsOn({0.0, 0.0004}), to = net.standsOn({0.002, 0.0004});
        const auto shortest = net.way(from, to), other = net.way(from, to, BoundaryNet::Round::Other);
        QVERIFY(shortest && other);
        QVERIFY((net.cornersOf(*shortest) == LineString{{0.0, 0.0}, {0.001, 0.0}, {0.002, 0.0}}));
        QVERIFY((net.cornersOf(*other) == LineString{{0.0, 0.001}, {0.001, 0.001}, {0.002, 0.001}}));
        QVERIFY(other->length > shortest->length);
        // From the corner that both share there are three edges to set out along, and the wall is one of both.
        const auto shared = net.standsOn({0.001, 0.0}), top = net.standsOn({0.001, 0.001});
        QVERIFY(net.cornersOf(*net.way(shared, top)).empty());
        QCOMPARE(net.cornersOf(*net.way(shared, top, BoundaryNet::Round::Other)).size(), std::size_t{2});
    }

    void cornersThatMissEachOther_areBothTaken() {
        // Two records of one corner, two millimetres apart.
        constexpr double apart = 1.8e-8;
        const LineString west{{0.0, 0.0}, {0.001, 0.0}, {0.001, 0.001}, {0.0, 0.001}},
            east{{0.001, -apart}, {0.002, 0.0}, {0.002, 0.001}, {0.001, 0.001}};
        const BoundaryNet net{{{west}, {east}}};
        const auto way = net.way(net.standsOn(west[0]), net.standsOn(east[1]));
        QVERIFY(way);
        QVERIFY((net.cornersOf(*way) == LineString{west[1], east[0]}));
        // Farther apart than what stands on a line they do not touch there.
        const LineString far{{0.001, -0.0001}, {0.002, 0.0}, {0.002, 0.001}, {0.0015, 0.0011}};
        const BoundaryNet apartNet{{{west}, {far}}};
        QVERIFY(!apartNet.way(apartNet.standsOn(west[0]), apartNet.standsOn(far[1])));
    }

    void crossingEdges_leadFromOneToTheOther() {
        const LineString flat{{0.0, 0.0}, {0.003, 0.0}}, steep{{0.001, -0.001}, {0.002, 0.001}};
        const BoundaryNet net{{{flat, false}, {steep, false}}};
        const auto way = net.way(net.standsOn(flat[0]), net.standsOn(steep[1]));
        QVERIFY(way);
        const LineString corners = net.cornersOf(*way);
        QCOMPARE(corners.size(), std::size_t{1});
        QVERIFY(std::abs(corners[0].lon - 0.0015) < 1e-15 && std::abs(corners[0].lat) < 1e-15);
    }

    void typedLength_endsOnTheWay_orGoesOnAlongTheLastLine() {
        const LineString west{{0.0, 0.0}, {0.001, 0.0}, {0.001, 0.001}, {0.0, 0.001}},
            east{{0.001, 0.0}, {0.002, 0.0}, {0.002, 0.001}, {0.001, 0.001}};
        const BoundaryNet net{{{west}, {east}}};
        const auto way = net.way(net.standsOn(west[0]), net.standsOn(east[1]));
        QVERIFY(way);
        // A degree of the equator: 111,319.49079 m (WGS 84, NIMA TR8350.2: a = 6378137 m; a pi / 180).
        constexpr double metresPerDegree = 111319.49079327358;
        const auto end = [&](double metres) {
            const auto made = net.cutOrDrawnTo(*way, Length::metres(metres));
            return made ? placeOn(net.lines()[made->stretches.back().to.line], made->stretches.back().to) : Position{};
        };
        QVERIFY(std::abs(end(0.0005 * metresPerDegree).lon - 0.0005) < 1e-12);
        QVERIFY(std::abs(end(0.0015 * metresPerDegree).lon - 0.0015) < 1e-12);
        const Position beyond = end(0.002 * metresPerDegree + 10.0);
        QVERIFY(beyond.lon == 0.002 && beyond.lat > 0.00008 && beyond.lat < 0.0001); // 10 m up the east side
        QVERIFY(!net.cutOrDrawnTo(*way, Length::kilometres(5)));
    }
};

QTEST_GUILESS_MAIN(BoundaryNetTest)
#include "boundary_net_test.moc"
