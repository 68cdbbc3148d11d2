#pragma once

#include "progress.h"

#include <atomic>
#include <condition_variable>
#include <cstddef>
#include <exception>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace fencewright::exchange::detail {

/// Threads that do jobs 0 to n - 1 between them, each with means of its own.
class Crew {
public:
    using Job = std::function<void(std::size_t)>;
    /// @param equip  called on each thread: what that one does a job with.
    Crew(std::size_t jobs, std::function<Job()> equip);
    ~Crew();
    Crew(const Crew&) = delete;
    Crew& operator=(const Crew&) = delete;

    /// How many can be at work at the same time on this machine, within reason.
    [[nodiscard]] static std::size_t size();
    void add(std::size_t threads);
    /// Waits for the last job.
    /// @throws Cancelled, and what the first job threw that failed.
    void finish(const Progress& progress, double from, double to, const Phrase& doing);

private:
    void work();

    std::size_t m_jobs;
    std::function<Job()> m_equip;
    std::mutex m_lock;
    std::condition_variable m_changed;
    std::size_t m_next = 0, m_done = 0; ///< under m_lock, as is m_failure
    std::exception_ptr m_failure;
    bool m_stopped = false;
    std::vector<std::thread> m_threads;
};

} // namespace fencewright::exchange::detail
