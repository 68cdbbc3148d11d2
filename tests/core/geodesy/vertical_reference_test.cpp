#include "geodesy/vertical_reference.h"

#include "fault.h"

#include <QtTest>

#include <bit>
#include <fstream>
#include <random>
#include <thread>

using namespace fencewright;
using geodesy::geoidSeparation;
using model::HeightLimit;
using model::HeightReference;
using model::Position;

namespace {

/// The grid file read a second way, byte by byte. GTX: four big-endian doubles (south, west, step in latitude, step in
/// longitude), two big-endian integers (rows, columns), then big-endian floats from the south-west corner on.
/// Layout: NOAA VDatum documentation, from memory; the file's size bears it out.
class RawGrid {
public:
    bool load(const char* path) {
        std::ifstream file{path, std::ios::binary};
        m_bytes.assign(std::istreambuf_iterator<char>{file}, {});
        if (m_bytes.size() < 40)
            return false;
        m_south = number<double, std::uint64_t>(0);
        m_west = number<double, std::uint64_t>(8);
        m_step = number<double, std::uint64_t>(16);
        m_rows = number<std::int32_t, std::uint32_t>(32);
        m_columns = number<std::int32_t, std::uint32_t>(36);
        return m_bytes.size() == 40 + 4 * static_cast<std::size_t>(m_rows) * static_cast<std::size_t>(m_columns);
    }
    double bilinear(Position place) const {
        const double x = (place.lon - m_west) / m_step;
        const double y = (place.lat - m_south) / m_step;
        const int column = static_cast<int>(std::floor(x));
        const int row = std::min(static_cast<int>(std::floor(y)), m_rows - 2);
        const double u = x - column;
        const double v = y - row;
        return (1 - u) * (1 - v) * node(column, row) + u * (1 - v) * node(column + 1, row) +
               (1 - u) * v * node(column, row + 1) + u * v * node(column + 1, row + 1);
    }

private:
    template <class T, class Bits> T number(std::size_t at) const {
        Bits bits = 0;
        for (std::size_t i = 0; i < sizeof(Bits); ++i)
            bits = static_cast<Bits>(bits << 8) | static_cast<unsigned char>(m_bytes[at + i]);
        return std::bit_cast<T>(bits);
    }
    double node(int column, int row) const {
        column %= m_columns;
        return static_cast<double>(
            number<float, std::uint32_t>(40 + 4 * static_cast<std::size_t>(row * m_columns + column)));
    }

    std::string m_bytes;
    double m_south = 0;
    double m_west = 0;
    double m_step = 0;
    std::int32_t m_rows = 0;
    std::int32_t m_columns = 0;
};

HeightLimit limit(double metres, HeightReference reference) { return {{Length::metres(metres), ""}, reference}; }

} // namespace

class VerticalReferenceTest : public QObject {
    Q_OBJECT

private slots:
    void geoidSeparation_matchesPublishedHeights_data() {
        QTest::addColumn<double>("lat");
        QTest::addColumn<double>("lon");
        QTest::addColumn<double>("metres");
        // Test places of NGA's EGM96 harmonic synthesis program (F477, file OUTPUT.DAT), from memory. The grid between
        // its nodes is a few centimetres off the harmonics.
        QTest::newRow("1") << 38.6281550 << 269.7791550 << -31.628;
        QTest::newRow("2") << -14.6212170 << 305.0211140 << -2.969;
        QTest::newRow("3") << 46.8743190 << 102.4487290 << -43.575;
        QTest::newRow("4") << -23.6174460 << 133.8747120 << 15.871;
        QTest::newRow("5") << 38.6254730 << 359.9995000 << 50.066;
        QTest::newRow("6") << -0.4667440 << 0.0023000 << 17.329;
    }
    void geoidSeparation_matchesPublishedHeights() {
        QFETCH(double, lat);
        QFETCH(double, lon);
        QFETCH(double, metres);
        const double read = geoidSeparation({lon, lat}).inMetres();
        QVERIFY2(std::abs(read - metres) < 0.1, qPrintable(QString::number(read)));
    }

    void geoidSeparation_matchesASecondReadingOfTheGrid() {
        RawGrid grid;
        if (!grid.load("/usr/share/proj/egm96_15.gtx"))
            QSKIP("the grid is not where Debian puts it");
        constexpr unsigned seed = 96;
        std::mt19937_64 random{seed};
        std::uniform_real_distribution<double> unit{-1.0, 1.0};
        for (int round = 0; round < 3000; ++round) {
            Position place{unit(random) * 180.0, unit(random) * 90.0};
            if (round % 10 == 0)
                place.lon = 180.0 - 0.3 * std::abs(unit(random)); // over the seam of the grid
            if (round % 11 == 0)
                place.lat = (unit(random) > 0 ? 1.0 : -1.0) * (90.0 - 0.3 * std::abs(unit(random)));
            const double read = geoidSeparation(place).inMetres();
            QVERIFY2(std::abs(read - grid.bilinear(place)) < 1e-3,
                     qPrintable(QString{"seed %1 round %2: %3, not %4, at %5 %6"}
                                    .arg(seed)
                                    .arg(round)
                                    .arg(read)
                                    .arg(grid.bilinear(place))
                                    .arg(place.lat)
                                    .arg(place.lon)));
            QVERIFY(std::abs(geoidSeparation({place.lon + 360.0, place.lat}).inMetres() - read) < 1e-6);
        }
    }

    void geoidSeparation_worksAtTheEndsOfTheGrid() {
        for (const Position place : {Position{180, 0}, Position{-180, 0}, Position{0, 90}, Position{0, -90},
                                     Position{180, 90}, Position{-180, -90}})
            QVERIFY(std::abs(geoidSeparation(place).inMetres()) < 110.0);
        QVERIFY(std::abs((geoidSeparation({180, 10}) - geoidSeparation({-180, 10})).inMetres()) < 1e-9);
        QVERIFY_EXCEPTION_THROWN((void)geoidSeparation({0, 91}), Fault);
        QVERIFY_EXCEPTION_THROWN((void)geoidSeparation({std::nan(""), 0}), Fault);
    }

    void geoidSeparation_worksInManyThreads() {
        const double expected = geoidSeparation({-8.7, 46.2}).inMetres();
        std::vector<double> read(4);
        {
            std::vector<std::jthread> threads;
            for (double& metres : read)
                threads.emplace_back([&metres] {
                    for (int i = 0; i < 1000; ++i)
                        metres = geoidSeparation({-8.7, 46.2}).inMetres();
                });
        }
        for (const double metres : read)
            QCOMPARE(metres, expected);
    }

    void heights_areRelated() {
        const Position place{-8.7, 46.2};
        const Length geoid = geoidSeparation(place);
        const geodesy::GroundHeight ground = [](Position) { return std::optional{Length::metres(480)}; };
        const geodesy::GroundHeight unknown = [](Position) { return std::optional<Length>{}; };

        QCOMPARE(geodesy::aboveEllipsoid(limit(120, HeightReference::Ellipsoid), place, {})->inMetres(), 120.0);
        QCOMPARE(geodesy::aboveEllipsoid(limit(120, HeightReference::MeanSeaLevel), place, {}),
                 Length::metres(120) + geoid);
        QCOMPARE(geodesy::aboveEllipsoid(limit(120, HeightReference::Ground), place, ground)->inMetres(), 600.0);
        QVERIFY(!geodesy::aboveEllipsoid(limit(120, HeightReference::Ground), place, unknown));
        QVERIFY(!geodesy::aboveEllipsoid(limit(120, HeightReference::Ground), place, {}));

        QCOMPARE(geodesy::aboveMeanSeaLevel(limit(120, HeightReference::MeanSeaLevel), place, {})->inMetres(), 120.0);
        QCOMPARE(geodesy::aboveMeanSeaLevel(limit(120, HeightReference::Ellipsoid), place, {}),
                 Length::metres(120) - geoid);
        QCOMPARE(geodesy::aboveMeanSeaLevel(limit(120, HeightReference::Ground), place, ground),
                 Length::metres(600) - geoid);
        QVERIFY(!geodesy::aboveMeanSeaLevel(limit(120, HeightReference::Ground), place, unknown));
    }
};

QTEST_APPLESS_MAIN(VerticalReferenceTest)
#include "vertical_reference_test.moc"
