#pragma once

#include <iosfwd>
#include <string>

namespace fencewright::command {

/// What opens a database: the environment's PGPASSWORD, or else what is typed where there is a terminal to type at; it
/// is not shown there. Never a word of the command line, which anybody on the machine can read.
[[nodiscard]] std::string databasePassword(const std::string& address, std::ostream& prompt);

} // namespace fencewright::command
