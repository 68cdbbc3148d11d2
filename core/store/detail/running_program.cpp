#include "store/detail/running_program.h"

#include <fstream>
#include <optional>
#include <sstream>
#include <unistd.h>

namespace fencewright::store {

namespace {

std::string firstLine(const char* path) {
    std::ifstream file{path};
    std::string line;
    std::getline(file, line);
    return line;
}

/// When the program of that number started; nothing where none runs. Fields 3 and 22 of proc_pid_stat(5).
std::optional<std::int64_t> startOf(std::int64_t number) {
    const std::string line = firstLine(("/proc/" + std::to_string(number) + "/stat").c_str());
    const auto afterName = line.rfind(')');
    if (afterName == std::string::npos)
        return std::nullopt;
    std::istringstream fields{line.substr(afterName + 1)};
    std::string state;
    fields >> state;
    std::string skipped;
    for (int field = 4; field < 22; ++field)
        fields >> skipped;
    std::int64_t started = 0;
    fields >> started;
    if (!fields || state == "Z" || state == "X")
        return std::nullopt;
    return started;
}

} // namespace

RunningProgram RunningProgram::thisOne() {
    const std::int64_t number = ::getpid();
    return {firstLine("/etc/machine-id"), firstLine("/proc/sys/kernel/random/boot_id"), number,
            startOf(number).value_or(0)};
}

bool RunningProgram::mayBeRunning() const {
    const RunningProgram here = thisOne();
    if (machine != here.machine)
        return true;
    return boot == here.boot && startOf(number) == started;
}

} // namespace fencewright::store
