#pragma once

#include <functional>

namespace fencewright::test {

/// Who runs the work: this person, or one without any rights, where this one may give them up.
enum class Person { Same, WithoutRights };

/// Runs the work in another process; its answer.
[[nodiscard]] bool inAnotherProcess(const std::function<bool()>& work, Person person = Person::Same);

/// Whether WithoutRights means what it says here.
[[nodiscard]] bool canBeWithoutRights();

/// A process that does its work until it is ended.
class RunningProcess {
public:
    explicit RunningProcess(const std::function<void()>& work);
    ~RunningProcess() { end(); }
    RunningProcess(const RunningProcess&) = delete;
    RunningProcess& operator=(const RunningProcess&) = delete;

    /// At once, without a chance to tidy up.
    void end();
    /// Until it has come to its end by itself.
    void wait();

private:
    int m_number = 0;
};

} // namespace fencewright::test
