#include "exchange/detail/child_process.h"

#include "fault.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <thread>

extern char** environ;

namespace fencewright::exchange::detail {

namespace {

// As much as an ordinary user may ask for; the child goes on while its last words are being read.
constexpr int kPipeBytes = 1 << 20;

class Descriptor {
public:
    explicit Descriptor(int number) : m_number{number} {}
    ~Descriptor() {
        if (m_number >= 0)
            ::close(m_number);
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    [[nodiscard]] int number() const { return m_number; }
    int release() { return std::exchange(m_number, -1); }

private:
    int m_number;
};

[[noreturn]] void cannotStart(const std::string& program, int error) {
    throw Fault{phrase("core", "The program that reads foreign files cannot be started: %1.")(std::strerror(error)),
                program, phrase("core", "Install Fencewright anew: the two programs belong together.")};
}

// What a driver of ours or a library under it could be told by the environment stays outside, but for where their own
// tables lie.
std::vector<char*> passedEnvironment() {
    constexpr std::array kPassed{
        "PATH=",      "HOME=",     "LANG=",      "LC_",           "TMPDIR=",        "LD_LIBRARY_PATH=",
        "PROJ_DATA=", "PROJ_LIB=", "GDAL_DATA=", "ASAN_OPTIONS=", "UBSAN_OPTIONS=", "LSAN_OPTIONS="};
    std::vector<char*> passed;
    for (char** entry = environ; entry && *entry; ++entry)
        if (std::any_of(kPassed.begin(), kPassed.end(),
                        [&](const char* start) { return std::string_view{*entry}.starts_with(start); }))
            passed.push_back(*entry);
    passed.push_back(nullptr);
    return passed;
}

} // namespace

ChildProcess::ChildProcess(const std::string& program, const std::string& argument, std::string_view input) {
    // A file in memory, not a pipe: nobody waits for the child to take it, and none is there to break.
    const Descriptor request{memfd_create("request", MFD_CLOEXEC)};
    int ends[2];
    if (request.number() < 0 || ::pipe2(ends, O_CLOEXEC) != 0)
        cannotStart(program, errno);
    Descriptor from{ends[0]};
    const Descriptor to{ends[1]};
    ::fcntl(ends[0], F_SETPIPE_SZ, kPipeBytes); // refused: a smaller one does as well
    std::size_t written = 0;
    while (written < input.size()) {
        const ssize_t done = ::write(request.number(), input.data() + written, input.size() - written);
        if (done < 0)
            cannotStart(program, errno);
        written += static_cast<std::size_t>(done);
    }
    ::lseek(request.number(), 0, SEEK_SET);

    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, request.number(), 0);
    posix_spawn_file_actions_adddup2(&actions, to.number(), 1);
    posix_spawn_file_actions_addopen(&actions, 2, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addclosefrom_np(&actions, 3);
    posix_spawnattr_t attributes;
    posix_spawnattr_init(&attributes);
    sigset_t none;
    sigset_t all;
    sigemptyset(&none);
    sigfillset(&all);
    posix_spawnattr_setsigmask(&attributes, &none);
    posix_spawnattr_setsigdefault(&attributes, &all);
    posix_spawnattr_setpgroup(&attributes, 0);
    posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF | POSIX_SPAWN_SETPGROUP);

    std::string name = program;
    std::string word = argument;
    char* arguments[] = {name.data(), word.data(), nullptr};
    std::vector<char*> environment = passedEnvironment();
    const int error = ::posix_spawn(&m_process, program.c_str(), &actions, &attributes, arguments, environment.data());
    posix_spawn_file_actions_destroy(&actions);
    posix_spawnattr_destroy(&attributes);
    if (error != 0) {
        m_process = -1;
        cannotStart(program, error);
    }
    m_output = from.release();
}

ChildProcess::~ChildProcess() {
    kill();
    if (m_output >= 0)
        ::close(m_output);
}

void ChildProcess::kill() {
    if (m_process < 0)
        return;
    ::kill(-m_process, SIGKILL); // its whole group: what it has started ends with it
    int status = 0;
    while (::waitpid(m_process, &status, 0) < 0 && errno == EINTR) {
    }
    m_process = -1;
}

std::optional<std::size_t> ChildProcess::read(std::span<char> room, std::chrono::milliseconds patience) {
    pollfd waiting{m_output, POLLIN, 0};
    const int ready = ::poll(&waiting, 1, static_cast<int>(patience.count()));
    if (ready <= 0)
        return std::nullopt;
    const ssize_t count = ::read(m_output, room.data(), room.size());
    if (count < 0 && (errno == EINTR || errno == EAGAIN))
        return std::nullopt;
    return static_cast<std::size_t>(std::max<ssize_t>(count, 0));
}

ChildProcess::Ending ChildProcess::wait(std::chrono::milliseconds patience) {
    const auto until = std::chrono::steady_clock::now() + patience;
    int status = 0;
    pid_t ended = 0;
    while ((ended = ::waitpid(m_process, &status, WNOHANG)) == 0 && std::chrono::steady_clock::now() < until)
        std::this_thread::sleep_for(std::chrono::milliseconds{5});
    if (ended != m_process) {
        kill();
        return {0, SIGKILL};
    }
    m_process = -1;
    return WIFSIGNALED(status) ? Ending{0, WTERMSIG(status)} : Ending{WEXITSTATUS(status), 0};
}

} // namespace fencewright::exchange::detail
