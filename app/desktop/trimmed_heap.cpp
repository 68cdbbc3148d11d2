#include "desktop/trimmed_heap.h"

#include "session/quiet_thread.h"

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <stop_token>

#ifdef __GLIBC__
#include <malloc.h>
#endif

namespace fencewright::desktop {

#ifdef __GLIBC__

TrimmedHeap::TrimmedHeap() {
    constexpr int heaps = 2;             // the window's and that of all others
    constexpr int mappedBytes = 1 << 17; // more is mapped by itself, and given back when it is freed
    constexpr int unusedBytes = 1 << 20; // at the end of a heap
    static constexpr std::chrono::seconds often{10};
    mallopt(M_ARENA_MAX, heaps);
    mallopt(M_MMAP_THRESHOLD, mappedBytes); // and it stays what it is
    mallopt(M_TRIM_THRESHOLD, unusedBytes);
    m_trims = std::jthread{[](const std::stop_token& stop) {
        session::comeAfterTheWindow();
        std::mutex mutex;
        std::condition_variable_any wake;
        std::unique_lock lock{mutex};
        while (!wake.wait_for(lock, stop, often, [] { return false; }) && !stop.stop_requested())
            malloc_trim(0);
    }};
}

#else

TrimmedHeap::TrimmedHeap() = default;

#endif

} // namespace fencewright::desktop
