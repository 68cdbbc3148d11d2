#pragma once

#include "exchange/database_address.h"
#include "exchange/detail/foreign_file.h"
#include "exchange/detail/reading_account.h"
#include "exchange/vector_reader.h"

#include <chrono>
#include <string>

namespace fencewright::exchange::detail {

/// Makes this process one that may speak to that server, and to no other: for a process that answers one request. The
/// server takes only reading from it, and no statement that runs longer than that.
void speakTo(const DatabaseAddress& address, const std::string& password, std::chrono::seconds patience);

/// A table of the database that speakTo() has named, as the result of one SELECT with the request's filter in it.
/// @throws Fault  not reachable, not let in, no PostGIS, no such table, no right to read it, no geometry in it, several
/// coordinate systems in it; FilterFault  the filter is no condition.
[[nodiscard]] ForeignFile openTable(const ReadRequest& request, ReadingAccount& account);

/// What the server says, in one line and without its own marks.
[[nodiscard]] std::string serverWords(const std::string& said);

} // namespace fencewright::exchange::detail
