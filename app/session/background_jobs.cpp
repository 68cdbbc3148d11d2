#include "session/background_jobs.h"

#include <QCoreApplication>

#include <algorithm>
#include <chrono>
#include <latch>

namespace fencewright::session {

BackgroundJobs::BackgroundJobs(QObject* parent) : QObject{parent} {
    m_pool.setMaxThreadCount(std::max(2, QThread::idealThreadCount()));
}

BackgroundJobs::~BackgroundJobs() {
    for (BackgroundJob* job : m_running)
        job->cancel();
    m_pool.waitForDone();
    qDeleteAll(m_running);
}

void BackgroundJobs::prepareThreads(const std::function<void()>& preparation) {
    m_pool.setExpiryTimeout(-1); // what a thread has prepared goes with it
    const auto arrived = std::make_shared<std::latch>(m_pool.maxThreadCount());
    for (int i = 0; i < m_pool.maxThreadCount(); ++i)
        m_pool.start([preparation, arrived] {
            preparation();
            arrived->arrive_and_wait(); // or one of them might do it twice, and another not at all
        });
}

BackgroundJob* BackgroundJobs::run(const QString& title, TypedWork work) {
    auto* job = new BackgroundJob{title};
    m_running.push_back(job);
    emit started(job);
    m_pool.start([this, job, stop = job->m_stop, work = std::move(work)] {
        using Clock = std::chrono::steady_clock;
        auto nextReport = Clock::now();
        const Progress progress{[&, job](double fraction, std::string_view doing) {
            if (const auto now = Clock::now(); now >= nextReport) {
                nextReport = now + std::chrono::milliseconds{50};
                const QString words = QCoreApplication::translate("core", std::string{doing}.c_str());
                QMetaObject::invokeMethod(
                    job, [job, fraction, words] { emit job->progressed(fraction, words); }, Qt::QueuedConnection);
            }
            return !stop->load();
        }};
        const std::function<void()> completion = stop->load() ? std::function<void()>{} : work(progress);
        // Queued on this object: when it is destroyed, the completion is dropped with it.
        QMetaObject::invokeMethod(
            this,
            [this, job, completion] {
                std::erase(m_running, job);
                if (completion && !job->isCancelled())
                    completion();
                emit job->finished();
                job->deleteLater();
                if (m_running.empty())
                    emit idle();
            },
            Qt::QueuedConnection);
    });
    return job;
}

} // namespace fencewright::session
