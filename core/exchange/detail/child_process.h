#pragma once

#include <sys/types.h>

#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace fencewright::exchange::detail {

/// A program that answers one request: what it is to do is its standard input, what it has to say its standard output.
/// It inherits nothing else, and it ends with this object.
class ChildProcess {
public:
    /// @throws Fault  the program cannot be started.
    ChildProcess(const std::string& program, const std::string& argument, std::string_view input);
    ~ChildProcess();
    ChildProcess(const ChildProcess&) = delete;
    ChildProcess& operator=(const ChildProcess&) = delete;

    /// Waits a little for output, and puts it to the begin of `room`: so many bytes, zero at the end; nothing where
    /// none came.
    [[nodiscard]] std::optional<std::size_t> read(std::span<char> room, std::chrono::milliseconds patience);

    /// How it ended.
    struct Ending {
        int exitCode = 0;
        int signal = 0; ///< zero: by itself
    };
    /// Waits for the end. After `read` has said End, that is at once unless the program lingers.
    [[nodiscard]] Ending wait(std::chrono::milliseconds patience);

private:
    void kill();

    pid_t m_process = -1;
    int m_output = -1;
};

} // namespace fencewright::exchange::detail
