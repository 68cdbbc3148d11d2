#include "session/quiet_thread.h"

#include <exception>
#include <thread>

#ifdef __linux__
#include <sys/resource.h>
#endif

namespace fencewright::session {

void comeAfterTheWindow() {
#ifdef __linux__
    constexpr int niceness = 10;            // a tenth of what the window gets
    setpriority(PRIO_PROCESS, 0, niceness); // on Linux that of this thread alone
#endif
}

void runQuietly(const std::function<void()>& work) {
    std::exception_ptr problem;
    std::thread thread{[&] {
        comeAfterTheWindow();
        try {
            work();
        } catch (...) {
            problem = std::current_exception();
        }
    }};
    thread.join();
    if (problem)
        std::rethrow_exception(problem);
}

} // namespace fencewright::session
