#include "session/background_jobs.h"

#include <QSignalSpy>
#include <QtTest>

#include <atomic>
#include <mutex>
#include <set>
#include <thread>

using namespace fencewright;
using session::BackgroundJob;
using session::BackgroundJobs;

class BackgroundJobsTest : public QObject {
    Q_OBJECT

private slots:
    void result_comesBackInTheWindowsThread() {
        BackgroundJobs jobs;
        std::thread::id where;
        int answer = 0;
        jobs.start(
            "Add", [](const Progress&) { return 40 + 2; },
            [&](int result) {
                answer = result;
                where = std::this_thread::get_id();
            },
            [](const Fault&) { QFAIL("it does not fail"); });
        QTRY_COMPARE(answer, 42);
        QVERIFY(where == std::this_thread::get_id());
        QVERIFY(jobs.running().empty());
    }

    void preparedThreads_areThoseThatWork() {
        BackgroundJobs jobs;
        std::mutex mutex;
        std::set<std::thread::id> prepared;
        jobs.prepareThreads([&] {
            const std::lock_guard lock{mutex};
            prepared.insert(std::this_thread::get_id());
        });
        const auto count = [&] {
            const std::lock_guard lock{mutex};
            return prepared.size();
        };
        QTRY_VERIFY(count() >= 1);
        int done = 0;
        for (int i = 0; i < 20; ++i)
            jobs.start(
                "Look", [](const Progress&) { return std::this_thread::get_id(); },
                [&](std::thread::id worker) {
                    const std::lock_guard lock{mutex};
                    QVERIFY(prepared.contains(worker));
                    ++done;
                },
                [](const Fault&) { QFAIL("it does not fail"); });
        QTRY_COMPARE(done, 20);
    }

    void fault_isTold() {
        BackgroundJobs jobs;
        QString words;
        jobs.start(
            "Fail",
            [](const Progress&) -> int {
                throw Fault{"It is broken.", "file.txt", "Mend it."};
            },
            [](int) { QFAIL("it fails"); }, [&](const Fault& fault) { words = fault.what(); });
        QTRY_COMPARE(words, "file.txt: It is broken. Mend it.");
    }

    void cancel_stopsTheWork_andNeitherEndIsTold() {
        BackgroundJobs jobs;
        QSignalSpy idle{&jobs, &BackgroundJobs::idle};
        std::atomic<bool> stopped = false;
        bool told = false;
        BackgroundJob* job = jobs.start(
            "Long",
            [&](const Progress& progress) -> int {
                try {
                    for (;;) {
                        progress.report(0.5, "working");
                        std::this_thread::sleep_for(std::chrono::milliseconds{1});
                    }
                } catch (const Cancelled&) {
                    stopped = true;
                    throw;
                }
            },
            [&](int) { told = true; }, [&](const Fault&) { told = true; });
        QSignalSpy progressed{job, &BackgroundJob::progressed};
        QTRY_VERIFY(!progressed.isEmpty());
        QCOMPARE(progressed[0][0].toDouble(), 0.5);
        QCOMPARE(progressed[0][1].toString(), "working");
        job->cancel();
        QTRY_COMPARE(idle.count(), 1);
        QVERIFY(stopped);
        QVERIFY(!told);
    }

    void destruction_waitsForTheWork() {
        std::atomic<bool> ended = false;
        {
            BackgroundJobs jobs;
            std::atomic<bool> begun = false;
            jobs.start(
                "Long",
                [&](const Progress& progress) -> int {
                    begun = true;
                    try {
                        for (;;)
                            progress.report(0, "");
                    } catch (const Cancelled&) {
                        ended = true;
                        throw;
                    }
                },
                [](int) {}, [](const Fault&) {});
            QTRY_VERIFY(begun);
        }
        QVERIFY(ended);
    }
};

QTEST_GUILESS_MAIN(BackgroundJobsTest)
#include "background_jobs_test.moc"
