#include "geometry/spatial_index.h"

#include <QtTest>

#include <random>

using namespace fencewright;
using geometry::Box;

class SpatialIndexTest : public QObject {
    Q_OBJECT

private slots:
    void meeting_agreesWithLookingAtEachBox() {
        std::size_t found = 0;
        for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
            std::mt19937_64 random{seed};
            std::uniform_int_distribution<int> cell(-9, 9), size(0, 3);
            std::vector<Box> boxes(static_cast<std::size_t>(seed % 300));
            for (auto& box : boxes) {
                const int x = cell(random), y = cell(random);
                if (size(random) == 0 && cell(random) > 7)
                    continue; // an empty box meets nothing
                box.add(x, y);
                box.add(x + size(random), y + size(random));
            }
            const geometry::SpatialIndex index{boxes};
            for (int i = 0; i < 20; ++i) {
                Box window;
                window.add(cell(random), cell(random));
                window.add(cell(random), cell(random));
                std::vector<std::size_t> expected;
                for (std::size_t k = 0; k < boxes.size(); ++k)
                    if (!boxes[k].empty() && boxes[k].meets(window))
                        expected.push_back(k);
                found += expected.size();
                QVERIFY2(index.meeting(window) == expected, qPrintable(QString{"seed %1"}.arg(seed)));
            }
        }
        QVERIFY(found > 100000);
    }

    // So many that they are sorted by digits and on two threads.
    void meeting_agreesWithLookingAtEachOfMany() {
        for (const std::size_t count : {1023, 1024, 4097, 70'000, 200'003}) {
            std::mt19937_64 random{count};
            std::uniform_real_distribution<double> place(-180.0, 180.0), size(0.0, 1.0);
            std::vector<Box> boxes(count);
            for (std::size_t i = 0; i < count; ++i)
                if (i % 50 != 7) {
                    boxes[i].add(place(random), place(random) / 2);
                    boxes[i].add(boxes[i].minX + size(random), boxes[i].minY + size(random));
                }
            const geometry::SpatialIndex index{boxes};
            for (int i = 0; i < 100; ++i) {
                Box window;
                window.add(place(random), place(random) / 2);
                window.add(window.minX + 20 * size(random), window.minY + 20 * size(random));
                std::vector<std::size_t> expected;
                for (std::size_t k = 0; k < boxes.size(); ++k)
                    if (!boxes[k].empty() && boxes[k].meets(window))
                        expected.push_back(k);
                QVERIFY2(index.meeting(window) == expected, qPrintable(QString{"%1 boxes"}.arg(count)));
            }
        }
    }

    void meeting_ofNothing() {
        QVERIFY(geometry::SpatialIndex{}.meeting({0, 0, 1, 1}).empty());
        const std::vector<Box> one{{0, 0, 1, 1}};
        QCOMPARE(geometry::SpatialIndex{one}.meeting({1, 1, 2, 2}).size(), std::size_t{1});
        QVERIFY(geometry::SpatialIndex{one}.meeting(Box{}).empty());
    }
};

QTEST_APPLESS_MAIN(SpatialIndexTest)
#include "spatial_index_test.moc"
