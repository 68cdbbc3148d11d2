#include "desktop/canvas/tile_queue.h"

#include "fault.h"

#include <QElapsedTimer>
#include <QSemaphore>
#include <QtTest>

#include <mutex>
#include <set>
#include <thread>

using namespace fencewright;
using namespace fencewright::desktop;

namespace {

using Lane = TileJob::Lane;

TileKey keyOf(int x) {
    TileKey key;
    key.x = x;
    return key;
}

/// Notes which tiles were begun, in order.
class Begun {
public:
    void add(int x) {
        const std::lock_guard lock{m_mutex};
        m_all.push_back(x);
    }
    std::vector<int> all() const {
        const std::lock_guard lock{m_mutex};
        return m_all;
    }

private:
    mutable std::mutex m_mutex;
    std::vector<int> m_all;
};

/// Takes a thread, and keeps it until it is told or stopped.
TileJob holding(int x, QSemaphore& begun, std::atomic<bool>& go, std::atomic<int>* cancelled = nullptr) {
    return {keyOf(x), Lane::Local, -1, 0.0, [&begun, &go, cancelled](TileBench&, const Progress& progress) {
                begun.release();
                try {
                    while (!go)
                        progress.report(0.0, "");
                } catch (const Cancelled&) {
                    if (cancelled)
                        ++*cancelled;
                    throw;
                }
                return QImage{};
            }};
}

} // namespace

class TileQueueTest : public QObject {
    Q_OBJECT

    const int m_workers = TileQueue::workersOf(Lane::Local);

private slots:
    void startedThreads_doThePreparationFirst_andThenTheWork() {
        TileQueue queue;
        std::mutex mutex;
        std::set<std::thread::id> prepared;
        queue.start(Lane::Local, [&] {
            const std::lock_guard lock{mutex};
            prepared.insert(std::this_thread::get_id());
        });
        const auto count = [&] {
            const std::lock_guard lock{mutex};
            return int(prepared.size());
        };
        QTRY_COMPARE(count(), m_workers);
        queue.start(Lane::Local, [] { QFAIL("they are started already"); });
        int made = 0;
        const TileQueue::Client client = queue.join([&](const MadeTile&) { ++made; });
        bool isPrepared = false;
        queue.want(client, {{keyOf(1), Lane::Local, 0, 0.0, [&](TileBench&, const Progress&) {
                                 const std::lock_guard lock{mutex};
                                 isPrepared = prepared.contains(std::this_thread::get_id());
                                 return QImage{};
                             }}});
        QTRY_COMPARE(made, 1);
        QVERIFY(isPrepared);
    }

    void coarsestComesFirst_thenTheNearest() {
        TileQueue queue;
        Begun begun;
        int made = 0;
        const auto client = queue.join([&](MadeTile) { ++made; });
        QSemaphore held;
        std::atomic<bool> go = false, goLast = false;
        // All threads but one are kept busy, so that the rest come one by one.
        std::vector<TileJob> jobs;
        for (int i = 0; i < m_workers; ++i)
            jobs.push_back(holding(-1 - i, held, i == 0 ? go : goLast));
        queue.want(client, jobs);
        QTRY_VERIFY(held.available() >= m_workers);
        held.acquire(m_workers);
        const auto job = [&](int x, int stage, double distance) {
            return TileJob{keyOf(x), Lane::Local, stage, distance, [x, &begun](TileBench&, const Progress&) {
                               begun.add(x);
                               return QImage{};
                           }};
        };
        for (const TileJob& one :
             {job(5, 1, 90.0), job(3, 1, 10.0), job(2, 0, 700.0), job(1, 0, 20.0), job(4, 1, 40.0)})
            jobs.push_back(one);
        queue.want(client, jobs);
        go = true;
        QTRY_COMPARE(made, 6);
        QCOMPARE(begun.all(), (std::vector{1, 2, 3, 4, 5}));
        goLast = true;
    }

    void whatNoViewWants_isNotBegun_andStopsWhereItIsUnderWay() {
        TileQueue queue;
        std::vector<int> made;
        const auto client = queue.join([&](MadeTile tile) { made.push_back(tile.key.x); });
        QSemaphore held;
        std::atomic<bool> never = false;
        std::atomic<int> cancelled = 0;
        Begun begun;
        std::vector<TileJob> first;
        for (int i = 0; i < m_workers; ++i)
            first.push_back(holding(-1 - i, held, never, &cancelled));
        const auto job = [&begun](int x) {
            return TileJob{keyOf(x), Lane::Local, 1, 0.0, [x, &begun](TileBench&, const Progress&) {
                               begun.add(x);
                               return QImage{};
                           }};
        };
        for (int x = 0; x < 20; ++x)
            first.push_back(job(x));
        queue.want(client, first);
        QTRY_VERIFY(held.available() >= m_workers);
        held.acquire(m_workers);
        queue.want(client, {job(100)});
        QTRY_COMPARE(made, std::vector{100});
        QCOMPARE(cancelled.load(), m_workers);
        QCOMPARE(begun.all(), std::vector{100});
    }

    void whatIsUnderWay_goesOnWhileItIsWanted() {
        TileQueue queue;
        int made = 0;
        const auto client = queue.join([&](MadeTile) { ++made; });
        QSemaphore begun;
        std::atomic<bool> go = false;
        for (int i = 0; i < 5; ++i)
            queue.want(client, {holding(1, begun, go)});
        QTRY_VERIFY(begun.available() >= 1);
        begun.acquire();
        for (int i = 0; i < 5; ++i)
            queue.want(client, {holding(1, begun, go)});
        go = true;
        QTRY_COMPARE(made, 1);
        // Made, and asked for once more before it was delivered: it is not made twice.
        QTest::qWait(50);
        QCOMPARE(made, 1);
        QCOMPARE(begun.available(), 0);
    }

    void servers_doNotHoldUpTheDisk() {
        TileQueue queue;
        std::vector<int> made;
        const auto client = queue.join([&](MadeTile tile) { made.push_back(tile.key.x); });
        QSemaphore held;
        std::atomic<bool> go = false;
        std::vector<TileJob> jobs;
        for (int i = 0; i < 40; ++i) {
            jobs.push_back(holding(-1 - i, held, go));
            jobs.back().lane = Lane::Server;
        }
        jobs.push_back({keyOf(7), Lane::Local, 1, 1e6, [](TileBench&, const Progress&) { return QImage{}; }});
        queue.want(client, jobs);
        QTRY_VERIFY(held.available() >= TileQueue::workersOf(Lane::Server));
        held.acquire(TileQueue::workersOf(Lane::Server));
        QTRY_COMPARE(made, std::vector{7});
        go = true;
    }

    void tilesComeInSmallPieces_betweenWhichTheWindowWorks() {
        TileQueue queue;
        int made = 0, atOnce = 0;
        const auto client = queue.join([&](MadeTile) {
            ++made;
            ++atOnce;
        });
        constexpr int count = 40;
        std::atomic<int> finished = 0;
        std::vector<TileJob> jobs;
        for (int x = 0; x < count; ++x)
            jobs.push_back({keyOf(x), Lane::Local, 1, double(x), [&finished](TileBench&, const Progress&) {
                                ++finished;
                                return QImage{};
                            }});
        queue.want(client, jobs);
        while (finished < count)
            QThread::msleep(1);
        QThread::msleep(20);
        int largest = 0;
        QElapsedTimer clock;
        clock.start();
        while (made < count && clock.elapsed() < 5000) {
            atOnce = 0;
            QCoreApplication::processEvents();
            largest = std::max(largest, atOnce);
        }
        QCOMPARE(made, count);
        QCOMPARE_LE(largest, 8); // one piece by event, one by timer
    }

    void aFault_comesWithItsWords() {
        TileQueue queue;
        QString words;
        const auto client = queue.join([&](MadeTile tile) { words = tile.fault; });
        queue.want(client, {{keyOf(1), Lane::Local, 0, 0.0, [](TileBench&, const Progress&) -> QImage {
                                 throw Fault{"The block is broken.", "a.tif", "Ask for another copy."};
                             }}});
        QTRY_VERIFY(!words.isEmpty());
        QVERIFY(words.contains("a.tif") && words.contains("broken") && words.contains("another copy"));
    }

    void whoLeaves_hearsNothing_andTheQueueEndsAtOnce() {
        int made = 0;
        QSemaphore begun;
        std::atomic<bool> go = false, never = false;
        QElapsedTimer clock;
        {
            TileQueue queue;
            const auto client = queue.join([&](MadeTile) { ++made; });
            queue.want(client, {holding(1, begun, go)});
            QTRY_VERIFY(begun.available() >= 1);
            begun.acquire();
            go = true;
            QThread::msleep(20);
            queue.leave(client);
            QTest::qWait(20);
            const auto other = queue.join([&](MadeTile) { ++made; });
            queue.want(other, {holding(2, begun, never)});
            QTRY_VERIFY(begun.available() >= 1);
            begun.acquire();
            clock.start();
        }
        QCOMPARE_LE(clock.elapsed(), 2000);
        QCOMPARE(made, 0);
    }

    void whatIsOpenAlready_isNotOpenedAgain() {
        const QTemporaryDir folder;
        const QString file = folder.filePath("photo.tif");
        QVERIFY(QFile::copy(FENCEWRIGHT_TEST_DATA "/imagery/rasterio_RGB.byte.tif", file));
        const std::string path = file.toStdString();
        raster::OpenOptions other;
        other.crs = "EPSG:25829";
        const auto spare = std::make_shared<session::SpareDataset>(raster::Dataset{path}, path, raster::OpenOptions{});
        QVERIFY(QFile::remove(file)); // whoever opens it now cannot
        TileBench first, second;
        const auto otherwise = std::make_shared<const RasterOpening>(path, other, spare);
        QVERIFY_EXCEPTION_THROWN((void)first.dataset(otherwise), Fault);
        const auto opening = std::make_shared<const RasterOpening>(path, raster::OpenOptions{}, spare);
        QCOMPARE(first.dataset(opening).description().bands.size(), std::size_t{3});
        QCOMPARE(&first.dataset(opening), &first.dataset(opening));
        // One thread alone may have it.
        QVERIFY_EXCEPTION_THROWN((void)second.dataset(opening), Fault);
    }
};

QTEST_MAIN(TileQueueTest)
#include "tile_queue_test.moc"
