#include "command/reader_program.h"

#include "fault.h"

#include <filesystem>
#include <system_error>

namespace fencewright::command {

std::string readerProgram() {
    std::error_code error;
    const auto program = std::filesystem::read_symlink("/proc/self/exe", error);
    if (error)
        throw Fault{"The program cannot find itself to read a foreign file apart.", "/proc/self/exe",
                    "Run it where /proc is mounted."};
    // Tests call the subcommands from a program of their own; the reader stands in bin/ of the same build.
    if (program.filename() == "fencewright-cli")
        return program.string();
    return (program.parent_path().parent_path() / "bin" / "fencewright-cli").string();
}

} // namespace fencewright::command
