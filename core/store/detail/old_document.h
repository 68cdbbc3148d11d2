#pragma once

#include "store/detail/database.h"

#include <memory>
#include <string>

namespace fencewright::store {

/// Keeps every other SQLite program off a file while it is replaced, and settles what such a program left unfinished
/// beside it: a journal that stayed would be played into the new file.
class OldDocumentLock {
public:
    /// A file that is no database has no such lock, and needs none.
    /// @throws Fault  another program has locked it, or left a journal that cannot be settled.
    explicit OldDocumentLock(const std::string& path);

private:
    std::unique_ptr<Database> m_database;
};

} // namespace fencewright::store
