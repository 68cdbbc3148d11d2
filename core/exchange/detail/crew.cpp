#include "exchange/detail/crew.h"

#include <algorithm>
#include <chrono>

namespace fencewright::exchange::detail {

namespace {
constexpr std::size_t kMostThreads = 4;
constexpr std::chrono::milliseconds kTick{50};
} // namespace

Crew::Crew(std::size_t jobs, std::function<Job()> equip) : m_jobs{jobs}, m_equip{std::move(equip)} {}

Crew::~Crew() {
    {
        const std::lock_guard lock{m_lock};
        m_stopped = true;
    }
    for (std::thread& thread : m_threads)
        thread.join();
}

std::size_t Crew::size() { return std::clamp<std::size_t>(std::thread::hardware_concurrency(), 1, kMostThreads); }

void Crew::add(std::size_t threads) {
    for (std::size_t i = 0; i < threads && m_threads.size() < m_jobs; ++i)
        m_threads.emplace_back([this] { work(); });
}

void Crew::work() {
    try {
        Job job;
        while (true) {
            std::size_t own = 0;
            {
                const std::lock_guard lock{m_lock};
                if (m_stopped || m_next == m_jobs)
                    return;
                own = m_next++;
            }
            if (!job)
                job = m_equip();
            job(own);
            const std::lock_guard lock{m_lock};
            ++m_done;
            m_changed.notify_all();
        }
    } catch (...) {
        const std::lock_guard lock{m_lock};
        if (!m_failure)
            m_failure = std::current_exception();
        m_stopped = true;
        m_changed.notify_all();
    }
}

void Crew::finish(const Progress& progress, double from, double to, const Phrase& doing) {
    std::unique_lock lock{m_lock};
    while (!m_failure && m_done < m_jobs) {
        m_changed.wait_for(lock, kTick);
        const double share = static_cast<double>(m_done) / static_cast<double>(m_jobs);
        lock.unlock();
        progress.report(from + (to - from) * share, doing);
        lock.lock();
    }
    if (m_failure)
        std::rethrow_exception(m_failure);
}

} // namespace fencewright::exchange::detail
