#include "geometry/hilbert_curve.h"

#include "geometry/hilbert_order.h"

#include <QtTest>

#include <algorithm>
#include <numeric>
#include <random>

using namespace fencewright;
using geometry::Box;

namespace {

/// Source: Warren, "Hacker's Delight" (2nd ed. 2012), chapter 16: from coordinates to the place, one bit at a time.
std::uint32_t placeBitByBit(std::uint32_t x, std::uint32_t y) {
    std::uint32_t place = 0;
    for (std::uint32_t s = 1u << 15; s > 0; s /= 2) {
        const std::uint32_t right = (x & s) ? 1u : 0u, upper = (y & s) ? 1u : 0u;
        place += s * s * ((3u * right) ^ upper);
        if (upper == 0) {
            if (right == 1) {
                x = 65535u - x;
                y = 65535u - y;
            }
            std::swap(x, y);
        }
    }
    return place;
}

} // namespace

class HilbertCurveTest : public QObject {
    Q_OBJECT

private slots:
    void hilbertPlace_isThatOfTheBookForEveryCellAlongBordersAndManyElsewhere() {
        std::mt19937 random{17};
        for (std::uint32_t i = 0; i < 65536; ++i)
            for (const auto& [x, y] : {std::pair{i, 0u}, {i, 65535u}, {0u, i}, {65535u, i}, {i, i}, {i, 65535u - i}})
                QCOMPARE(geometry::hilbertPlace(x, y), placeBitByBit(x, y));
        for (int i = 0; i < 1'000'000; ++i) {
            const std::uint32_t x = random() % 65536, y = random() % 65536;
            QCOMPARE(geometry::hilbertPlace(x, y), placeBitByBit(x, y));
        }
    }

    // What makes it the curve: it passes through each cell of a square once, and from cell to neighbouring cell
    // (Hilbert, "Ueber die stetige Abbildung einer Linie auf ein Flaechenstueck", Math. Ann. 38, 1891).
    void hilbertPlace_goesFromNeighbourToNeighbour() {
        constexpr std::uint32_t side = 256;
        std::vector<std::pair<std::uint32_t, std::uint32_t>> cells(std::size_t{side} * side, {side, side});
        for (std::uint32_t x = 0; x < side; ++x)
            for (std::uint32_t y = 0; y < side; ++y) {
                const std::uint32_t place = geometry::hilbertPlace(x, y);
                QVERIFY(place < cells.size());
                QCOMPARE(cells[place].first, side);
                cells[place] = {x, y};
            }
        for (std::size_t i = 1; i < cells.size(); ++i)
            QCOMPARE(std::abs(int(cells[i].first) - int(cells[i - 1].first)) +
                         std::abs(int(cells[i].second) - int(cells[i - 1].second)),
                     1);
    }

    // Against the standard library's stable sort: of few (compared) and of many (by digits, on two threads).
    void hilbertOrder_isStable() {
        for (const std::size_t count : {0, 1, 2, 17, 1023, 1024, 1025, 4095, 4096, 4097, 50'000})
            for (std::uint64_t seed = 1; seed <= 100; ++seed) {
                std::mt19937_64 random{seed};
                // Cells of the curve themselves: 65,535 wide, so that no rounding stands between a box and its cell.
                std::uniform_int_distribution<int> cell(0, seed % 2 ? 65535 : 3), often(0, 9);
                std::vector<Box> boxes(count);
                for (Box& box : boxes)
                    if (const int x = cell(random), y = cell(random); often(random) > 0)
                        box = {double(x), double(y), double(x), double(y)};
                if (count > 1) {
                    boxes.front() = {0, 0, 0, 0};
                    boxes.back() = {65535, 65535, 65535, 65535};
                }
                const auto placeOf = [&](std::uint32_t i) {
                    return boxes[i].empty() || count < 2
                               ? 0
                               : placeBitByBit(std::uint32_t(boxes[i].minX), std::uint32_t(boxes[i].minY));
                };
                std::vector<std::uint32_t> expected(count);
                std::iota(expected.begin(), expected.end(), 0u);
                std::stable_sort(expected.begin(), expected.end(),
                                 [&](std::uint32_t a, std::uint32_t b) { return placeOf(a) < placeOf(b); });
                QVERIFY2(geometry::hilbertOrder(boxes) == expected,
                         qPrintable(QString{"%1 boxes, seed %2"}.arg(count).arg(seed)));
                if (count > 10'000 && seed == 10)
                    break;
            }
    }
};

QTEST_APPLESS_MAIN(HilbertCurveTest)
#include "hilbert_curve_test.moc"
