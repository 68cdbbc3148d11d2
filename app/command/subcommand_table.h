#pragma once

#include <iosfwd>
#include <span>
#include <string>
#include <string_view>

namespace fencewright::command {

/// Exit codes, the same for every subcommand.
enum ExitCode {
    kDone = 0,
    kFound = 1, ///< the audit found an error, or a delivery was not confirmed
    kUsage = 2, ///< the words of the command line
    kFault = 3  ///< a file could not be read or written; standard error says which and why
};

/// Where a subcommand writes: results to `out`, everything else to `err`.
struct Streams {
    std::ostream& out;
    std::ostream& err;
};

/// One thing the program does. One file in subcommands/, one line in subcommand_table.cpp.
struct Subcommand {
    std::string_view name;
    std::string_view summary;
    std::string_view help; ///< the whole text of --help
    int (*run)(std::span<const std::string> words, const Streams& streams);
};

[[nodiscard]] std::span<const Subcommand* const> subcommands();

/// The whole program but for process matters: finds the subcommand, runs it, turns faults into words and an exit code.
int run(std::span<const std::string> words, const Streams& streams);

} // namespace fencewright::command
