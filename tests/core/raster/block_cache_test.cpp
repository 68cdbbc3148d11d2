#include "raster/block_cache.h"

#include "fault.h"
#include "raster/detail/block_parts.h"

#include <QtTest>

#include <atomic>
#include <random>
#include <thread>

using namespace fencewright;
using raster::BlockCache;
using raster::PaintedPixels;
using Parts = BlockCache::Parts;

namespace {

PaintedPixels blockOf(std::uint32_t value, int side = 8) {
    PaintedPixels block{side, side, std::make_shared<std::uint32_t[]>(static_cast<std::size_t>(side * side)), true};
    std::fill_n(block.words.get(), side * side, value);
    return block;
}

using namespace std::chrono_literals;

} // namespace

class BlockCacheTest : public QObject {
    Q_OBJECT

private slots:
    void block_isDecodedOnce() {
        Parts parts{1U << 20};
        int decoded = 0;
        const auto decode = [&] {
            ++decoded;
            return blockOf(7);
        };
        for (int round = 0; round < 3; ++round)
            QCOMPARE(parts.take({0, 0, 1, 2}, decode, {}).words[5], 7U);
        QCOMPARE(decoded, 1);
        (void)parts.take({0, 0, 2, 1}, decode, {});
        (void)parts.take({1, 0, 1, 2}, decode, {});
        (void)parts.take({0, 1, 1, 2}, decode, {});
        QCOMPARE(decoded, 4);
    }
    void cache_staysWithinItsLimit() {
        Parts parts{100'000};
        int decoded = 0;
        const auto take = [&](int column) {
            return parts.take({0, 0, column, 0},
                              [&] {
                                  ++decoded;
                                  return blockOf(static_cast<std::uint32_t>(column), 32); // 4 kB
                              },
                              {});
        };
        for (int column = 0; column < 200; ++column) {
            QCOMPARE(take(column).words[0], static_cast<std::uint32_t>(column));
            (void)take(0); // what is used stays
            QCOMPARE_LE(parts.bytes, std::size_t{100'000});
        }
        QCOMPARE(decoded, 200);
        (void)take(1);
        QCOMPARE(decoded, 201);
        // Larger than all of it: delivered, not kept.
        QCOMPARE(parts.take({0, 1, 0, 0}, [] { return blockOf(3, 200); }, {}).words[9], 3U);
        QCOMPARE_LE(parts.bytes, std::size_t{100'000});
        // Without a pixel, and yet not without bound.
        for (int column = 0; column < 2000; ++column)
            (void)parts.take({2, 0, column, 0}, [] { return PaintedPixels{8, 8, nullptr, false}; }, {});
        QCOMPARE_LE(parts.bytes, std::size_t{100'000});
    }
    void twoWhoWantOneBlock_waitForOneDecoding() {
        Parts parts{1U << 20};
        std::atomic<int> decoded = 0;
        const auto take = [&] {
            const auto block = parts.take({},
                                          [&] {
                                              ++decoded;
                                              std::this_thread::sleep_for(100ms);
                                              return blockOf(4);
                                          },
                                          {});
            return block.words[0];
        };
        std::uint32_t there = 0;
        std::thread other{[&] { there = take(); }};
        const std::uint32_t here = take();
        other.join();
        QCOMPARE(here, 4U);
        QCOMPARE(there, 4U);
        QCOMPARE(decoded.load(), 1);
    }
    void faultOfOne_isTheFaultOfAllWhoWait() {
        Parts parts{1U << 20};
        std::atomic<int> decoded = 0;
        std::atomic<bool> begun = false;
        std::atomic<int> faults = 0;
        const auto take = [&] {
            try {
                (void)parts.take({},
                                 [&]() -> PaintedPixels {
                                     ++decoded;
                                     begun = true;
                                     std::this_thread::sleep_for(150ms);
                                     throw Fault{"Damaged.", "here", "Mend it."};
                                 },
                                 {});
            } catch (const Fault& fault) {
                faults += fault.problem() == "Damaged." ? 1 : 0;
            }
        };
        std::thread first{take};
        while (!begun)
            std::this_thread::yield();
        std::thread second{take};
        std::thread third{take};
        for (std::thread* thread : {&first, &second, &third})
            thread->join();
        QCOMPARE(faults.load(), 3);
        QCOMPARE(decoded.load(), 1);
        // A file may be mended: the fault is not kept.
        QCOMPARE(parts.take({}, [] { return blockOf(1); }, {}).words[0], 1U);
    }
    void cancelledDecoding_isTakenOver() {
        Parts parts{1U << 20};
        std::atomic<bool> begun = false;
        std::atomic<bool> cancelled = false;
        std::thread first{[&] {
            try {
                (void)parts.take({},
                                 [&]() -> PaintedPixels {
                                     begun = true;
                                     std::this_thread::sleep_for(100ms);
                                     throw Cancelled{};
                                 },
                                 {});
            } catch (const Cancelled&) {
                cancelled = true;
            }
        }};
        while (!begun)
            std::this_thread::yield();
        QCOMPARE(parts.take({}, [] { return blockOf(6); }, {}).words[0], 6U);
        first.join();
        QVERIFY(cancelled);
    }
    void waitingOne_canBeCancelled() {
        Parts parts{1U << 20};
        std::atomic<bool> begun = false;
        std::thread first{[&] {
            (void)parts.take({},
                             [&] {
                                 begun = true;
                                 std::this_thread::sleep_for(500ms);
                                 return blockOf(2);
                             },
                             {});
        }};
        while (!begun)
            std::this_thread::yield();
        QElapsedTimer timer;
        timer.start();
        const Progress no{[](double, std::string_view) { return false; }};
        QVERIFY_EXCEPTION_THROWN((void)parts.take(
                                     {}, [] { return blockOf(3); }, no),
                                 Cancelled);
        QCOMPARE_LE(timer.elapsed(), 250);
        first.join();
        QCOMPARE(parts.take({}, [] { return blockOf(3); }, {}).words[0], 2U);
    }

    void threads_thatDecodeCancelAndFail_neverGetAWrongBlockNorStop_data() {
        QTest::addColumn<unsigned>("seed");
        for (unsigned seed : {1U, 20261125U, 77U})
            QTest::addRow("seed %u", seed) << seed;
    }
    void threads_thatDecodeCancelAndFail_neverGetAWrongBlockNorStop() {
        QFETCH(unsigned, seed);
        // Few blocks and little room, so that the threads meet.
        Parts parts{20 * 1024};
        std::atomic<int> wrong = 0;
        std::atomic<int> taken = 0;
        std::atomic<int> ended = 0;
        const auto work = [&](unsigned own) {
            std::mt19937 random{own};
            for (int round = 0; round < 4000; ++round) {
                const auto column = static_cast<int>(random() % 12);
                const auto fate = random() % 10;
                const auto pause = std::chrono::microseconds{random() % 20};
                int asked = 0;
                const Progress progress{[&](double, std::string_view) { return fate != 1 || ++asked < 2; }};
                try {
                    const auto block = parts.take(
                        {0, 0, column, 0},
                        [&] {
                            const auto until = std::chrono::steady_clock::now() + pause;
                            while (std::chrono::steady_clock::now() < until)
                                std::this_thread::yield();
                            if (fate == 0)
                                throw Cancelled{};
                            if (fate == 2)
                                throw Fault{"Damaged.", "", ""};
                            return blockOf(static_cast<std::uint32_t>(column), 24);
                        },
                        progress);
                    ++taken;
                    for (int index = 0; index < 24 * 24; index += 37)
                        wrong += block.words[static_cast<std::size_t>(index)] != static_cast<std::uint32_t>(column);
                } catch (const Fault&) {
                    ++ended;
                }
            }
        };
        std::vector<std::thread> threads;
        for (unsigned index = 0; index < 4; ++index)
            threads.emplace_back(work, seed * 4 + index);
        for (std::thread& thread : threads)
            thread.join();
        QCOMPARE(wrong.load(), 0);
        QCOMPARE(taken + ended, 16'000);
        QVERIFY(taken > 8000);
        QVERIFY(ended > 100);
        QCOMPARE_LE(parts.bytes, std::size_t{20 * 1024});
    }
};

QTEST_GUILESS_MAIN(BlockCacheTest)
#include "block_cache_test.moc"
