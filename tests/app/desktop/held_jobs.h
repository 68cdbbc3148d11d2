#pragma once

#include "session/background_jobs.h"

#include <QThread>

#include <algorithm>
#include <memory>
#include <semaphore>

namespace fencewright::desktop {

/// Keeps all threads of the jobs busy, so that what is started meanwhile waits in line until they are let go.
class HeldJobs {
public:
    explicit HeldJobs(session::BackgroundJobs& jobs) : m_held{std::max(2, QThread::idealThreadCount())} {
        for (int i = 0; i < m_held; ++i)
            jobs.start(
                "Held",
                [gate = m_gate](const Progress&) {
                    gate->acquire();
                    return true;
                },
                [](bool) {}, [](const Fault&) {});
    }
    ~HeldJobs() { letAllGo(); }
    HeldJobs(const HeldJobs&) = delete;
    HeldJobs& operator=(const HeldJobs&) = delete;

    /// With one thread what waits is done in its order, one after another.
    void letOneGo() {
        --m_held;
        m_gate->release();
    }
    void letAllGo() {
        while (m_held > 0)
            letOneGo();
    }

private:
    int m_held;
    std::shared_ptr<std::counting_semaphore<>> m_gate = std::make_shared<std::counting_semaphore<>>(0);
};

} // namespace fencewright::desktop
