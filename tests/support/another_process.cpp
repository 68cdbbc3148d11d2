#include "support/another_process.h"

#include <csignal>
#include <exception>
#include <sys/wait.h>
#include <unistd.h>

namespace fencewright::test {

namespace {

constexpr unsigned kNobody = 65534;

} // namespace

bool inAnotherProcess(const std::function<bool()>& work, Person person) {
    const pid_t number = ::fork();
    if (number == 0) {
        bool answer = false;
        if (person == Person::Same || ::geteuid() != 0 || (::setgid(kNobody) == 0 && ::setuid(kNobody) == 0)) {
            try {
                answer = work();
            } catch (const std::exception&) {
                answer = false;
            }
        }
        ::_exit(answer ? 0 : 1);
    }
    int status = 1;
    ::waitpid(number, &status, 0);
    return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

bool canBeWithoutRights() {
    return ::geteuid() != 0 || inAnotherProcess([] { return true; }, Person::WithoutRights);
}

RunningProcess::RunningProcess(const std::function<void()>& work) : m_number{::fork()} {
    if (m_number == 0) {
        try {
            work();
        } catch (const std::exception&) {
            ::_exit(1);
        }
        ::_exit(0);
    }
}

void RunningProcess::end() {
    if (m_number > 0)
        ::kill(m_number, SIGKILL);
    wait();
}

void RunningProcess::wait() {
    if (m_number <= 0)
        return;
    int status = 0;
    ::waitpid(m_number, &status, 0);
    m_number = 0;
}

} // namespace fencewright::test
