#pragma once

#include <QObject>
#include <QString>
#include <QThreadPool>

#include "fault.h"
#include "progress.h"

#include <atomic>
#include <functional>
#include <memory>
#include <type_traits>
#include <utility>
#include <vector>

namespace fencewright::session {

/// One piece of long work. Lives until its completion has been told, then goes by itself.
class BackgroundJob : public QObject {
    Q_OBJECT

public:
    QString title() const { return m_title; }
    /// Asks the work to stop; it does at its next report of progress. Neither `done` nor `failed` is called then.
    void cancel() { m_stop->store(true); }
    bool isCancelled() const { return m_stop->load(); }

signals:
    /// In the window's thread, at most some twenty times a second.
    void progressed(double fraction, const QString& doing);
    /// The last thing it says; the job is deleted afterwards.
    void finished();

private:
    friend class BackgroundJobs;
    explicit BackgroundJob(QString title) : m_title{std::move(title)}, m_stop{std::make_shared<std::atomic<bool>>()} {}

    QString m_title;
    std::shared_ptr<std::atomic<bool>> m_stop;
};

/// Runs long work on other threads and brings its result back to the window's thread.
class BackgroundJobs : public QObject {
    Q_OBJECT

public:
    explicit BackgroundJobs(QObject* parent = nullptr);
    /// Cancels everything and waits for it.
    ~BackgroundJobs() override;

    /// All threads are started, and each does this first. To be called once, before there is work: it waits for that.
    void prepareThreads(const std::function<void()>& preparation);

    /// @param work    runs on another thread and must touch only what it was given by value.
    /// @param done    in the window's thread, with the result.
    /// @param failed  in the window's thread; a cancelled job calls neither.
    template <class Work>
    BackgroundJob* start(const QString& title, Work work,
                         std::function<void(std::invoke_result_t<Work, const Progress&>)> done,
                         std::function<void(const Fault&)> failed) {
        using Result = std::invoke_result_t<Work, const Progress&>;
        return run(title,
                   [work = std::move(work), done = std::move(done),
                    failed = std::move(failed)](const Progress& progress) -> std::function<void()> {
                       try {
                           auto result = std::make_shared<Result>(work(progress));
                           return [result, done] { done(std::move(*result)); };
                       } catch (const Cancelled&) {
                           return {};
                       } catch (const Fault& fault) {
                           return [fault, failed] { failed(fault); };
                       } catch (const std::exception& error) {
                           const Fault fault{phrase("core", "The work failed: %1.")(error.what()), "",
                                             phrase("core", "Nothing was changed.")};
                           return [fault, failed] { failed(fault); };
                       }
                   });
    }

    const std::vector<BackgroundJob*>& running() const { return m_running; }

signals:
    void started(fencewright::session::BackgroundJob* job);
    /// The last running job has finished.
    void idle();

private:
    /// Answers what is to be done in the window's thread.
    using TypedWork = std::function<std::function<void()>(const Progress&)>;
    BackgroundJob* run(const QString& title, TypedWork work);

    QThreadPool m_pool;
    std::vector<BackgroundJob*> m_running;
};

} // namespace fencewright::session
